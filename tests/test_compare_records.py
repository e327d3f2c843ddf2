"""What one stage hands to the next is what its record says: no list for a tuple, no set for a yes or no."""

from collections.abc import Mapping, Sequence
from enum import Enum
from functools import cache
from itertools import repeat
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import pytest
from msgspec import Struct

from netcheck.compare.faults.account import accounted
from netcheck.compare.faults.doubts import doubtful_nets
from netcheck.compare.faults.inserted import Bridged
from netcheck.compare.faults.search import explained
from netcheck.compare.faults.suspects import suspected
from netcheck.compare.pair import Pair
from netcheck.compare.pair import compared as pair_of
from netcheck.core.panel import Panel
from tests.paper import circuit, compared
from tests.whole import cases

CASES = [(f"{file}: {title}", original, rewired) for file, title, original, rewired, _ in cases()]
MANY = {tuple: tuple, Sequence: tuple, frozenset: frozenset}
PLAIN = (str, int, bool, NoneType, Enum)
LATE = {"Bridged": Bridged, "Panel": Panel}  # named where they are not imported


def flaws(record: Struct) -> list[str]:
    """The fields of a record, and of the records in it, whose value is not what the annotation says."""
    hints = _hints(type(record))
    wrong = [name for name in record.__struct_fields__ if not _fits(getattr(record, name), hints[name])]
    return [f"{type(record).__name__}.{name}: {getattr(record, name)!r}" for name in wrong]


def _fits(value: object, hint: Any) -> bool:  # noqa: ANN401 - any annotation
    kind, inner = get_origin(hint) or hint, get_args(hint)
    if kind in (Union, UnionType):
        return any(_fits(value, each) for each in inner)
    if kind in MANY:
        every = inner if Ellipsis not in inner else inner[:1]
        return isinstance(value, MANY[kind]) and all(map(_fits, value, every if len(every) > 1 else repeat(*every)))
    if not isinstance(kind, type) or not issubclass(kind, (Struct, Mapping, *PLAIN)):
        return True  # a graph is no record
    is_one = isinstance(value, kind) and not (kind is int and isinstance(value, bool))
    return is_one and not (isinstance(value, Struct) and flaws(value))


@cache
def _hints(kind: type[Struct]) -> dict[str, Any]:
    return get_type_hints(kind, localns=LATE)


def paired(original: str, rewired: str) -> Pair:
    return pair_of(circuit(original), circuit(rewired, original=original))


@pytest.mark.parametrize(("original", "rewired"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_what_is_handed_on_is_what_its_record_says(original: str, rewired: str) -> None:
    assert flaws(compared(original, rewired)) == []
    assert flaws(paired(original, rewired)) == []


@pytest.mark.parametrize(("original", "rewired"), [case[1:] for case in CASES[::4]], ids=[c[0] for c in CASES[::4]])
def test_what_is_suspected_is_what_its_record_says(original: str, rewired: str) -> None:
    pair = paired(original, rewired)
    assert pair.outcome is not None
    account = accounted(pair.outcome.table, pair.real.circuit)
    nets = doubtful_nets(account, pair.original.circuit)
    slips = list(suspected(account, nets, pair.original)) if nets else []
    records = [account, explained(pair.outcome.table, account), *slips]
    assert [flaw for record in records for flaw in flaws(record)] == []
