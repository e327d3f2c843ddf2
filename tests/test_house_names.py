"""One name, one thing: what a class is called."""

import importlib
import re
from pathlib import Path

ROOT = Path(__file__).parents[1]
TEXTS = {path.relative_to(ROOT): path.read_text("utf-8") for path in sorted((ROOT / "netcheck").rglob("*.py"))}
OUTSIDE = [path for path in TEXTS if path.parent.name != "language"]
CLASS = re.compile(r"^class (\w+)", re.MULTILINE)
BARE = re.compile(r"^from netcheck\.language\.(?:tree|leaves|measures|plans|sites) import", re.MULTILINE)


def test_a_class_has_its_name_to_itself() -> None:
    """A node of the syntax tree may be called as what it becomes: ``tree.Part`` and ``Part``."""
    nodes = set(importlib.import_module("netcheck.language.tree").__all__)
    names = [name for text in TEXTS.values() for name in CLASS.findall(text)]
    assert {name for name in names if names.count(name) > 1} <= nodes
    outside = [name for path in OUTSIDE for name in CLASS.findall(TEXTS[path])]
    assert len(outside) == len(set(outside))


def test_a_node_is_written_with_its_tree() -> None:
    assert not [path.as_posix() for path in OUTSIDE if BARE.search(TEXTS[path])]
