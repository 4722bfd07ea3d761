"""Which keys work at this moment on the bench, for the last row and for help."""

from __future__ import annotations

from benchcheck.screens.bench.prompts import pages
from benchcheck.screens.bench.work import Work
from benchcheck.screens.keys import Deed, LiveKey
from benchcheck.session.prompt import Form, RingPicture


def live_keys(work: Work) -> tuple[LiveKey, ...]:
    """The keys that do something now; one that is closed says why."""
    prompt, refused = work.prompt, work.refused
    if prompt is None:
        return (LiveKey(Deed.CONFIRM), LiveKey(Deed.HELP), LiveKey(Deed.STOP, word="leave"))
    deviation = LiveKey(Deed.DEVIATION)
    if refused is not None:
        if not refused.outcome.passable:
            deviation = LiveKey(Deed.DEVIATION, closed="nobody may")
        return (LiveKey(Deed.CONFIRM), *_acts(deviation))
    found = [LiveKey(Deed.CONFIRM)]
    picture = prompt.picture
    if prompt.form in (Form.NUMBER, Form.WORDS):
        does = "" if prompt.form is Form.NUMBER else "words; Backspace takes one letter back"
        found.append(LiveKey(Deed.TYPE, does=does))
    elif isinstance(picture, RingPicture) and prompt.form is Form.CONFIRM and picture.count > 1:
        found.append(LiveKey(Deed.TYPE, does="the position, where it is another than the one that is due"))
    if prompt.form is Form.CHOICE:
        found.append(LiveKey(Deed.POINT))
    if isinstance(picture, RingPicture) and picture.count > 1:
        found.append(LiveKey(Deed.TURN))
    more = "the next choices" if pages(prompt) > 1 else "all there is to read on this; never answers"
    found.append(LiveKey(Deed.READ_ON, does=more))
    return (*found, *_acts(deviation))


def _acts(deviation: LiveKey) -> tuple[LiveKey, ...]:
    """The acts that are there whatever is asked."""
    return (
        LiveKey(Deed.ELSE),
        LiveKey(Deed.HELP),
        deviation,
        LiveKey(Deed.GO_BACK),
        LiveKey(Deed.STOP),
    )
