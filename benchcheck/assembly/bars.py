"""What stands in the way of what: way in and way out, worked out from the seatings alone.

Each reason a thing bars another goes from a later to an earlier act, so taking apart in reverse is always
legal and there is no circle. Rings in their grooves and screws bar nothing; groups bar only what they
hold.
"""

from __future__ import annotations

from collections.abc import Iterable

from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import SIDE


def common_body(now: Assembly, one: str, other: str) -> str | None:
    """The first body that two things have under them, or are themselves; None if they are not in one work."""
    under = now.chain(other)
    for body in now.chain(one):
        if body in under:
            return body
    return None


def _leads(now: Assembly, part: str) -> str | None:
    """The leading end of a seated part: the one that went in first."""
    seat = now.seated.get(part)
    ends = now.pump.parts[part].ends
    if seat is None or ends is None or seat.turn == 0:
        return None
    trailing = 1 if seat.end == now.pump.ends(seat.body)[0] else -1
    return ends[1 if trailing * seat.turn > 0 else 0]


def on_leading_end(now: Assembly, body: str, end: str) -> bool:
    """Whether an end of a body is its leading end, inside what the body went into."""
    return body in now.seated and _leads(now, body) == end


def _joined(now: Assembly, thing: str, body: str, end: str, sequence: int, top: str) -> tuple[int, str, bool]:
    """When and from which end of `top` something in or on `body` joined it; and whether by its own act.

    Follows the carriers down to `top`. A carrier that went in later brings the thing with it, from the
    carrier's own end, unless the thing sits on the leading end of a part that goes right through.
    """
    own = True
    while body != top:
        carrier = now.seated[body]
        if end == SIDE:
            end_below = SIDE
        else:
            way = (1 if end == now.pump.ends(body)[0] else -1) * carrier.turn
            end_below = now.pump.ends(carrier.body)[0 if way > 0 else 1] if carrier.turn else SIDE
        if carrier.sequence > sequence:
            through = now.pump.parts[body].through and on_leading_end(now, body, end)
            sequence, own = carrier.sequence, False
            end = end_below if through else carrier.end
        else:
            end = end_below
        body = carrier.body
    return sequence, end, own


def _shares_hole(one: str | None, other: str | None) -> bool:
    """A thing without a hole of its own covers all behind it; one with a hole only what shares it."""
    return one is None or one == other


def _part_bars_part(now: Assembly, above: str, below: str) -> bool:
    pump = now.pump
    high, low = now.seated[above], now.seated[below]
    if pump.parts[below].under == above:  # the tool it comes out under rides on it
        return False
    if above in now.chain(below):  # it carries it
        put_on_before = _joined_sequence_on(now, below, above) < high.sequence
        # What was built off the pump is taken apart off the pump, but for tools that are still at hand.
        leading = on_leading_end(now, above, reached_from(now, below, above))
        at_hand = pump.parts[above].through if leading else pump.parts[below].temporary
        return put_on_before and not at_hand and now.root(above) != above
    if high.sequence < low.sequence:
        return False
    if below in now.chain(above):  # it was put on it
        if high.body != below:
            return False
        return high.end != SIDE and reached_from(now, above, below) != _leaves_by(now, below)
    common = common_body(now, below, above)
    if common is None:
        return False
    joined, end, _ = _joined(now, below, low.body, low.end, low.sequence, common)
    later, later_end, own = _joined(now, above, high.body, high.end, high.sequence, common)
    if not own or end == SIDE or later_end == SIDE:
        return False
    return (
        later > joined and later_end == end and _shares_hole(pump.parts[above].hole, pump.parts[below].hole)
    )


def reached_from(now: Assembly, part: str, body: str) -> str:
    """The end of `body` at which a part carried by it, directly or not, is reached; or `side`."""
    seat = now.seated[part]
    _, end, _ = _joined(now, part, seat.body, seat.end, seat.sequence, body)
    return end


def _joined_sequence_on(now: Assembly, part: str, body: str) -> int:
    seat = now.seated[part]
    sequence, _, _ = _joined(now, part, seat.body, seat.end, seat.sequence, body)
    return sequence


def _leaves_by(now: Assembly, part: str) -> str | None:
    """The part's own end that comes out first: the trailing one."""
    leading = _leads(now, part)
    ends = now.pump.parts[part].ends
    if leading is None or ends is None:
        return None
    return ends[1] if leading == ends[0] else ends[0]


def _part_bars_group(now: Assembly, part: str, group: str) -> bool:
    told = now.pump.groups[group]
    hold = now.held.get(group)
    if told.from_ == SIDE or hold is None or part in told.parts or part in told.holds:
        return False
    seat = now.seated[part]
    common = common_body(now, told.into, seat.body)
    if common is None or part in now.chain(told.into):
        return False
    joined, end, _ = _joined(now, group, told.into, told.from_, hold.sequence, common)
    later, later_end, own = _joined(now, part, seat.body, seat.end, seat.sequence, common)
    if not own or SIDE in (end, later_end):
        return False
    return later > joined and end == later_end and _shares_hole(now.pump.parts[part].hole, told.hole)


def in_the_way_of(now: Assembly, thing: str) -> tuple[str, ...]:
    """What must come off before a seated part, a started group or the ring of a groove can come out.

    Latest first. Parts and groups by id; for a groove, the parts that close it.
    """
    pump = now.pump
    if thing in pump.grooves:
        return _what_hid(now, thing)
    if thing in pump.groups:
        found = [part for part in now.seated if _part_bars_group(now, part, thing)]
    elif thing not in now.seated:
        return ()
    else:
        found = [part for part in now.seated if part != thing and _part_bars_part(now, part, thing)]
        found += [holder for holder in holding(now, thing) if holder not in found]
    return tuple(sorted(found, key=lambda each: -_sequence(now, each)))


def all_in_the_way_of(now: Assembly, things: Iterable[str]) -> set[str]:
    """These things, and all that must come off before them: what bars them, and what bars that."""
    found: set[str] = set()
    waiting = list(things)
    while waiting:
        thing = waiting.pop()
        if thing not in found:
            found.add(thing)
            waiting += in_the_way_of(now, thing)
    return found


def holding(now: Assembly, part: str) -> tuple[str, ...]:
    """The groups and parts that keep a part in now: put on after it, and not riding on it."""
    if part not in now.seated:
        return ()
    since = now.seated[part].sequence
    return tuple(
        holder
        for holder in now.pump.holders.get(part, ())
        if (holder in now.held or (holder in now.seated and part not in now.chain(holder)))
        and _sequence(now, holder) > since
    )


def _what_hid(now: Assembly, groove: str) -> tuple[str, ...]:
    """The part that hid the groove: of all that bring its sides together, the last to go in."""
    if not now.hidden(groove):
        return ()
    told = now.pump.grooves[groove]
    chains = [tuple(now.chain(side)) for side in (told.in_, *told.closed_against)]
    shared = set(chains[0]).intersection(*chains[1:])
    apart = {part for chain in chains for part in chain if part not in shared}
    return (max(apart, key=lambda part: now.seated[part].sequence),) if apart else ()


def _sequence(now: Assembly, thing: str) -> int:
    if thing in now.held:
        return now.held[thing].sequence
    return now.seated[thing].sequence if thing in now.seated else 0
