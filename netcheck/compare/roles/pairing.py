"""Which part of the original is which part of the rewired state, lead by lead.

Where a part of many leads replaces another, leads of equal names are counterparts; one that the new part lacks leaves
the comparison.
"""

from collections.abc import Collection, Iterable, Iterator

from msgspec import Struct

from netcheck.compare.roles.leads import Leads
from netcheck.compare.roles.part_pair import PartPair, Recognised
from netcheck.core.circuit import Circuit, Part
from netcheck.core.difference import Lead
from netcheck.core.kind import Family, Seat
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["Pairing", "PartPair", "pair_parts"]


class Pairing(Struct, frozen=True):
    """The roles of two circuits.

    ``leads`` are compared; ``free`` are pairs of them (by index) whose new ends may change places. ``missing``
    and ``extra`` parts have no counterpart and no declared reason; ``removed`` were taken out with a reason,
    ``dead`` are replaced parts still in place; ``unjoined`` are declared and joined to nothing; ``uncovered``
    counts the pairs that ``covers`` leaves out; ``irreducible`` groups are not worth one two-lead part.
    ``unseated`` are electrodes of a replaced tube (points of the original) that nothing takes, ``unsaid`` the leads
    of new parts (points of the rewired state) of which nothing says where they belong.
    ``recognised`` are pairs found by structure though their names differ, ``undecided`` old parts not told apart.
    """

    pairs: tuple[PartPair, ...]
    leads: tuple[Lead, ...]
    free: tuple[tuple[int, int], ...]
    missing: tuple[Part, ...] = ()
    extra: tuple[Part, ...] = ()
    removed: tuple[Part, ...] = ()
    dead: tuple[Part, ...] = ()
    unjoined: tuple[Part, ...] = ()
    uncovered: int = 0
    irreducible: tuple[PartPair, ...] = ()
    unseated: tuple[tuple[PartPair, tuple[int, ...]], ...] = ()
    unsaid: tuple[tuple[Part, tuple[int, ...]], ...] = ()
    covered: frozenset[str] | None = None
    recognised: tuple[tuple[Part, Part], ...] = ()
    undecided: tuple[Part, ...] = ()

    def covers(self, leads: Iterable[Lead]) -> bool:
        """Whether one of some leads is in the scope; without ``covers`` everything is.

        A lead in the scope is compared with all others: what left its net, and what came upon it.
        """
        if self.covered is None:
            return True
        return any(
            not self.covered.isdisjoint((lead.name, lead.old_name, lead.part, lead.old_part, _can(lead.old_part)))
            for lead in leads
            if lead.part
        )


def _can(part: str) -> str:
    """The can that a section's name begins with."""
    return part[:-1]


def pair_parts(old_graph: CircuitGraph, new_graph: CircuitGraph) -> Pairing:
    """Pairs by name and by ``replaces``; scope and removals as the rewired file declares them."""
    original, rewired = old_graph.circuit, new_graph.circuit
    claimed = {name: part for part in rewired.parts.values() for name in part.replaces}
    whole = {name for part in rewired.parts.values() for name in set(part.replaces) - set(part.electrodes)}
    pairs = [*_replacing(original, rewired), *_named(original, rewired, whole)]
    entered = {name for name, part in original.parts.items() if rewired.parts.get(name) is part}
    covered = _coverage(original, rewired)
    reasons = {r.part: r.reason for r in rewired.removals}
    names = {part.name for pair in pairs for part in pair.old}
    missed = [p for p in original.parts.values() if p.name not in entered and _is_element(p)]
    lost = [p for p in missed if p.name not in names and not reasons.get(p.name)]
    more = list(_extra(original, rewired, None))
    met = _recognised(old_graph, new_graph, pairs, lost, more) if lost and more else Recognised(())
    pairs.extend(PartPair((old,), (new,)) for old, new in met.pairs)
    known = {new.name for _, new in met.pairs}
    inside = [pair for pair in pairs if covered is None or _is_covered(pair, covered)]
    unjoined = tuple(
        pair.new[0]
        for pair in inside
        if len(pair.new) == 1
        and not _is_silicon_for_tube(pair)  # its electrodes are missed one by one
        and _is_unjoined(pair.new[0], new_graph)
        and any(_was_joined(old, old_graph) for old in pair.old)
    )
    paired = {part.name for pair in pairs for part in pair.old}
    unpaired = [p for p in missed if p.name not in paired]
    if covered is not None:
        unpaired = [p for p in unpaired if p.name in covered or p.host in covered]
    gathered = Leads(old_graph, new_graph)
    bare = {part.name for part in unjoined}
    scope = {pair.new[0].name for pair in inside}
    for pair in pairs:
        if pair.new[0].name not in bare:
            gathered.add(pair, context=pair.new[0].name not in scope)
    for part in _new_parts(original, rewired, entered, covered):
        if part.name not in bare:
            gathered.add_unsaid(part)
    return Pairing(
        pairs=tuple(inside),
        leads=tuple(gathered.leads),
        free=tuple(gathered.free),
        missing=tuple(p for p in unpaired if not reasons.get(p.name)),
        extra=tuple(p for p in _extra(original, rewired, covered) if p.name not in known),
        removed=tuple(p for p in unpaired if reasons.get(p.name)),
        dead=tuple(old for name in claimed if (old := rewired.parts.get(name)) is not None and _is_element(old)),
        unjoined=unjoined,
        uncovered=len(pairs) - len(inside),
        irreducible=tuple(gathered.irreducible),
        unseated=tuple(gathered.unseated),
        unsaid=tuple(gathered.unsaid),
        covered=covered,
        recognised=met.pairs,
        undecided=met.undecided,
    )


def _recognised(
    original: CircuitGraph, rewired: CircuitGraph, pairs: list[PartPair], lost: list[Part], extra: list[Part]
) -> Recognised:
    """Parts of other names in the same role; most files have none, and this is not loaded."""
    from netcheck.compare.roles.recognise import recognised

    return recognised(
        original, rewired, lost, extra, [(p.old[0], p.new[0]) for p in pairs if len(p.old) == len(p.new) == 1]
    )


def _is_silicon_for_tube(pair: PartPair) -> bool:
    return pair.old[0].kind.family is Family.TUBE and pair.new[0].kind.family is not Family.TUBE


def _is_unjoined(part: Part, graph: CircuitGraph) -> bool:
    """Whether no lead of a part is joined to anything; a section whose lug was lifted is.

    A socket with things on its idle pins is not: that they are on the wrong pins is said pin by pin, or as one.
    """
    loose = graph.loose_leads(part)
    return bool(loose) and len(loose) == len(graph.wanted(part)) and _held_idle(part, graph) < _ON_IDLE_PINS


_ON_IDLE_PINS = 2
"""One idle pin with something on it serves as a tie point; more of them were counted from the wrong pin."""


def _held_idle(part: Part, graph: CircuitGraph) -> int:
    """How many pins of a socket that have no electrode hold something."""
    if part.kind.seat is not Seat.SOCKET or part.shape is None:
        return 0
    ends = set(graph.terminals(part))
    pins = {graph.circuit.index[lead_name(part, name)] for name in part.shape.ordered}
    return sum(1 for pin in pins - ends if graph.joins_at[pin] and not graph.point(pin).is_lead)


def _was_joined(part: Part, graph: CircuitGraph) -> bool:
    """Whether a part shares a net with another one's lead or the chassis."""
    nets = {graph.circuit.nets[at] for at in graph.terminals(part)}
    return any(
        net == graph.circuit.nets[0] or any(graph.point(o).part != part.name for o in graph.leads_on(net))
        for net in nets
    )


def _is_element(part: Part) -> bool:
    return bool(part.leads)


def _replacing(original: Circuit, rewired: Circuit) -> Iterator[PartPair]:
    """Parts joined by ``replaces``, gathered where one claims several or several claim one."""
    groups: list[tuple[set[str], list[Part]]] = []
    for part in rewired.parts.values():
        olds = {name for name in part.replaces if name in original.parts}
        if not olds:
            continue
        group = next((g for g in groups if g[0] & olds), None)
        if group is None:
            groups.append((olds, [part]))
        else:
            group[0].update(olds)
            group[1].append(part)
    for olds, news in groups:
        yield PartPair(tuple(original.parts[name] for name in sorted(olds)), tuple(news))


def _named(original: Circuit, rewired: Circuit, claimed: Collection[str]) -> Iterator[PartPair]:
    for name, old in original.parts.items():
        new = rewired.parts.get(name)
        if new is None or name in claimed or original.parts.keys() & new.replaces:
            continue  # what the original itself put in place of an earlier part is there under its own name
        if _is_element(old) and _is_element(new):
            yield PartPair((old,), (new,))


def _coverage(original: Circuit, rewired: Circuit) -> frozenset[str] | None:
    """The names that ``covers`` gives in either file; None where everything is covered."""
    said = (*original.covers, *rewired.covers)
    return frozenset(name for cover in said for name in cover.points) if said else None


def _is_covered(pair: PartPair, covered: frozenset[str]) -> bool:
    for part in (*pair.old, *pair.new):
        if part.name in covered or part.host in covered:
            return True
    return any(lead_name(p, t.name) in covered for p in pair.old for t in p.leads)


def _extra(original: Circuit, rewired: Circuit, covered: frozenset[str] | None) -> Iterator[Part]:
    for part in rewired.parts.values():
        declared = part.replaces or part.inserted is not None or part.added is not None
        inside = covered is None or part.name in covered or part.host in covered
        if part.name not in original.parts and _is_element(part) and not declared and inside:
            yield part


def _new_parts(
    original: Circuit, rewired: Circuit, entered: Collection[str], covered: frozenset[str] | None
) -> Iterator[Part]:
    """The parts that the original does not have and that say what they are there for, but not in series."""
    for part in rewired.parts.values():
        inside = covered is None or part.name in covered or part.host in covered
        in_place = any(name in original.parts for name in part.replaces)
        declared = part.name in entered or in_place or (part.added is not None and not part.replaces)
        if inside and declared and part.inserted is None and _is_element(part):
            yield part
