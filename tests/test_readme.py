"""The pictures in the README are screens as they are."""

from __future__ import annotations

import re
from pathlib import Path

PICTURES = re.compile(r"<!-- screen: ([a-z-]+) -->\n```text\n(.*?)\n```", re.DOTALL)


def test_the_pictures_of_the_readme_are_the_screens_that_the_tests_keep() -> None:
    pictures = PICTURES.findall(Path("README.md").read_text("utf-8"))
    assert [name for name, _ in pictures] == ["facing-cartridge", "tighten"]
    for name, picture in pictures:
        assert picture in Path(f"tests/snapshots/{name}.txt").read_text("utf-8"), name
