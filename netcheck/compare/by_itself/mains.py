"""What the rewired state says of the line by itself, seen beside the original: a path to the chassis, new or old."""

from collections.abc import Iterable
from itertools import chain

from netcheck.compare.pair import Pair
from netcheck.compare.words.rewording import as_designed, beside, reordered, until_then
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import About, Diagnostic, Grade
from netcheck.core.kind import Family
from netcheck.electrical.mains.leak_orders import InOriginal, leak_order, shown_ways
from netcheck.electrical.mains.leak_words import milliamperes
from netcheck.electrical.mains.leakage import Leak, leaks
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.mains.line_parts import LinePosition, on_line
from netcheck.model.graph import CircuitGraph

__all__ = ["beside_the_original"]

_WORSE = 1.25  # times the original's current; less comes of a value rounded to what is sold now

Told = tuple[Diagnostic, ...]


def beside_the_original(pair: Pair, old: Circuit, found: Told, own: Iterable[Diagnostic]) -> tuple[Told, Told]:
    """The comparison's findings, and the rewired state's own, fitted to each other where they are about the line.

    A path to the chassis that the original has too becomes a NOTE. One that lies on what a finding is about is told
    in that finding: one slip, one finding. Any other stays what it is, with the original's current beside it.

    While there are faults, what they put on the line, or behind its fuse, is no finding: only what the original has in
    that place is held against it.
    """
    before = {leak.metal: leak for leak in leaks(CircuitGraph(old))}
    now = {leak.metal: leak for leak in leaks(pair.real)}
    kept: list[Diagnostic] = []
    for diagnostic in own:
        if About.HOT_METAL not in diagnostic.about:
            kept.extend(() if _is_misplaced(pair, diagnostic) else (diagnostic,))
            continue
        metal = diagnostic.touched.nets[0]
        leak, then = now[metal], before.get(metal)
        made = None if _was_so(pair, leak, then) else _maker(pair, found, leak)
        if made is None:
            kept.append(_placed(pair, old, diagnostic, (leak, then)))
        else:
            found = tuple(until_then(d, diagnostic) if d is made else d for d in found)
    return found, tuple(kept)


def _is_misplaced(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether a fault may have brought a part to where a rule of the line meets it."""
    if not pair.faults or About.LINE not in diagnostic.about:
        return False
    if About.LINE_FUSE in diagnostic.about:
        return True
    was, now = _stands(pair.original), _stands(pair.real)
    parts = pair.real.circuit.parts
    mine = [parts[name] for name in diagnostic.touched.parts if name in parts]
    return not any(was.get(old) is now[part.name] for part in mine for old in (part.name, *part.replaces))


def _stands(graph: CircuitGraph) -> dict[str, LinePosition]:
    """Where each capacitor on the line stands."""
    line = line_of(graph)
    return {} if line is None else {found.part.name: found.place for found in on_line(graph, line)}


def _was_so(pair: Pair, leak: Leak, then: Leak | None) -> bool:
    """Whether the set was made so: the original has the joint, or as much current through the same parts."""
    if then is None:
        return False
    if leak.on_neutral or leak.is_joint:
        return then.on_neutral or then.is_joint
    return then.is_over and leak.amperes <= then.amperes * _WORSE and _by_the_same(pair, leak, then)


def _by_the_same(pair: Pair, leak: Leak, then: Leak) -> bool:
    """Whether the current comes through parts that let it through in the original too, or that stand for those."""
    was = {way.part for way in then.ways}
    role = {new.name: {old.name for old in roles.old} for roles in pair.pairing.pairs for new in roles.new}
    parts = pair.real.circuit.parts
    return all(
        not was.isdisjoint((way.part, *parts[way.part].replaces, *role.get(way.part, ()))) for way in shown_ways(leak)
    )


def _placed(pair: Pair, old: Circuit, diagnostic: Diagnostic, found: tuple[Leak, Leak | None]) -> Diagnostic:
    """What the rewired state says of a metal, by what the original has there."""
    leak, then = found
    if _was_so(pair, leak, then):
        return as_designed(reordered(diagnostic, leak_order(pair.real, leak, InOriginal.THERE), diagnostic.mends))
    was = "nothing" if then is None or not then.amperes else milliamperes(then.amperes)
    original = InOriginal.UNKNOWN if _may_stay(pair, old, leak) else InOriginal.ABSENT
    order = leak_order(pair.real, leak, original)
    return beside(reordered(diagnostic, order, diagnostic.mends), f"in the original it is {was}")


def _may_stay(pair: Pair, old: Circuit, leak: Leak) -> bool:
    """Whether the original has what the current passes: a part, or the joint; without a cord, its returns say that."""
    if leak.is_joint:
        graph = CircuitGraph(old)
        joined = any(each.metal == leak.metal and each.is_joint for each in leaks(graph))
        return joined or (line_of(graph) is None and old.common == leak.metal)
    ways = [pair.real.circuit.parts[way.part] for way in leak.ways]
    others = [part for part in ways if part.kind.family is not Family.CAPACITOR]
    return any(name in old.parts for part in others for name in (part.name, *part.replaces))


def _maker(pair: Pair, found: Told, leak: Leak) -> Diagnostic | None:
    """The finding whose fault lets the current through.

    A bridge on the way; else of a part on the largest way, the nearest to the metal, or on another; else one that
    speaks of a net on the way, or of the line from which every way starts; else, where nothing but a joint can have
    opened the way, the first.
    """
    # A part that is too weak, or the other way round, lets no more current of the line through.
    joints = [d for d in found if d.grade is Grade.STOP and not d.about & (About.RATING | About.POLARITY)]
    bridge = next((d for d in joints if About.BRIDGE in d.about and leak.nets.issuperset(_nets(pair, d))), None)
    if bridge is not None:
        return bridge
    kept_back = leak.ways[0].part if leak.ways else ""
    for part in (*leak.parts, *(way.part for way in leak.ways)):
        for grave in joints:
            if part in grave.touched.parts and (About.VALUE not in grave.about or part == kept_back):
                return grave
    on_way = {pair.real.net_names[net] for net in leak.nets}
    bridges = (d for d in joints if len(d.touched.nets) > 1 and on_way.issuperset(d.touched.nets))
    crossing = (d for d in joints if _crosses(pair, d, leak))
    moved = (d for d in joints if About.VALUE not in d.about and _is_of_joints(pair, found, leak))
    return next(chain(bridges, crossing, moved), None)


def _crosses(pair: Pair, grave: Diagnostic, leak: Leak) -> bool:
    line = line_of(pair.real)
    nets = leak.nets.union(*(side.nets for side in line.sides)) if line is not None else leak.nets
    return not nets.isdisjoint(_nets(pair, grave)) or any(pair.real.net_names[n] in grave.touched.nets for n in nets)


def _nets(pair: Pair, grave: Diagnostic) -> frozenset[int]:
    """The nets of the leads that a finding speaks of."""
    circuit = pair.real.circuit
    return frozenset(circuit.net_of(name) for name in grave.touched.leads if name in circuit.index)


def _is_of_joints(pair: Pair, found: Told, leak: Leak) -> bool:
    """Whether all that the current passes is in the original too, with the same values."""
    known = {new.name for roles in pair.pairing.pairs if roles.old for new in roles.new}
    revalued = {name for d in found if About.VALUE in d.about for name in d.touched.parts}
    return bool(pair.faults) and all(way.part in known - revalued for way in leak.ways)
