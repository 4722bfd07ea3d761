"""The kit, as its bag says, against the grooves: pieces by size and rubber, and how many there are of each.

Sizes and rubbers are the same however they are spelled. A line without its rubber is taken for any.
"""

from __future__ import annotations

from benchcheck.checking.rings import family_of, size_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.model import Kit, KitLine

Piece = tuple[str, str]
"""Size and rubber, as the groove has them."""


def needed(subject: Subject) -> dict[Piece, tuple[str, ...]]:
    """The pieces that the grooves take, each with the grooves of the variant that needs most of it."""
    found: dict[Piece, tuple[str, ...]] = {}
    for variant in subject.file.procedure.variants or (None,):
        grooves: dict[Piece, list[str]] = {}
        for groove in subject.file.groove:
            if groove.for_ and variant not in groove.for_:
                continue
            taken = groove.takes if isinstance(groove.takes, str) else groove.takes.get(variant or "")
            if taken is not None:
                grooves.setdefault(_known((taken, groove.material), grooves), []).append(groove.id)
        for piece, names in grooves.items():
            piece = _known(piece, found)
            if len(names) > len(found.get(piece, ())):
                found[piece] = tuple(names)
    return found


def _known(piece: Piece, pieces: dict[Piece, list[str]] | dict[Piece, tuple[str, ...]]) -> Piece:
    """The piece as it is spelled already, if it is there."""
    return next((each for each in pieces if _spelled(each) == _spelled(piece)), piece)


def _spelled(piece: Piece) -> Piece:
    size = size_of(piece[0])
    family = family_of(piece[1])
    return size.dash if size else piece[0].casefold(), family or piece[1].casefold()


def is_size(text: str, size: str) -> bool:
    """Whether two texts mean one size."""
    return _spelled((text, ""))[0] == _spelled((size, ""))[0]


def fits(line: KitLine, piece: Piece) -> bool:
    """Whether a line of the kit is this piece."""
    if line.ring is None or not is_size(line.ring, piece[0]):
        return False
    return line.material is None or _spelled(("", line.material))[1] == _spelled(("", piece[1]))[1]


def same(one: KitLine, other: KitLine) -> bool:
    """Whether two lines of the kit are about the same ring."""
    return (
        one.ring is not None
        and other.ring is not None
        and _spelled((one.ring, one.material or "")) == _spelled((other.ring, other.material or ""))
    )


def held(kit: Kit, piece: Piece) -> int:
    """How many of a piece the kit holds."""
    return sum(line.count for line in kit.holds if fits(line, piece))
