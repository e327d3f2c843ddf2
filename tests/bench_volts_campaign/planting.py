"""One failure in a powered chassis: a part open, shorted, leaky, drifted or dried up, a dead tube, an open joint."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from random import Random

from tests.bench_volts_campaign.sets import Set, with_part
from tests.campaign.chassis import Chassis, Part, grouped
from tests.silence.elements import Capacitor, Choke, Diode, Resistor
from tests.silence.wiring import wired

__all__ = ["KINDS", "Planted", "planted"]

KINDS = (
    "part open", "resistor drifted", "capacitor shorted", "capacitor leaky", "capacitor dried up", "diode open",
    "diode shorted", "tube dead", "joint open",
)  # fmt: skip
DRIFTS = (0.2, 0.35, 1.8, 3.0, 6.0)
LEAKS = ("1k", "3k", "10k", "30k")
# From which line the file says that a tube's current is drawn: there a dead tube is `nothing is drawn from` it.
STATED: Mapping[str, Mapping[str, str]] = {
    "harrow-point": {"V5": "B+2", "V6": "B+2"}, "skerry": {}, "marram": {},
    "sallow-street": {"V4": "B+2", "V5": "B+2"},
}  # fmt: skip


@dataclass(frozen=True)
class Planted:
    """The chassis with the failure; ``names`` are parts or lines, any of which names it."""

    kind: str
    what: str
    chassis: Chassis
    names: frozenset[str]
    dead: str = ""


def planted(one: Set, kind: str, random: Random) -> Planted | None:
    """A failure of that kind, where the set has a place for one."""
    if kind == "joint open":
        return _joint(one, random)
    if kind == "tube dead":
        tubes = sorted({each.partition(" ")[0] for each in one.biased})
        tube = random.choice(tubes)
        stated = STATED[one.name].get(tube, tube)
        return Planted(kind, tube, one.chassis, frozenset({tube, stated}), dead=tube)
    parts = _parts(one, kind)
    return _failed(one.chassis, kind, random.choice(parts), random) if parts else None


def _parts(one: Set, kind: str) -> Sequence[Part]:
    """The parts that can fail so, out of those that the engine has."""
    kinds = {
        "part open": Resistor | Choke, "resistor drifted": Resistor, "diode open": Diode, "diode shorted": Diode,
    }  # fmt: skip
    parts = one.chassis.parts
    mine = [each for each in wired(one.chassis).elements if each.name in parts and not _instrument(each.name)]
    if kind in kinds:
        return [parts[each.name] for each in mine if isinstance(each, kinds[kind])]
    return [parts[each.name] for each in mine if isinstance(each, Capacitor) and each.polar]


def _instrument(name: str) -> bool:
    return name.startswith("METER") or name == "SWEEP"


def _failed(chassis: Chassis, kind: str, part: Part, random: Random) -> Planted:
    if kind in ("part open", "capacitor dried up", "diode open"):
        rest = {name: each for name, each in chassis.parts.items() if name != part.name}
        return Planted(kind, part.name, replace(chassis, parts=rest), frozenset({part.name}))
    if kind == "resistor drifted":
        was = next(
            each.ohms for each in wired(chassis).elements if isinstance(each, Resistor) and each.name == part.name
        )
        ohms = was * random.choice(DRIFTS)
        changed = replace(part, words=(f"{ohms:.3f} ohm", *part.words[1:]))
        return Planted(
            kind,
            f"{part.name} {ohms:.3g}",
            replace(chassis, parts={**chassis.parts, part.name: changed}),
            frozenset({part.name}),
        )
    path = random.choice(LEAKS) if kind == "capacitor leaky" else "1 ohm"
    across = Part("FAILURE", "resistor", (path,), ("FAILURE.1", "FAILURE.2"))
    return Planted(kind, f"{part.name} {path}", with_part(chassis, across, part.leads), frozenset({part.name}))


def _joint(one: Set, random: Random) -> Planted | None:
    """A joint that parts two pieces of a net; what hangs on the smaller piece is what the failure is told of."""
    joints = [
        each
        for each in one.chassis.joints
        if each.how != "inside" and not any(_instrument(node.partition(".")[0]) for node in (each.a, each.b))
    ]
    joint = random.choice(joints)
    rest = replace(one.chassis, joints=[each for each in one.chassis.joints if each is not joint])
    number = grouped(
        [*((each.a, each.b) for each in rest.joints), *rest.insides(), (joint.a, joint.a), (joint.b, joint.b)]
    )
    if number[joint.a] == number[joint.b]:
        return None
    sides = [
        {
            node.rstrip("+-").partition(".")[0]
            for node, at in number.items()
            if at == number[end] and not _instrument(node.partition(".")[0])
        }
        for end in (joint.a, joint.b)
    ]
    names = min(sides, key=len)
    return Planted(
        "joint open",
        f"{joint.a}, {joint.b}",
        rest,
        frozenset(names | {STATED[one.name].get(name, name) for name in names}),
    )
