"""What an earlier hand left in a set, and what undoes it: the chassis as it is found."""

import re
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from random import Random

from tests.campaign.chassis import hub_of
from tests.campaign.reading import chassis_of

__all__ = ["EARLIER", "HEAD", "Earlier"]

HEAD = ("state found", 'start from "original.netck"')
Lines = tuple[str, ...]
Earlier = Callable[[str, frozenset[str], Random], tuple[Lines, Lines] | None]
"""From a drawing and the parts that the work takes: the lines of the slip, and those that mend it."""

_POWER = re.compile(r"B\+|B-|minus|line|in-|high|rect|dbl|fil|ground|bias-|plate$|heat")


def bridge(original: str, taken: frozenset[str], rng: Random) -> tuple[Lines, Lines] | None:
    """Two places joined that are apart."""
    places = _places(original, taken)
    a, b = rng.choice(places[rng.choice(sorted(places))]), rng.choice(places[rng.choice(sorted(places))])
    return None if a == b else ((f"wire {a} to {b}",), (f"cut {a} to {b}",))


def moved(original: str, taken: frozenset[str], rng: Random) -> tuple[Lines, Lines] | None:
    """A lead on another net."""
    places = _places(original, taken)
    home, other = rng.sample(sorted(places), 2)
    leads = [place for place in places[home] if place != "chassis" and not place.endswith(".can")]
    mates = [place for place in places[home] if place not in leads[:1]]
    if not leads or not mates:
        return None
    return (f"move {leads[0]} to {rng.choice(places[other])}",), (f"move {leads[0]} to {rng.choice(mates)}",)


def turned(original: str, taken: frozenset[str], rng: Random) -> tuple[Lines, Lines] | None:
    """An electrolytic the other way round."""
    places = _places(original, taken)
    ends = {place: net for net, leads in places.items() for place in leads}
    names = [name for name in re.findall(r"^electrolytic\s+(\w+)", original, re.MULTILINE) if f"{name}+" in ends]
    fit = [name for name in names if f"{name}-" in ends and ends[f"{name}+"] != ends[f"{name}-"]]
    if not fit:
        return None
    plus, minus = (f"{(name := rng.choice(fit))}+", f"{name}-")
    mates = [[x for x in places[ends[end]] if x != end] for end in (plus, minus)]
    if not all(mates):
        return None
    high, low = (rng.choice(each) for each in mates)
    return (f"move {plus} to {low}", f"move {minus} to {high}"), (f"move {plus} to {high}", f"move {minus} to {low}")


def weak(original: str, taken: frozenset[str], rng: Random) -> tuple[Lines, Lines] | None:
    """An electrolytic of too few volts."""
    said = re.findall(r"^(?:electrolytic|section)\s+(\w+) .*?\b(\d+) V\b", original, re.MULTILINE)
    fit = [(name, volts) for name, volts in said if name not in taken and name[:-1] not in taken]
    if not fit:
        return None
    name, volts = rng.choice(fit)
    return (f"change {name} {rng.choice((16, 25, 50))} V",), (f"change {name} {volts} V",)


def added(original: str, taken: frozenset[str], rng: Random) -> tuple[Lines, Lines] | None:
    """A resistor or a diode that the drawing does not have."""
    places = _places(original, taken)
    a, b = (rng.choice(places[net]) for net in rng.sample(sorted(places), 2))
    part = rng.choice((f"resistor R301 220 ohm 2 W from {a} to {b}", f"diode D301 1N4007 anode {a} cathode {b}"))
    return (f'{part} added "an earlier repair"',), (f"remove {part.split()[1]}",)


EARLIER: Mapping[str, Earlier] = {"bridge": bridge, "moved": moved, "turned": turned, "weak": weak, "added": added}


def _places(original: str, taken: frozenset[str]) -> Mapping[str, Sequence[str]]:
    """The leads on each net of the supply, without those of parts that the work takes."""
    chassis = chassis_of(original)
    nets = re.findall(r"^net (\S+):", original, re.MULTILINE)
    hubs = {hub_of(net) for net in nets if _POWER.match(net)}
    found = defaultdict[str, list[str]](list)
    for joint in chassis.joints:
        owner = chassis.owner(joint.b)
        if joint.a in hubs and (owner is None or owner.name not in taken):
            found[joint.a].append(joint.b)
    return {hub: leads for hub, leads in found.items() if leads}
