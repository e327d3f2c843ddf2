"""Parts that the trade would take for each other, put into classes over both files at once.

There are no fixed steps whose edge could fall between `.05` and `.047`: a value of the old file and one of the new
are of one class when the second is what is fitted for the first. Values hang together through the other file only,
so the classes are as fine as the two files are.
"""

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence

from netcheck.compare.bands import compared_dimensions, picks, verdict
from netcheck.core.circuit import Part

__all__ = ["classes", "kin"]

Value = tuple[Hashable, ...]


def kin(part: Part) -> str:
    """What a part must have in common with its counterpart: its kind, sections and electrolytics being one."""
    return part.kind.trade_word


def classes(old: Sequence[Part], new: Sequence[Part]) -> tuple[list[Hashable], list[Hashable]]:
    """The class of every part of both files; equal classes may stand for each other."""
    leader: dict[Value, Value] = {}
    values = _values(old), _values(new)
    olds, news = _by_kin(old, values[0]), _by_kin(new, values[1])
    for word, ones in olds.items():
        for value, part in ones.items():
            for other, candidate in news.get(word, {}).items():
                if value != other and _fitted(part, candidate):
                    leader[_lead(leader, other)] = _lead(leader, value)
    return [_lead(leader, value) for value in values[0]], [_lead(leader, value) for value in values[1]]


def _values(parts: Sequence[Part]) -> list[Value]:
    """The value of every part; parts that are declared alike have the same features, which are read once."""
    known: dict[tuple[str, int], Value] = {}
    for part in parts:
        if (part.kind.word, id(part.features)) not in known:
            known[part.kind.word, id(part.features)] = _value(part)
    return [known[part.kind.word, id(part.features)] for part in parts]


def _by_kin(parts: Sequence[Part], values: Sequence[Value]) -> dict[str, dict[Value, Part]]:
    """One part of every value, by kin."""
    found: dict[str, dict[Value, Part]] = defaultdict(dict)
    for part, value in zip(parts, values, strict=True):
        found[kin(part)].setdefault(value, part)
    return found


def _value(part: Part) -> Value:
    amounts = [(q.dimension.value, q.amounts) for d in compared_dimensions(part, part) for q in part.features.all_of(d)]
    return kin(part), part.features.type, tuple(amounts)


def _lead(leader: Mapping[Value, Value], value: Value) -> Value:
    while value in leader and leader[value] != value:
        value = leader[value]
    return value


def _fitted(old: Part, new: Part) -> bool:
    """Whether every amount of the new part is one that is fitted for the old one's."""
    if old.features.type != new.features.type:
        return False
    dimensions = compared_dimensions(old, new)
    return bool(dimensions) and all(
        now.amount in picks(dimension, then.amount) or verdict(old, dimension, then.amount, now.amount) is None
        for dimension in dimensions
        for then, now in zip(old.features.all_of(dimension), new.features.all_of(dimension), strict=False)
    )
