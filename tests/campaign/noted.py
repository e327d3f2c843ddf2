"""What is equal and deserves a NOTE: equal parts or units exchanged, a branch in another order, one part in two."""

from collections import defaultdict
from dataclasses import replace
from decimal import Decimal
from itertools import combinations
from random import Random

from tests.campaign.chassis import Chassis, Part, lugs_of
from tests.campaign.naming import fresh_name
from tests.campaign.sockets import SOCKETS

__all__ = ["worth_a_note"]


def worth_a_note(chassis: Chassis, rng: Random) -> dict[str, str]:
    """Changes the parts where it has to; returns whose nets each lead concerned now has."""
    ways = [_two_parts, _two_units, _two_for_one, _two_in_series]
    rng.shuffle(ways)
    return next((found for way in ways if (found := way(chassis, rng))), {})


def _two_parts(chassis: Chassis, rng: Random) -> dict[str, str]:
    """Two parts that nothing but their names tells apart change places."""
    parts = [p for p in chassis.parts.values() if len(p.leads) == 2 and chassis.is_compared(p) and p.kind != "section"]
    pairs = [(a, b) for a, b in combinations(parts, 2) if _data(a) == _data(b) and a.claim == b.claim != "inserted"]
    if not pairs:
        return {}
    one, other = rng.choice(pairs)
    return _crossed(one.leads, other.leads)


def _two_in_series(chassis: Chassis, rng: Random) -> dict[str, str]:
    """Two parts of one branch, with nothing else on the net between them, change places."""
    number = chassis.components()
    on: dict[int, list[Part]] = defaultdict(list)
    for part in chassis.parts.values():
        for lead in part.leads:
            on[number.get(chassis.node(lead), -1)].append(part)
    moulded = {number.get(lug, -1) for p in chassis.parts.values() if p.kind == "network" for lug in lugs_of(p)}
    nets = on.keys() - {-1} - moulded  # what lies there has a lug of its own
    pairs = [(there[0], there[1]) for net in sorted(nets) if len(there := on[net]) == 2 and _is_branch(*there)]
    if not pairs:
        return {}
    one, other = rng.choice(pairs)
    return _crossed(one.leads, other.leads)


_IN_SERIES = frozenset({"resistor", "capacitor"})


def _is_branch(one: Part, other: Part) -> bool:
    """Not a fuse or a switch: which of them the line reaches first is no matter of order alone."""
    return one.name != other.name and all(p.kind in _IN_SERIES and p.claim != "inserted" for p in (one, other))


def _data(part: Part) -> tuple[str, tuple[str, ...]]:
    return part.kind, part.words


def _two_units(chassis: Chassis, rng: Random) -> dict[str, str]:
    """The two triodes of one envelope change places."""
    tubes = [p for p in chassis.parts.values() if p.kind == "tube" and "plate-b" in SOCKETS[p.type].values()]
    if not tubes:
        return {}
    tube = rng.choice(tubes)
    at = {electrode: f"{tube.name}.{pin}" for pin, electrode in SOCKETS[tube.type].items()}
    electrodes = ("plate", "grid", "cathode")
    return _crossed(tuple(at[f"{e}-a"] for e in electrodes), tuple(at[f"{e}-b"] for e in electrodes))


def _crossed(ones: tuple[str, ...], others: tuple[str, ...]) -> dict[str, str]:
    return {**dict(zip(ones, others, strict=True)), **dict(zip(others, ones, strict=True))}


def _two_for_one(chassis: Chassis, rng: Random) -> dict[str, str]:
    """Two capacitors of half the value in parallel for one that was replaced."""
    parts = [p for p in chassis.parts.values() if p.kind == "capacitor" and p.claim == "replaces" and len(p.olds) == 1]
    parts = [p for p in parts if p.words and p.words[0].endswith(" mfd") and not {"X2", "Y1", "Y2"} & set(p.words)]
    if not parts:
        return {}
    part = rng.choice(parts)
    half = f"{(Decimal(part.words[0].split()[0]) / 2).normalize():f} mfd"
    part = replace(part, words=(half, *part.words[1:]))
    name = fresh_name("capacitor", [*chassis.parts, *chassis.gone], rng)
    chassis.parts[part.name] = part
    chassis.parts[name] = replace(part, name=name, leads=(f"{name}.1", f"{name}.2"))
    return {f"{name}.1": part.leads[0], f"{name}.2": part.leads[1]}
