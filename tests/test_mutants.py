"""The maker of mutants: what it changes in a small module, and that a mutant is told dead from alive."""

import ast
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from netcheck.parts.lamp_types import lamp_types
from tests.mutants.__main__ import modules, within
from tests.mutants.changes import changed, changes, compiles
from tests.mutants.ready import Try
from tests.mutants.swap import caches, hits_noted, private_constant, statement_of, swapped
from tests.mutants.watched import importers, keep, kept, noted, state
from tests.mutants.workshop import ROOT, Workshop

MODULE = '''"""Text for readers."""

from collections.abc import Sequence

__all__ = ["small"]

LIMIT: int = 3


def small(rows: Sequence[int], name: str = "lug") -> list[int]:
    """Those below the limit."""
    if not rows:
        return []
    kept = [row for row in rows if row < LIMIT and row]
    print(f"{name} ready")
    return sorted(kept)
'''


def test_every_kind_of_change_and_nothing_that_readers_see() -> None:
    assert {(c.kind, changed(MODULE, c)[c.start :].splitlines()[0]) for c in changes(MODULE)} == {
        ("changed constant", "4"),
        ("negated condition", "not (not rows):"),
        ("dropped guard", "pass"),
        ("returned early", "return"),
        ("dropped condition", "True]"),
        ("dropped condition", "(row)]"),
        ("dropped condition", "(row < LIMIT)]"),
        ("changed comparison <", "row <= LIMIT and row]"),
        ("dropped call", 'f"{name} ready"'),
        ("dropped call", "kept"),
        ("dropped statement", "pass"),
    }


def test_a_budget_is_doubled_and_imports_for_the_eye_are_let_be() -> None:
    text = "if TYPE_CHECKING:\n    from typing import Self\nSTEPS = 2000\nFEW = 999\n"
    assert {(c.kind, c.text) for c in changes(text)} == {("changed constant", "4000"), ("changed constant", "1000")}


def test_a_side_in_brackets_stays_one_side() -> None:
    text = "def burns(own: int, other: int) -> bool:\n    return (own or other) == 3\n"
    assert "return (own or other) != 3\n" in {
        changed(text, c).splitlines(keepends=True)[1].lstrip() for c in changes(text)
    }


def test_a_module_that_is_imported_where_it_is_used_is_watched(tmp_path: Path) -> None:
    late = "netcheck/language/diagnosis.py"  # only a line that can't be read needs it
    with Workshop(tmp_path / "copy", ["tests/test_syntax.py"]) as shop:
        assert shop.watched().importing(late)


def test_what_runs_a_module_anew_is_watched() -> None:
    """Of a module with records alone there is no function to be watched. What is listened for stays for a process."""
    watch = (
        "import runpy, sys; from tests.mutants.ready import runs_anew_noted; import netcheck.core.panel;"
        "runs_anew_noted(sys.argv[1:], print); runpy.run_path('netcheck/core/article.py');"
        "runpy.run_path(sys.argv[1], run_name='anew')"
    )
    pure = "netcheck/core/panel.py"
    ran = subprocess.run(
        [sys.executable, "-c", watch, pure], cwd=ROOT, capture_output=True, text=True, check=True
    )  # fmt: skip
    assert ran.stdout.split() == [f"{pure}:0"]


def test_what_is_worked_out_at_import_is_asked_for_by_those_who_import_it() -> None:
    found = importers(ROOT, "netcheck/language/examples.py")
    assert {"netcheck/language/first_word.py", "netcheck/language/corrections.py"} <= {*found}
    assert "netcheck/language/parser.py" not in found
    assert "netcheck/engine/language_page.py" in importers(ROOT, "netcheck/parts/__init__.py")


def test_what_a_cache_keeps_is_forgotten_with_the_sound_text() -> None:
    path = ROOT / "netcheck/parts/lamp_types.py"
    lamp_types()
    assert lamp_types.cache_info().currsize == 1
    assert lamp_types in caches()
    swapped(str(path), path.read_text(encoding="utf-8"), path.read_text(encoding="utf-8"))
    assert lamp_types.cache_info().currsize == 0
    assert lamp_types()


MADE = """
def asks(command):
    def run(number):
        return command(number) + [1 for _ in range(number)]
    return run

@asks
def count(number):
    return [number]
"""


def test_a_function_that_a_decorator_has_made_is_watched_and_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "made_by_a_decorator.py"
    path.write_text(MADE)
    monkeypatch.syspath_prepend(tmp_path)
    made = import_module(path.stem)
    assert made.count(2) == [2, 1, 1]
    hits: list[str] = []
    hits_noted(str(path), MADE, hits.append, "made")
    assert made.count(2) == [2, 1, 1]
    assert {"made:4", "made:9"} <= {*hits}
    swapped(str(path), MADE, MADE.replace("[1 for", "[7 for"))
    assert made.count(2) == [2, 7, 7]
    swapped(str(path), MADE, MADE)
    assert made.count(2) == [2, 1, 1]


def test_what_runs_at_import_is_known() -> None:
    assert {c.line for c in changes(MODULE) if c.at_import} == {7}


@pytest.mark.parametrize("path", sorted((ROOT / "netcheck" / "compare" / "rules").glob("*.py")), ids=lambda p: p.stem)
def test_every_change_of_a_real_module_compiles_and_differs(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    found = changes(source)
    assert found or path.stem == "__init__"
    assert all(changed(source, change) != source for change in found)
    sound = [change for change in found if compiles(source, change)]
    assert not found or len(sound) > len(found) // 2
    for change in sound:
        compile(changed(source, change), path.name, "exec")


def test_a_mutant_is_told_dead_from_alive(tmp_path: Path) -> None:
    tests = ["tests/test_core_article.py"]
    module = "netcheck/core/article.py"
    sound = (ROOT / module).read_text(encoding="utf-8")
    found = [c for c in changes(sound) if compiles(sound, c) and not c.at_import][:3]
    with Workshop(tmp_path / "copy", tests) as shop:
        early = Try(module, sound, "raise ValueError\n", ["tests/test_core_article.py::none"], 60, cold=True)
        assert shop.tried(early).red  # what is changed before the tests are collected is in no later run
        running = shop.watched().importing(module)
        assert running
        for cold in (False, True):
            assert not shop.tried(Try(module, sound, sound, running, 60, cold=cold)).red
        warm = [shop.tried(Try(module, sound, changed(sound, c), running, 60)).red for c in found]
        assert any(warm)
        assert warm == [shop.tried(Try(module, sound, changed(sound, c), running, 60, cold=True)).red for c in found]
    assert (tmp_path / "copy" / module).read_text(encoding="utf-8") == sound


@pytest.mark.parametrize(("line", "begins"), [(16, 16), (13, 13), (7, 7)])
def test_the_statement_of_a_line(line: int, begins: int) -> None:
    found = statement_of(ast.parse(MODULE), line, line)
    assert found is not None
    assert found.lineno == begins


def test_only_a_private_constant_of_functions_is_given_a_value() -> None:
    tree = ast.parse("_A = 1\n_B = 2\nC = _B\nD = 3\n\n\ndef lug() -> int:\n    return _A + _B\n")
    assert [private_constant(tree, statement) for statement in tree.body] == ["_A", None, None, None, None]


def test_a_record_is_good_for_the_project_that_was_watched_alone(tmp_path: Path) -> None:
    (tmp_path / "netcheck").mkdir()
    module = tmp_path / "netcheck" / "lug.py"
    module.write_text("FREE = 1\n", encoding="utf-8")
    watched = noted({
        "slow": (2.0, ["netcheck/lug.py:3", "netcheck/lug.py:4"]),
        "quick": (1.0, ["netcheck/lug.py:3"]),
        "other": (0.5, ["netcheck/pin.py:3"]),
    })  # fmt: skip
    assert watched.running("netcheck/lug.py", 3) == ["quick", "slow"]
    assert watched.running("netcheck/lug.py", 4) == ["slow"]
    assert watched.importing("netcheck/lug.py") == ["quick", "slow"]
    assert watched.importing("netcheck/pot.py", "netcheck/lug.py") == ["quick", "slow"]
    assert watched.importing("netcheck/lu") == []
    assert watched.running("netcheck/lug.py", 5) == []

    file, tests = tmp_path / "record.json", ["tests/test_a.py"]
    assert kept(file, state(tmp_path, tests)) is None
    keep(watched, file, state(tmp_path, tests))
    assert kept(file, state(tmp_path, tests)) == watched
    assert kept(file, state(tmp_path, ["tests/test_b.py"])) is None
    module.write_text("FREE = 2\n", encoding="utf-8")
    assert kept(file, state(tmp_path, tests)) is None


def test_every_module_of_the_package_is_in_one_room() -> None:
    package = ROOT / "netcheck"
    rooms = [".", *(path.name for path in package.iterdir() if (path / "__init__.py").exists())]
    assert sorted(path for room in rooms for path in modules(room)) == sorted(package.rglob("*.py"))
    assert {path.parent for path in modules(".")} == {package}


def test_a_room_is_narrowed_to_its_modules_and_folders() -> None:
    whole = modules("reports", ["whole"])
    assert {path.parent.name for path in whole} == {"whole"}
    assert [path.name for path in modules("reports", ["junit.py"])] == ["junit.py"]


def test_a_slow_test_keeps_no_quick_one_from_its_turn() -> None:
    seconds = {"a::1": 0.1, "a::2": 0.2, "a::3": 0.3, "b::1": 5.0, "b::2": 6.0}
    watched = noted({test: (each, ["netcheck/lug.py:3"]) for test, each in seconds.items()})
    tests = watched.running("netcheck/lug.py", 3)
    assert within(watched, tests, 20.0) == ["a::1", "b::1", "a::2", "b::2", "a::3"]
    assert within(watched, tests, 5.6) == ["a::1", "b::1", "a::2", "a::3"]
    assert within(watched, tests, 0.35) == ["a::1", "a::2"]
    assert within(watched, tests, 0.05) == ["a::1"]


def test_what_bears_the_subjects_name_has_half_the_time() -> None:
    seconds = {"a::1": 0.1, "b::hot-metal 1": 0.4, "b::hot-metal 2": 0.4, "c::1": 0.2}
    watched = noted({test: (each, ["netcheck/rules/hot_metal.py:3"]) for test, each in seconds.items()})
    tests = watched.running("netcheck/rules/hot_metal.py", 3)
    assert within(watched, tests, 1.0, "hot_metal") == ["b::hot-metal 1", "a::1", "c::1"]
    assert within(watched, tests, 2.0, "hot_metal") == ["b::hot-metal 1", "b::hot-metal 2", "a::1", "c::1"]
    assert within(watched, tests, 1.0, "cold_metal") == ["a::1", "c::1", "b::hot-metal 1"]
