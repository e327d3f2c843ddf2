"""One slip of the hands or one dead part, put into a real chassis; what it is called and which parts it is about."""

from dataclasses import dataclass, replace
from random import Random

from netcheck.core.circuit import Circuit
from netcheck.model.graph import CircuitGraph
from tests.bench_campaign.nodal import OPEN, Real, inside_of

__all__ = ["KINDS", "Planted", "planted"]

KINDS = (
    "joint missing", "lead on the lug beside", "leads exchanged", "bridge", "lug on the chassis", "part open",
    "part shorted", "part drifted",
)  # fmt: skip
DRIFTS = (0.3, 0.5, 1.6, 2.5, 5.0)


@dataclass(frozen=True)
class Undo:
    """What makes the fault in a whole chassis: joints opened and made, and other values."""

    opened: tuple[tuple[str, str], ...] = ()
    joined: tuple[tuple[str, str], ...] = ()
    valued: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True)
class Planted:
    """A chassis with a fault: its kind, and the names that an explanation has to have."""

    real: Real
    kind: str
    names: frozenset[str]
    undo: Undo = Undo()

    def alone(self, whole: Real) -> Real | None:
        """The same fault in a chassis without the first; None where it is not possible there."""
        if not set(self.undo.opened) <= set(whole.joints):
            return None
        for joint in self.undo.opened:
            whole = whole.opened(joint)
        for name, ohms in self.undo.valued:
            whole = whole.valued(name, ohms)
        return whole.joined(*self.undo.joined)


def _made(real: Real, kind: str, names: frozenset[str], undo: Undo) -> Planted:
    fault = Planted(real, kind, names, undo)
    made = fault.alone(real)
    return replace(fault, real=made if made is not None else real)


def planted(circuit: Circuit, real: Real, kind: str, random: Random) -> Planted | None:
    """The fault, where the chassis has a place for one of that kind."""
    graph = CircuitGraph(circuit)
    joints = [joint for joint in real.joints if joint not in inside_of(circuit) and joint[0] != joint[1]]
    if kind == "joint missing":
        joint = random.choice(joints)
        return _made(real, kind, frozenset(joint), Undo(opened=(joint,)))
    if kind == "lead on the lug beside":
        return _moved(graph, real, joints, random)
    if kind == "leads exchanged":
        return _exchanged(graph, real, joints, random)
    if kind == "bridge":
        return _bridged(graph, real, random)
    if kind == "lug on the chassis":
        lugs = [lug for lug in _held(graph, real) if circuit.net_of(lug) != circuit.nets[0]]
        lug = random.choice(lugs)
        return _made(real, kind, frozenset({lug}), Undo(joined=((lug, "chassis"),)))
    return _failed(real, kind, random)


def _failed(real: Real, kind: str, random: Random) -> Planted | None:
    whole = [way for way in real.ways if way.ohms > 0.5 and way.ohms != OPEN]
    if kind == "part open":
        way = random.choice(whole)
        return _made(real, kind, frozenset({way.name}), Undo(valued=((way.name, 1e12),)))
    if kind == "part shorted":
        way = random.choice([way for way in real.ways if way.ohms == OPEN])
        return _made(real, kind, frozenset({way.name}), Undo(valued=((way.name, 0.05),)))
    way = random.choice([way for way in whole if way.name == way.part and way.name[0] == "R"])
    return _made(real, kind, frozenset({way.name}), Undo(valued=((way.name, way.ohms * random.choice(DRIFTS)),)))


def _held(graph: CircuitGraph, real: Real) -> list[str]:
    """Lugs and pins with something soldered to them."""
    ends = {end for joint in real.joints for end in joint}
    return [name for name in sorted(ends) if _is_place(graph, name)]


def _is_place(graph: CircuitGraph, name: str) -> bool:
    at = graph.circuit.index.get(name, 0)  # what hung on a lifted lead has no name to be found by
    part = graph.part_of(at)
    return part is not None and (part.kind.place or part.kind.word == "tube")


def _beside(graph: CircuitGraph, name: str) -> list[str]:
    circuit = graph.circuit
    found = [circuit.points[at].name for at in graph.beside(circuit.index[name])]
    return [other for other in found if circuit.net_of(other) != circuit.net_of(name)]


def _at_lugs(graph: CircuitGraph, real: Real, joints: list[tuple[str, str]]) -> list[tuple[tuple[str, str], str, str]]:
    """Joints with the lug and the end of a lead or wire there."""
    found = []
    for joint in joints:
        for lug, end in (joint, joint[::-1]):
            if _is_place(graph, lug) and end not in real.hubs and lug not in real.hubs and end != "chassis":
                found.append((joint, lug, end))
    return found


def _moved(graph: CircuitGraph, real: Real, joints: list[tuple[str, str]], random: Random) -> Planted | None:
    places = [(j, lug, end) for j, lug, end in _at_lugs(graph, real, joints) if _beside(graph, lug)]
    if not places:
        return None
    joint, lug, end = random.choice(places)
    wrong = random.choice(_beside(graph, lug))
    if wrong == end:
        return None
    names = frozenset({end, lug, wrong})
    return _made(real, "lead on the lug beside", names, Undo((joint,), ((end, wrong),)))


def _exchanged(graph: CircuitGraph, real: Real, joints: list[tuple[str, str]], random: Random) -> Planted | None:
    places = [(j, lug, end) for j, lug, end in _at_lugs(graph, real, joints) if not _is_place(graph, end)]
    pairs = [(a, b) for a in places for b in places if a < b and b[1] in _beside(graph, a[1])]
    if not pairs:
        return None
    (joint, lug, end), (joint_2, lug_2, end_2) = random.choice(pairs)
    undo = Undo(opened=(joint, joint_2), joined=((end, lug_2), (end_2, lug)))
    return _made(real, "leads exchanged", frozenset({end, end_2}), undo)


def _bridged(graph: CircuitGraph, real: Real, random: Random) -> Planted | None:
    held = _held(graph, real)
    pairs = [(lug, other) for lug in held for other in _beside(graph, lug) if lug < other and other in held]
    if not pairs:
        return None
    pair = random.choice(pairs)
    return _made(real, "bridge", frozenset(pair), Undo(joined=(pair,)))
