"""The capacitors that a rectifier tube charges directly, held against what its type takes."""

from collections.abc import Iterator
from decimal import Decimal

from msgspec import Struct

from netcheck.compare.bands import OutOfBand, verdict
from netcheck.compare.pair import Pair
from netcheck.compare.roles.reduction import Reduced, reduced
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Grade
from netcheck.core.kind import Family, Standing
from netcheck.core.quantity import Dimension
from netcheck.electrical.tube_data import FirstCapacitor, first_capacitor_of
from netcheck.model.graph import CircuitGraph

__all__ = ["TooLarge", "overloads"]

_TOLERANCE = Decimal("1.2")  # a capacitor's own; 22 mfd for 20 is the same part


class TooLarge(Struct, frozen=True):
    """More capacitance behind a rectifier tube than its type takes, and more than there was.

    ``new`` are the parts that make it up, ``old`` those in whose place they are (none for added ones); the
    amounts are totals in farads.
    """

    tube: Part
    old: tuple[Part, ...]
    new: tuple[Part, ...]
    then: Decimal
    now: Decimal
    limit: FirstCapacitor
    grade: Grade


class _Load(Struct, frozen=True):
    old: tuple[Part, ...]
    new: tuple[Part, ...]
    then: Decimal
    now: Decimal
    verdict: OutOfBand | None = None


def overloads(pair: Pair) -> Iterator[TooLarge]:
    """One for each rectifier tube of the rewired state that charges too much now.

    Where the value is out of its band as well, this is the graver of the two and the only one told; a decade
    slip is left to the comparison of values.
    """
    for tube in pair.real.circuit.parts.values():
        limit = first_capacitor_of(tube.features.type) if tube.kind.family is Family.TUBE else None
        found = _overload(pair, tube, limit) if limit is not None else None
        if found is not None:
            yield found


def _overload(pair: Pair, tube: Part, limit: FirstCapacitor) -> TooLarge | None:
    before = _tube_before(pair, tube)
    loads = [*_loads(pair, tube, before), *_added(pair, tube)]
    then, now = sum((load.then for load in loads), Decimal(0)), sum((load.now for load in loads), Decimal(0))
    had = first_capacitor_of(before.features.type) if before is not None else None
    weaker = before is not None and (had is None or had.most > limit.most)
    verdicts = [load.verdict for load in loads if load.verdict is not None]
    if now <= limit.most or not (now > then or weaker) or any(v.decade for v in verdicts):
        return None
    if now <= limit.most * _TOLERANCE:
        if verdicts:
            return None
        grade = Grade.NOTE
    else:
        own = Grade.STOP if limit.standing is Standing.SOURCE else Grade.LOOK
        grade = min((own, *(v.grade for v in verdicts)), key=lambda s: s.rank)
    old, new = ([part for load in loads for part in load.old], [part for load in loads for part in load.new])
    return TooLarge(tube, tuple(old), tuple(new), then, now, limit, grade)


def _tube_before(pair: Pair, tube: Part) -> Part | None:
    olds = [part for roles in pair.pairing.pairs if tube in roles.new for part in roles.old]
    return next((part for part in olds if part.kind.family is Family.TUBE), None)


def _loads(pair: Pair, tube: Part, before: Part | None) -> Iterator[_Load]:
    """The roles whose plus is at the tube's cathode in both states; one that came there by mistake is no load."""
    now = _cathode(pair.real, tube)
    was = _cathode(pair.original, before) if before is not None else None
    for roles in pair.pairing.pairs:
        if not roles.new[0].kind.family.stores or roles.old[0] is roles.new[0]:
            continue
        new = reduced(roles.new, pair.real)
        if new is None or new.amount is None or not _begins(pair.real, new, now):
            continue
        old = reduced(roles.old, pair.original)
        if old is None or old.amount is None or not (was is None or _begins(pair.original, old, was)):
            continue
        told = verdict(roles.old[0], Dimension.CAPACITANCE, old.amount, new.amount)
        yield _Load(roles.old, roles.new, old.amount, new.amount, told)


def _added(pair: Pair, tube: Part) -> Iterator[_Load]:
    nets = _cathode(pair.real, tube)
    for part in pair.real.circuit.parts.values():
        new = part.added is not None or part.name in pair.original.circuit.parts
        if not part.kind.family.stores or part.name in pair.source.parts or part.replaces or not new:
            continue
        one = reduced((part,), pair.real)
        if one is not None and one.amount is not None and _begins(pair.real, one, nets):
            yield _Load((), (part,), Decimal(0), one.amount)


def _begins(graph: CircuitGraph, one: Reduced, nets: frozenset[int]) -> bool:
    """Whether a capacitor's plus, or either end where it has none, is on one of the nets and the other is not."""
    first, second = (graph.circuit.nets[end] in nets for end in one.ends)
    return first != second and (first or not one.polarised)


def _cathode(graph: CircuitGraph, tube: Part) -> frozenset[int]:
    """The nets of a tube's cathodes, or of its filament and the winding that feeds it; closed fuses are wire."""
    nets = _electrodes(graph, tube, "cathode")
    if not nets:
        nets = _electrodes(graph, tube, "heater")
        nets |= {net for winding in _windings(graph) if winding & nets for net in winding}
    for part in graph.circuit.parts.values():
        ends = {graph.circuit.nets[at] for at in graph.terminals(part)} if part.kind.family.closes else set()
        if len(ends) == 2 and ends & nets:
            nets |= ends
    return frozenset(nets)


def _electrodes(graph: CircuitGraph, tube: Part, word: str) -> set[int]:
    found = set()
    for at in graph.terminals(tube):
        terminal = graph.point(at).terminal
        if terminal is not None and any(n.startswith(word) for n in (terminal.electrode, *terminal.aliases)):
            found.add(graph.circuit.nets[at])
    return found


def _windings(graph: CircuitGraph) -> Iterator[set[int]]:
    index = graph.circuit.index
    for part in graph.circuit.parts.values():
        for _, leads in part.features.windings if part.kind.family is Family.TRANSFORMER else ():
            yield {graph.circuit.nets[index[f"{part.name}.{lead}"]] for lead in leads}
