"""What can be wrong with a chassis that was wired by hand: each slip as changes of its ohms, with its mend."""

from collections.abc import Iterator

from msgspec import Struct, field

from netcheck.bench.branches import Makes, PartPath
from netcheck.bench.chassis import Chassis, Joint
from netcheck.bench.ohms import JOINT, OPEN, Shunt, nominal
from netcheck.bench.rounded import ohms_words
from netcheck.bench.typed import type_and_values
from netcheck.core.circuit import How
from netcheck.core.mend import Act, Bond, Cut, Mend, Put, Solder, Wire
from netcheck.core.mend import Change as Fit

__all__ = ["MISSING", "Cause", "Kind", "exchanges", "missing", "moves", "simple_slips"]

DRIFTS = (0.1, 0.16, 0.25, 0.35, 0.5, 0.6, 0.7, 1.4, 1.6, 2.0, 2.8, 4.0, 6.3, 10.0)
LEAKS = (1e3, 1e4, 5e4, 2e5, 1e6)  # ohms of a capacitor that leaks
CONDUCTING = 300.0  # ohms of a junction the way it conducts, on some meter


class Kind(Struct, frozen=True):
    """A kind of slip; ``cost`` is how unlikely, so that of two that explain alike the likelier comes first."""

    word: str
    cost: float


# The hands slip more often than parts fail between soldering and measuring; a far lug is dear.
MISSING = Kind("joint missing", 1.0)
MOVED = Kind("lead on the lug beside", 1.3)
EXCHANGED = Kind("leads exchanged", 1.8)
BRIDGE = Kind("bridge", 1.5)
BENT = Kind("lug on the chassis", 2.0)
OPENED = Kind("part open", 1.8)
SHORTED = Kind("part shorted", 2.0)
LEAKING = Kind("capacitor leaks", 2.2)
DRIFTED = Kind("part drifted", 2.2)
TURNED = Kind("part turned round", 1.6)


class Cause(Struct, frozen=True):
    """One slip: ``words`` tell it, ``changes`` are what it does to the ohms, ``mend`` undoes it.

    ``subject`` is the same for the values of one drift. ``stops`` are junctions that then do not conduct forward.
    """

    kind: Kind
    subject: str
    words: str
    changes: tuple[Shunt, ...]
    mend: Mend
    stops: frozenset[str] = field(default_factory=frozenset)


def simple_slips(chassis: Chassis) -> Iterator[Cause]:
    """Every slip that is one change: joints missing, bridges, parts open, shorted, leaking, drifted, turned round."""
    yield from (missing(chassis, joint) for joint in chassis.joints)
    yield from _bridges(chassis)
    for a, b, branch in chassis.branches:
        yield from _failures(chassis, a, b, branch)


def missing(chassis: Chassis, joint: Joint) -> Cause:
    """A joint that was not made, or a wire left out."""
    a, b = chassis.names[joint.a], chassis.names[joint.b]
    if joint.join.how is How.WIRE:
        words = f"the wire from {a} to {b} is open or missing"
    elif joint.join.how is How.BOND:
        words = f"{b if joint.a == 0 else a} is not on the chassis by its mounting"
    elif joint.join.how is How.NET:
        words = f"{b} is not joined to {a}"
    else:
        words = f"{b} is not soldered to {a}"
    return Cause(MISSING, f"{a} {b}", words, (Shunt(joint.a, joint.b, -1 / JOINT),), (_remake(chassis, joint),))


def _remake(chassis: Chassis, joint: Joint) -> Act:
    a, b = chassis.names[joint.a], chassis.names[joint.b]
    if joint.join.how is How.WIRE:
        return Wire(a, b, joint.join.words)
    if joint.join.how is How.BOND:
        end = joint.b if joint.a == 0 else joint.a
        return Bond(chassis.graph.point(chassis.points[end]).part)
    hub, end = (joint.a, joint.b) if chassis.touchable[joint.b] else (joint.b, joint.a)
    to = hub if chassis.touchable[hub] else chassis.anchor(chassis.nets[hub], but=end)
    return Solder(chassis.names[end], chassis.names[to])


def _bridges(chassis: Chassis) -> Iterator[Cause]:
    """A bridge between lugs or pins beside each other, or from a lug to the chassis."""
    later = {chassis.points[node]: node for node in chassis.held}
    for node in sorted(chassis.held):
        name = chassis.names[node]
        del later[chassis.points[node]]  # each two are told once, by the first
        for point in chassis.graph.beside(chassis.points[node]):
            other = later.get(point)
            if other is not None and apart(chassis, node, other):
                words = f"{name} and {chassis.names[other]} are bridged"
                change = Shunt(node, other, 1 / JOINT)
                yield Cause(BRIDGE, words, words, (change,), (Cut(name, chassis.names[other]),))
        if node and chassis.is_place(node) and apart(chassis, node, 0):
            words = f"{name} touches the chassis"
            yield Cause(BENT, words, words, (Shunt(node, 0, 1 / JOINT),), (Cut(name, "chassis"),))


def apart(chassis: Chassis, one: int, other: int) -> bool:
    """Whether two nodes are on different nets."""
    return chassis.nets[one] != chassis.nets[other]


def _failures(chassis: Chassis, a: int, b: int, branch: PartPath) -> Iterator[Cause]:
    name, fit = branch.name, (Fit(branch.part, type_and_values(chassis.graph.circuit.parts[branch.part])),)
    if branch.makes is Makes.OHMS:
        ohms = max(nominal(branch), 1e-3)
        yield Cause(OPENED, name, f"{name} is open", (Shunt(a, b, -1 / ohms),), fit)
        yield Cause(SHORTED, name, f"{name} is shorted", (Shunt(a, b, 1 / JOINT),), fit)
        for times in DRIFTS if branch.ohms and _drifts(chassis, branch) else ():
            change = Shunt(a, b, 1 / (times * ohms) - 1 / ohms)
            yield Cause(DRIFTED, name, f"{name} has drifted to about {ohms_words(times * ohms)}", (change,), fit)
        return
    yield Cause(SHORTED, name, f"{name} is shorted", (Shunt(a, b, 1 / JOINT),), fit)
    if branch.makes is Makes.JUNCTION:
        part = branch.part
        turn = (
            Put(chassis.names[a], chassis.names[_home(chassis, b)]),
            Put(chassis.names[b], chassis.names[_home(chassis, a)]),
        )
        yield Cause(TURNED, name, f"{part} is in backwards", (Shunt(a, b, 1 / CONDUCTING),), turn, frozenset({name}))
        yield Cause(OPENED, name, f"{name} is open", (Shunt(a, b, 1 / OPEN),), fit, frozenset({name}))
        return
    for ohms in LEAKS:
        yield Cause(LEAKING, name, f"{name} leaks, about {ohms_words(ohms)}", (Shunt(a, b, 1 / ohms),), fit)


def _drifts(chassis: Chassis, branch: PartPath) -> bool:
    return chassis.graph.circuit.parts[branch.part].kind.family.resists


def _home(chassis: Chassis, node: int) -> int:
    """Where a lead is soldered."""
    for joint in chassis.joints:
        if node in (joint.a, joint.b):
            other = joint.b if node == joint.a else joint.a
            return other if chassis.touchable[other] else chassis.anchor(chassis.nets[node])
    return node


def moves(chassis: Chassis, joint: Joint) -> Iterator[Cause]:
    """An end of a lead or wire on the lug beside the one where it belongs."""
    number = {point: node for node, point in enumerate(chassis.points)}
    for lug, end in ((joint.a, joint.b), (joint.b, joint.a)):
        if not (chassis.is_place(lug) and chassis.touchable[end]) or joint.join.how in (How.BOND, How.NET):
            continue
        for point in chassis.graph.beside(chassis.points[lug]):
            wrong = number.get(point)
            if wrong is not None and wrong != end and apart(chassis, wrong, lug):
                yield _moved(chassis, joint, (lug, end, wrong))


def _moved(chassis: Chassis, joint: Joint, ends: tuple[int, int, int]) -> Cause:
    lug, end, wrong = (chassis.names[node] for node in ends)
    changes = (Shunt(joint.a, joint.b, -1 / JOINT), Shunt(ends[1], ends[2], 1 / JOINT))
    if joint.join.how is How.WIRE:
        words = f"the wire from {end} is on {wrong} instead of {lug}"
        return Cause(MOVED, words, words, changes, (Cut(end, wrong), Wire(end, lug, joint.join.words)))
    words = f"{end} is on {wrong} instead of {lug}"
    return Cause(MOVED, words, words, changes, (Put(end, lug),))


def exchanges(chassis: Chassis, one: Joint, other: Joint) -> Iterator[Cause]:
    """Two leads on each other's lug, where the lugs are beside each other or the leads those of one part."""
    for lug, end in _lug_and_lead(chassis, one):
        for lug_2, end_2 in _lug_and_lead(chassis, other):
            if lug == lug_2 or not apart(chassis, lug, lug_2) or not _near(chassis, (lug, end), (lug_2, end_2)):
                continue
            names = [chassis.names[node] for node in (end, end_2, lug, lug_2)]
            words = f"{names[0]} and {names[1]} are exchanged, on {names[3]} and {names[2]}"
            changes = (
                Shunt(one.a, one.b, -1 / JOINT), Shunt(other.a, other.b, -1 / JOINT),
                Shunt(end, lug_2, 1 / JOINT), Shunt(end_2, lug, 1 / JOINT),
            )  # fmt: skip
            yield Cause(EXCHANGED, words, words, changes, (Put(names[0], names[2]), Put(names[1], names[3])))


def _lug_and_lead(chassis: Chassis, joint: Joint) -> Iterator[tuple[int, int]]:
    for lug, end in ((joint.a, joint.b), (joint.b, joint.a)):
        if chassis.is_place(lug) and chassis.touchable[end] and chassis.is_lead(end):
            yield lug, end


def _near(chassis: Chassis, one: tuple[int, int], other: tuple[int, int]) -> bool:
    parts = [chassis.graph.point(chassis.points[node]).part for node in (one[1], other[1])]
    return parts[0] == parts[1] or chassis.points[other[0]] in chassis.graph.beside(chassis.points[one[0]])
