"""Writes the rules into the manual: a table in procedures/README.md, all of them in procedures/RULES.md.

    .venv/bin/python -m tests.checking.make_catalogue

Run it when a rule was added or reworded; a test fails until then.
"""

from __future__ import annotations

from pathlib import Path

from benchcheck.checking.catalogue import names, rule
from benchcheck.report.rules import catalogue_as_markdown, list_as_markdown

PROCEDURES = Path(__file__).parents[2] / "procedures"
MANUAL, CATALOGUE = PROCEDURES / "README.md", PROCEDURES / "RULES.md"
BEGINS, ENDS = "<!-- the rules, made by tests/checking/make_catalogue.py -->\n", "<!-- end of the rules -->\n"


def made() -> dict[Path, str]:
    """Each page as it has to be, by its path."""
    rules = [(name, rule(name)) for name in names()]
    before, _, rest = MANUAL.read_text(encoding="utf-8").partition(BEGINS)
    _, _, after = rest.partition(ENDS)
    return {
        MANUAL: f"{before}{BEGINS}\n{list_as_markdown(rules)}\n{ENDS}{after}",
        CATALOGUE: catalogue_as_markdown(rules),
    }


if __name__ == "__main__":
    for path, text in made().items():
        path.write_text(text, encoding="utf-8")
