"""The maker of mutants: what it changes in a small module, and that a mutant is told dead from alive."""

from pathlib import Path

import pytest

from tests.mutants.changes import changed, changes, compiles
from tests.mutants.watched import Watched, keep, kept, state
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
    shop = Workshop(tmp_path / "copy")
    module = "netcheck/core/article.py"
    sound = (ROOT / module).read_text(encoding="utf-8")
    watched = shop.watched("core", ["tests/test_core_article.py"], 0)
    tests = watched.running(module)
    assert tests
    assert not shop.tried(module, sound, tests, 60).red
    found = [shop.tried(module, changed(sound, c), tests, 60) for c in changes(sound)[:2]]
    assert any(outcome.red for outcome in found)
    assert (tmp_path / "copy" / module).read_text(encoding="utf-8") == sound


def test_a_record_is_good_for_the_project_that_was_watched_alone(tmp_path: Path) -> None:
    (tmp_path / "netcheck").mkdir()
    module = tmp_path / "netcheck" / "lug.py"
    module.write_text("FREE = 1\n", encoding="utf-8")
    watched = Watched(
        {"tests/test_a.py::x": 2.0, "tests/test_a.py::y": 1.0, "tests/test_b.py::z": 0.5},
        {"tests/test_a.py::x": [0, 1], "tests/test_a.py::y": [0], "tests/test_b.py::z": [1]},
        [("netcheck/lug.py", 0b1110), ("netcheck/lug.py", 0b110000)],
    )
    file = tmp_path / "record.json"
    assert kept(file, state(tmp_path), ["tests/test_a.py"]) is None
    keep(watched, file, state(tmp_path), ["tests/test_a.py", "tests/test_b.py"])

    both = kept(file, state(tmp_path), ["tests/test_b.py", "tests/test_a.py"])
    assert both is not None
    assert both.running("netcheck/lug.py", 3, 3) == ["tests/test_a.py::y", "tests/test_a.py::x"]
    assert both.running("netcheck/lug.py", 4, 4) == ["tests/test_b.py::z", "tests/test_a.py::x"]
    assert len(both.running("netcheck/lug.py")) == len(watched.seconds)
    assert not both.running("netcheck/lug.py", 6)
    one = kept(file, state(tmp_path), ["tests/test_b.py"])
    assert one is not None
    assert one.running("netcheck/lug.py") == ["tests/test_b.py::z"]

    assert kept(file, state(tmp_path), ["tests/test_c.py"]) is None
    module.write_text("FREE = 2\n", encoding="utf-8")
    assert kept(file, state(tmp_path), ["tests/test_b.py"]) is None
