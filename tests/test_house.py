"""The house keeps its order: sizes, layers that a contract can't say, registries, and what a run may import."""

import ast
import importlib
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = sorted(path for top in ("netcheck", "tests") for path in (ROOT / top).rglob("*.py"))
GROUND = [path for room in ("core", "matching") for path in sorted((ROOT / "netcheck" / room).glob("*.py"))]
FAMILIES = {"netcheck.rules": "check", "netcheck.compare.rules": "compare"}

LONGEST = 300  # lines of a module
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "netcheck", "grammar", "tests", "samples"}

# What a comparison in words can do without: each costs start-up time, or belongs to another command.
NOT_FOR_COMPARE = frozenset(
    {"asyncio", "difflib", "graphviz", "hashlib", "jinja2", "json", "markupsafe", "multiprocessing", "numpy", "scipy",
     "tempfile", "tomllib", "unittest", "netcheck.records", "netcheck.repository", "netcheck.settings",
     "netcheck.start", "netcheck.reports.drawing", "netcheck.reports.record", "netcheck.system.graphviz",
     "netcheck.system.picture", "netcheck.system.watch"}
)  # fmt: skip
MACHINERY = frozenset({"lark", "pint", "networkx", "netcheck.api", "netcheck.language", "netcheck.model"})


def short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def imported(path: Path) -> set[str]:
    """The modules that a file names in its imports, inside functions too."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(ast.walk(tree))
    plain = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    return plain | {node.module or "." for node in nodes if isinstance(node, ast.ImportFrom)}


def test_a_module_is_read_in_one_sitting() -> None:
    lines = {short(path): len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES}
    assert {name: count for name, count in lines.items() if count > LONGEST} == {}


@pytest.mark.parametrize("path", GROUND, ids=short)
def test_the_ground_floor_stands_on_the_standard_library_and_records(path: Path) -> None:
    allowed = {*sys.stdlib_module_names, "msgspec"}
    shared = {"netcheck.core.budget"}  # the one type of budget, which matching counts its steps in
    foreign = {
        name
        for name in imported(path)
        if not name.startswith(f"netcheck.{path.parent.name}.")
        and name.split(".")[0] not in allowed
        and name not in shared
    }
    assert not foreign


# What the product's figures are held against: by the product's own values they would agree with a wrong one.
OTHER_SIDE = (
    "tests/mains_campaign/truth.py", "tests/silence/elements.py", "tests/silence/engine.py", "tests/silence/touch.py",
    "tests/soundness/elements.py", "tests/soundness/oracle.py",
)  # fmt: skip


@pytest.mark.parametrize("name", OTHER_SIDE)
def test_the_engines_of_the_tests_share_nothing_with_those_that_they_judge(name: str) -> None:
    assert {module for module in imported(ROOT / name) if module.split(".")[0] == "netcheck"} == set()


ROOMS = [path for path in MODULES if path.parts[-3:-1] != ("netcheck", "system") and ROOT / "netcheck" in path.parents]


def test_only_the_machine_room_opens_files() -> None:
    """What needs no import is no matter of the contracts: files, questions to a terminal, code made at run time."""
    found = {
        short(path): called(path) & {"open", "input", "eval", "exec", "__import__", "breakpoint"} for path in ROOMS
    }
    assert {name: calls for name, calls in found.items() if calls} == {}


def called(path: Path) -> set[str]:
    """The plain names that a module calls."""
    calls = [node.func for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.Call)]
    return {call.id for call in calls if isinstance(call, ast.Name)}


def test_what_opens_files_is_found() -> None:
    assert "open" in called(ROOT / "netcheck/system/files.py")


def test_grammar_holds_no_python() -> None:
    """An editable install refuses a package that is rewritten to another place."""
    assert not list((ROOT / "grammar").rglob("*.py"))
    assert list((ROOT / "grammar").glob("*.lark"))


def test_nothing_new_at_the_top() -> None:
    ignored = [line.rstrip("/") for line in (ROOT / ".gitignore").read_text(encoding="utf-8").split()]
    entries = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    strange = {name for name in entries - TOP if not any(Path(name).match(pattern) for pattern in ignored)}
    # A source distribution adds its own description.
    assert strange <= {"PKG-INFO"}
    assert entries >= TOP


@pytest.mark.parametrize("family", FAMILIES)
def test_every_rule_module_is_registered(family: str) -> None:
    package = importlib.import_module(family)
    folder = ROOT / family.replace(".", "/")
    modules = sorted(path.stem.replace("_", "-") for path in folder.glob("*.py") if path.stem != "__init__")
    assert sorted(listed.name for listed in package.RULES) == modules
    assert all(listed.rule.name == listed.name for listed in package.RULES)


def test_rules_have_one_name_and_one_case_file_each() -> None:
    names = [rule.name for family in FAMILIES for rule in importlib.import_module(family).RULES]
    assert sorted(path.stem for path in (ROOT / "tests/rules").glob("*.md")) == sorted(set(names))
    for family in FAMILIES:
        own = [rule.name for rule in importlib.import_module(family).RULES]
        assert len(own) == len(set(own))


@pytest.mark.parametrize("family", FAMILIES)
def test_every_rule_has_a_manual_page(family: str) -> None:
    for rule in (listed.rule for listed in importlib.import_module(family).RULES):
        heads = re.findall(r"^(Wrong|Right|Source):", rule.manual, re.MULTILINE)
        assert heads == ["Wrong", "Right", "Source"], rule.name


def imports_of(code: str, *argv: str) -> set[str]:
    """What a run of Python code has imported in the end."""
    code = f"import sys; {code}; print(*sys.modules, file=sys.stderr)"
    ran = subprocess.run([sys.executable, "-c", code, *argv], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    return set(ran.stderr.split())


RUN = "from netcheck.cli import main; main(sys.argv[1:])"


def test_compare_imports_nothing_that_it_does_not_use() -> None:
    run = imports_of(RUN, "compare", "samples/one-can/original.netck", "samples/one-can/rewired.netck")
    assert "netcheck.api" in run
    # What a library brings along is its own affair.
    libraries = imports_of("import click, lark, networkx; from netcheck.language.units import worked_out; worked_out()")
    assert "numpy" not in libraries
    assert not run & NOT_FOR_COMPARE - libraries


def test_a_host_that_uses_pint_finds_it_whole() -> None:
    """The units are read by a pint without numpy, which is forgotten afterwards."""
    read = "from netcheck.language.units import worked_out; assert worked_out()"
    assert not imports_of(read) & {"numpy", "pint"}
    assert "numpy" in imports_of(f"{read}; import pint; assert pint.compat.HAS_NUMPY")


def test_help_imports_no_machinery() -> None:
    assert not imports_of(RUN, "compare", "--help") & (NOT_FOR_COMPARE | MACHINERY)
