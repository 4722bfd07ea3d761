"""What is said to be proved has to be so, and what a record cannot show has to be named."""

from __future__ import annotations

from benchcheck.session.record import check_value, read
from benchcheck.session.verification import OutsideSeal, Verdict, verify
from tests.session.samples import HEADER, closed_record, event, events, record_bytes, seals_of


def known(data: bytes, number: int, source: str = "The remembered seal") -> OutsideSeal:
    return OutsideSeal(number, seals_of(data)[number - 1].hexadecimal, source)


def judged(data: bytes, *outside: OutsideSeal, procedure_sha256: str | None = None) -> Verdict:
    return verify(read(data), outside, procedure_sha256)


def rewritten(number: int) -> bytes:
    """Five events, of which this one and all after it were written anew with seals that fit."""
    return record_bytes(*events(number - 1), *(event(n, by="Someone Else") for n in range(number, 6)))


def test_a_good_record_alone_proves_only_that_it_fits_together() -> None:
    data = record_bytes(*events(5))
    verdict = judged(data)
    assert verdict.intact and verdict.first_bad_event is None
    assert verdict.events == 5
    assert verdict.check_value == check_value(seals_of(data)[-1].hexadecimal)
    assert [sentence.split(":")[0] for sentence in verdict.proved_by] == ["The seals in the record fit"]
    assert any("nobody wrote events 1 to 5 anew" in sentence for sentence in verdict.not_proved)
    assert any("nothing was written after event 5 and then cut away" in one for one in verdict.not_proved)


def test_an_outside_seal_proves_the_record_up_to_its_event_and_no_further() -> None:
    data = record_bytes(*events(5))
    verdict = judged(data, known(data, 3))
    assert verdict.intact
    assert any(
        sentence.startswith("The remembered seal is that of event 3:") for sentence in verdict.proved_by
    )
    assert any("nobody wrote events 4 to 5 anew" in sentence for sentence in verdict.not_proved)
    assert not any("anew, seals" in sentence for sentence in judged(data, known(data, 5)).not_proved)


def test_a_record_cut_back_to_an_earlier_seal_is_found_by_a_seal_from_outside_only() -> None:
    data = record_bytes(*events(5))
    cut = data[: seals_of(data)[2].end]
    assert judged(cut).intact
    verdict = judged(cut, known(data, 2), known(data, 5))
    assert not verdict.intact
    assert verdict.first_bad_event == 4
    assert any("knows an event 5, and the record holds 3 good events" in one for one in verdict.not_proved)


def test_a_record_written_anew_is_found_between_the_seals_known_of_it() -> None:
    data = record_bytes(*events(5))
    forgery = rewritten(3)
    assert judged(forgery).intact
    verdict = judged(forgery, known(data, 1), known(data, 4))
    assert not verdict.intact
    assert verdict.first_bad_event == 2
    assert any("what stands in events 2 to 4 is not what was written" in one for one in verdict.not_proved)
    assert any("event 1:" in sentence for sentence in verdict.proved_by)
    # What was seen before the change cannot tell.
    assert judged(forgery, known(data, 2)).intact


def test_a_printed_check_value_is_enough_and_fewer_digits_are_not() -> None:
    data = record_bytes(*events(5))
    printed = check_value(seals_of(data)[4].hexadecimal)
    assert judged(data, OutsideSeal(5, printed.upper(), "The printed check value")).intact
    assert not judged(data, OutsideSeal(5, printed[:9], "The printed check value")).intact
    assert not judged(rewritten(5), OutsideSeal(5, printed, "The printed check value")).intact


def test_damage_is_said_with_its_event_and_outweighs_what_is_missing_behind_it() -> None:
    data = record_bytes(*events(5))
    spoiled = data.replace(b"number = 3", b"number = 8")
    verdict = judged(spoiled, known(data, 2), known(data, 5))
    assert not verdict.intact
    assert verdict.first_bad_event == 3
    assert sum("From event" in sentence for sentence in verdict.not_proved) == 1
    assert judged(spoiled, known(rewritten(2), 2)).first_bad_event == 1


def test_a_torn_tail_is_no_damage_and_is_said() -> None:
    data = record_bytes(*events(5))
    verdict = judged(data[:-100])
    assert verdict.intact and verdict.events == 4
    torn_size = len(data) - 100 - seals_of(data)[3].end
    assert any(f"The last {torn_size} bytes: event 5 is not whole" in one for one in verdict.not_proved)
    # Unless that event is known to have been whole.
    assert judged(data[:-100], known(data, 5)).first_bad_event == 5


def test_a_procedure_copy_is_weighed_against_the_header() -> None:
    data = closed_record()
    assert any("procedure" in one for one in judged(data, procedure_sha256=HEADER.procedure_sha256).proved_by)
    for found in (None, "0" * 64):
        verdict = judged(data, procedure_sha256=found)
        assert verdict.intact
        assert any(one.startswith("Which procedure was followed") for one in verdict.not_proved)


def test_released_is_what_the_closing_event_says() -> None:
    assert judged(closed_record()).released
    assert not judged(record_bytes(*events(3))).released
    assert not judged(record_bytes(event(1), event(2, "closed", outcome="scrapped"))).released
    assert not judged(closed_record().replace(b'"closed"', b'"cl0sed"')).released


def test_a_file_with_nothing_good_in_it_proves_nothing() -> None:
    verdict = judged(b"hello\n")
    assert (verdict.events, verdict.intact, verdict.first_bad_event) == (0, False, 1)
    assert verdict.check_value is None
    assert verdict.proved_by == ()


def test_json_and_text_say_the_same() -> None:
    data = closed_record()
    verdict = judged(data, known(data, 4))
    table = verdict.as_json("a.toml")
    assert list(table) == [
        "file",
        "events",
        "intact",
        "first_bad_event",
        "released",
        "check_value",
        "proved_by",
        "not_proved",
    ]
    text = verdict.as_text("a.toml")
    assert text.splitlines()[0] == "a.toml: intact, 5 events, released"
    assert table["check_value"] in text
    assert all(sentence in text for sentence in [*table["proved_by"], *table["not_proved"]])
    damaged = judged(data.replace(b"number = 2", b"number = 7")).as_text("a.toml")
    assert damaged.splitlines()[0] == "a.toml: DAMAGED from event 2 on, 1 event, not released"
