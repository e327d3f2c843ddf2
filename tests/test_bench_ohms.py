"""Resistances of a chassis and their changes, against networkx, exact fractions and a fresh solution."""

from dataclasses import replace
from pathlib import Path
from random import Random

import networkx as nx
import numpy as np
import pytest

from netcheck.bench.branches import Makes
from netcheck.bench.chassis import Chassis, chassis_of
from netcheck.bench.ohms import JOINT, OPEN, Matrix, Ohms, Shunt, nominal, ohms_of
from netcheck.electrical.running.resistance import resistances
from netcheck.model.graph import CircuitGraph
from tests.bench_campaign.nodal import read, real_of
from tests.paper import circuit
from tests.test_electrical_resistance import exact

SAMPLES = sorted((Path(__file__).parents[1] / "samples").glob("*/original.netck"))
MESH = """
state rewired
strip SP1 6 lugs foot 3
resistor R1 10k from SP1.1 to SP1.2
resistor R2 22k from SP1.2 to SP1.3
resistor R3 470 ohm from SP1.1 to SP1.3
resistor R4 10 meg from SP1.4 to SP1.5
coil L1 0.5 ohm from SP1.5 to SP1.6
wire SP1.6 to SP1.2
"""


def chassis(text: str) -> Chassis:
    return chassis_of(CircuitGraph(circuit(text)))


def sample(path: Path) -> Chassis:
    return chassis_of(CircuitGraph(circuit(path.read_text(encoding="utf-8"))))


def paths(found: Chassis) -> list[tuple[int, int, float]]:
    joints = [(joint.a, joint.b, JOINT) for joint in found.joints]
    return joints + [(a, b, nominal(branch)) for a, b, branch in found.branches if branch.makes is Makes.OHMS]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.parent.name)
def test_ohms_between_points_are_those_of_networkx(path: Path) -> None:
    found = sample(path)
    graph = nx.MultiGraph()
    for a, b, value in paths(found):
        graph.add_edge(a, b, ohms=value)
    ohms = ohms_of(found)
    for part in [graph.subgraph(nodes) for nodes in nx.connected_components(graph)]:
        if 1 < len(part) <= 40:
            for one, others in nx.resistance_distance(part, weight="ohms").items():
                for other, distance in others.items():
                    assert ohms.between[one, other] == pytest.approx(distance, rel=1e-6, abs=1e-6)


def test_ohms_are_those_of_exact_fractions() -> None:
    found = chassis(MESH)
    ohms = ohms_of(found)
    for one, other in (("SP1.1", "SP1.2"), ("SP1.4", "SP1.3"), ("R1.1", "L1.2"), ("SP1.4", "SP1.5")):
        a, b = found.node[one], found.node[other]
        assert ohms.between[a, b] == pytest.approx(exact(len(found.names), paths(found), a, b), rel=1e-9)


def changed_anew(found: Chassis, changes: list[Shunt]) -> Ohms:
    """The changed chassis solved afresh: siemens of each pair of nodes added up."""
    siemens: dict[tuple[int, int], float] = {}
    graph = nx.Graph((a, b) for a, b, _ in paths(found))
    graph.add_nodes_from(range(len(found.names)))
    leaks = [(0, min(nodes), OPEN) for nodes in nx.connected_components(graph) if 0 not in nodes]
    for a, b, ohms in (*paths(found), *leaks):
        key = (min(a, b), max(a, b))
        siemens[key] = siemens.get(key, 0.0) + 1 / ohms
    for change in changes:
        key = (min(change.a, change.b), max(change.a, change.b))
        siemens[key] = siemens.get(key, 0.0) + change.siemens
    return Ohms(resistances(len(found.names), [(a, b, 1 / g) for (a, b), g in siemens.items() if g > 1e-14]))


def test_changes_are_those_of_the_changed_chassis() -> None:
    """Joints opened, bridges, parts open and drifted, alone and in threes."""
    found = chassis(MESH)
    ohms, random = ohms_of(found), Random(1)  # noqa: S311 - draws cases
    branch = {one.name: (a, b, one.ohms or 0.0) for a, b, one in found.branches}
    possible = [Shunt(joint.a, joint.b, -1 / JOINT) for joint in found.joints]
    possible += [Shunt(a, b, -1 / value) for a, b, value in branch.values()]
    possible += [Shunt(a, b, 1 / value) for a, b, value in branch.values()]
    possible += [Shunt(found.node[f"SP1.{n}"], found.node[f"SP1.{n + 1}"], 1 / JOINT) for n in range(1, 6)]
    red, black = zip(*[random.sample(range(len(found.names)), 2) for _ in range(60)], strict=True)
    each = ohms.changed_each(red, black, possible)
    for trial in range(200):
        some = random.sample(possible, 1 + trial % 3)
        if len({(one.a, one.b) for one in some}) < len(some):
            continue
        truth = np.minimum(changed_anew(found, some).read(red, black), OPEN / 2)
        agrees(ohms.after(some).read(red, black), truth)
        if len(some) == 1:
            agrees(each[:, possible.index(some[0])], truth)


def agrees(seen: Matrix, truth: Matrix) -> None:
    """To the millionth, but for what the ohms that stand for open let through."""
    assert (np.abs(np.minimum(seen, OPEN / 2) - truth) <= 1e-3 + 1e-6 * truth + 2 * truth**2 / OPEN).all()


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.parent.name)
def test_a_chassis_reads_as_plain_nodal_analysis_says(path: Path) -> None:
    state = circuit(path.read_text(encoding="utf-8"))
    found, real = chassis_of(CircuitGraph(state)), real_of(state)
    known = {way.name: way.ohms for way in real.ways}
    ohms, random = ohms_of(found, lambda branch: known[branch.name]), Random(2)  # noqa: S311 - draws pairs
    names = [name for name in found.names if name in state.index]
    for _ in range(100):
        red, black = random.sample(names, 2)
        truth = read(replace(real, ways=tuple(way for way in real.ways if not way.diode)), red, black)
        seen = float(ohms.between[found.node[red], found.node[black]])
        assert min(seen, 1e8) == pytest.approx(min(truth, 1e8), rel=1e-3, abs=1.0)


def test_what_is_inside_of_a_can_is_measured_at_its_lug_whichever_line_comes_first() -> None:
    lines = ["can C1 insulated", "section C1A 20 mfd 450 V half-moon", "resistor R1 1k from C1.A to C1.can"]
    for order in (lines, lines[::-1]):
        names = set(chassis("\n".join(("state found", *order))).names)
        assert {"C1.A", "C1.can", "R1.1", "R1.2"} <= names
        assert not {"C1A+", "C1A-"} & names


def test_readings_without_a_change_to_look_for_are_a_table_without_columns() -> None:
    one = chassis("state found\nresistor R1 1k\nnet a: R1.1, chassis\n")
    assert ohms_of(one).changed_each([0, 1], [1, 0], []).shape == (2, 0)
