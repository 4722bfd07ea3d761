"""The one widget of a screen: it shows lines, and hears keys and touches.

Only lines that changed are painted again. Every letter passes `made_safe` here once more, so that nothing a
drawing forgot can reach the terminal as a command. What a key means is the listener's to say, and what
becomes of it the screen's.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from benchcheck.screens.content import made_safe
from benchcheck.screens.listening import Heard, Listener
from benchcheck.screens.tones import Tone
from benchcheck.screens.touching import keys_at
from benchcheck.screens.widgets.cells import Line, line_width


class Sheet(Widget, can_focus=True):
    """Shows lines from its upper left corner on; `heard` is called with what the listener made of a key."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    Sheet {
        width: 1fr;
        height: 1fr;
        background: $background;
    }
    """

    def __init__(self, listener: Listener, heard: Callable[[Heard], None]) -> None:
        super().__init__()
        self._listener = listener
        self._heard = heard
        self._lines: tuple[Line, ...] = ()
        self._strips: dict[int, Strip] = {}
        self._pressed: tuple[str, ...] = ()
        """What stood where the button went down; where it comes up again, the same has to stand."""
        self._styles: Mapping[Tone, Style] = {tone: Style() for tone in Tone}

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is shown now."""
        return self._lines

    def dress(self, styles: Mapping[Tone, Style]) -> None:
        """Change what the tones look like."""
        self._styles = styles
        self._strips.clear()
        self.refresh()

    def show(self, lines: Sequence[Line]) -> None:
        """Show these lines in place of those before, painting only those that differ."""
        before, self._lines = self._lines, tuple(lines)
        width, changed = self.size.width, []
        for row in range(max(len(before), len(self._lines))):
            old = before[row] if row < len(before) else ()
            new = self._lines[row] if row < len(self._lines) else ()
            if old != new:
                self._strips.pop(row, None)
                changed.append(Region(0, row, width, 1))
        if changed:
            self.refresh(*changed)

    def render_line(self, y: int) -> Strip:
        strip = self._strips.get(y)
        if strip is None or strip.cell_length != self.size.width:
            strip = self._strips[y] = self._strip(y)
        return strip

    def _strip(self, row: int) -> Strip:
        line = self._lines[row] if row < len(self._lines) else ()
        segments = [Segment(made_safe(run.text), self._styles[run.tone]) for run in line]
        strip = Strip(segments, line_width(line))
        return strip.adjust_cell_length(self.size.width, self._styles[Tone.INK])

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        self._tell(self._listener.key(event.key, event.character, event.time))

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        self._tell(self._listener.paste(event.text, event.time))

    def on_mouse_down(self, event: events.MouseDown) -> None:
        event.stop()
        self._pressed = keys_at(self._lines, event.y, event.x) if event.button == 1 else ()

    def on_click(self, event: events.Click) -> None:
        event.stop()
        touched = keys_at(self._lines, event.y, event.x)
        pressed, self._pressed = self._pressed, ()
        for name in touched if touched == pressed else ():
            self._tell(self._listener.touch(name, event.time))

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        event.stop()
        self._tell(self._listener.key("up", None, event.time))

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        event.stop()
        self._tell(self._listener.key("down", None, event.time))

    def _tell(self, heard: Heard | None) -> None:
        if heard is not None:
            self._heard(heard)
