"""The measuring plan of a cold chassis: few readings that prove the paper, each with what to expect."""

from collections.abc import Collection, Iterator

from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.branches import Makes, open_parts
from netcheck.bench.charts import Measure, charts, junctions, neighbours, supply_net
from netcheck.bench.chassis import Chassis, Joint, chassis_of
from netcheck.bench.continuity import Beep, beeps
from netcheck.bench.expected import Expected, limits_of
from netcheck.bench.ohms import ohms_of
from netcheck.core.circuit import How
from netcheck.core.kind import Family
from netcheck.model.graph import CircuitGraph

__all__ = ["Plan", "Section", "Step", "plan_of"]


class Section(Struct, frozen=True):
    """A run of steps of one kind; ``key`` names it in a file."""

    key: str
    heading: str
    before: tuple[str, ...]
    steps: tuple["Step", ...]


class Step(Struct, frozen=True):
    """One reading: the probes by node, what to expect, why; ``number`` counts through the plan.

    ``net`` is the one that it tells of, ``joint`` what a continuity reading proves.
    """

    number: int
    red: int
    black: int
    expected: Expected
    net: int
    why: str = ""
    joint: Joint | None = None


class Plan(Struct, frozen=True):
    """All steps in order, by section. ``conditions`` are how the chassis and the meter have to be.

    ``unseen`` are lugs beside each other that no reading tells apart from bridged ones.
    """

    chassis: Chassis
    conditions: tuple[str, ...]
    sections: tuple[Section, ...]
    unseen: tuple[tuple[int, int], ...] = ()

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step in the order of the sheet."""
        return tuple(step for section in self.sections for step in section.steps)


def plan_of(graph: CircuitGraph, *, tubes_in: bool = False, only: Collection[str] | None = None) -> Plan:
    """The plan of one state; with ``only``, names of points, what lies on their nets or beside them."""
    chassis = chassis_of(graph, tubes_in=tubes_in)
    near = None if only is None else _near(chassis, only)
    ohms, limits = ohms_of(chassis), limits_of(chassis)
    joined = [row for row in beeps(chassis) if near is None or near & {row.red, row.black}]
    supply = supply_net(chassis)
    to_common = _kept(chassis, charts(chassis, ohms, limits, chassis.common), near)
    to_supply = () if supply is None else _kept(chassis, charts(chassis, ohms, limits, supply), near)
    pairs = {frozenset((one.red, one.black)) for one in to_common}
    to_supply = tuple(one for one in to_supply if frozenset((one.red, one.black)) not in pairs)
    both = tuple(one for one in junctions(chassis, ohms, limits) if near is None or near & {one.red, one.black})
    beside, unseen = neighbours(chassis, ohms, limits, (*to_common, *to_supply))
    beside = tuple(one for one in beside if near is None or near & {one.red, one.black})
    unseen = tuple(pair for pair in unseen if near is None or near.intersection(pair))
    sections = _numbered(chassis, joined, (to_common, to_supply, both, beside))
    return Plan(chassis, _conditions(chassis), sections, unseen)


def _near(chassis: Chassis, only: Collection[str]) -> set[int]:
    """The nodes of some points, what is soldered straight to them, and the lugs beside; the chassis is near to none."""
    start = {chassis.node[name] for name in only if name in chassis.node} - {0}
    start = {node for node in start if chassis.touchable[node]}
    lugs = {end for joint in chassis.joints if {joint.a, joint.b} & start for end in (joint.a, joint.b)} | start
    lugs -= {0}
    number = {point: node for node, point in enumerate(chassis.points)}
    beside = {number.get(point, node) for node in lugs for point in chassis.graph.beside(chassis.points[node])}
    return lugs | beside


def _kept(chassis: Chassis, rows: tuple[Measure, ...], near: set[int] | None) -> tuple[Measure, ...]:
    if near is None:
        return rows
    nets = {chassis.nets[node] for node in near}
    return tuple(one for one in rows if one.net in nets)


def _numbered(chassis: Chassis, joined: list[Beep], rest: tuple[tuple[Measure, ...], ...]) -> tuple[Section, ...]:
    plain = [row for row in joined if not row.other_way]
    special = [row for row in joined if row.other_way]
    to_common, to_supply, both, beside = rest
    common = chassis.net_name(chassis.common)
    sections = (
        Section("joined", "Joined: each pair must beep", (), tuple(_beep(chassis, row) for row in plain)),
        Section("joined-other", "Joined, where a beeper proves nothing",
                ("Something of low resistance leads around these joints: do what the last column says.",),
                tuple(_beep(chassis, row) for row in special)),
        Section("to-common", f"Resistance to {common}", (), tuple(map(_measure, to_common))),
        Section("to-supply", "Resistance to B+", (), tuple(map(_measure, to_supply))),
        Section("rectifiers", "Rectifiers both ways round", (), tuple(map(_measure, both))),
        Section("apart", "Lugs beside each other that the charts do not see: none may beep", (),
                tuple(map(_measure, beside))),
    )  # fmt: skip
    return tuple(_counted(section for section in sections if section.steps))


def _counted(sections: Iterator[Section]) -> Iterator[Section]:
    number = 1
    for section in sections:
        yield replace(section, steps=tuple(replace(s, number=at) for at, s in enumerate(section.steps, number)))
        number += len(section.steps)


def _beep(chassis: Chassis, row: Beep) -> Step:
    words = row.joint.join.words
    wire = f"wire {words}".rstrip() if row.joint.join.how is How.WIRE else ""
    mounting = "its mounting" if row.joint.join.how is How.BOND else ""
    net, why = chassis.nets[row.red], row.other_way or wire or mounting
    return Step(0, row.red, row.black, row.expected, net, why, row.joint)


def _measure(one: Measure) -> Step:
    why = ", ".join(one.through)
    slow = "slow" if one.settles and one.expected.words != "open" else ""
    doubt = "a rectifier or electrolytic is in the way both ways: read both, the higher counts" if one.both_ways else ""
    net = one.net if one.net >= 0 else one.red
    return Step(0, one.red, one.black, one.expected, net, "; ".join(word for word in (why, slow, doubt) if word))


_METER = (
    "Meter: ohms, with the plus of its ohm range on the red lead (on many needle meters that is the black jack: try it "
    "on a diode first). Take off what the leads read when held together."
)


def _conditions(chassis: Chassis) -> tuple[str, ...]:
    parts = [part for part in chassis.graph.circuit.parts.values() if part.shape is not None]
    tubes = any(part.kind.family is Family.TUBE for part in parts)
    said = [
        "Plug out. Every filter capacitor discharged, then measured: nothing left on it.",
        ("All tubes in their sockets, cold." if chassis.tubes_in else "All tubes out.") if tubes else "",
        _switches(chassis),
        "Controls fully counter-clockwise." if any(part.kind.divides for part in parts) else "",
        "Rheostats at their most resistance."
        if any(part.kind.family is Family.CONTROL and not part.kind.divides for part in parts)
        else "",
        *(f"{text[:1].upper()}{text[1:]}." for part in parts if (text := open_parts(part))),
        _METER,
    ]
    if any(branch.makes is Makes.CAPACITOR for _, _, branch in chassis.branches):
        said.append("`slow`: a filter capacitor charges through the meter; wait until the reading stops rising.")
    return tuple(filter(None, said))


def _switches(chassis: Chassis) -> str:
    said = []
    for part in chassis.graph.circuit.parts.values():
        if part.kind.family is Family.SWITCH and part.shape is not None:
            drawn = part.features.arguments.get("drawn")
            if not part.features.positions:
                said.append(f"{part.name} closed")
            elif drawn:
                said.append(f"{part.name} at `{drawn}`")
    return f"Switches: {', '.join(said)}." if said else ""
