"""What rubber bears: fluids and lubricants it may touch, how far it may be stretched, how long it keeps.

Here belong the families of rubber and what is said of them in general. A verdict here is a general one: the
seal maker's word on the compound in the bag overrules it. Sizes are in o_ring.py, grooves in gland.py.
"""

from __future__ import annotations

import calendar
import re
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from enum import StrEnum


class RubberError(ValueError):
    """One sentence: what was found, what was expected, what to write."""


class Verdict(StrEnum):
    """What a fluid does to a rubber."""

    GOOD = "good"
    LIMITED = "limited"  # swells or hardens with time or heat; ask the seal maker
    NEVER = "never"
    UNKNOWN = "unknown"


# Families by the short names of ISO 1629, and the ways people write them.
_FAMILIES = {
    "NBR": ("nitrile", "acrylonitrile butadiene"),
    "HNBR": ("hydrogenated nitrile",),
    "FKM": ("fpm", "fluorocarbon", "fluoroelastomer"),
    "FFKM": ("perfluoroelastomer",),
    "FEPM": ("tfe/p",),
    "EPDM": ("epm", "ep", "epr", "ethylene propylene"),
    "VMQ": ("silicone", "mvq", "pvmq"),
    "FVMQ": ("fluorosilicone",),
    "CR": ("chloroprene", "polychloroprene"),
    "IIR": ("butyl",),
    "ACM": ("polyacrylate",),
    "AEM": ("ethylene acrylic",),
    "ECO": ("epichlorohydrin",),
    "AU": ("polyester urethane", "polyurethane"),
    "EU": ("polyether urethane",),
    "SBR": ("styrene butadiene",),
    "NR": ("natural rubber",),
    "IR": ("isoprene",),
    "BR": ("butadiene",),
    "PTFE": ("polytetrafluoroethylene",),
}

_FLUIDS = {
    "mineral oil": ("oil", "hydraulic oil", "petroleum oil", "engine oil", "vacuum pump oil"),
    "petroleum grease": ("grease", "mineral grease", "lithium grease", "petroleum jelly"),
    "silicone grease": ("silicone",),
    "silicone oil": (),
    "fluorinated grease": ("pfpe grease", "perfluorinated grease"),
    "water": ("soapy water", "soap solution", "cold water"),
    "hot water": ("steam", "hot water and steam"),
    "water with glycol": ("water-glycol", "water glycol", "glycol", "coolant", "antifreeze"),
    "glycol brake fluid": ("brake fluid",),
    "phosphate ester": ("phosphate ester fluid", "phosphate ester hydraulic fluid"),
    "fuel": ("petrol", "gasoline", "diesel", "kerosene"),
    "ketone": ("ketones", "acetone", "mek"),
    "ozone": ("weather",),
}

_MEMORY = "general compatibility tables, from memory"
_GUIDE = "seal suppliers' guides"

# One row a family, one letter a fluid in the order of _FLUIDS: g good, l limited, n never, ? unknown.
# From memory, except those in _CONFIRMED.
_VERDICTS = {
    #        oil grease sil-grease sil-oil pfpe water hot glycol brake phosphate fuel ketone ozone
    "NBR": "g g g g g g l g n n l n n",
    "HNBR": "g g g g g g l g n n l n g",
    "FKM": "g g g g g g l g n l g n g",
    "FFKM": "g g g g g g g g g g g g g",
    "FEPM": "g g g g g g g g g ? l n g",
    "EPDM": "n n g g g g g g g g n g g",
    "VMQ": "l l n n g g l g l l n l g",
    "FVMQ": "g g l l g g l g n l g n g",
    "CR": "l l g g g g l g l n n n g",
    "IIR": "n n g g g g g g g g n g g",
    "ACM": "g g g g g n n n n n l n g",
    "AEM": "g g g g g l ? g n n l n g",
    "ECO": "g g g g g g ? g n n g n g",
    "AU": "g g g g g l n n n n l n g",
    "EU": "g g g g g l n ? n n l n g",
    "SBR": "n n g g g g l g g n n l n",
    "NR": "n n g g g g l g g n n l n",
    "IR": "n n g g g g l g g n n l n",
    "BR": "n n g g g g l g g n n l n",
    "PTFE": "g g g g g g g g g g g g g",
}
_LETTERS = {"g": Verdict.GOOD, "l": Verdict.LIMITED, "n": Verdict.NEVER, "?": Verdict.UNKNOWN}
_CONFIRMED = {
    ("EPDM", "mineral oil"),
    ("EPDM", "petroleum grease"),
    ("EPDM", "water"),
    ("EPDM", "silicone oil"),
}
_REASONS = {
    ("EPDM", "mineral oil"): "mineral oil swells EPDM until it tears or jams: use water or silicone grease",
    ("EPDM", "petroleum grease"): "petroleum grease swells EPDM: use water or silicone grease",
    (
        "VMQ",
        "silicone grease",
    ): "silicone grease swells silicone rubber: use a petroleum or fluorinated grease",
    ("VMQ", "silicone oil"): "silicone oil swells silicone rubber",
    ("FKM", "hot water"): "common grades harden in hot water and steam; some grades are made for it",
    ("NBR", "hot water"): "above about 80 °C it hardens",
}


@dataclass(frozen=True, slots=True)
class Compatibility:
    """What one fluid does to one rubber, both as they were understood, and where that is from."""

    rubber: str
    fluid: str
    verdict: Verdict
    reason: str
    source: str


def family(rubber: str) -> str:
    """The short name of a rubber ("nitrile" and "NBR 70" are "NBR"; "EPM" is counted as "EPDM").

    Hardness and words such as "coated" are no part of the family: of "fluoropolymer-coated FKM" it is FKM.
    Raises RubberError with the nearest names.
    """
    words = " ".join(rubber.split())[:60]
    plain = re.sub(r"[\s-]*\d{2}(?: ?(?:shore|sh|irhd)(?: ?a)?)?$", "", words.casefold()).strip()
    for name, others in _FAMILIES.items():
        if plain == name.casefold() or plain in others:
            return name
    named = [name for name in _FAMILIES if re.search(rf"\b{name}\b", words)]
    if len(named) == 1:
        return named[0]
    near = get_close_matches(words.upper(), _FAMILIES, n=2, cutoff=0.5)
    hint = f"; did you mean {' or '.join(near)}?" if near else ""
    raise RubberError(f'found rubber "{words}", expected one of {", ".join(_FAMILIES)}{hint}')


def fluid_name(fluid: str) -> str | None:
    """The fluid a text means ("oil" is mineral oil, "grease" petroleum grease), or None if unknown here."""
    plain = " ".join(fluid.split())[:60].casefold()
    for name, others in _FLUIDS.items():
        if plain == name or plain in others:
            return name
    return None


def compatibility(rubber: str, fluid: str) -> Compatibility:
    """Whether a rubber bears a fluid or lubricant. An unknown fluid has the verdict "unknown", never "good".

    Raises RubberError for an unknown rubber. Source: named in the answer.
    """
    name, known = family(rubber), fluid_name(fluid)
    if known is None:
        plain = " ".join(fluid.split())[:60]
        return Compatibility(
            name, plain, Verdict.UNKNOWN, f'nothing is known here of {name} in "{plain}"', "none"
        )
    verdict = _LETTERS[_VERDICTS[name].split()[list(_FLUIDS).index(known)]]
    default = {
        Verdict.GOOD: f"{name} bears {known}",
        Verdict.LIMITED: f"{name} bears {known} only for a time or when cool: ask the seal maker",
        Verdict.NEVER: f"{known} destroys {name}",
        Verdict.UNKNOWN: f"nothing is known here of {name} in {known}",
    }[verdict]
    source = _GUIDE if (name, known) in _CONFIRMED else _MEMORY
    return Compatibility(name, known, verdict, _REASONS.get((name, known), default), source)


def fluids() -> tuple[str, ...]:
    """The fluids and lubricants on which there is a verdict."""
    return tuple(_FLUIDS)


def stretch_limit(rubber: str) -> float:
    """Largest share by which a fitted ring may stay stretched: 5 %, and 3 % for PTFE and FFKM.

    A ring made of or coated with fluoropolymer does not stretch as rubber does.
    Source: seal suppliers' guides.
    """
    return 0.03 if "coated" in rubber.casefold() or family(rubber) in ("PTFE", "FFKM") else 0.05


class ShelfLifeRule(StrEnum):
    """The published rules for how long rubber keeps; they disagree, so a procedure names one."""

    ARP5316 = "SAE ARP5316"
    ISO2230 = "ISO 2230"


@dataclass(frozen=True, slots=True)
class ShelfLife:
    """How long a rubber keeps in store by one rule.

    `years` and `end`, the last good day, are None where there is no limit; `extension_years` may be added
    after an inspection.
    """

    rubber: str
    rule: ShelfLifeRule
    cured: date
    years: int | None
    extension_years: int
    end: date | None
    source: str


# Years from cure; None: no limit. SAE ARP5316 and AS5316: several public summaries agree. ISO 2230:2002 with
# its extension after inspection: from memory.
_ARP5316 = {
    **dict.fromkeys(("IIR", "EPDM", "FKM", "FFKM", "VMQ", "FVMQ", "FEPM", "PTFE"), None),
    **dict.fromkeys(("NBR", "HNBR", "CR", "ACM", "AEM"), 15),
    **dict.fromkeys(("AU", "EU", "NR", "IR", "BR"), 5),
}
_ISO2230 = {
    **dict.fromkeys(("NR", "IR", "BR", "SBR", "AU", "EU"), (5, 2)),
    **dict.fromkeys(("NBR", "HNBR", "CR", "ACM", "ECO"), (7, 3)),
    **dict.fromkeys(("FKM", "VMQ", "FVMQ", "EPDM", "FFKM"), (10, 5)),
}


def shelf_life(rubber: str, rule: str, cured: str | date) -> ShelfLife:
    """How long a ring keeps in store, and its last good day.

    rubber: family, as `family` reads it. rule: "SAE ARP5316" or "ISO 2230".
    cured: a date, "2011-08-14", "2011-08" or "3Q2011" ("2011-Q3"); a month or a quarter counts from its last
    day.
    Raises RubberError where the rule does not know the rubber, or the published sources disagree.
    Source: SAE ARP5316 / AS5316 as public summaries give it; ISO 2230:2002 from memory.
    """
    name, named_rule, day = family(rubber), _rule(rule), _cure_date(cured)
    if named_rule is ShelfLifeRule.ARP5316:
        if name not in _ARP5316:
            why = "the published summaries disagree" if name == "SBR" else "has no entry"
            raise RubberError(f"{named_rule} on {name}: {why}; take the date that the seal maker gives")
        years, extension, source = _ARP5316[name], 0, "SAE ARP5316, public summaries"
    else:
        if name not in _ISO2230:
            raise RubberError(
                f"{named_rule} on {name}: has no entry; take the date that the seal maker gives"
            )
        years, extension = _ISO2230[name]
        source = "ISO 2230:2002, from memory"
    end = None if years is None else _years_later(day, years)
    return ShelfLife(name, named_rule, day, years, extension, end, source)


def _rule(text: str) -> ShelfLifeRule:
    plain = re.sub(r"[^A-Z0-9]", "", text.upper()[:60]).removeprefix("SAE")
    # An edition's letter or year may follow; AS5316 is the standard made of the recommended practice.
    if plain.startswith(("ARP5316", "AS5316")):
        return ShelfLifeRule.ARP5316
    if plain.startswith("ISO2230"):
        return ShelfLifeRule.ISO2230
    rules = " or ".join(f'"{rule}"' for rule in ShelfLifeRule)
    raise RubberError(f'found shelf life rule "{text[:40]}", expected {rules}')


_QUARTER = re.compile(
    r"(?:(?P<first>[1-4])Q(?P<late>[12]\d{3})|(?P<early>[12]\d{3})-?Q(?P<last>[1-4]))", re.ASCII
)
_MONTH = re.compile(r"([12]\d{3})-(\d{2})", re.ASCII)
_DAY = re.compile(r"[12]\d{3}-\d{2}-\d{2}", re.ASCII)


def _cure_date(cured: str | date) -> date:
    text = cured.isoformat() if isinstance(cured, date) else cured.strip().upper()[:40]
    try:
        if quarter := _QUARTER.fullmatch(text):
            year = int(quarter["late"] or quarter["early"])
            return _last_day(year, 3 * int(quarter["first"] or quarter["last"]))
        if month := _MONTH.fullmatch(text):
            return _last_day(int(month[1]), int(month[2]))
        if _DAY.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError:
        pass  # said below, like any other text that is no date
    raise RubberError(
        f'found cure date "{text[:24]}", expected a day, a month or a quarter: '
        "write 2011-08-14, 2011-08 or 3Q2011"
    )


def _last_day(year: int, month: int) -> date:
    return date(year, month, calendar.monthrange(year, month)[1])


def _years_later(day: date, years: int) -> date:
    """The same day of a later year; 29 February becomes 28 February where that year has none."""
    year = day.year + years
    return date(year, day.month, min(day.day, calendar.monthrange(year, day.month)[1]))
