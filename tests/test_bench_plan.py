"""The measuring plan against a chassis of the tests' own: how many readings, what each says, whether all are needed."""

import itertools
from pathlib import Path

import networkx as nx
import pytest

from netcheck.bench.chassis import chassis_of
from netcheck.bench.expected import MOST, Want
from netcheck.bench.plan import Plan, Step, plan_of
from netcheck.core.circuit import Circuit, How
from netcheck.model.graph import CircuitGraph
from netcheck.reports.renderer import Style
from netcheck.reports.sheet_text import sheet_text
from netcheck.sheets import bench
from netcheck.system.files import read as read_file
from netcheck.system.files import reader
from tests.bench_campaign.nodal import Real, read, real_of
from tests.paper import circuit

SAMPLES = sorted((Path(__file__).parents[1] / "samples").glob("*/*.netck"))
LITTLE = """
state rewired
strip SP1 5 lugs foot 3
resistor R1 10k from SP1.1 to SP1.3
resistor R2 22k from SP1.1 to SP1.2
capacitor C1 .01 mfd film from SP1.2 to SP1.5
wire SP1.5 to SP1.4 black
"""


def state(path: Path) -> Circuit:
    from netcheck.model.build import build

    source = read_file(path)
    found, _ = build(source, reader(source))
    assert found is not None
    return found


def plan(text: str, *, tubes_in: bool = False) -> Plan:
    return plan_of(CircuitGraph(circuit(text)), tubes_in=tubes_in)


def ends(found: Plan, step: Step) -> tuple[str, str]:
    return found.chassis.names[step.red], found.chassis.names[step.black]


def joined(found: Plan) -> list[Step]:
    return [step for step in found.steps if step.joint is not None]


def by_nets(found: Plan) -> dict[frozenset[str], str]:
    """What is expected between two nets, rectifiers in their forward direction left out."""
    name = {net: found.chassis.net_name(net) for net in found.chassis.members}
    nets = found.chassis.nets
    return {
        frozenset((name[nets[step.red]], name[nets[step.black]])): step.expected.words
        for step in found.steps
        if step.joint is None and step.expected.want is not Want.CONDUCTS
    }


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_as_many_continuity_readings_as_points_less_nets(path: Path) -> None:
    found = state(path)
    tubes = {part.name for part in found.parts.values() if part.kind.word == "tube"}
    inside, whole = nx.Graph(), nx.Graph()
    for join in found.joins:
        within = join.how is How.INSIDE and found.points[join.a].part not in tubes
        if within:
            inside.add_edge(join.a, join.b)
        if within or join.how is not How.INSIDE:
            whole.add_edge(join.a, join.b)
    real = [at for at, point in enumerate(found.points) if at in whole and (at == 0 or point.terminal)]
    points = {frozenset(nx.node_connected_component(inside, at)) if at in inside else frozenset((at,)) for at in real}
    nets = {frozenset(nx.node_connected_component(whole, at)) for at in real}
    assert len(joined(plan_of(CircuitGraph(found)))) == len(points) - len(nets)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_chassis_as_the_file_says_reads_as_expected(path: Path) -> None:
    found = state(path)
    planned, real = plan_of(CircuitGraph(found)), real_of(found)
    for step in planned.steps:
        assert agrees(step, read(real, *ends(planned, step))), (ends(planned, step), step.expected.words)


def agrees(step: Step, ohms: float) -> bool:
    expected = step.expected
    if expected.want is Want.OHMS:
        return expected.low <= ohms + 1e-9 and min(ohms, MOST) <= expected.high
    return {Want.BEEP: ohms < 1, Want.SILENT: ohms > 100, Want.CONDUCTS: ohms < 5000}[expected.want]


def test_no_continuity_reading_can_be_left_out() -> None:
    """Of every way to part a net in two each is seen, and each reading is the only one that sees some."""
    found = plan(LITTLE)
    rows = [frozenset((step.red, step.black)) for step in joined(found)]
    only: set[frozenset[int]] = set()
    for nodes in found.chassis.members.values():
        held = [node for node in nodes if node in found.chassis.held]
        for size in range(1, len(held)):
            for part in itertools.combinations(held[1:], size):
                seen = [row for row in rows if len(row & set(part)) == 1 and row <= set(held)]
                assert seen, part
                only |= {seen[0]} if len(seen) == 1 else set()
    assert only == set(rows)


def test_no_joint_can_be_open_unseen() -> None:
    found, real = plan(LITTLE), real_of(circuit(LITTLE))
    for joint in real.joints:
        readings = [not agrees(step, read(real.opened(joint), *ends(found, step))) for step in joined(found)]
        assert sum(readings) == 1, joint


@pytest.mark.parametrize("name", ["harrow-point", "skerry"])
def test_every_bridge_between_neighbours_is_seen_or_told_to_be_looked_at(name: str) -> None:
    found = state(SAMPLES[0].parents[1] / name / "rewired.netck")
    graph = CircuitGraph(found)
    planned, real = plan_of(graph), real_of(found)
    told = {frozenset(pair) for pair in planned.unseen}
    for node in sorted(planned.chassis.held):
        for point in graph.beside(planned.chassis.points[node]):
            other = planned.chassis.node[found.points[point].name]
            if other in planned.chassis.held and not is_seen(planned, real, node, other):
                assert frozenset((node, other)) in told, planned.chassis.names[node]


def is_seen(planned: Plan, real: Real, node: int, other: int) -> bool:
    chassis = planned.chassis
    if chassis.nets[node] == chassis.nets[other] or {chassis.nets[node], chassis.nets[other]} in [
        {chassis.nets[a], chassis.nets[b]} for a, b in planned.unseen
    ]:
        return True
    bridged = real.joined((chassis.names[node], chassis.names[other]))
    return any(not agrees(step, read(bridged, *ends(planned, step))) for step in planned.steps if step.joint is None)


WINDINGS = """
state rewired
transformer T1
winding T1 secondary green black 0.5 ohm
speaker LS1 3.2 ohm
resistor R1 47 ohm
resistor R2 1k
pot RV1 500k
switch S1
switch S2
net voice: T1.green, LS1.1
net ground: chassis, T1.black, LS1.2, R1.2, R2.2, RV1.ccw, RV1.wiper
net low: R1.1, S1.1, S2.1
net low-2: S1.2, R2.1, S2.2
"""


def other_ways(found: Plan) -> dict[frozenset[str], str]:
    section = next(section for section in found.sections if section.key == "joined-other")
    return {frozenset(ends(found, step)): step.why for step in section.steps}


def test_a_joint_that_a_beeper_cannot_prove_has_another_way() -> None:
    ways = other_ways(plan(WINDINGS))
    assert "2.42 or more if open" in ways[frozenset(("T1.green", "LS1.1"))]  # 0.8 * 0.5 + 0.6 * 3.2 + a joint
    assert "turn RV1 fully clockwise" in ways[frozenset(("RV1.wiper", "chassis"))]
    assert "open S" in ways[frozenset(("S1.1", "R1.1"))]  # the other contact leads around
    assert frozenset(("R2.2", "chassis")) not in ways  # 1 k leads around it, which does not beep


def test_a_joint_that_no_reading_tells_asks_for_a_lead_to_come_off() -> None:
    text = "state rewired\ncoil L1 0.5 ohm\nnet a: chassis, L1.1, SP1.1\nnet a: L1.2\nstrip SP1 2 lugs\n"
    ways = other_ways(plan(text))
    assert "take one lead of L1 off" in ways[frozenset(("L1.1", "chassis"))]


SUPPLY = """
state rewired
mains 117 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
electrolytic C2 22 mfd 250 V
resistor R1 1k 5%
resistor R2 220k
net line: P1.1, D1.anode
net B+1: D1.cathode, C1+, R1.1
net B+2: R1.2, C2+, R2.1
net ground: chassis, P1.2, C1-, C2-, R2.2
"""


def test_the_limits_come_from_tolerances_and_what_an_electrolytic_may_leak() -> None:
    said = by_nets(plan(SUPPLY))
    assert said[frozenset(("B+1", "B+2"))] == "1 k ±8 %"  # 5 % of the part, 2 % of the meter, a leak across
    # 50 k, 950 and 50 k, and 220 k less 20 % side by side, less 2 % of the meter; at most 220 k and 20 % and 2 %.
    assert said[frozenset(("B+2", "chassis"))] == "21.6 k to 269 k"


def test_a_rectifier_is_read_both_ways_and_the_charts_the_way_it_blocks() -> None:
    found = plan(SUPPLY)
    rows = [(ends(found, step), step.expected.words) for step in found.steps]
    assert (("D1.anode", "D1.cathode"), "conducts, no short: lower than the other way round") in rows
    # With red on the line the diode would conduct: the common gets red.
    assert (("chassis", "P1.1"), "open") in rows or (("chassis", "D1.anode"), "open") in rows
    for step in found.steps:
        if step.expected.want is Want.OHMS and {"C1+", "chassis"} == set(ends(found, step)):
            assert ends(found, step) == ("C1+", "chassis")  # an electrolytic reads low the wrong way round


def test_a_winding_without_ohms_is_never_a_number() -> None:
    said = by_nets(plan("state rewired\ncoil L1\nnet a: L1.1\nnet ground: chassis, L1.2\n"))
    assert said[frozenset(("a", "chassis"))] == "not known: any reading"


STRING = """
state rewired
mains 117 V 60 Hz
cord P1
resistor R1 130 ohm 5 W
tube V1 35Z5GT
tube V2 50L6GT
tube V3 12SQ7
net line: P1.1, R1.1
net h1: R1.2, V1.2
net h2: V1.7, V2.7
net h3: V2.2, V3.8
net common: P1.2, V3.7
common common
"""


def test_cold_heaters_are_a_tenth_to_the_whole_of_their_hot_ohms() -> None:
    """35, 50 and 12.6 V at 0.15 A make 97.6 / 0.15 = 650.7 ohm hot; cold a fifth to a seventh (from memory)."""
    found = plan(STRING, tubes_in=True)
    pair = next(step for step in found.steps if set(ends(found, step)) == {"R1.2", "P1.2"} or
                set(ends(found, step)) == {"V1.2", "V3.7"})  # fmt: skip
    hot = (35 + 50 + 12.6) / 0.15
    assert pair.expected.low < hot / 7
    assert pair.expected.high > hot / 5
    assert all(step.expected.words == "open" for step in plan(STRING).steps
               if "V3.7" in ends(plan(STRING), step) and step.joint is None)  # fmt: skip


def test_only_what_the_work_touched_is_planned() -> None:
    folder = SAMPLES[0].parents[1] / "harrow-point"
    original, rewired = read_file(folder / "original.netck"), read_file(folder / "rewired.netck")
    sources = reader(original, rewired)
    _, whole = bench(rewired, read=sources)
    _, part = bench(original, rewired, read=sources)
    assert whole is not None
    assert part is not None
    all_rows = [row.cells[1:3] for table in whole.tables for row in table.rows]
    rows = [row.cells[1:3] for table in part.tables for row in table.rows]
    assert set(rows) <= set(all_rows)
    assert len(rows) < 0.7 * len(all_rows)
    new = [name for name in state(folder / "rewired.netck").parts if name.startswith(("C5", "C6"))]
    for name in new:
        assert any(pair[0].startswith(name) or pair[1].startswith(name) for pair in rows), name
    assert not any("L1.2" in pair for pair in rows)  # the antenna coil is far from the work


def test_the_sheet_says_how_the_chassis_has_to_be() -> None:
    folder = SAMPLES[0].parents[1] / "harrow-point"
    source = read_file(folder / "rewired.netck")
    _, sheet = bench(source, read=reader(source))
    assert sheet is not None
    text = sheet_text(sheet, Style())
    for words in ("All tubes out.", "S2 at `radio`", "Controls fully counter-clockwise.", "plus of its ohm range",
                  "Every filter capacitor discharged"):  # fmt: skip
        assert words in text
    assert all(len(line) <= 100 for line in text.splitlines())


def test_a_hot_chassis_is_warned_of_on_the_sheet() -> None:
    folder = SAMPLES[0].parents[1] / "skerry"
    source = read_file(folder / "original.netck")
    _, sheet = bench(source, read=reader(source))
    assert sheet is not None
    assert any("line voltage" in text for text in sheet.cautions)


def test_chassis_is_measured_without_tubes_unless_they_are_said_to_be_in() -> None:
    graph = CircuitGraph(circuit(STRING))
    assert not any(branch.part == "V1" for _, _, branch in chassis_of(graph).branches)
    assert any(branch.part == "V1" for _, _, branch in chassis_of(graph, tubes_in=True).branches)
