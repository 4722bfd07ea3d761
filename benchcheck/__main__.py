"""`python -m benchcheck` does what `benchcheck` does."""

from __future__ import annotations

import sys

from benchcheck.cli import main

if __name__ == "__main__":
    sys.exit(main())
