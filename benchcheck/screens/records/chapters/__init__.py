"""The pages that one session is read in, one a file."""

from __future__ import annotations

from importlib import import_module
from typing import Protocol, cast

from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import Further, Instead, Lead, Next, Page

CHAPTERS = ("remarks", "tightening", "order", "times", "procedure", "report")
"""Their names, in the order of reading."""


class Chapter(Protocol):
    """What each module offers."""

    def page(self, desk: Desk, session: OneSession, further: Further) -> Page: ...


def chapter(desk: Desk, session: OneSession, number: int) -> Page:
    """A page by its place, from 0; at its end it leads to the next one, and the last one back."""

    def further() -> tuple[str, Next]:
        if number + 1 == len(CHAPTERS):
            return "goes back to the verdict", Lead.BACK
        return f"goes on to: {CHAPTERS[number + 1]}", Instead(chapter(desk, session, number + 1))

    module = import_module(f"benchcheck.screens.records.chapters.{CHAPTERS[number]}")
    return cast(Chapter, module).page(desk, session, further)
