"""Fit: a ring goes into its groove. Asked: size and rubber, both read off its bag, groove by groove.

A ring from stock, not from the kit, has its lot and its cure date read off its own bag as well.
"""

from __future__ import annotations

from datetime import date, datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.rubber import RubberError, shelf_life
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts.wrenches import today
from benchcheck.session.events import RingFitted
from benchcheck.session.kit import holds, shortages
from benchcheck.session.prompt import Form, GroovePicture, Outcome, Prompt, refused
from benchcheck.session.state import State

SHELF_LIFE = "SAE ARP5316"
"""The rule by which a ring from stock keeps."""
FROM_STOCK = (
    'the kit has none left; for one from stock type its lot and cure date too: "-137 NBR; lot 4711; 2Q2024"'
)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    pump = state.pump
    groove = pump.grooves[act.target]
    short = _is_short(state, act)
    needed = _needed(state, act)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    place = f"{groove.where}, on {pump.the(groove.in_)}"
    used_up = state.assembly.sealed.get(groove.id) and not state.assembly.living_rings(groove.id)
    do = [f"the old ring out of {groove.id} and into the scrap tray"] if used_up else []
    do.append(f"{pump.value(groove.takes)}, {groove.material}, into {groove.id}: {place}")
    if groove.lubricate:
        do.append(groove.lubricate)
    return Prompt(
        question="size",
        form=Form.WORDS,
        verb="FIT RING",
        do=tuple(asked.sentence(line) for line in do),
        ask="size and rubber, as the bag says",
        enter=f"records the ring in {groove.id}",
        notes=(FROM_STOCK,) if short else (),
        target=groove.id,
        picture=GroovePicture(
            groove.in_,
            tuple(
                (each.id, each.where, ", ".join(ring.size for ring in state.assembly.sealed.get(each.id, ())))
                for each in pump.grooves.values()
                if each.in_ == groove.in_ and not state.assembly.closed(each.id)
            ),
            groove.id,
        ),
    )


def _needed(state: State, act: Act) -> tuple[str, tuple[str, ...]] | None:
    """A ring that can fall out lies in a groove whose face has to be up."""
    groove = state.pump.grooves[act.target]
    return None if groove.face is None else asked.reached_from(state, groove.in_, groove.face)


def read_bag(text: str) -> tuple[str, str] | None:
    """Size and rubber out of what was typed: "-151 NBR", "151, nbr", "-245 coated FKM"; None if one lacks.

    A size is written with digits; the rubber begins at the first word without one.
    """
    words = text.replace(",", " ").split()
    if len(words) < 2:
        return None
    rubber = next(
        (place for place, word in enumerate(words) if place and not _of_a_size(word)), len(words) - 1
    )
    return plain_size(" ".join(words[:rubber])), " ".join(words[rubber:]).upper()


def _of_a_size(word: str) -> bool:
    return word.casefold() in ("x", "×") or any(letter.isdigit() for letter in word)


def plain_size(text: str) -> str:
    """A size as procedures write it: a dash number with its dash."""
    text = text.strip().removeprefix("AS568").strip().replace("−", "-").replace("–", "-")
    digits = text.removeprefix("-")
    return f"-{digits}" if digits.isascii() and digits.isdigit() else text


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    needed = _needed(state, act)
    if prompt.question == "pose":
        assert needed is not None
        return asked.take_pose(state, act, needed, answer)
    bag, *stock = (each.strip() for each in answer.split(";"))
    read = read_bag(bag)
    if read is None:
        return refused("bag-not-read", f'"{bag}" is not size and rubber; type both, such as "-137 NBR"')
    size, material = read
    lot, cured, against = _kit_lot(state), "", guard.may_fit(state.assembly, act.target, size, material)
    if stock:
        if len(stock) != 2 or not all(stock):
            return refused(
                "bag-not-read",
                "a ring from stock needs its lot and its cure date too",
                mend='type them behind it: "-137 NBR; lot 4711; 2Q2024"',
            )
        lot, cured = stock[0].removeprefix("lot").strip(), stock[1].removeprefix("cured").strip()
        kept = _kept_too_long(material, cured, today(state, now))
        if isinstance(kept, Outcome):
            return kept
        against = (*against, *kept)
    elif not against and none_left(state, size, material):
        lot, against = "", (*against, _out_of_nowhere(state, size, material))
    event = RingFitted(
        act=act.id, done=True, groove=act.target, size=size, material=material, lot=lot, cured=cured
    )
    return Outcome((event,), against)


def _is_short(state: State, act: Act) -> bool:
    return any(each.act == act.id for each in shortages(state))


def none_left(state: State, size: str, material: str) -> bool:
    """Whether all that the kit held of a ring is used."""
    piece = f"{size} {material}"
    held = holds(state)
    return piece in held and state.used.get(piece, 0) >= held[piece]


def _out_of_nowhere(state: State, size: str, material: str) -> Refusal:
    """A ring that cannot be the kit's: its lot and age have to be read off its own bag."""
    piece = f"{size} {material}"
    count = holds(state)[piece]
    return Refusal(
        "kit-has-none-left",
        f"the kit held {count or 'no'} {piece}" + (", and all are used" if count else ""),
        mend=f'for one from stock type its lot and cure date too: "{piece}; lot 4711; 2Q2024"',
    )


def _kept_too_long(material: str, cured: str, on: date) -> tuple[Refusal, ...] | Outcome:
    """What stands against a ring from stock by its age; or the refusal of a date that is none."""
    rubber = material.split()[-1]
    try:
        life = shelf_life(rubber, SHELF_LIFE, cured)
    except RubberError as fault:
        return refused("shelf-life-not-known", str(fault), mend="take a ring whose life is known")
    if life.cured > on:
        return refused("not-a-cure-date", f"{cured} has not come yet")
    if life.end is None or on <= life.end:
        return ()
    return (
        Refusal(
            "kept-too-long",
            f"{life.rubber} cured {cured} keeps until {life.end:%-d %B %Y}",
            mend="take a younger one",
            chain=(f"{life.source}: {life.years} years",),
        ),
    )


def _kit_lot(state: State) -> str:
    """The lot of the kit, as read at the start."""
    return state.kept.get("kit-lot", "")


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    if prompt.question == "pose":
        needed = _needed(state, act)
        assert needed is not None
        return needed[1][0]
    groove = state.pump.grooves[act.target]
    ring = f"{state.pump.value(groove.takes)} {groove.material}"
    return f"{ring}; lot S-1; 1Q{now.year - 1}" if _is_short(state, act) else ring
