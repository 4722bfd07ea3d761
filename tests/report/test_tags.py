"""Tags and the handover card: due when a pump is left, right about what must not be touched."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.report import handover, tags
from benchcheck.report.columns import width
from benchcheck.report.document import Document, Fields, Paragraph, Points
from benchcheck.report.standing_work import half_done, not_to_be_touched, tools_inside
from benchcheck.session import commands
from benchcheck.session.events import TakenUp
from tests.report import sample

WITH_TOOL = (
    sample.PROCEDURE.replace(
        '[[part]]\nid = "nut"\n',
        '[[part]]\nid = "guard"\nname = "bullet sleeve"\ninto = "shaft"\nfrom = "thread"\n'
        "temporary = true\n\n"
        '[[part]]\nid = "nut"\n',
    )
    .replace(
        '[[step]]\nid = "cover-on"\n',
        '[[step]]\nid = "guard-on"\npart = "guard"\n\n[[step]]\nid = "cover-on"\n',
    )
    .replace(
        '[[step]]\nid = "nut-on"\n',
        '[[step]]\nid = "guard-off"\nact = "remove"\noff = ["guard"]\n\n[[step]]\nid = "nut-on"\n',
    )
)


def said(card: Document, title: str) -> str:
    """All that stands in one section of a card."""
    section = next(each for each in card.sections if each.title == title)
    texts: list[str] = []
    for block in section.blocks:
        match block:
            case Points(sentences=sentences):
                texts += sentences
            case Paragraph(text=text):
                texts.append(text)
            case Fields(rows=rows):
                texts += (f"{label}: {text}" for label, text in rows)
    return "\n".join(texts)


def test_while_it_cures_the_tag_says_until_when() -> None:
    journal, now = sample.left("cure/wait")
    curing, incomplete = tags.tags(journal, now)
    assert " ".join(curing.split()).startswith(
        "CURING UNTIL Monday 2 November 2026, 15:11, DO NOT RUN Pump 4471"
    )
    assert incomplete.startswith("INCOMPLETE, DO NOT RUN\n")
    assert all(width(line) <= tags.COLUMNS for line in (curing + incomplete).splitlines())


def test_once_it_is_cured_only_the_other_tag_is_due() -> None:
    journal, now = sample.left("cure/wait")
    (only,) = tags.tags(journal, now + timedelta(hours=6))
    assert only.startswith("INCOMPLETE")


def test_a_closed_record_needs_no_tag() -> None:
    journal = sample.released()
    assert journal.state.at is not None
    assert tags.tags(journal, journal.state.at + timedelta(minutes=1)) == ()


def test_tags_in_ascii() -> None:
    bench = sample.Bench(serial="Größe 4")
    bench.until("cure/wait")
    assert all(each.isascii() for each in tags.tags(bench.journal(), bench.now, plain=True))


def test_a_round_that_is_half_done() -> None:
    journal, now = sample.left("tighten/tighten:F1", "round 2 position 2")
    assert half_done(journal) == (
        "Cover screws: 1 of 2 rounds done, and 2 of 4 positions of the next, which starts again.",
    )
    assert "Cover screws: none is turned out of its order, tighter or looser." in not_to_be_touched(
        journal, now
    )


def test_a_check_pass_that_is_half_done() -> None:
    journal, _ = sample.left("tighten/tighten:F1", "pass 3")
    assert half_done(journal) == (
        "Cover screws: 2 of 2 rounds done; 2 of 4 positions checked, which starts again.",
    )


def test_a_ring_that_lies_open() -> None:
    journal, _ = sample.left("cover-on/install:cover")
    assert half_done(journal) == ("The ring of G1 lies open, round the spigot, on the cover.",)


def test_a_ring_that_could_fall_out() -> None:
    bench = sample.Bench(sample.PROCEDURE.replace('where = "round', 'face = "flange"\nwhere = "round'))
    bench.until("cover-on/install:cover")
    assert "The cover is not turned over: the ring of G1 would fall out." in not_to_be_touched(
        bench.journal(), bench.now
    )


def test_a_tool_inside_is_on_tag_and_card() -> None:
    bench = sample.Bench(WITH_TOOL)
    bench.until("tighten/")
    journal = bench.journal()
    assert tools_inside(journal) == ("bullet sleeve",)
    assert "Tools inside: bullet sleeve." in tags.incomplete(journal)
    assert said(handover.card(journal, bench.now), "Tools inside") == "bullet sleeve"


def test_going_back_and_what_is_in_doubt() -> None:
    bench = sample.Bench()
    bench.until("cure/wait")
    bench.command(commands.go_back, "cover", "a leak")
    found = half_done(bench.journal())
    assert "Going back: the cover is still to be reached." in found
    assert "The cover is in doubt until it is fitted anew." in found
    assert said(handover.card(bench.journal(), bench.now), "Next").startswith("Going back: ")


def test_an_answer_outside_its_limits_is_half_done_too() -> None:
    bench = sample.Bench()
    bench.until("measure/ask")
    bench.answer("0.08")
    assert half_done(bench.journal()) == (
        "Runout: 0.08 mm stands outside its limits, and nothing is decided on it.",
    )


def test_the_card_says_what_is_next_and_warns_before_it() -> None:
    journal, now = sample.left("cover-on/install:cover")
    card = handover.card(journal, now)
    assert said(card, "Next").startswith("step: 7 of 12, cover-on: install ring of G1 and cover")
    assert said(card, "Cautions").splitlines() == [
        "WARNING: The spring behind the cover jumps.",
        "NOTICE: Qualified people overrule this procedure.",
    ]
    assert "Reassembly: 3 of 6 steps: seal-in, look and shaft-in." in said(card, "Done")


def test_the_card_names_what_has_to_be_read_again() -> None:
    bench = sample.Bench()
    bench.until("tighten/tighten:F1", "round 2")
    bench.happen(TakenUp(stopped=False))
    assert "first: read again: serial and pose body" in said(
        handover.card(bench.journal(), bench.now), "Next"
    )


def test_the_card_of_a_finished_pump() -> None:
    journal = sample.released()
    assert journal.state.at is not None
    card = handover.card(journal, journal.state.at)
    assert card.verdict == "NOTHING LEFT TO DO" and said(card, "Next") == "Nothing more is asked."
