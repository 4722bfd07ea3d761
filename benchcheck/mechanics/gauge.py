"""A measuring instrument other than a wrench: what it can tell, and what its error leaves open.

A pressure gauge, a micrometer, feelers. It reads in the unit of its scale; its accuracy is a share of its
full scale, or a value. What is inside limits by less than that is not proved to be inside: the decision rule
is that of `decision`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from benchcheck.mechanics.decision import guarded_outcome
from benchcheck.mechanics.units import Quantity, QuantityError

# Limits are decimals turned into floats: one that is met exactly must not be lost to the last bit.
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Gauge:
    """One gauge of the shop's register.

    Parameters
    ----------
    id : what is engraved on it
    kind : what it is: "pressure gauge", "micrometer", "feelers"
    low, high : the range of its scale; both None if not known
    graduation : one step of its scale; None if not known
    accuracy : most it may show above or below the truth: a share of `high`, or a value; None if not known
    calibration_due : last day of its calibration; None: it is not calibrated
    """

    id: str
    kind: str
    low: Quantity | None = None
    high: Quantity | None = None
    graduation: Quantity | None = None
    accuracy: Quantity | None = None
    calibration_due: date | None = None

    def __post_init__(self) -> None:
        scale = [each for each in (self.low, self.high, self.graduation) if each is not None]
        if len({each.kind for each in scale}) > 1:
            raise QuantityError(f"gauge {self.id}: its range and its graduation are of two kinds")
        if self.low is not None and self.high is not None and not self.low.si < self.high.si:
            raise QuantityError(f"gauge {self.id}: range {self.low} to {self.high} does not rise")
        if self.accuracy is not None and self.accuracy.kind not in ("share", *(each.kind for each in scale)):
            raise QuantityError(
                f"gauge {self.id}: an accuracy is a share of its full scale, or a value of what it shows; "
                f'found "{self.accuracy}"'
            )

    @property
    def unit(self) -> str:
        """The unit it shows; empty if the register does not say."""
        scale = self.low or self.graduation
        return scale.unit if scale is not None else ""

    @property
    def error(self) -> float | None:
        """How far it may be off [base unit]; None if not known."""
        if self.accuracy is None:
            return None
        if self.accuracy.kind != "share":
            return self.accuracy.si
        return self.accuracy.si * self.high.si if self.high is not None else None

    @property
    def off_by(self) -> str:
        """The same in words; empty if not known."""
        of = " of its range" if self.accuracy is not None and self.accuracy.kind == "share" else ""
        return f"{self.accuracy}{of}" if self.accuracy is not None else ""

    def is_kind(self, kind: str) -> bool:
        return self.kind.casefold() == kind.casefold()


def why_not(
    gauge: Gauge, unit: str, least: Quantity | None, most: Quantity | None, *, guarded: bool = False
) -> str | None:
    """Why a gauge is not for a reading in this unit between these limits; None if it is.

    `guarded`: its own error counts against the limits, and so has to be known. Words that do not name it.
    """
    if gauge.unit and gauge.unit != unit:
        return f"shows {gauge.unit}; this is read in {unit}"
    if guarded and gauge.error is None:
        return "how far it may be off is not in the register"
    return cannot_tell(gauge, least, most)


def cannot_tell(gauge: Gauge, least: Quantity | None, most: Quantity | None) -> str | None:
    """Why a gauge cannot tell what is between limits from what is not; None if it can.

    The limits are of the kind that it measures.
    """
    low, high = (limit.si if limit is not None else None for limit in (least, most))
    if gauge.low is not None and gauge.high is not None:
        start, end = gauge.low.si, gauge.high.si
        if any(
            limit is not None and not start - _SLACK <= limit <= end * (1 + _SLACK) for limit in (low, high)
        ):
            return f"reads from {gauge.low} to {gauge.high}"
    if gauge.graduation is not None and _between_marks(gauge.graduation.si, low, high):
        return f"has a mark every {gauge.graduation}"
    error = gauge.error
    if error is not None and low is not None and high is not None and (high - low) / 2 < error * (1 - _SLACK):
        return f"may be off by {gauge.off_by}"
    return None


def _between_marks(step: float, low: float | None, high: float | None) -> bool:
    """Whether no mark lies inside: of one limit alone, whether it lies below the first mark above nothing."""
    if low is not None and high is not None:
        return math.ceil(low / step - _SLACK) > math.floor(high / step + _SLACK)
    return high is not None and 0 < high < step * (1 - _SLACK)


def is_guarded(gauge: Gauge, read: Quantity, least: Quantity | None, most: Quantity | None) -> bool:
    """Whether a reading inside its limits is so far inside that the gauge's own error does not matter.

    The guard band is what the gauge may be off by. Source: as `decision.guarded_outcome`. Raises
    QuantityError for a gauge of which that is not known.
    """
    if gauge.error is None:
        raise QuantityError(f"gauge {gauge.id}: how far it may be off is not known")
    low = least.si if least is not None else -math.inf
    high = most.si if most is not None else math.inf
    slack = _SLACK * max(abs(read.si), gauge.error)
    return guarded_outcome(read.si, low - slack, high + slack, gauge.error) == "pass"
