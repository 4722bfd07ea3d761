"""Records and procedures as plain lists, each opened into a page of what it says."""

from __future__ import annotations

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.store.library import Unreadable, load_procedure
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


def procedures(workspace: Workspace) -> Flow[None]:
    """The procedures, each with its scope or with what is wrong with it."""
    paths = workspace.procedure_paths()
    chosen = yield Item("procedures", "", "shows it", choices=tuple(path.stem for path in paths))
    path = paths[chosen.index]
    try:
        procedure = load_procedure(path).procedure
    except Unreadable as why:
        yield Item(
            "findings",
            "",
            "goes back to the first list",
            lines=tuple(("wrong", text) for text in str(why).splitlines() if text.strip()),
        )
        return
    head = procedure.procedure
    lines = [
        ("id", f"{head.id.upper()}, revision {head.revision}, {head.status}"),
        ("title", head.title),
        ("for", ", ".join(head.models)),
        (
            "holds",
            f"{len(procedure.step)} steps, {len(procedure.part)} parts, {len(procedure.groove)} grooves",
        ),
    ]
    if head.scope:
        lines.append(("scope", head.scope))
    lines += [("changed", text) for text in head.changes]
    yield Item("procedure", "", "goes back to the first list", lines=tuple(lines))
