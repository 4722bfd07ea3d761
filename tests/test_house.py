"""The house: who may import whom, what the core may not do, what a command may load, what lies at the top.

Deferred imports are seen too: they are read in the source, and what is really loaded is asked of fresh
interpreters.
"""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from benchcheck import commands
from benchcheck.exit_status import ExitStatus
from tests.session.samples import closed_record

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "benchcheck"
MODULES = {
    ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
    for path in sorted(PACKAGE.rglob("*.py"))
}

# Each layer, and those below it that it may import; of other packages, see OTHERS.
MAY_IMPORT = {
    "mechanics": set(),
    "procedure": {"mechanics"},
    "assembly": {"procedure", "mechanics"},
    "checking": {"assembly", "procedure", "mechanics"},
    "session": {"assembly", "procedure", "mechanics"},
    "store": {"session", "assembly", "procedure", "mechanics"},
    "instruments": {"session", "assembly", "procedure", "mechanics"},
    "report": {"store", "session", "checking", "assembly", "procedure", "mechanics"},
}
CORE = ("mechanics", "procedure", "assembly", "checking", "session")
# The faces: they may import all layers, and of each other what stands here.
FACES = {
    "commands": {"saying", "exit_status"},
    "lines": set(),
    "screens": {"exit_status", "terminal"},
    "saying": {"exit_status"},
    "exit_status": set(),
    "terminal": set(),
    "cli": {"commands", "screens", "lines", "saying", "exit_status", "terminal"},
    "__main__": {"cli"},
}
# Who may import which package that does not come with Python.
OTHERS = {
    "pint": {"benchcheck.mechanics.units"},
    "pydantic": {"procedure", "session"},
    "pydantic_core": {"procedure"},
    "tomli_w": {"session", "store"},
    "textual": {"screens"},
    "rich": {"screens"},
}
# What reaches for the disk, the clock, the network, other programs, chance or the terminal.
NOT_IN_THE_CORE = {
    *("os", "io", "sys", "pathlib", "shutil", "tempfile", "glob", "fcntl", "mmap"),
    *("time", "random", "secrets", "uuid"),
    *("socket", "ssl", "http", "urllib", "subprocess", "multiprocessing", "threading", "asyncio", "signal"),
    *("logging", "argparse", "curses", "getpass", "readline", "locale", "platform", "sqlite3"),
}
CALLS_NOT_IN_THE_CORE = {"open", "print", "input", "exec", "eval", "exit", "breakpoint"}
CLOCKS = {"now", "utcnow", "today", "fromtimestamp"}


def layer_of(module: str) -> str:
    """`mechanics` for `benchcheck.mechanics.units`; `cli` for `benchcheck.cli`."""
    return module.split(".")[1] if "." in module else module


def imports(module: str) -> Iterator[tuple[int, str]]:
    """Line and full name of all that a module imports, wherever in it that stands."""
    for node in ast.walk(ast.parse(MODULES[module].read_text())):
        if isinstance(node, ast.Import):
            for name in node.names:
                yield node.lineno, name.name
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0 and node.module, f"{module}:{node.lineno}: a relative import"
            if node.module == "benchcheck":
                for name in node.names:
                    yield node.lineno, f"benchcheck.{name.name}"
            else:
                yield node.lineno, node.module


def test_every_module_belongs_to_a_layer_or_is_a_face() -> None:
    layers = {layer_of(module) for module in MODULES} - {"benchcheck"}
    assert layers == {*MAY_IMPORT, *FACES}


@pytest.mark.parametrize("module", MODULES)
def test_the_arrows_of_import_run_one_way(module: str) -> None:
    layer = layer_of(module)
    allowed = {layer, *(MAY_IMPORT[layer] if layer in MAY_IMPORT else {*MAY_IMPORT, *FACES.get(layer, ())})}
    for line, name in imports(module):
        package, _, rest = name.partition(".")
        if package == "benchcheck":
            below = rest.partition(".")[0]
            # The package itself holds the version and nothing else.
            assert not below or below == "__version__" or below in allowed, f"{module}:{line} imports {name}"
        elif package not in sys.stdlib_module_names:
            users = OTHERS.get(package, set())
            assert layer in users or module in users, f"{module}:{line} imports {name}"


@pytest.mark.parametrize("module", [module for module in MODULES if layer_of(module) in CORE])
def test_the_core_opens_no_file_reads_no_clock_and_knows_no_screen(module: str) -> None:
    for line, name in imports(module):
        assert name.partition(".")[0] not in NOT_IN_THE_CORE, f"{module}:{line} imports {name}"
    for node in ast.walk(ast.parse(MODULES[module].read_text())):
        if isinstance(node, ast.Call):
            called = node.func
            where = f"{module}:{node.lineno}"
            if isinstance(called, ast.Name):
                assert called.id not in CALLS_NOT_IN_THE_CORE, f"{where} calls {called.id}"
            elif isinstance(called, ast.Attribute) and isinstance(called.value, ast.Name | ast.Attribute):
                owner = ast.unparse(called.value).rpartition(".")[2]
                is_clock = owner in ("datetime", "date") and called.attr in CLOCKS
                assert not is_clock, f"{where} reads a clock: {owner}.{called.attr}"


def test_pint_is_imported_at_the_first_conversion_and_not_before() -> None:
    tree = ast.parse((PACKAGE / "mechanics" / "units.py").read_text())
    at_import = [name.name for node in tree.body if isinstance(node, ast.Import) for name in node.names]
    assert "pint" not in at_import


@pytest.mark.parametrize("module", MODULES)
def test_every_module_says_what_belongs_in_it(module: str) -> None:
    tree = ast.parse(MODULES[module].read_text())
    names_only = [node for node in tree.body if not isinstance(node, ast.ImportFrom)] == []
    assert names_only or ast.get_docstring(tree), f"{module} has no docstring"


# --- what is really loaded ------------------------------------------------------------------------------


def loaded_by(program: str) -> set[str]:
    """The packages that a fresh interpreter has loaded at the end of a program."""
    program += "\nimport sys\nprint(*{name.partition('.')[0] for name in sys.modules})"
    ended = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT
    )
    return set(ended.stdout.splitlines()[-1].split())


def command(*words: str) -> str:
    return f"from benchcheck.cli import main\nassert main({list(words)!r}) == 0"


def test_the_core_loads_no_screen() -> None:
    core = [module for module in MODULES if layer_of(module) in (*CORE, "store", "report")]
    assert not {"textual", "rich"} & loaded_by("\n".join(f"import {module}" for module in core))


def test_the_package_alone_loads_nothing() -> None:
    assert loaded_by("import benchcheck") - loaded_by("") == {"benchcheck", "__future__"}


@pytest.mark.parametrize("words", [["--version"], ["--help"]])
def test_version_and_help_load_nothing_that_costs(words: list[str]) -> None:
    loaded = loaded_by(command(*words))
    assert not {"textual", "rich", "pydantic", "pint", "tomllib", "pathlib", "json", "shutil"} & loaded


@pytest.mark.parametrize("name", commands.names())
def test_a_commands_help_loads_nothing_that_costs(name: str) -> None:
    assert not {"textual", "rich", "pydantic", "pint"} & loaded_by(command(name, "--help"))


@pytest.mark.parametrize(
    "words",
    [["check", "procedures"], ["rehearse", "procedures/xmpl-hc40-c.toml"]],
    ids=lambda words: words[0],
)
def test_commands_on_procedures_load_no_screen(words: list[str]) -> None:
    loaded = loaded_by(command(*words))
    assert "pydantic" in loaded
    assert not {"textual", "rich"} & loaded


def test_checking_a_record_loads_neither_a_screen_nor_units_nor_models(tmp_path: Path) -> None:
    record = tmp_path / "record.toml"
    record.write_bytes(closed_record())
    loaded = loaded_by(command("verify", str(record)))
    assert "tomllib" in loaded
    assert not {"textual", "rich", "pint", "pydantic"} & loaded


# --- the top level and its papers -----------------------------------------------------------------------


def test_the_top_level_holds_what_it_should_and_nothing_else() -> None:
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    expected = {"README.md", "DEVELOPERS.md", "pyproject.toml"}
    assert found == {*expected, "benchcheck", "procedures", "tests", "sessions"}


def readme() -> str:
    return (ROOT / "README.md").read_text()


def test_the_readme_starts_the_program_and_runs_the_tests_with_one_command_each() -> None:
    shown = re.findall(r"^python3 -m venv \.venv && .*$", readme(), re.MULTILINE)
    assert len(shown) == 2
    start, tests = shown
    assert start.endswith("&& .venv/bin/benchcheck")
    assert tests.endswith("&& .venv/bin/python -m pytest -n auto") and "'.[test]'" in tests


def test_the_readme_names_every_command_and_every_exit_status() -> None:
    text = readme()
    told = set(re.findall(r"(?:`(?:benchcheck )?|^\.venv/bin/benchcheck )(\w+)", text, re.MULTILINE))
    assert set(commands.names()) - told == set()
    assert [int(number) for number in re.findall(r"^\| (\d+) \|", text, re.MULTILINE)] == list(ExitStatus)


@pytest.mark.parametrize("paper", ["README.md", "DEVELOPERS.md"])
def test_what_the_papers_point_to_is_there(paper: str) -> None:
    text = (ROOT / paper).read_text()
    linked = re.findall(r"\]\(([^)#:]+)\)", text)
    # Capitals stand for a name of one's own.
    shown = re.findall(r"`((?:benchcheck|procedures|tests)/[a-z0-9_./-]+)`", text)
    assert [path for path in [*linked, *shown] if not (ROOT / path).exists()] == []


def test_what_is_checked_against_the_outside_is_told_with_its_source() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text()
    told = text.partition("## Checked against the outside")[2].partition("\n## ")[0]
    computed = [path.name for path in (ROOT / "tests" / "mechanics").glob("test_*.py")]
    assert [name for name in computed if f"`tests/mechanics/{name}`" not in told] == []
    published = {path.name for path in (ROOT / "tests" / "published").glob("*.csv")}
    assert set(re.findall(r"`(\w+\.csv)`", told)) == published


def test_every_dependency_is_argued_for() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    extras = [name for extra in project["optional-dependencies"].values() for name in extra]
    names = [re.split(r"[<>=\[]", each)[0] for each in [*project["dependencies"], *extras]]
    table = (ROOT / "DEVELOPERS.md").read_text()
    assert [name for name in names if f"| {name} |" not in table] == []


def test_continuous_integration_is_a_script_that_can_be_run() -> None:
    script = ROOT / ".ci" / "run"
    assert script.stat().st_mode & 0o111
    assert (
        script.read_text().startswith("#!/usr/bin/env bash\n")
        and "\nset -euo pipefail\n" in script.read_text()
    )
