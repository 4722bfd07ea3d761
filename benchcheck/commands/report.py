"""`benchcheck report`: sessions as text, a page, tables or a label, for people and other programs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from benchcheck.report.journal import Journal
    from benchcheck.store.recorded import Recorded

NAME = "report"
HELP = "write a report on records: as text, a page, tables, or a label"
FORMS = ("text", "html", "events-csv", "readings-csv", "label")


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "records", metavar="RECORD", nargs="+", help="record; or folder with records, as sessions/"
    )
    parser.add_argument(
        "--as", dest="form", choices=FORMS, default="text", help="what to write; text if left out"
    )
    parser.add_argument(
        "-o", dest="output", metavar="PATH", help="file to write to; standard output if left out"
    )


def run(args: argparse.Namespace) -> int:
    """Writes the report; a damaged record is reported as far as it is good, says so, and gives status 3."""
    from pathlib import Path

    from benchcheck.exit_status import ExitStatus
    from benchcheck.saying import refuse
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.results import why_not_over

    program = f"benchcheck {NAME}"
    output = Path(args.output) if args.output is not None else None
    if output is not None and (why := why_not_over(output)):
        return refuse(program, why)
    found = _Found()
    for word in args.records:
        found.read(Path(word))
    journals = found.journals(args.workspace) if args.form != "events-csv" else []
    for sentence in found.said:
        refuse(program, sentence)
    text = _written(args.form, found.recorded, journals, plain=args.plain)
    if text is not None:
        try:
            _put(text, output)
        except StoreFault as fault:
            return refuse(program, str(fault))
    if found.damaged:
        return ExitStatus.DAMAGED
    return ExitStatus.UNUSABLE if found.unusable else ExitStatus.GOOD


class _Found:
    """The records that were named, and what is to be said of them on standard error."""

    def __init__(self) -> None:
        self.recorded: list[Recorded] = []
        self.said: list[str] = []
        self.damaged = False
        self.unusable = False

    def read(self, path: Path) -> None:
        from benchcheck.session.record import NewerFormat
        from benchcheck.store.disk import StoreFault
        from benchcheck.store.recorded import read_recorded, records_in

        try:
            paths, gone = records_in(path)
        except StoreFault as fault:
            self._cannot(str(fault))
            return
        for name in gone:
            self.damaged = True
            self.said.append(f"{path / name} is MISSING: its seal is remembered, and the file is not there.")
        if not paths and not gone:
            self._cannot(f"{path} holds no record.")
        for each in paths:
            try:
                recorded = read_recorded(each)
            except (StoreFault, NewerFormat) as fault:
                self._cannot(f"{each}: {fault}" if isinstance(fault, NewerFormat) else str(fault))
                continue
            self._note_damage(recorded)
            if recorded.record.header is not None:
                self.recorded.append(recorded)
            elif recorded.verdict.first_bad_event is None:
                self._cannot(f"{each} holds no whole event, so there is nothing to report.")

    def journals(self, workspace: Path | None) -> list[Journal]:
        """The sessions, read for a report; what cannot be is left out, and said."""
        from benchcheck.report.journal import journal_of, proof_of
        from benchcheck.store.disk import StoreFault
        from benchcheck.store.library import Unreadable
        from benchcheck.store.recorded import registers_of, state_of_recorded
        from benchcheck.store.sitting import CannotOpen

        journals: list[Journal] = []
        for recorded in self.recorded:
            registers = registers_of(recorded, workspace)
            if registers is None:
                self.said.append(
                    f"{recorded.path.name}: the registers of its workspace cannot be read, so nothing is "
                    "said of the calibration of wrenches; name a workspace before the command."
                )
            try:
                state, events = state_of_recorded(recorded, registers)
            except (CannotOpen, StoreFault) as fault:
                self._cannot(f"{recorded.path.name}: {fault}")
            except Unreadable as fault:
                self._cannot(f"{recorded.path.name}: {str(fault).splitlines()[0]}")
            else:
                proof = proof_of(recorded.path.name, recorded.record, recorded.verdict)
                journals.append(journal_of(state, events, proof))
        return journals

    def _note_damage(self, recorded: Recorded) -> None:
        if recorded.verdict.first_bad_event is None:
            return
        self.damaged = True
        good = recorded.verdict.events
        self.said.append(
            f"{recorded.path} is DAMAGED from event {recorded.verdict.first_bad_event} on; "
            + (f"what is reported ends with event {good}." if good else "there is nothing to report.")
        )

    def _cannot(self, sentence: str) -> None:
        self.unusable = True
        self.said.append(sentence)


def _written(
    form: str, recorded: Sequence[Recorded], journals: Sequence[Journal], *, plain: bool
) -> str | None:
    """The report in the form asked for; None where there is nothing to be in it."""
    if form == "events-csv":
        from benchcheck.report.csv_table import events_csv

        found = [(each.path.name, each.header, each.record.events) for each in recorded]
        return events_csv(found) if found else None
    if not journals:
        return None
    if form == "readings-csv":
        from benchcheck.report.csv_table import readings_csv

        return readings_csv(journals)
    if form == "label":
        from benchcheck.report import label

        return "\n".join(label.as_text(each, plain=plain) for each in journals)
    from benchcheck.report.session_document import document_of

    documents = [document_of(each) for each in journals]
    if form == "html":
        from benchcheck.report.html_page import as_html

        return as_html(documents)
    from benchcheck.report.plain_text import as_text

    return as_text(documents, plain=plain)


def _put(text: str, output: Path | None) -> None:
    """Raises StoreFault."""
    import sys

    from benchcheck.store.results import write_result

    if output is not None:
        write_result(output, text)
        return
    # A page and a table say themselves that they are UTF-8, whatever the terminal speaks.
    sys.stdout.flush()
    sys.stdout.buffer.write(text.encode("utf-8", "replace"))
    sys.stdout.buffer.flush()
