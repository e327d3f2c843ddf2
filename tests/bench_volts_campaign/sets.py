"""The samples' rewired sets as they run by the tests' own engine, with a meter on every point of the power-up sheet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

from netcheck.bench.plan import Plan, plan_of
from netcheck.bench.power_up import PowerUp, Volts, power_up
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read as read_file
from netcheck.system.files import reader
from tests.campaign.chassis import CHASSIS, Chassis, Joint, Part, hub_of
from tests.campaign.reading import rewired_of
from tests.silence.elements import Element, Resistor, Sink, Source
from tests.silence.engine import simulated
from tests.silence.wiring import wired

__all__ = ["SAMPLES", "Measured", "Set", "measured", "set_of", "spread", "with_part"]

SAMPLES = ("harrow-point", "skerry", "marram", "sallow-street")
PERIODS = 240  # 4 s: the slowest filters, 22 k into 22 mfd, have their volts
METER = "1000 meg"
LEAK = 1e-10  # siemens: the volts of a grid behind a megohm count here

# What the tubes draw in these sets: the file's own `draws`, else what the chart's volts leave for them, else what a
# triode behind a large plate resistor usually draws, a milliampere or so. The engine has the currents of full-volt
# operation, which such a stage never sees.
CURRENTS: Mapping[str, Mapping[str, float]] = {
    "harrow-point": {
        "V5 plate": 0.033, "V6 plate": 0.033, "V5 grid-2": 0.002, "V6 grid-2": 0.002, "V3 plate": 0.00045,
        "V4 plate": 0.001,
    },
    "skerry": {"V4 plate": 0.0004, "V5 plate": 0.043, "V5 grid-2": 0.0037},
    "marram": {},
    "sallow-street": {
        "V4 plate": 0.0425, "V5 plate": 0.0425, "V4 grid-2": 0.0025, "V5 grid-2": 0.0025, "V1 plate": 0.0004,
        "V1 grid-2": 0.00015, "V2 plate-a": 0.001, "V2 plate-b": 0.001, "V3 plate-a": 0.0015, "V3 plate-b": 0.0015,
    },
}  # fmt: skip
SWEEP = {"marram": ("J1.5", "J1.6", "4.3k")}  # what the other chassis draws: 60 mA of 260 V, as the file says
WIPERS = {"RV4 RV4.ccw": 1.45, "RV4 RV4.wiper": 0.55}  # times half of the track: set to the chart's -20 V


@dataclass(frozen=True)
class Set:
    """A sample: the sheet's points, the chassis with meters on them, the tubes' currents as they bias themselves.

    ``triodes`` are the volts across each as its set is made: by the three-halves law and with the bias that it makes
    itself, a triode draws about in proportion to them. A pentode's plate draws the same at all of its volts.
    """

    name: str
    graph: CircuitGraph
    plan: Plan
    found: PowerUp
    points: tuple[Volts, ...]
    chassis: Chassis
    biased: Mapping[str, float]
    triodes: Mapping[str, float]


@dataclass(frozen=True)
class Measured:
    """Volts by the point of the sheet, the volts across each sink, and those of each heater."""

    volts: Mapping[str, float]
    across: Mapping[str, float]
    heaters: Mapping[str, float]


def set_of(name: str) -> Set:
    """A sample's rewired state with its sheet."""
    source = read_file(Path(__file__).parents[2] / "samples" / name / "rewired.netck")
    circuit, _ = build(source, reader(source))
    if circuit is None:
        raise SystemExit(name)
    graph = CircuitGraph(circuit)
    found = power_up(graph)
    chassis = rewired_of(name)
    points = (*found.lines, *found.electrodes)
    chassis = _with_meters(graph, chassis, points)
    if name in SWEEP:
        *ends, ohms = SWEEP[name]
        chassis = with_part(chassis, Part("SWEEP", "resistor", (ohms,), ("SWEEP.1", "SWEEP.2")), ends)
    biased = {one.name: one.amperes for one in wired(chassis).elements if isinstance(one, Sink)}
    one = Set(name, graph, plan_of(graph), found, points, chassis, biased, {})
    made = measured(one, chassis, {}).across
    return replace(one, triodes={sink: volts for sink, volts in made.items() if _is_triode(sink, biased)})


def _is_triode(sink: str, biased: Mapping[str, float]) -> bool:
    tube, _, electrode = sink.partition(" ")
    return electrode.startswith("plate") and not any(each.startswith(f"{tube} grid-2") for each in biased)


def _with_meters(graph: CircuitGraph, chassis: Chassis, points: Sequence[Volts]) -> Chassis:
    """A meter from each point to the common, as a part of its own."""
    soldered = {node for joint in chassis.joints for node in (joint.a, joint.b)}
    common = hub_of(chassis.common) if chassis.common else CHASSIS
    for at, one in enumerate(points):
        others = (graph.circuit.points[each].name for each in graph.members[graph.circuit.net_of(one.point)])
        probe = one.point if one.point in soldered else next(each for each in others if each in soldered)
        meter = f"METER{at}"
        part = Part(meter, "resistor", (METER,), (f"{meter}.1", f"{meter}.2"))
        chassis = with_part(chassis, part, (probe, common))
    return chassis


def with_part(chassis: Chassis, part: Part, ends: Sequence[str]) -> Chassis:
    """A part more, its leads soldered to two nodes."""
    joints = [Joint(end, lead, "solder") for end, lead in zip(ends, part.leads, strict=True)]
    return replace(chassis, parts={**chassis.parts, part.name: part}, joints=[*chassis.joints, *joints])


def spread(one: Set, random: Random) -> Mapping[str, float]:
    """By how much every part of a set is off, times: resistors 5 %, what tubes draw 10 %, the line 3 %."""
    line = random.uniform(0.97, 1.03)
    off: dict[str, float] = {}
    for each in wired(one.chassis).elements:
        room = 0.1 if isinstance(each, Sink) else 0.05
        off[each.name] = line if isinstance(each, Source) else random.uniform(1 - room, 1 + room)
    return off


def measured(one: Set, chassis: Chassis, off: Mapping[str, float], dead: str = "") -> Measured:
    """The volts at every point of the sheet; ``dead`` is a tube without emission."""
    circuit = wired(chassis)
    elements = [_run(one, each, off) for each in circuit.elements if each.name.split()[0] != dead or _heats(each)]
    course = simulated(replace(circuit, elements=tuple(elements)), periods=PERIODS, leak=LEAK)
    known = {each.name: each for each in circuit.elements}
    meters = {point.point: known.get(f"METER{at}") for at, point in enumerate(one.points)}
    volts = {point: 0.0 if meter is None else float(course.across(meter).mean()) for point, meter in meters.items()}
    heaters = {each.name: float((course.across(each) ** 2).mean() ** 0.5) for each in known.values() if _heats(each)}
    sinks = {each.name: float(course.across(each).mean()) for each in elements if isinstance(each, Sink)}
    return Measured(volts, sinks, heaters)


def _heats(each: Element) -> bool:
    return each.name.endswith(" heater")


def _run(one: Set, each: Element, off: Mapping[str, float]) -> Element:
    """An element of this very set: its value off by its share, its current what the tube draws here."""
    times = off.get(each.name, 1.0)
    match each:
        case Resistor(ohms=ohms) if not each.name.startswith("METER"):
            return replace(each, ohms=ohms * times * WIPERS.get(each.name, 1.0))
        case Source(peak=peak):
            return replace(each, peak=peak * times)
        case Sink(amperes=amperes) if one.biased.get(each.name):
            usual = CURRENTS[one.name].get(each.name, one.biased[each.name])
            drawn = usual * amperes / one.biased[each.name] * times
            volts = one.triodes.get(each.name)
            return replace(each, amperes=2 * drawn, knee=2 * volts) if volts else replace(each, amperes=drawn)
        case _:
            return each
