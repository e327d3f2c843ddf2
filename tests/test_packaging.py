"""What pyproject.toml promises is what the package is."""

import importlib
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import netcheck
from netcheck.__main__ import main

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_the_version_is_said_once() -> None:
    assert PROJECT["project"]["dynamic"] == ["version"]
    said = (ROOT / PROJECT["tool"]["hatch"]["version"]["path"]).read_text(encoding="utf-8")
    assert f'__version__ = "{netcheck.__version__}"' in said


def test_the_console_script_is_main() -> None:
    module, _, name = PROJECT["project"]["scripts"]["netcheck"].partition(":")
    assert getattr(importlib.import_module(module), name) is main


def test_python_m_netcheck_runs_from_anywhere(tmp_path: Path) -> None:
    argv = [sys.executable, "-m", "netcheck", "check", str(ROOT / "samples/harrow-point/original.netck")]
    here = os.environ | {"PYTHONPATH": str(ROOT)}  # where the project is not installed, too
    ran = subprocess.run(argv, cwd=tmp_path, env=here, capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")


def test_a_reader_that_goes_away_is_no_fault() -> None:
    """``netcheck ... | head`` ends quietly and keeps its exit status."""
    code = (
        "import os, sys; from netcheck.cli import main;"
        "r, w = os.pipe(); os.close(r); os.dup2(w, 1);"
        "sys.exit(main(['why', 'floating-ground']))"
    )
    ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")


def test_everything_imported_is_declared() -> None:
    """A library that arrives only through another one may leave with it."""
    wanted = {re.split(r"[^\w-]", line)[0].lower() for line in PROJECT["project"]["dependencies"]}
    text = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "netcheck").rglob("*.py"))
    named = set(re.findall(r"^\s*(?:from|import) (\w+)", text, re.MULTILINE))
    foreign = named - sys.stdlib_module_names - {"netcheck"}
    assert foreign <= wanted
    # The drawing engine is run, never imported.
    assert wanted - foreign == {"graphviz-pure"}


def test_the_grammar_travels_with_the_package() -> None:
    wheel = PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["sources"] == {"grammar": "netcheck/grammar"}
    assert "/grammar" in PROJECT["tool"]["hatch"]["build"]["targets"]["sdist"]["include"]


def test_the_tables_travel_with_the_package() -> None:
    assert "netcheck" in PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["only-include"]
    ignored = (ROOT / ".gitignore").read_text(encoding="utf-8").split()
    tables = sorted((ROOT / "netcheck").rglob("*.txt"))
    assert [path.name for path in tables] == ["tube_data.txt", "steps.txt", "basings.txt"]
    assert not any(path.match(pattern) for path in tables for pattern in ignored)
