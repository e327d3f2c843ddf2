"""The quick model of mean volts: exact where only direct current flows, near where rectifiers charge capacitors."""

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from netcheck.bench.mean_volts import MeanVolts, mean_volts
from netcheck.bench.volts_slips import Failure, failures
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.steady import steady
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_bench_power import TUBE
from tests.test_bench_volts_explain import SET

# 250 V and 1 ohm, 999 ohm to node 2, where 20 mA are drawn; 10 k from there to a gas tube's node 3.
DIRECT = Network(
    4,
    (
        VoltageSource("supply", 1, 0, 250.0, 0.0, 1.0),
        Inductor("L1", 1, 2, 5.0, 999.0),
        Load("draws", 2, 0, 0.020),
        Resistor("R1", 2, 3, 10_000.0),
        Regulator("V1", 3, 0, 105.0),
        Capacitor("C1", 2, 0, 1e-5, polarised=True),
    ),
)


def direct(*changes: Element) -> list[float]:
    named = {one.name: one for one in changes}
    elements = tuple(named.pop(one.name, one) for one in DIRECT.elements)
    model = MeanVolts.of(DIRECT, {})
    return [float(v) for v in model.nodes((*elements, *named.values()))]


def test_direct_current_divides_by_ohms_law() -> None:
    """Node 2: (250 - v) / 1000 = 0.020 + (v - 105) / 10 001, as a struck gas tube has an ohm."""
    volts = (250 / 1000 - 0.020 + 105 / 10_001) / (1 / 1000 + 1 / 10_001)
    found = direct()
    assert found[0] == 0
    assert found[2] == pytest.approx(volts, rel=1e-6)
    assert found[3] == pytest.approx(105 + (volts - 105) / 10_001, rel=1e-6)
    assert found[1] == pytest.approx(250 - (250 - volts) / 1000, rel=1e-6)


def test_a_gas_tube_that_does_not_strike_is_open_and_a_load_below_its_knee_a_resistance() -> None:
    """10 kilohm in the way: a load of 20 mA above 20 V is 1 kilohm below, so an eleventh of 250 V: 22.7 V; none lower.

    With 100 kilohm it is a hundred and first.
    """
    high = direct(Inductor("L1", 1, 2, 5.0, 99_999.0))
    assert high[2] == pytest.approx(250 / 101, rel=1e-4)
    assert high[3] == pytest.approx(high[2], rel=1e-4)


def test_a_short_and_an_open_path() -> None:
    assert direct(Resistor("short", 2, 0, 1.0))[2] == pytest.approx(
        250 / 1000 / (1 / 1000 + 1 / 1 + 0.020 / 20 + 1e-4), rel=1e-3
    )
    assert direct(Inductor("L1", 1, 2, 5.0, 1e9))[2] == pytest.approx(0, abs=1e-3)
    free = direct(Load("draws", 2, 0, 0.0))
    assert free[2] == pytest.approx((0.250 + 105 / 10_001) / (1 / 1000 + 1 / 10_001), rel=1e-6)


def supply(text: str) -> tuple[Network, MeanVolts, tuple[float, ...]]:
    network = network_of(CircuitGraph(circuit(text))).network
    running = steady(network)
    return network, mean_volts(network, running), running.nodes


@pytest.mark.parametrize("text", [SET, TUBE], ids=["silicon", "tube"])
def test_the_model_is_the_running_supply_where_nothing_is_wrong(text: str) -> None:
    network, model, nodes = supply(text)
    found = model.nodes(network.elements)
    for node, volts in enumerate(nodes):
        if abs(volts) > 1:
            assert found[node] == pytest.approx(volts, rel=0.002)


def _halved(one: Element) -> Element:
    return replace(one, amperes=one.amperes / 2) if isinstance(one, Load) else one


def _doubled(one: Element) -> Element:
    return replace(one, amperes=one.amperes * 1.5) if isinstance(one, Load) else one


def _less_line(one: Element) -> Element:
    return replace(one, peak=one.peak * 0.8) if isinstance(one, VoltageSource) else one


@pytest.mark.parametrize("change", [_halved, _doubled, _less_line])
def test_small_changes_move_the_model_as_they_move_the_engine(change: Callable[[Element], Element]) -> None:
    network, model, _ = supply(SET)
    elements = tuple(map(change, network.elements))
    found, exact = model.nodes(elements), steady(replace(network, elements=elements)).nodes
    for node, volts in enumerate(exact):
        if abs(volts) > 20:
            assert found[node] == pytest.approx(volts, rel=0.04)


def test_without_its_rectifier_a_supply_has_nothing() -> None:
    network, model, _ = supply(SET)
    elements = tuple(one for one in network.elements if not isinstance(one, Rectifier))
    assert max(abs(float(v)) for v in model.nodes(elements)) < 0.5


def of(text: str) -> list[Failure]:
    return [*failures(network_of(CircuitGraph(circuit(text))).network)]


def test_every_failure_is_one_change_of_the_network_and_says_how_to_make_sure() -> None:
    for text in (SET, TUBE):
        network = network_of(CircuitGraph(circuit(text))).network
        for failure in failures(network):
            assert failure.elements != network.elements
            others = [one for one in failure.elements if one not in network.elements]
            gone = [one for one in network.elements if one not in failure.elements]
            sources = [one for one in gone if isinstance(one, VoltageSource | Rectifier)]
            assert len(gone) <= max(1, len(sources)), failure.words
            assert len(others) <= max(1, len(sources)), failure.words
            assert failure.tell
            assert failure.words.startswith(("the line", "nothing", "about")) or failure.subject in failure.words


WORDS = {
    SET: {
        "R2 is open, or a joint of it", "R2 has risen to about 1.12 k", "R2 has fallen to about 280", "C3 is shorted",
        "C3 leaks, about 5 k", "C1 is open or dried up, or a joint of it: it hums", "nothing is drawn from B+2",
        "about 3 times the current is drawn from B+1", "D1 is shorted", "the line is about 20 % low",
        "D1 does not conduct, or a joint of it is open", "the line is about 15 % high",
    },
    TUBE: {
        "V1 is worn: it gives less than it did", "V1 plate-1 does not conduct, or a joint of it is open",
        "C1 is open or dried up, or a joint of it: it hums",
    },
}  # fmt: skip


@pytest.mark.parametrize("text", WORDS, ids=["silicon", "tube"])
def test_the_failures_of_a_supply_in_words(text: str) -> None:
    found = {failure.words for failure in of(text)}
    assert found >= WORDS[text]
    assert not any(word in one for one in found for word in ("C2 is open", "C3 is open"))  # no rectifier charges them
    assert ("V1 is shorted" in found) is False


def test_what_the_model_can_not_judge_is_left_to_the_engine() -> None:
    pulses = {failure.words for failure in (*of(SET), *of(TUBE)) if failure.pulses}
    assert pulses == {
        "C1 is open or dried up, or a joint of it: it hums", "V1 is worn: it gives less than it did", "D1 is shorted",
        "D1 does not conduct, or a joint of it is open", "V1 plate-1 does not conduct, or a joint of it is open",
        "V1 plate-2 does not conduct, or a joint of it is open",
    }  # fmt: skip


SUBJECTS = ("R2", "C3", "the line", "draws B+2", "V1")


def test_the_degrees_of_each_failure() -> None:
    """From a half more to ten times, from two thirds down to a tenth; leaks from 500 ohm up; the line by a quarter."""
    found = [*of(SET), *of(TUBE)]
    said = {subject: [one.words for one in found if one.subject == subject] for subject in SUBJECTS}
    assert len(said["R2"]) == 11
    for words in ("840", "1.12 k", "1.68 k", "2.52 k", "3.92 k", "5.6 k"):
        assert f"R2 has risen to about {words}" in said["R2"]
    for words in ("375", "280", "185", "56"):
        assert f"R2 has fallen to about {words}" in said["R2"]
    leaks = ("500", "1 k", "2 k", "3 k", "5 k", "7 k", "10 k", "20 k", "30 k", "50 k", "100 k")
    assert said["C3"] == ["C3 is shorted", *(f"C3 leaks, about {words}" for words in leaks)]
    line = [*(f"{n} % low" for n in (25, 20, 15, 10)), *(f"{n} % high" for n in (10, 15, 20, 25))]
    assert said["the line"] == [f"the line is about {words}" for words in line] * 2  # of both sets
    more = [f"about {times} times the current is drawn from B+2" for times in ("1.5", "2", "3", "4", "6")]
    assert said["draws B+2"] == ["nothing is drawn from B+2", "about half the current is drawn from B+2", *more]
    assert len(said["V1"]) == 2


def test_each_degree_changes_the_element_by_what_it_says() -> None:
    network = network_of(CircuitGraph(circuit(SET))).network
    sound = {one.name: one for one in network.elements}
    by_words = {failure.words: failure for failure in failures(network)}

    def changed(words: str) -> Element:
        return next(one for one in by_words[words].elements if one not in network.elements)

    for times, words in ((1.5, "risen to about 840"), (10, "risen to about 5.6 k"), (0.1, "fallen to about 56")):
        resistor = changed(f"R2 has {words}")
        assert isinstance(resistor, Resistor)
        assert resistor.ohms == pytest.approx(times * 560)
    opened, short = changed("R2 is open, or a joint of it"), changed("C3 is shorted")
    assert isinstance(opened, Resistor)
    assert opened.ohms >= 1e8
    assert isinstance(short, Resistor)
    assert short.ohms <= 2
    assert sound["C3"] in by_words["C3 is shorted"].elements  # beside the capacitor
    source = changed("the line is about 20 % low")
    assert isinstance(source, VoltageSource)
    assert source.peak == pytest.approx(0.8 * 117 * 2**0.5)
    load = changed("nothing is drawn from B+2")
    assert isinstance(load, Load)
    assert load.amperes == 0
    dry = changed("C1 is open or dried up, or a joint of it: it hums")
    assert isinstance(dry, Capacitor)
    assert dry.farads <= 1e-8
    leaks = changed("D1 is shorted")
    assert isinstance(leaks, Resistor)
    assert leaks.ohms <= 2
