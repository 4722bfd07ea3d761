"""The built wheel, installed where there is no repository: it runs, and it brings the demonstration along."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

from benchcheck import __version__

ROOT = Path(__file__).parent.parent


def shell(*words: str | Path, cwd: Path, stdin: str = "") -> subprocess.CompletedProcess[str]:
    # Nothing of the repository may be found by way of the environment.
    environment = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        words, cwd=cwd, input=stdin, capture_output=True, text=True, env=environment, check=False
    )


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    options = ["--no-deps", "--no-build-isolation", "--no-index", "--wheel-dir", str(folder)]
    built = shell(sys.executable, "-m", "pip", "wheel", *options, str(ROOT), cwd=folder)
    assert built.returncode == 0, built.stderr
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="module")
def scripts(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of a new environment that holds the wheel.

    The packages it needs are found in the environment of the tests: a `.pth` file adds their folder, but not
    what the `.pth` files in there add, so the repository stays out of sight.
    """
    folder = tmp_path_factory.mktemp("environment")
    venv.create(folder, symlinks=True)
    variables = {"base": str(folder), "platbase": str(folder)}
    packages = Path(sysconfig.get_path("purelib", "venv", variables))
    (packages / "needed.pth").write_text(f"{sysconfig.get_path('purelib')}\n")
    programs = Path(sysconfig.get_path("scripts", "venv", variables))
    options = ["--no-deps", "--no-index", "--quiet"]
    pip = [sys.executable, "-m", "pip", "--python", str(programs / "python")]
    installed = shell(*pip, "install", *options, "--force-reinstall", str(wheel), cwd=folder)
    assert installed.returncode == 0, installed.stderr
    return programs


def test_the_wheel_holds_the_package_and_the_demonstration_and_nothing_else(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.partition("/")[0] for name in names} == {"benchcheck", f"benchcheck-{__version__}.dist-info"}
    assert "benchcheck/demonstration/xmpl-hc40-c.toml" in names
    assert not [name for name in names if "__pycache__" in name]


def test_the_installed_program_is_the_wheels(scripts: Path, tmp_path: Path) -> None:
    ended = shell(scripts / "benchcheck", "--version", cwd=tmp_path)
    assert (ended.returncode, ended.stdout) == (0, f"benchcheck {__version__}\n")
    where = shell(scripts / "python", "-c", "import benchcheck; print(benchcheck.__file__)", cwd=tmp_path)
    assert where.stdout.startswith(str(scripts.parent))


def test_in_an_empty_folder_it_offers_the_demonstration_and_writes_it(scripts: Path, tmp_path: Path) -> None:
    ended = shell(scripts / "benchcheck", "--lines", cwd=tmp_path, stdin="yes\n")
    assert ended.returncode == 0, ended.stderr
    assert ended.stderr == ""
    written = {str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*.toml")}
    shipped = {str(path.relative_to(ROOT)) for path in (ROOT / "procedures").rglob("*.toml")}
    assert written == shipped
    checked = shell(scripts / "benchcheck", "check", "procedures", cwd=tmp_path)
    assert checked.returncode == 0, checked.stdout
