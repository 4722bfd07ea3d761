"""One file's bytes, of whatever kind: told apart by the first table, and checked as what it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchcheck.checking.catalogue import Checked
from benchcheck.checking.check import Workshop, check
from benchcheck.procedure.table import Table
from benchcheck.session.rehearsal import RehearsalFile
from tests.pumps import registers

PROCEDURES = Path(__file__).parents[2] / "procedures"
WORKSHOP = Workshop(registers().wrenches, registers().gauges)


def rehearsal() -> type[Table]:
    return RehearsalFile


def found(text: str) -> list[tuple[str, int, int]]:
    """Rule, line and column of each finding on a file."""
    findings = check(text.encode(), "a.toml", rehearsal, WORKSHOP).findings
    assert all(finding.place.file == "a.toml" for finding in findings)
    return [(finding.rule, finding.place.line, finding.place.column) for finding in findings]


@pytest.mark.parametrize("path", sorted(PROCEDURES.rglob("*.toml")), ids=lambda path: path.name)
def test_all_that_is_shipped_is_right(path: Path) -> None:
    assert check(path.read_bytes(), path.name, rehearsal, WORKSHOP) == Checked()


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ('[shop]\nname = "A"\nbench = "B"\ntime_zone = "UTC"\nnot_there = 1\n', 6),
        ('[[wrench]]\nid = "W"\nnot_there = 1\n', 4),
        ('[[gauge]]\nid = "G"\nkind = "depth"\nnot_there = 1\n', 5),
        ('[[person]]\nname = "A"\nmay = []\nnot_there = 1\n', 5),
        ('[rehearsal]\nprocedure = "a"\ntitle = "A"\nnot_there = 1\n', 5),
        ('[procedure]\nid = "a"\nnot_there = 1\n', 4),
        # A procedure may have parts and more before its head.
        ('[[part]]\nid = "a"\nnot_there = 1\n', 4),
    ],
)
def test_each_kind_is_read_as_what_it_is(text: str, key: int) -> None:
    assert ("key-unknown", key, 1) in found("format = 1\n" + text)


def test_a_table_spelled_wrong_is_told_with_the_right_one() -> None:
    findings = check(b'format = 1\n[shopp]\nname = "A"\n', "a.toml", rehearsal).findings
    assert [(finding.rule, finding.place.line) for finding in findings] == [("key-unknown", 2)]
    assert "`shop`" in findings[0].message


def test_a_record_is_told_to_be_one() -> None:
    assert found('format = 1\n\n[record]\nserial = "1"\n') == [("record-instead-of-procedure", 3, 2)]


@pytest.mark.parametrize("text", ["format = 1\n", "x = 1\n[unheard_of]\n", "[build-system]\n"])
def test_a_file_of_no_known_kind_is_told_which_there_are(text: str) -> None:
    findings = check(text.encode(), "a.toml", rehearsal).findings
    assert [finding.rule for finding in findings] == ["kind-unknown"]
    assert "[procedure], [shop], [[wrench]], [[gauge]], [[person]] or [rehearsal]" in findings[0].remedy


def test_faults_of_reading_and_of_reference_are_both_found() -> None:
    text = (PROCEDURES / "xmpl-hc40-c.toml").read_text()
    assert found("format = 1\n[shop\n")[0][0] == "not-toml"
    assert "part-unknown" in {rule for rule, *_ in found(text.replace('"cartridge"', '"cartrige"', 1))}


def test_what_was_taken_out_on_reading_is_said_of_every_kind() -> None:
    procedure = (PROCEDURES / "xmpl-hc40-c.toml").read_text()
    shop = 'format = 1\n[shop]\nname = "A\x07"\nbench = "B"\ntime_zone = "UTC"\n'
    assert found(shop) == [("control-character", 3, 10)]
    assert found(procedure + "# \x07\n") == [("control-character", procedure.count("\n") + 1, 3)]
    assert found("x = 1\n# \x07\n") == [("kind-unknown", 1, 1), ("control-character", 2, 3)]


def test_the_model_of_rehearsals_is_asked_for_only_if_one_is_read() -> None:
    def never() -> type[Table]:
        raise AssertionError

    path = PROCEDURES / "shop.toml"
    assert check(path.read_bytes(), "shop.toml", never) == Checked()
    with pytest.raises(AssertionError):
        check(b"format = 1\n[rehearsal]\n", "a.toml", never)
