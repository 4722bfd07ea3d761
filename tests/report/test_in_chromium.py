"""The page in a real browser: at two widths and on paper, without a complaint of the browser.

Left out where there is no Chromium; what the page holds is checked without one in `test_html_page.py`.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest

from benchcheck.report.html_page import as_html
from benchcheck.report.session_document import document_of
from tests.report import sample
from tests.report.test_trends import searches

CHROMIUM = shutil.which("chromium")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here")


def sessions() -> str:
    return as_html([document_of(sample.released()), document_of(sample.departed())])


def browse(folder: Path, text: str, *words: str) -> subprocess.CompletedProcess[str]:
    page = folder / "report.html"
    page.write_text(text, encoding="utf-8")
    assert CHROMIUM is not None
    ended = subprocess.run(
        [
            CHROMIUM,
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--enable-logging=stderr",
            f"--user-data-dir={folder / 'profile'}",
            *words,
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    assert "CONSOLE" not in ended.stderr
    return ended


@pytest.mark.parametrize("wide", [520, 1200])
@pytest.mark.parametrize("made", [sessions, searches])
def test_on_a_screen(made: Callable[[], str], wide: int, tmp_path: Path) -> None:
    picture = tmp_path / "page.png"
    browse(tmp_path, made(), f"--screenshot={picture}", f"--window-size={wide},2000", "--hide-scrollbars")
    width, colours = looked_at(picture.read_bytes())
    assert width == wide
    assert colours > 20, "the picture is blank"


@pytest.mark.parametrize(
    ("made", "least", "feet"),
    [
        (sessions, 6, r"Pump 4471, XMPL-T1, tiny revision B .*check (52|77): a02d 817c 50f2"),
        (
            searches,
            3,
            r"(Trace of instrument W-1, 3 records searched|Trends of tiny, 4 sessions) .*2026, 18:00",
        ),
    ],
)
def test_on_paper_each_page_has_its_foot(
    made: Callable[[], str], least: int, feet: str, tmp_path: Path
) -> None:
    paper = tmp_path / "page.pdf"
    browse(tmp_path, made(), f"--print-to-pdf={paper}", "--no-pdf-header-footer")
    data = paper.read_bytes()
    pages = len(re.findall(rb"/Type\s*/Page\b", data))
    assert data.startswith(b"%PDF-") and pages >= least
    assert b"/StructTreeRoot" in data, "the document is not tagged for screen readers"
    if shutil.which("pdftotext"):
        text = subprocess.run(
            ["pdftotext", "-layout", str(paper), "-"], capture_output=True, text=True, check=True
        )
        sheets = text.stdout.split("\f")[:-1]
        assert len(sheets) == pages
        for number, sheet in enumerate(sheets, 1):
            foot = sheet.rstrip().splitlines()[-1]
            assert f"page {number} of {pages}" in foot
            if number > 1:  # the first has the list of the records
                assert re.search(feet, foot)


def looked_at(png: bytes) -> tuple[int, int]:
    """Width of a picture, and how many different bytes its lines hold: one that is blank holds few."""
    at, packed, width = 8, b"", 0
    while at < len(png):
        length, kind = int.from_bytes(png[at : at + 4]), png[at + 4 : at + 8]
        body = png[at + 8 : at + 8 + length]
        if kind == b"IHDR":
            width = int.from_bytes(body[:4])
        elif kind == b"IDAT":
            packed += body
        at += 12 + length
    return width, len(set(zlib.decompress(packed)))
