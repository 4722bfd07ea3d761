"""Reads the published tables that tests are checked against (tests/published/, each naming its source)."""

from __future__ import annotations

import csv
from pathlib import Path


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one table as text, keyed by its column heads."""
    path = Path(__file__).parent / "published" / f"{name}.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
