"""What the work touched between two states: points whose joints or parts are not what they were."""

from collections.abc import Iterator

from netcheck.core.circuit import Circuit, How, Join
from netcheck.model.points import lead_name

__all__ = ["touched"]


def touched(old: Circuit, new: Circuit) -> frozenset[str]:
    """Names of points in the new state: ends of joints made or undone, all leads of parts that came or changed.

    Where the two files are both written from the chassis, other spellings of the same joints count as touched too.
    """
    before, after = _joints(old), _joints(new)
    ends = {name for joint in before ^ after for name in joint}
    return frozenset(name for name in (*ends, *_changed(old, new)) if name in new.index)


def _joints(circuit: Circuit) -> set[frozenset[str]]:
    return {_named(circuit, join) for join in circuit.joins if join.how is not How.INSIDE and join.a != join.b}


def _named(circuit: Circuit, join: Join) -> frozenset[str]:
    return frozenset((circuit.points[join.a].name, circuit.points[join.b].name))


def _changed(old: Circuit, new: Circuit) -> Iterator[str]:
    for name, part in new.parts.items():
        was = old.parts.get(name)
        if part.shape is not None and (was is None or was.features.quantities != part.features.quantities):
            yield from (lead_name(part, terminal.name) for terminal in part.leads)
