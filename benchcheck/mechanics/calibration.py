"""What a calibration says of an instrument: until when it holds, and what there was where it showed wrongly.

The same for wrenches and gauges. What a reading proves about a limit is in `decision`.
"""

from __future__ import annotations

from datetime import date

from benchcheck.mechanics.units import Quantity, QuantityError


def out_of_date(calibration_due: date, on: date) -> str | None:
    """Why an instrument may not be used on a day; None while it may. The last day still counts."""
    if on <= calibration_due:
        return None
    days = (on - calibration_due).days
    ago = f"{days} day{'s' if days > 1 else ''} ago"
    return f"calibration ended {calibration_due.day} {calibration_due:%b %Y}, {ago}"


def true_value(shown: float, unit: str, error: Quantity) -> float:
    """What there was where an instrument showed this, in the same unit.

    Parameters
    ----------
    shown, unit : the reading
    error : how much more it shows than there is, as found at a calibration, with its sign. A share, "+9 %":
        shown / (1 + error); a value, "+2 psi": shown − error

    Raises QuantityError for an error that leaves nothing, or that is of another kind than the reading.
    """
    if error.kind == "share":
        if error.si <= -1:
            raise QuantityError(f"an instrument cannot show {-error.si * 100:g} % less than there is")
        return shown / (1 + error.si)
    reading = Quantity(error.value, unit)
    # A difference of temperatures is not converted as a temperature is.
    if error.kind != reading.kind or (error.kind == "temperature" and error.unit != unit):
        raise QuantityError(f'an error of "{error}" is none of a reading in {unit}')
    return shown - error.to(unit)
