"""Decision rules: what a measured value, with its uncertainty, proves about a limit.

Any quantity, any unit, the same for all arguments of a call. How these rules bind a torque wrench is in
`wrench`.
"""

from __future__ import annotations

import math
from typing import Literal

Outcome = Literal["pass", "conditional pass", "conditional fail", "fail"]
Proof = Literal["conforms", "not proved", "does not conform"]


def guarded_outcome(value: float, low: float, high: float, guard: float) -> Outcome:
    """Non-binary decision with a guard band: acceptance limits stand inside the tolerance by the guard.

    Parameters
    ----------
    value : what was measured
    low, high : tolerance limits
    guard : width of the guard band w, the expanded uncertainty U (95 %) unless agreed otherwise; 0 is simple
        acceptance, with up to 50 % risk at the limit

    Source: ILAC-G8:09/2019, pages 8 to 10: pass inside the guarded limits, conditional pass up to the
    tolerance limit, conditional fail up to a guard beyond it, fail further out.
    Raises ValueError for limits in the wrong order or a guard below zero.
    """
    _check(low, high, guard)
    beyond = max(low - value, value - high)
    if beyond <= -guard:
        return "pass"
    if beyond <= 0:
        return "conditional pass"
    return "conditional fail" if beyond <= guard else "fail"


def proof_of_conformity(value: float, low: float, high: float, expanded_uncertainty: float) -> Proof:
    """What a maker may claim and a buyer may refuse: only what lies clear of the zone of uncertainty.

    Source: ISO 14253-1 (from memory of the standard). Raises ValueError as `guarded_outcome`.
    """
    outcome = guarded_outcome(value, low, high, expanded_uncertainty)
    if outcome == "pass":
        return "conforms"
    return "does not conform" if outcome == "fail" else "not proved"


def false_accept_probability(value: float, limit: float, standard_uncertainty: float) -> float:
    """Probability that the truth lies beyond an upper limit, given a measured value; normal distribution.

    Accepting at TL − U with U = 2 u carries 2.3 %, at TL − 1.64 u 5 %, at the limit itself 50 %.
    Source: ILAC-G8:09/2019, specific risk. Raises ValueError for an uncertainty that is not above zero.
    """
    if standard_uncertainty <= 0:
        raise ValueError(f"found a standard uncertainty of {standard_uncertainty:g}, expected more than 0")
    return 0.5 * math.erfc((limit - value) / (standard_uncertainty * math.sqrt(2)))


def uncertainty_ratio(low: float, high: float, expanded_uncertainty: float) -> float:
    """The test uncertainty ratio: half the tolerance over the expanded uncertainty (95 %); 4 is the usual
    demand.

    Source: ANSI/NCSL Z540.3, clause 5.3 (from memory of the standard). Raises ValueError.
    """
    _check(low, high, expanded_uncertainty)
    if expanded_uncertainty == 0:
        raise ValueError("found an uncertainty of 0, expected more: no measurement is exact")
    return (high - low) / (2 * expanded_uncertainty)


def _check(low: float, high: float, width: float) -> None:
    if not low < high:
        raise ValueError(f"found limits {low:g} to {high:g}, expected the lower one first")
    if width < 0:
        raise ValueError(f"found an uncertainty of {width:g}, expected 0 or more")
