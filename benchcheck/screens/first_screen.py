"""The screen the application opens with: which workspace this is, and the way out."""

from __future__ import annotations

from pathlib import Path

from benchcheck.screens.content import literal
from benchcheck.screens.keys import Deed, LiveKey, help_lines, keys_row
from benchcheck.screens.listening import Answered, Asked, Heard, Question
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Clause, labelled_lines, work_height
from benchcheck.screens.widgets.big_type import draw_verb
from benchcheck.screens.widgets.cells import Canvas

_LIVE = (LiveKey(Deed.CONFIRM), LiveKey(Deed.ELSE), LiveKey(Deed.HELP), LiveKey(Deed.STOP, word="leave"))


class FirstScreen(SheetScreen):
    """Names the workspace; Enter and F8 leave."""

    def __init__(self, workspace: Path) -> None:
        super().__init__()
        self._workspace = workspace
        self._help = False

    def on_mount(self) -> None:
        super().on_mount()
        self.ask(Question("leave"))

    def place_in_words(self) -> str:
        return "No pump is open."

    def bands(self, width: int, height: int) -> Bands:
        canvas = Canvas(width, work_height(height))
        canvas.put_drawing(
            1, 2, draw_verb("keys" if self._help else "open", width - 4, plain=self.benchcheck.plain)
        )
        if self._help:
            canvas.put_drawing(5, 0, help_lines(_LIVE, "leaves", width))
        else:
            canvas.put_drawing(5, 0, labelled_lines([("in", literal(str(self._workspace)))], width))
        return Bands(
            first=[(Clause(("Benchcheck",)), Clause(("no pump is open",)))],
            second=[(Clause(("Nothing is written yet",)),)],
            ruler=None,
            work=canvas.lines(),
            enter="closes help" if self._help else "leaves",
            keys=keys_row(_LIVE, width),
        )

    def heard(self, heard: Heard) -> None:
        if isinstance(heard, Answered) and self._help:
            self._help = False
            self.ask(Question("leave"))
        elif isinstance(heard, Answered) or (isinstance(heard, Asked) and heard.deed is Deed.STOP):
            self.app.exit()
        elif isinstance(heard, Asked) and heard.deed in (Deed.HELP, Deed.ELSE):
            self._help = not self._help
            self.repaint()
