"""A kind is asked what it does and how it is held, never what it is called: under other names all is said as before.

So a new kind takes its place in every rule and engine as soon as its module says what it is.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from netcheck.bench.plan import plan_of
from netcheck.comparison import two_states
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.kind import PartKind
from netcheck.electrical.table.supply import supply
from netcheck.engine.run import run
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.parts import KINDS, SOCKET
from netcheck.rules import RULES
from netcheck.system.files import read, reader

ROOT = Path(__file__).parents[1]
SAMPLES = sorted(path.name for path in (ROOT / "samples").iterdir())
SIGN = "\N{DAGGER}"
DISGUISED = {kind.word: replace(kind, word=kind.word + SIGN) for kind in (*KINDS.values(), SOCKET)}

TERMINALS = {"can", "lug"}  # words of kinds that are names of terminals as well
# The rooms that read and print the words of kinds; all others ask for facts.
OF_WORDS = {"language", "parts", "start"}
MODULES = [
    path
    for path in sorted((ROOT / "netcheck").rglob("*.py"))
    if path.relative_to(ROOT / "netcheck").parts[0] not in OF_WORDS
]


def disguised(circuit: Circuit) -> Circuit:
    """The same circuit, the kinds of its parts under names that nobody knows."""
    parts = {name: replace(part, kind=DISGUISED[part.kind.word]) for name, part in circuit.parts.items()}
    return replace(circuit, parts=parts)


def built(sample: str, state: str) -> Circuit:
    first, second = (read(ROOT / "samples" / sample / f"{name}.netck") for name in ("original", state))
    circuit, _ = build(second, reader(first, second))
    assert circuit is not None
    return circuit


def plainly(value: object) -> str:
    return str(value).replace(SIGN, "")


def said(diagnostics: tuple[Diagnostic, ...]) -> list[tuple[object, ...]]:
    return [(d.rule, d.grade, *map(plainly, (d.headline, d.why, d.do, d.touched, d.mends))) for d in diagnostics]


@pytest.mark.parametrize("sample", SAMPLES)
def test_rules_engines_and_sheets_know_no_kind_by_name(sample: str) -> None:
    circuit = built(sample, "faulty")
    plain, strange = CircuitGraph(circuit), CircuitGraph(disguised(circuit))
    assert said(run(RULES, strange)) == said(run(RULES, plain))
    assert plainly(supply(strange)) == plainly(supply(plain))
    plans = [plan_of(graph) for graph in (strange, plain)]
    assert plainly(plans[0].conditions) == plainly(plans[1].conditions)
    assert plainly(plans[0].steps) == plainly(plans[1].steps)


@pytest.mark.parametrize("sample", SAMPLES)
def test_a_comparison_knows_no_kind_by_name(sample: str) -> None:
    old, new = built(sample, "original"), built(sample, "faulty")
    plain = two_states(old, new, ("a", "b"), ())
    strange = two_states(disguised(old), disguised(new), ("a", "b"), ())
    assert said(strange.diagnostics) == said(plain.diagnostics)
    assert (strange.closing, strange.cautions) == (plain.closing, plain.cautions)


def named(path: Path) -> Iterator[str]:
    """Where a module holds something against the word of a kind, or keeps a table by such words."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Compare) and any(_is_word(side) for side in (node.left, *node.comparators)):
            yield ast.unparse(node)
        listed = node.elts if isinstance(node, ast.Tuple | ast.List | ast.Set) else []
        keys = [key for key in node.keys if key is not None] if isinstance(node, ast.Dict) else []
        words = [one.value for one in (*listed, *keys) if isinstance(one, ast.Constant) and one.value in KINDS]
        words = [word for word in words if word not in TERMINALS]
        if len(words) > 1:
            yield ", ".join(map(str, words))


def _is_word(node: ast.expr) -> bool:
    """Whether it is ``kind.word``, or the word of a kind that is the name of no terminal."""
    if isinstance(node, ast.Constant):
        return node.value in KINDS and node.value not in TERMINALS
    return isinstance(node, ast.Attribute) and node.attr == "word" and ast.unparse(node.value).endswith("kind")


def test_no_room_keeps_a_table_of_kinds() -> None:
    found = {path.relative_to(ROOT / "netcheck").as_posix(): list(named(path)) for path in MODULES}
    assert {name: kept for name, kept in found.items() if kept} == {}


def test_a_table_of_kinds_is_found() -> None:
    kind: PartKind = KINDS["fuse"]
    assert kind.word == "fuse"
    tree = ROOT / "tests" / "test_kinds_by_facts.py"
    assert any("kind.word" in found for found in named(tree))
