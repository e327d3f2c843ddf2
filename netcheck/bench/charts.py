"""The resistance charts: every net to the common and to B+, then the neighbouring lugs that they leave unseen."""

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from netcheck.bench.branches import Makes
from netcheck.bench.chassis import Chassis
from netcheck.bench.expected import BEEPS, MOST, SHORTED, TOLD_APART, Expected, Limits, Want
from netcheck.bench.ohms import JOINT, Matrix, Ohms, Shunt
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.model.points import lead_name

__all__ = ["Measure", "charts", "junctions", "measured", "neighbours", "supply_net"]

FELT = 0.05  # of a reading, by which a junction or a leak must change it to be in the way
LIGHT = 0.1  # of the current, from which a part is named as what the reading goes through
MOST_NAMED = 3
PAST = 10.0  # ohms past a junction, from which a reading of next to nothing says that it is shorted
HIGH_VOLTS = 100.0  # from which an electrolytic holds a plate supply and no bias


class Measure(Struct, frozen=True):
    """One reading between two nets: red and black probe, what to expect, what it goes through.

    ``net`` is the one that it tells of. ``settles`` says that a filter capacitor charges meanwhile; ``both_ways``
    that a junction or electrolytic is in the way whichever probe is where.
    """

    red: int
    black: int
    expected: Expected
    through: tuple[str, ...] = ()
    settles: bool = False
    both_ways: bool = False
    net: int = -1


def supply_net(chassis: Chassis) -> int | None:
    """The net that feeds the plates: of those that a high-volt electrolytic holds up the one with most parts."""
    graph = chassis.graph
    found: dict[int, int] = {}
    for part in graph.circuit.parts.values():
        volts = part.features.first(Dimension.VOLTAGE)
        if part.kind.family is not Family.ELECTROLYTIC or volts is None or volts.amount < HIGH_VOLTS:
            continue
        net = chassis.nets[chassis.node[lead_name(part, "+")]]
        found[net] = len(chassis.members[net])
    found.pop(chassis.common, None)
    return max(found, key=lambda net: (found[net], -net)) if found else None


def charts(chassis: Chassis, ohms: Ohms, limits: Limits, to: int) -> tuple[Measure, ...]:
    """Every net with something on it, measured to the net ``to``."""
    nets = [net for net in chassis.members if net != to and chassis.held.intersection(chassis.members[net])]
    black = chassis.anchor(to)
    pairs = [(chassis.anchor(net), black) for net in nets]
    return measured(chassis, ohms, limits, pairs)


def measured(chassis: Chassis, ohms: Ohms, limits: Limits, pairs: Sequence[tuple[int, int]]) -> tuple[Measure, ...]:
    """Pairs of points, the probes put so that rectifiers block and electrolytics are the right way round."""
    if not pairs:
        return ()
    red, black = [list(column) for column in zip(*pairs, strict=True)]
    read = ohms.read(red, black)
    felt = _felt(chassis, ohms, red, black, read)
    shares = _shares(chassis, ohms, red, black)
    return tuple(
        _measure(chassis, limits, pair, (float(read[row]), felt[row], _named(chassis, shares[row])))
        for row, pair in enumerate(pairs)
    )


class _Felt(Struct, frozen=True):
    """Whether something polarised spoils a reading as listed only, or with the probes exchanged too; or charges."""

    one_way: bool
    both_ways: bool
    charges: bool


def _felt(chassis: Chassis, ohms: Ohms, red: Sequence[int], black: Sequence[int], read: Matrix) -> list[_Felt]:
    ways = [(a, b, branch) for a, b, branch in chassis.branches if branch.polarised]
    if not ways:
        return [_Felt(one_way=False, both_ways=False, charges=False)] * len(red)
    drive = ohms.drive(red, black, [(a, b) for a, b, _ in ways])
    shorted = ohms.changed_each(red, black, [Shunt(a, b, 1 / JOINT) for a, b, _ in ways])
    matters = shorted < (1 - FELT) * read[:, None]
    junction = np.array([branch.makes is Makes.JUNCTION for _, _, branch in ways])
    forward = np.where(junction, drive, -drive) > 0  # a junction conducts, an electrolytic is the wrong way round
    backward = np.where(junction, -drive, drive) > 0
    found = []
    for row in range(len(red)):
        straight, turned = (bool((matters[row] & way[row]).any()) for way in (forward, backward))
        charges = bool((matters[row] & ~junction).any())
        found.append(_Felt(one_way=straight and not turned, both_ways=straight and turned, charges=charges))
    return found


def _measure(
    chassis: Chassis, limits: Limits, pair: tuple[int, int], found: tuple[float, _Felt, tuple[str, ...]]
) -> Measure:
    nominal, felt, through = found
    red, black = pair
    if felt.one_way:
        red, black = black, red
    expected = limits.ohms(chassis.nets[red], chassis.nets[black], nominal, wrong_way=felt.both_ways)
    return Measure(red, black, expected, through, felt.charges, felt.both_ways, chassis.nets[pair[0]])


def _shares(chassis: Chassis, ohms: Ohms, red: Sequence[int], black: Sequence[int]) -> Matrix:
    """The part of a reading's current that goes through each resistance (columns)."""
    ways = [(a, b, branch) for a, b, branch in chassis.branches if branch.makes is Makes.OHMS]
    if not ways:
        return np.zeros((len(red), 0))
    each = np.array([max(branch.ohms or JOINT, JOINT) for _, _, branch in ways])
    found: Matrix = np.abs(ohms.drive(red, black, [(a, b) for a, b, _ in ways])) / each
    return np.where(ohms.read(red, black)[:, None] < MOST, found, 0.0)


def _named(chassis: Chassis, shares: Matrix) -> tuple[str, ...]:
    """What a reading goes through: the branches with most of its current, and of those the ones with most ohms."""
    ways = [branch for _, _, branch in chassis.branches if branch.makes is Makes.OHMS]
    some = [(branch.ohms or 0.0, branch.name) for share, branch in zip(shares, ways, strict=True) if share > LIGHT]
    return tuple(name for _, name in sorted(some, key=lambda one: -one[0])[:MOST_NAMED])


def junctions(chassis: Chassis, ohms: Ohms, limits: Limits) -> tuple[Measure, ...]:
    """Each rectifier both ways round: it must conduct with red on its anode, not be shorted, and not the other way."""
    ways = [(a, b) for a, b, branch in chassis.branches if branch.makes is Makes.JUNCTION]
    blocked = measured(chassis, ohms, limits, [(b, a) for a, b in ways])
    names = [branch.name for _, _, branch in chassis.branches if branch.makes is Makes.JUNCTION]
    found = []
    for (a, b), back, name in zip(ways, blocked, names, strict=True):
        past = float(limits.low[limits.at[chassis.nets[a]], limits.at[chassis.nets[b]]])
        conducts = Expected(Want.CONDUCTS, SHORTED if past >= PAST else 0.0)
        found.append(Measure(a, b, conducts, (name,), net=chassis.nets[b]))
        found.append(Measure(b, a, limits.ohms(chassis.nets[b], chassis.nets[a], back.expected.nominal,
                                               wrong_way=back.red == a or back.both_ways), (name,), back.settles,
                             net=chassis.nets[b]))  # fmt: skip
    return tuple(found)


def neighbours(
    chassis: Chassis, ohms: Ohms, limits: Limits, seen: Sequence[Measure]
) -> tuple[tuple[Measure, ...], tuple[tuple[int, int], ...]]:
    """The lugs and pins beside each other whose bridge would leave every reading of the charts within its limits.

    Those that a reading between the two shows, then those that none shows, as something of less than a few ohms joins
    them anyway.
    """
    pairs = [*_beside(chassis)]
    if not pairs:
        return (), ()
    bridged = ohms.changed_each(
        [one.red for one in seen], [one.black for one in seen], [Shunt(a, b, 1 / JOINT) for a, b in pairs]
    )
    left = [pair for pair, out in zip(pairs, _unseen(bridged, seen), strict=True) if out]
    direct = measured(chassis, ohms, limits, left)
    shown = tuple(
        replace(one, expected=Expected(Want.SILENT), settles=False) if one.expected.low >= BEEPS else one
        for one in direct
        if one.expected.low >= TOLD_APART
    )
    return shown, tuple(pair for pair, one in zip(left, direct, strict=True) if one.expected.low < TOLD_APART)


def _unseen(bridged: Matrix, seen: Sequence[Measure]) -> NDArray[np.bool_]:
    """Which bridges (columns) leave every reading within what good parts allow."""
    low = np.array([min(one.expected.low, MOST) for one in seen])[:, None]
    high = np.array([one.expected.high if one.expected.high < MOST else np.inf for one in seen])[:, None]
    return np.asarray(~((bridged < low) | (bridged > high)).any(axis=0))


def _beside(chassis: Chassis) -> Iterator[tuple[int, int]]:
    """Neighbouring lugs and pins that hold something, on different nets; each pair once."""
    number = {point: node for node, point in enumerate(chassis.points)}
    told: set[frozenset[int]] = set()
    for node in sorted(chassis.held):
        for point in chassis.graph.beside(chassis.points[node]):
            other = number.get(point)
            if other is None or other not in chassis.held or chassis.nets[node] == chassis.nets[other]:
                continue
            nets = frozenset((chassis.nets[node], chassis.nets[other]))
            if nets not in told:
                told.add(nets)
                yield node, other
