"""Failures that leave a point hanging, or take both sections of a tube: what is told of their volts."""

import pytest

from netcheck.bench.power_up import power_up
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_explain import volts_explained
from netcheck.bench.volts_read import VoltsRead, wrong_volts
from netcheck.bench.volts_slips import failures
from netcheck.electrical.network.elements import Load
from netcheck.electrical.network.translate import network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_bench_volts_explain import LINES, SET


def test_a_tube_of_two_sections_dies_as_one_and_is_pulled_by_its_own_name() -> None:
    text = SET + "tube V2 6SN7\nresistor R5 47k\nresistor R6 47k\nnet B+3: R5.1, R6.1\n"
    text += "net p-a: R5.2, V2.plate-a\nnet p-b: R6.2, V2.plate-b\nnet ground: V2.cathode-a, V2.cathode-b\n"
    told = {one.words: one for one in failures(network_of(CircuitGraph(circuit(text))).network)}
    both, half = told["V2 draws nothing"], told["V2-a plate draws nothing"]
    assert {one.amperes for one in both.elements if isinstance(one, Load) and one.part} == {0.0}
    assert both.tell.startswith("put a good V2 in;")
    assert half.tell.startswith("pull V2,")


HANGING = (
    SET
    + """tube V2 6V6GT
resistor R5 10 ohm
resistor R6 470k
net B+2: V2.plate, V2.screen
net k: V2.cathode, R5.1
net grid: V2.grid, R6.1
net ground: R5.2, R6.2
volts grid 0 V
"""
)


@pytest.mark.parametrize(("name", "volts", "part"), [("V2 cathode", 60.0, "R5"), ("grid", 7.0, "R6")])
def test_what_nothing_holds_may_read_anything_and_is_never_the_only_cause(name: str, volts: float, part: str) -> None:
    """An open cathode resistor takes the tube's current with it; a grid may hang loose, or its capacitor leaks."""
    graph = CircuitGraph(circuit(HANGING))
    found = power_up(graph)
    point = next(one.point for one in (*found.lines, *found.electrodes) if one.name == name)
    readings = [(one.point, one.said) for one in found.lines if one.name in LINES and one.said is not None]
    read = [VoltsRead(at, Reading("", v, v, Unit.VOLTS), at_half=False) for at, v in [*readings, (point, volts)]]
    assert [(one.name, bool(one.expected)) for one in wrong_volts(found, read)] == [(name, True)]
    told = volts_explained(graph, found, read)
    assert told is not None
    assert told.causes[0].failure.words == f"{part} is open, or a joint of it"
    assert told.causes[0].explains_all
    assert not told.alone
    assert point not in told.causes[0].reads


def test_an_open_cathode_resistor_may_take_half_of_a_stated_current_with_it() -> None:
    network = network_of(CircuitGraph(circuit(HANGING))).network
    told = [one for one in failures(network) if one.words == "R5 is open, or a joint of it"]
    drawn = [[one.amperes for one in each.elements if isinstance(one, Load)] for each in told]
    assert sorted(drawn) == [[0.02, 0.02], [0.04, 0.01], [0.04, 0.02]]
    assert len({one.adrift for one in told}) == len(told[0].adrift) == 1
    assert [one.adrift for one in failures(network) if one.words == "R2 has risen to about 840"] == [frozenset()]
