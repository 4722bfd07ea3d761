"""Published nut factors (K of T = K·d·F) by the condition of the threads, and published scatter by method.

Sources contradict one another, zinc most of all: a band is all that can be said, and the author of a
procedure says which value holds. Marks: "published" was seen in print on a public page, "common practice"
has no single source, "from memory" was not seen.
"""

from __future__ import annotations

from typing import NamedTuple


class NutFactorRow(NamedTuple):
    """One published value and where it stands."""

    condition: str
    value: float
    source: str
    mark: str = "published"


_TEXTBOOK = "machine design textbook, 9th edition, table 8-15"
_SAFETY_GUIDE = "power-transmission maker's safety guide"
_TORQUE_GUIDE = "torque guides quoting fastener institute data, 5th edition"
_METRIC_PAGE = "public page on metric torque and tension"
_HANDBOOK = "public page quoting a design handbook"

NUT_FACTORS: tuple[NutFactorRow, ...] = (
    NutFactorRow("dry", 0.30, f"{_TEXTBOOK}: black finish, not plated"),
    NutFactorRow("dry", 0.20, f"{_SAFETY_GUIDE}: plain finish"),
    NutFactorRow("dry", 0.20, f"{_TORQUE_GUIDE}: not plated"),
    NutFactorRow("dry", 0.20, f"{_METRIC_PAGE}: plain, dry"),
    NutFactorRow("dry", 0.20, f"{_HANDBOOK}: well cleaned and dry"),
    NutFactorRow("zinc-plated", 0.20, _TEXTBOOK),
    NutFactorRow("zinc-plated", 0.22, _SAFETY_GUIDE),
    NutFactorRow("zinc-plated", 0.15, f"{_TORQUE_GUIDE}: plated"),
    NutFactorRow("zinc-plated", 0.17, f"{_METRIC_PAGE}: zinc, dry"),
    NutFactorRow("cadmium-plated", 0.16, _TEXTBOOK),
    NutFactorRow("cadmium-plated", 0.15, f"{_TORQUE_GUIDE}: plated"),
    NutFactorRow("oiled", 0.18, f"{_TEXTBOOK}: lubricated"),
    NutFactorRow("oiled", 0.15, f"{_METRIC_PAGE}: lubricated"),
    NutFactorRow("oiled", 0.15, f"{_HANDBOOK}: any lubrication"),
    NutFactorRow("waxed", 0.10, f"{_SAFETY_GUIDE}: waxed or highly lubricated"),
    NutFactorRow("anti-seize film", 0.12, f"{_TEXTBOOK}: one anti-seize compound"),
    NutFactorRow("anti-seize film", 0.15, "workshops", "common practice"),
    NutFactorRow("molybdenum paste", 0.12, "workshops", "common practice"),
    NutFactorRow("wet thread-locker", 0.15, "workshops", "common practice"),
)

# What people write for these conditions.
CONDITION_WORDS: dict[str, tuple[str, ...]] = {
    "dry": (
        "dry",
        "plain",
        "plain dry",
        "clean and dry",
        "plain steel dry",
        "as received",
        "black",
        "not plated",
    ),
    "zinc-plated": ("zinc", "zinc plated", "galvanized", "galvanised", "zinc dry"),
    "cadmium-plated": ("cadmium", "cadmium plated"),
    "oiled": ("oiled", "oil", "lightly oiled", "lubricated", "engine oil", "greased", "grease"),
    "waxed": ("waxed", "wax"),
    "anti-seize film": ("anti seize film", "anti seize", "antiseize", "anti seize paste", "paste"),
    "molybdenum paste": (
        "molybdenum paste",
        "moly paste",
        "molybdenum disulfide",
        "molybdenum disulphide",
        "moly",
    ),
    "wet thread-locker": ("wet thread locker", "thread locker", "threadlocker", "locker"),
}

SURVEY = (0.086, 0.52)
"""Means met in one published survey of lubricants (chapter abstract): what K can be when nothing is known."""


class ScatterRow(NamedTuple):
    """How far preloads spread to both sides of their mean, as a share, for a way of tightening."""

    method: str
    share: float
    source: str
    mark: str = "published"


SCATTER: tuple[ScatterRow, ...] = (
    ScatterRow("torque, lubricated", 0.25, "space agency preload criteria", "from memory"),
    ScatterRow("torque, dry", 0.35, "space agency preload criteria", "from memory"),
    ScatterRow("torque", 0.30, "fastener maker's glossary"),
    ScatterRow("angle", 0.15, "fastener maker's glossary: turn of the nut"),
    ScatterRow("elongation", 0.05, "fastener maker's glossary: 1 to 5 %"),
)
