"""A trace as text, JSON and CSV; the figures are those worked out by hand in tests/session/trace."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from benchcheck.mechanics.units import parse
from benchcheck.report import traces_as_data
from benchcheck.report.plain_text import as_text
from benchcheck.report.trace_words import entitled_words
from benchcheck.report.traces import document_of
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Gap, Trace, touched, with_later_records
from benchcheck.session.trace.uses import Entitlement, Use
from benchcheck.session.trace.wanted import Wanted
from tests.report import sample
from tests.session.trace.test_read_off import past as read_on
from tests.session.trace.test_uses import careful, low, taken_apart

ON = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)
W_1 = Wanted("instrument", "W-1", error=parse("9 %"), since=date(2026, 11, 1))
DAMAGED = Gap("4470.toml", "=4470", 12, "The seal of event 13 does not match the bytes above it.")


def trace(wanted: Wanted, pasts: Sequence[Past], gaps: tuple[Gap, ...] = ()) -> Trace:
    found = [each for past in pasts if (each := touched(past, wanted, sample.registers())) is not None]
    return Trace(wanted, ON, len(pasts) + len(gaps), with_later_records(found, pasts), gaps)


def text(found: Trace, *, plain: bool = False) -> str:
    return as_text([document_of(found)], plain=plain)


def flowing(found: Trace) -> str:
    return " ".join(text(found).split())


def test_the_verdict_counts_pumps_those_outside_and_what_was_not_searched() -> None:
    found = text(trace(W_1, [careful(), low()], (DAMAGED,)))
    # both sessions are on one pump
    assert (
        "\nTrace of instrument W-1\n1 PUMP TOUCHED, 1 OUTSIDE THE LIMITS; 1 RECORD NOT SEARCHED TO THE END\n"
        in found
    )
    assert "Searched on Wednesday 25 November 2026, 18:00, in 3 records" in " ".join(found.split())


def test_what_was_found_when_it_was_stopped_is_called_a_part() -> None:
    part = replace(trace(W_1, [careful(), low()]), not_reached=7)
    found = flowing(part)
    assert "ONLY A PART, FOR IT WAS STOPPED: 1 PUMP TOUCHED" in found and "7 RECORDS NOT LOOKED INTO" in found
    assert "It was stopped, and 7 records not looked into: this is only a part." in found
    first, second, *_ = rows(part)
    assert first["found"] == "not reached" and "7 records not looked into" in first["what"]
    assert second["serial"] and rows(replace(part, not_reached=0))[0] == second
    searched: Any = traces_as_data.as_json(part)["searched"]
    assert searched["not_reached"] == 7


def test_what_leaves_its_limits_stands_with_its_figures() -> None:
    found = flowing(trace(W_1, [low()]))
    assert "is divided by 1.09" in found and "since 1 November 2026" in found
    # 19.5 / 1.09 = 17.89; 18 - 17.89 = 0.11, and 0.11 / 20 = 0.55 %
    number = next(event.number for event in low().events if getattr(event, "value", None) == 19.5)
    assert f"2/3 19.5 17.89 18 to 22 -0.11 (0.55 %) {number} in the pump" in found
    # eight tightenings of four screws, and their four checks, but the one
    assert "Cover screws: 11 others stay inside the limits." in found
    assert "Shaft nut: its one use stays inside the limits." in found


def test_no_pump_touched_is_said_in_large_letters() -> None:
    assert "NO PUMP IS TOUCHED" in text(trace(Wanted("lot", "LOT-9"), [careful()]))


def test_a_name_that_nobody_knows_is_said_before_anything_is_believed() -> None:
    found = replace(trace(Wanted("instrument", "TW-2"), [careful()]), misspelt=True, like=("TW-02", "TW-20"))
    assert "Neither a record nor the register names TW-2; like it: TW-02 and TW-20." in flowing(found)


def test_what_came_out_again_is_listed_and_told_apart() -> None:
    found = flowing(trace(Wanted("lot", "LOT-1"), [taken_apart()]))
    assert found.count("ring -137 NBR into G1") == 1 and "lifted, event" in found
    assert "lifted" not in flowing(trace(Wanted("lot", "S-1"), [taken_apart()]))


def test_a_person_is_listed_with_what_he_was_entitled_to() -> None:
    assert "was witness" in flowing(trace(Wanted("person", "W. Specimen"), [careful()]))
    his = sum(event.by == "T. Sample" for event in careful().events)
    worked = flowing(trace(Wanted("person", "T. Sample"), [careful()]))
    assert f"4471 2 Nov 2026 worked, {his} events 1 yes" in worked
    assert "yes, by today's register" in flowing(trace(Wanted("person", "W. Specimen"), [careful()]))


@pytest.mark.parametrize(
    ("known", "words"),
    [
        (Entitlement(True, True), "yes"),
        (Entitlement(True, False), "yes; NO by today's register"),
        (Entitlement(True, None), "yes; not in today's register"),
        (Entitlement(False, True), "NO; yes by today's register"),
        (Entitlement(None, False), "NO, by today's register"),
        (Entitlement(None, None), "not in the register"),
    ],
)
def test_rights_are_told_as_they_were_and_where_the_register_of_today_differs(
    known: Entitlement, words: str
) -> None:
    assert entitled_words(Use(careful().events[0], right="work", entitlement=known)) == words


def test_readings_on_a_gauge_that_was_wrong_are_listed_with_what_they_were() -> None:
    # 150 − 4 = 146 psi, 1 below 147; 152 − 4 = 148 stays inside
    error = parse("+4 psi", signed=True)
    found = trace(Wanted("instrument", "PG-01", error=error), [read_on("150", "152", "0.0945")])
    told = flowing(found)
    assert "PG-01 is taken to have shown 4 psi more than there was" in told and "is lessened by 4 psi" in told
    assert "pressure 150 psi 146 147 to 153 -1" in told.replace("−", "-")
    assert "1 reading stays inside the limits" in told
    use = traces_as_data.as_json(found)["pumps"][0]["uses"][0]  # type: ignore[index]
    assert (use["true"], use["beyond"]) == ({"value": 146.0, "unit": "psi"}, {"value": -1.0, "unit": "psi"})
    assert traces_as_data.as_json(found)["wanted"]["error"] == {"value": 4.0, "unit": "psi"}  # type: ignore[index]
    plain = flowing(trace(Wanted("instrument", "MI-01"), [read_on("150", "152", "0.0945")]))
    assert "washer 0.0945 in" in plain and "stands" in plain


@pytest.mark.parametrize(
    "wanted",
    [
        W_1,
        Wanted("instrument", "W-1"),
        Wanted("lot", "LOT-1"),
        Wanted("procedure", "tiny", step="cover-on"),
        Wanted("procedure", "tiny"),
        Wanted("person", "Q. Example"),
        Wanted("serial", "4471"),
    ],
    ids=str,
)
def test_every_search_fits_the_page_and_keeps_to_ascii(wanted: Wanted) -> None:
    found = trace(wanted, [careful(), low(), taken_apart()], (DAMAGED,))
    lines = text(found, plain=True).splitlines()
    assert max(map(len, lines)) <= 72 and "".join(lines).isascii()
    assert "4470.toml" in "".join(lines)
    json.dumps(traces_as_data.as_json(found))
    assert len(rows(found)) >= len(found.touched) + 1


def rows(found: Trace) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(traces_as_data.as_csv(found), newline="")))


def test_json_has_the_search_the_pumps_and_their_figures() -> None:
    found: Any = traces_as_data.as_json(trace(W_1, [low()], (DAMAGED,)))
    assert found["searched"]["on"] == "2026-11-25T18:00:00+00:00" and found["searched"]["records"] == 2
    assert found["searched"]["not_searched"][0]["beyond_event"] == 12
    assert found["wanted"] == {
        "kind": "instrument",
        "name": "W-1",
        "step": None,
        "since": "2026-11-01",
        "until": None,
        "error": 0.09,
    }
    (pump,) = found["pumps"]
    assert (pump["serial"], pump["found"], found["outside"]) == ("4471", "outside the limits", 1)
    (off,) = (use for use in pump["uses"] if use["beyond"]["value"])
    assert off["true"] == {"value": 17.8899, "unit": "N·m"} and off["beyond"]["value"] == -0.110092
    assert (off["round"], off["position"], off["in_the_pump"], off["followed_by"]) == (2, 3, True, None)


def keys_in(value: object) -> set[str]:
    """Every key of a value, but those of quantities."""
    if isinstance(value, list):
        return {key for each in value for key in keys_in(each)}
    if not isinstance(value, dict) or set(value) == {"value", "unit"}:
        return set()
    return set(value) | {key for each in value.values() for key in keys_in(each)}


def keys_told(command: str) -> set[str]:
    """The keys that the README tells of a command."""
    told = re.search(
        rf"<!-- keys: {command} -->\n```text\n(.*?)```", Path("README.md").read_text("utf-8"), re.DOTALL
    )
    assert told is not None
    return set(re.findall(r'"(\w+)"', told[1]))


def test_the_readme_tells_every_key_and_no_other() -> None:
    searches = (W_1, Wanted("lot", "LOT-1"), Wanted("person", "T. Sample"))
    printed = {
        key for each in searches for key in keys_in(traces_as_data.as_json(trace(each, [low()], (DAMAGED,))))
    }
    assert printed == keys_told("trace")


def test_the_table_has_a_row_for_each_use_and_for_each_record_not_searched() -> None:
    found = trace(W_1, [low()], (DAMAGED,))
    table = rows(found)
    assert len(table) == len(found.touched[0].uses) + 1
    (off,) = (row for row in table if row["shown"] == "19.5")
    assert (off["true"], off["unit"], off["low"], off["beyond"]) == ("17.8899", "N·m", "18", "-0.110092")
    assert {row["searched_on"] for row in table} == {"2026-11-25T18:00:00+00:00"}
    assert table[-1]["found"] == "not searched" and table[-1]["record"] == "4470.toml"


def test_a_text_that_a_spreadsheet_would_work_out_is_defused() -> None:
    assert rows(trace(W_1, [low()], (DAMAGED,)))[-1]["serial"] == "'=4470"
