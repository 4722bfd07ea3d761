"""Records as a plain list, each opened into a page of what it says."""

from __future__ import annotations

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.store.workspace import Workspace


def records(workspace: Workspace) -> Flow[None]:
    """The records, by name, with what each adds up to."""
    paths = workspace.record_paths()
    if not paths:
        yield Item("records", "There is no record yet.", "goes back to the first list")
        return
    chosen = yield Item("records", "", "shows it", choices=tuple(path.stem for path in paths))
    path = paths[chosen.index]
    verdict = workspace.verify_record(path)
    record = workspace.read_record(path)
    lines = [("file", path.name)]
    if record.header is not None:
        header = record.header
        lines += [
            ("pump", header.serial),
            ("by", f"{header.procedure}, revision {header.revision} {header.variant}".strip()),
            ("opened", header.opened),
        ]
    lines.append(("events", str(len(record.events))))
    lines += [("proved", text) for text in verdict.proved_by] + [("not", text) for text in verdict.not_proved]
    yield Item("record", "", "goes back to the first list", lines=tuple(lines))
