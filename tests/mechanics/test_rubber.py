"""What rubber bears and how long it keeps, against the published rules."""

from __future__ import annotations

from datetime import date

import pytest

from benchcheck.mechanics import rubber
from benchcheck.mechanics.rubber import (
    RubberError,
    Verdict,
    compatibility,
    family,
    shelf_life,
)


@pytest.mark.parametrize(
    ("name", "fluid", "verdict"),
    [
        # Seal suppliers' guides: petroleum products never on EPDM; EPDM takes water or silicone oil.
        ("EPDM", "mineral oil", Verdict.NEVER),
        ("EPDM", "petroleum grease", Verdict.NEVER),
        ("EPDM", "silicone oil", Verdict.GOOD),
        ("EPDM", "water", Verdict.GOOD),
        # The rest from memory of general compatibility tables.
        ("EPDM", "phosphate ester", Verdict.GOOD),
        ("EPDM", "glycol brake fluid", Verdict.GOOD),
        ("VMQ", "silicone grease", Verdict.NEVER),
        ("NBR", "mineral oil", Verdict.GOOD),
        ("NBR", "water with glycol", Verdict.GOOD),
        ("NBR", "phosphate ester", Verdict.NEVER),
        ("NBR", "ketone", Verdict.NEVER),
        ("NBR", "ozone", Verdict.NEVER),
        ("HNBR", "mineral oil", Verdict.GOOD),
        ("FKM", "mineral oil", Verdict.GOOD),
        ("FKM", "fuel", Verdict.GOOD),
        ("FKM", "ketone", Verdict.NEVER),
        ("FKM", "hot water", Verdict.LIMITED),
        ("CR", "mineral oil", Verdict.LIMITED),
        ("FFKM", "ketone", Verdict.GOOD),
    ],
)
def test_compatibility(name: str, fluid: str, verdict: Verdict) -> None:
    assert compatibility(name, fluid).verdict is verdict


def test_the_answer_names_its_source() -> None:
    assert "guides" in compatibility("EPDM", "oil").source
    assert "memory" in compatibility("NBR", "oil").source


@pytest.mark.parametrize(("said", "meant"), [("oil", "mineral oil"), ("Grease", "petroleum grease")])
def test_bare_words_mean_the_usual_thing_and_it_is_said(said: str, meant: str) -> None:
    assert compatibility("EPDM", said).fluid == meant


def test_what_is_not_known_is_never_good() -> None:
    assert compatibility("NBR", "moon dust").verdict is Verdict.UNKNOWN
    assert compatibility("ECO", "hot water").verdict is Verdict.UNKNOWN


def test_every_family_has_a_verdict_or_an_unknown_for_every_fluid() -> None:
    families = ("NBR", "HNBR", "FKM", "FFKM", "FEPM", "EPDM", "VMQ", "FVMQ", "CR", "IIR", "ACM", "AEM", "ECO")
    for name in (*families, "AU", "EU", "SBR", "NR", "IR", "BR", "PTFE"):
        for fluid in rubber.fluids():
            assert compatibility(name, fluid).reason


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("NBR", "NBR"),
        ("nitrile", "NBR"),
        ("NBR 70", "NBR"),
        ("NBR-70", "NBR"),
        ("FKM 75 Shore A", "FKM"),
        ("fluoropolymer-coated FKM", "FKM"),
        ("silicone", "VMQ"),
        ("epm", "EPDM"),
    ],
)
def test_families_as_people_write_them(text: str, name: str) -> None:
    assert family(text) == name


def test_unknown_rubber_is_refused_with_the_nearest() -> None:
    with pytest.raises(RubberError, match=r"found rubber \"NBX\".*did you mean NBR"):
        family("NBX")


def test_stretch_limits() -> None:
    # Seal suppliers' guides: 5 %; 2 to 3 % for PTFE and FFKM.
    assert rubber.stretch_limit("NBR") == 0.05
    assert rubber.stretch_limit("FFKM") == 0.03
    assert rubber.stretch_limit("fluoropolymer-coated FKM") == 0.03


def test_a_quarter_counts_from_its_last_day() -> None:
    # SAE ARP5316 as public summaries give it: 15 years for NBR, a quarter counts from its last day.
    assert shelf_life("NBR", "SAE ARP5316", "3Q2011").end == date(2026, 9, 30)
    assert shelf_life("NBR", "SAE ARP5316", "2011-Q4").end == date(2026, 12, 31)


@pytest.mark.parametrize(
    ("name", "years"),
    # SAE ARP5316, public summaries: no limit, 15 and 5 years.
    [
        ("EPDM", None),
        ("FKM", None),
        ("VMQ", None),
        ("NBR", 15),
        ("HNBR", 15),
        ("CR", 15),
        ("AU", 5),
        ("EU", 5),
    ],
)
def test_years_by_arp5316(name: str, years: int | None) -> None:
    assert shelf_life(name, "SAE ARP5316D", "2020-01-01").years == years


@pytest.mark.parametrize(
    ("name", "years", "extension"), [("NR", 5, 2), ("SBR", 5, 2), ("NBR", 7, 3), ("CR", 7, 3), ("FKM", 10, 5)]
)
def test_years_by_iso2230(name: str, years: int, extension: int) -> None:
    # ISO 2230:2002 groups A, B and C: from memory.
    found = shelf_life(name, "ISO 2230:2002", date(2020, 1, 1))
    assert (found.years, found.extension_years) == (years, extension)
    assert "memory" in found.source


def test_the_two_rules_disagree_so_the_rule_must_be_named() -> None:
    assert shelf_life("NBR", "ISO 2230", "2012-02-29").end == date(2019, 2, 28)
    assert shelf_life("NBR", "SAE ARP5316", "2012-02-29").end == date(2027, 2, 28)


@pytest.mark.parametrize(
    ("name", "rule", "cured", "part"),
    [
        ("SBR", "SAE ARP5316", "2011-08", "summaries disagree"),
        ("ECO", "SAE ARP5316", "2011-08", "no entry"),
        ("PTFE", "ISO 2230", "2011-08", "no entry"),
        ("NBR", "house rule", "2011-08", 'expected "SAE ARP5316" or "ISO 2230"'),
        ("NBR", "ISO 2230", "2011-13", "write 2011-08-14"),
        ("NBR", "ISO 2230", "2011-02-30", "write 2011-08-14"),
        ("NBR", "ISO 2230", "5Q2011", "write 2011-08-14"),
        ("NBR", "ISO 2230", "9999-01-01", "write 2011-08-14"),
        ("NBR", "ISO 2230", "x" * 100_000, "write 2011-08-14"),
    ],
)
def test_refusals(name: str, rule: str, cured: str, part: str) -> None:
    with pytest.raises(RubberError) as refusal:
        shelf_life(name, rule, cured)
    assert part in str(refusal.value)
    assert len(str(refusal.value)) < 200
