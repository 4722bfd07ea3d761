"""Which pumps are touched when an instrument, a lot, a procedure or a person is in doubt."""
