"""Which pumps are touched when a wrench, a lot, a procedure or a person is in doubt."""
