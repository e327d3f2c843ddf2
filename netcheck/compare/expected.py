"""What the rewired state is to be compared with: the original with the declared changes made to it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from netcheck.compare.faults import SHORT
from netcheck.core.circuit import Circuit, How, Intended, Join, Part, Point
from netcheck.core.diagnostic import Label, Severity
from netcheck.core.source import Place
from netcheck.engine.rule import Finding
from netcheck.model.closure import closure
from netcheck.model.points import lead_name

__all__ = ["Expected", "expected", "shorted"]


@dataclass(frozen=True, slots=True)
class Expected:
    """The original as it should be now, and the declared changes that change nothing."""

    circuit: Circuit
    idle: tuple[Finding, ...]


def expected(original: Circuit, rewired: Circuit) -> Expected:
    """Applies the rewired file's removals and intended changes to the original."""
    circuit = original
    idle: list[Finding] = []
    for removal in rewired.removals:
        part = original.parts.get(removal.part)
        if removal.bridged and part is not None:
            circuit = _bridged(circuit, part, removal.place)
    for intent in rewired.intended:
        if intent.place.source.name in original.sources:
            continue
        changed = _with(circuit, rewired, intent)
        if changed is None:
            idle.append(replace(_idle(intent, "speaks of no point of the original"), severity=Severity.ERROR))
            continue
        if changed.nets[: len(circuit.nets)] == circuit.nets:
            idle.append(_idle(intent, "changes nothing in the original"))
        circuit = changed
    return Expected(circuit, tuple(idle))


def shorted(rewired: Circuit, original: Circuit) -> Circuit:
    """The rewired state with every part that is ``inserted`` bridged, so that it must equal the original."""
    joins = list(rewired.joins)
    for part in rewired.parts.values():
        if part.inserted is None or part.name in original.parts or len(part.leads) != 2:
            continue
        a, b = (rewired.index[lead_name(part, t.name)] for t in part.leads)
        if rewired.nets[a] != rewired.nets[b]:
            joins.append(Join(a, b, How.WIRE, part.place, part.place, f"{SHORT}{part.name}"))
    if len(joins) == len(rewired.joins):
        return rewired
    return replace(rewired, joins=tuple(joins), nets=closure(len(rewired.points), joins))


def _bridged(circuit: Circuit, part: Part, place: Place) -> Circuit:
    ends = [circuit.index[lead_name(part, t.name)] for t in part.leads]
    if len(ends) != 2:
        return circuit
    return _closed(circuit, (*circuit.joins, Join(ends[0], ends[1], How.WIRE, place, place)))


def _closed(circuit: Circuit, joins: tuple[Join, ...], points: tuple[Point, ...] | None = None) -> Circuit:
    points = points or circuit.points
    return replace(circuit, points=points, joins=joins, nets=closure(len(points), joins))


def _with(circuit: Circuit, rewired: Circuit, intent: Intended) -> Circuit | None:
    """The circuit after one intended change; None where it has no point to change."""
    found = [_in_original(circuit, rewired, name) for name in intent.points]
    known = [at for at in found if at is not None]
    if intent.verb == "lift":
        return _lifted(circuit, known) if known else None
    if intent.verb == "move":
        point, to = found
        if point is None or to is None:
            return None
        lifted = _lifted(circuit, [point])
        return _closed(lifted, (*lifted.joins, Join(to, point, How.SOLDERED, intent.place, intent.place)))
    if len(known) < 2:
        return None
    if intent.verb == "cut":
        ends = set(known)
        kept = tuple(j for j in circuit.joins if not (j.how is How.WIRE and {j.a, j.b} == ends))
        return _closed(circuit, kept)
    new = tuple(Join(known[0], at, How.SOLDERED, intent.place, intent.place) for at in known[1:])
    return _closed(circuit, (*circuit.joins, *new))


def _lifted(circuit: Circuit, points: list[int]) -> Circuit:
    """The points off everything; what hung on each stays joined."""
    bundles = {at: len(circuit.points) + n for n, at in enumerate(points)}
    names = tuple(Point(f"what hung on {circuit.points[at].name}") for at in points)
    joins = tuple(
        j if j.how in (How.INSIDE, How.BOND) else replace(j, a=bundles.get(j.a, j.a), b=bundles.get(j.b, j.b))
        for j in circuit.joins
    )
    return _closed(circuit, joins, (*circuit.points, *names))


def _in_original(original: Circuit, rewired: Circuit, name: str) -> int | None:
    """The original's point for a point of the rewired file: the same, or the one whose role it has."""
    at = original.index.get(name)
    if at is not None:
        return at
    here = rewired.index.get(name)
    part = rewired.parts.get(rewired.points[here].part) if here is not None else None
    terminal = rewired.points[here].terminal if here is not None else None
    if part is None or terminal is None or len(part.replaces) != 1:
        return None
    return next((o for o, n in _replaced(original, part) if n == terminal.name), None)


def _replaced(original: Circuit, part: Part) -> Iterator[tuple[int, str]]:
    old = original.parts.get(part.replaces[0])
    if old is None or old.shape is None or part.shape is None:
        return
    for mine, theirs in zip(part.shape.polarity or (), old.shape.polarity or (), strict=False):
        yield original.index[lead_name(old, theirs)], mine
    for mine_lead, their_lead in zip(part.leads, old.leads, strict=False):
        if mine_lead.key == their_lead.key:
            yield original.index[lead_name(old, their_lead.name)], mine_lead.name


def _idle(intent: Intended, what: str) -> Finding:
    points = ", ".join(f"`{p}`" for p in intent.points[:3])
    return Finding(
        f"the intended {intent.verb} of {points} {what}",
        (Label(intent.place),),
        do="take `intended` away, or write the change that is meant",
    )
