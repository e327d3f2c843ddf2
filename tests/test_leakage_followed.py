"""A leak followed back to the line: which part holds it back, which ways are told, and how switches are tried."""

from itertools import product
from math import sqrt

import pytest

from netcheck.core.quantity import Dimension
from netcheck.electrical.mains import flow, settings
from netcheck.electrical.mains.direct import Raised, levels
from netcheck.electrical.mains.flow import Flow, Share
from netcheck.electrical.mains.impedance import Does, Passage
from netcheck.electrical.mains.leak_orders import enumerated, shown_ways
from netcheck.electrical.mains.leak_words import leak_told
from netcheck.electrical.mains.leakage import Leak, leaks
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.mains.phasor import Admittance, between, potentials
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

HOT, METAL, COLD = 0, 1, 2


def _followed(*branches: tuple[str, int, int, complex]) -> tuple[float, tuple[Share, ...], Flow]:
    """Branches by name, two nodes and ohms; 120 V on the hot node, the metal and the other side at nothing."""
    every = [Admittance(name, a, b, 1 / ohms) for name, a, b, ohms in branches]
    volts = potentials(every, {HOT: 120 + 0j, METAL: 0j, COLD: 0j})
    found = Flow(every, volts, HOT, {})
    return (*found.into(METAL), found)


def test_two_ways_are_told_by_their_currents_the_larger_first() -> None:
    whole, ways, found = _followed(("R1", HOT, METAL, 60_000), ("R2", METAL, HOT, 20_000), ("R3", 5, METAL, 1))
    assert whole == pytest.approx(0.008)
    assert [way.part for way in ways] == ["R2", "R1"]
    assert [way.amperes for way in ways] == pytest.approx([0.006, 0.002])
    assert (list(found.parts), found.nets) == (["R2"], {HOT, METAL})


def test_of_two_that_are_equal_the_first_by_name() -> None:
    _, ways, found = _followed(("R9", HOT, METAL, 1000), ("R2", HOT, METAL, 1000))
    assert [way.part for way in ways] == ["R2", "R9"]
    assert list(found.parts) == ["R2"]


def test_branches_of_one_part_are_one_way() -> None:
    _, ways, _ = _followed(("T1", HOT, METAL, 1000), ("T1", METAL, HOT, 3000))
    assert [way.part for way in ways] == ["T1"]
    assert ways[0].amperes == pytest.approx(0.16)


@pytest.mark.parametrize(("ohms", "told"), [(900_000, ["R1", "R2"]), (1_100_000, ["R1"])])
def test_less_than_a_thousandth_is_not_told(ohms: float, told: list[str]) -> None:
    _, ways, _ = _followed(("R1", HOT, METAL, 1000), ("R2", HOT, METAL, ohms))
    assert [way.part for way in ways] == told


@pytest.mark.parametrize(("near", "keeper"), [(10_000, "R2"), (7_600, "R2"), (7_400, "R1"), (100, "R1")])
def test_the_part_nearest_the_metal_with_a_quarter_of_the_largest_drop_holds_it_back(near: float, keeper: str) -> None:
    whole, ways, found = _followed(("R1", HOT, 5, 30_000), ("R2", 5, METAL, near))
    assert [way.part for way in ways] == [keeper]
    assert whole == pytest.approx(120 / (30_000 + near))
    assert (set(found.parts), found.nets) == ({"R1", "R2"}, {HOT, 5, METAL})


def test_a_way_goes_back_along_the_largest_current() -> None:
    """Two resistors feed one point: the way to the line is by the smaller one, and none goes to the other side."""
    _, _, found = _followed(
        ("R1", HOT, 5, 60_000), ("R2", 5, HOT, 40_000), ("R3", 5, METAL, 1000), ("R4", 5, COLD, 500), ("R5", 5, 5, 1)
    )
    assert list(found.parts) == ["R3", "R2"]


def test_it_goes_back_to_the_line_part_by_part() -> None:
    _, _, found = _followed(("R1", HOT, 6, 1000), ("R2", 6, 5, 1000), ("R3", 5, METAL, 1000), ("R4", HOT, 7, 1000))
    assert list(found.parts) == ["R3", "R2", "R1"]


def test_through_a_capacitor_it_is_followed_by_the_phase() -> None:
    _, ways, found = _followed(("R1", HOT, 5, 10_000), ("C1", 5, METAL, -20_000j), ("R2", 5, COLD, 20_000))
    assert [way.part for way in ways] == ["C1"]
    assert list(found.parts) == ["C1", "R1"]


def test_no_current_into_the_metal_has_no_way() -> None:
    whole, ways, found = _followed(("R1", HOT, COLD, 1000))
    assert (whole, ways, dict(found.parts), found.nets) == (0.0, (), {}, set())


def test_after_so_many_branches_only_the_first_part_of_a_way_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    chain = [("R1", HOT, 5, 30_000), ("R2", 5, METAL, 100), ("R3", HOT, 6, 30_000), ("R4", 6, METAL, 100)]
    assert [way.part for way in _followed(*chain)[1]] == ["R1", "R3"]
    monkeypatch.setattr(flow, "_WALKED", 1)
    assert [way.part for way in _followed(*chain)[1]] == ["R1", "R4"]


def test_a_rectifier_is_followed_from_the_metal_to_what_lifts_it() -> None:
    """A rectifier of 50 ohm with 170 V of peak drives the metal through 34 kilohm: 5 mA."""
    resistor = Admittance("R1", 5, METAL, complex(1 / 33_950))
    volts, conducting = levels((resistor,), [Raised("D1", HOT, 5, 170.0, 1 / 50)], {HOT: 0j, METAL: 0j, COLD: 0j})
    drives = {Admittance(e.name, e.anode, e.cathode, complex(e.siemens)): e.peak for e in conducting}
    found = Flow((resistor, *drives), volts, HOT, drives)
    whole, ways = found.into(METAL)
    assert whole == pytest.approx(0.005)
    assert ([way.part for way in ways], list(found.parts)) == (["R1"], ["R1", "D1"])


def test_below_the_common_it_is_followed_against_the_rectifier() -> None:
    resistor, rectifier = Admittance("R1", 5, METAL, 1 / 33_950 + 0j), Admittance("D1", 5, HOT, 1 / 50 + 0j)
    elsewhere = Admittance("D9", HOT, 5, 1 / 50 + 0j)
    found = Flow((resistor, elsewhere, rectifier), {HOT: 0j, METAL: 0j, 5: -169.75 + 0j}, HOT, {rectifier: 170.0})
    assert found.into(METAL)[0] == pytest.approx(0.005)
    assert list(found.parts) == ["R1", "D1"]


def test_what_a_rectifier_lifts_adds_to_what_comes_by_another_way() -> None:
    """10 A from a point at 10 V through an ohm, and 170 V through 50 ohm."""
    resistor, rectifier = Admittance("R1", 5, METAL, 1 + 0j), Admittance("D1", HOT, METAL, 1 / 50 + 0j)
    whole, ways = Flow((resistor, rectifier), {HOT: 0j, METAL: 0j, 5: 10 + 0j}, HOT, {rectifier: 170.0}).into(METAL)
    assert whole == pytest.approx(13.4)
    assert [way.part for way in ways] == ["R1", "D1"]
    assert [way.amperes for way in ways] == pytest.approx([10.0, 3.4])


def test_rectifiers_in_a_ring_end_the_way_and_nothing_is_followed_past_the_line() -> None:
    drives = {Admittance(name, a, b, 1 + 0j): 9.0 for name, a, b in (("D1", 6, 5), ("D2", 5, 6), ("D3", COLD, HOT))}
    resistors = (Admittance("R1", 5, METAL, 1 + 0j), Admittance("R2", HOT, METAL, 9 + 0j))
    ring = Flow((*resistors[:1], *drives), {HOT: 9 + 0j, 5: 9 + 0j, 6: 9 + 0j}, HOT, drives)
    ring.into(METAL)
    assert list(ring.parts) == ["R1", "D1"]
    line = Flow((*resistors, *drives), {HOT: 9 + 0j, 5: 9 + 0j, 6: 9 + 0j}, HOT, drives)
    line.into(METAL)
    assert list(line.parts) == ["R2"]


def test_a_star_of_three_ohms_seen_from_its_ends_is_a_delta_of_three_ohms_each() -> None:
    star = [Admittance(f"R{end}", end, 9, 1 + 0j) for end in range(3)]
    found = {(each.a, each.b): each.admittance for each in between(star, range(3))}
    assert found == {pair: pytest.approx(1 / 3) for pair in ((0, 1), (0, 2), (1, 2))}


LINE = "mains 120 V 60 Hz\ncord P1 polarized\nresistor R1 10k\nnet hot: P1.hot\nnet cold: P1.neutral\n"


def _switches(counts: list[int]) -> CircuitGraph:
    """From one switch to the next, each with so many positions, all of which matter: they lead to resistors."""
    lines, metal = [], ["R1.2"]
    for at, count in enumerate(counts):
        lines.append(f"switch S{at} drawn p0")
        lines += [f"position S{at} p{place}: 1 {place + 2}" for place in range(count)]
        lines += [f"resistor R{at}{place} {10 + place}k" for place in range(count)]
        lines += [f"net s{at}x{place}: S{at}.{place + 2}, R{at}{place}.1" for place in range(count)]
        metal += [f"R{at}{place}.2" for place in range(count)]
    lines.append(f"net hot: R1.1, {', '.join(f'S{at}.1' for at in range(len(counts)))}")
    return CircuitGraph(circuit(f"{LINE}{chr(10).join(lines)}\nnet frame: chassis, {', '.join(metal)}\n"))


def _tried(counts: list[int]) -> tuple[list[str], bool]:
    graph = _switches(counts)
    line = line_of(graph)
    assert line is not None
    found, complete = settings.settings(graph, line, _carriers(graph), {0})
    return [each.said for each in found], complete


def _carriers(graph: CircuitGraph) -> tuple[Passage, ...]:
    nets = graph.circuit.net_of
    resistors = [part.name for part in graph.circuit.parts.values() if part.features.first(Dimension.RESISTANCE)]
    return tuple(Passage(name, nets(f"{name}.1"), nets(f"{name}.2"), Does("1", "2", 1 + 0j)) for name in resistors)


def _said(counts: list[int], moved: int) -> set[str]:
    """All stands in which at most so many switches are not as drawn, in words."""
    stands = [s for s in product(*map(range, counts)) if sum(place > 0 for place in s) <= moved]
    return {" and ".join(f"S{at} at p{place}" for at, place in enumerate(s) if place) for s in stands}


@pytest.mark.parametrize("counts", [[2], [2, 3], [3, 2, 4]])
def test_switches_are_tried_in_all_positions_together(counts: list[int]) -> None:
    said, complete = _tried(counts)
    assert complete
    assert len(said) == len(set(said))
    assert set(said) == _said(counts, len(counts))
    assert said[0] == ""


@pytest.mark.parametrize("counts", [[2, 3, 2], [3, 2, 4], [2, 2, 2, 3]])
def test_of_more_than_can_be_tried_two_at_a_time_are_moved(counts: list[int], monkeypatch: pytest.MonkeyPatch) -> None:
    """One after the other first: 1, then the sum of the positions left, then of their products two by two."""
    monkeypatch.setattr(settings, "MOST_WAYS", 2)
    said, complete = _tried(counts)
    assert not complete
    assert len(said) == len(set(said))
    assert set(said) == _said(counts, 2)
    assert [each.count("and") for each in said] == sorted(each.count("and") for each in said)
    assert said[0] == ""


def _settings_of(text: str) -> tuple[CircuitGraph, tuple[settings.Setting, ...]]:
    graph = CircuitGraph(circuit(f"mains 120 V 60 Hz\n{text}"))
    line = line_of(graph)
    assert line is not None
    return graph, settings.settings(graph, line, _carriers(graph), {0})[0]


def test_exactly_as_many_ways_as_may_be_are_tried_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(settings, "MOST_WAYS", 12)
    assert _tried([2, 3, 2])[1]
    monkeypatch.setattr(settings, "MOST_WAYS", 11)
    assert not _tried([2, 3, 2])[1]


def test_a_plug_goes_in_both_ways_where_nothing_tells_its_blades_apart() -> None:
    ends = "resistor R1 10k\nnet a: P1.{}, R1.1\nnet b: P1.{}\nnet frame: chassis, R1.2\n"
    for cord, leads in (("cord P1", ("1", "2")), ("cord P1 polarized", ("hot", "neutral"))):
        graph, found = _settings_of(f"{cord}\n{ends.format(*leads)}")
        names = [(graph.point(each.hot).name, graph.point(each.cold).name) for each in found]
        one, other = (f"P1.{lead}" for lead in leads)
        assert names == ([(one, other), (other, one)] if cord == "cord P1" else [(one, other)])


DECKS = """cord P1 polarized
fuse F1 1 A
switch S1 drawn b
position S1 a: 1 2
position S1 b: 1 2, 3 4
position S1 c: 3 4
switch S2
resistor R1 10k
resistor R2 10k
net in: P1.hot, F1.1
net hot: F1.2, S1.1
net on: S1.2, R1.1
net cold: P1.neutral
net audio: S1.3, S2.1
net more: S1.4, R2.1
net rest: S2.2, R2.2
net frame: chassis, R1.2
"""


def test_positions_that_differ_off_the_way_are_not_tried_and_what_is_drawn_there_stays() -> None:
    """S2 and the second deck of S1 are of the audio part; a fuse is taken as whole."""
    graph, found = _settings_of(DECKS)
    assert [each.said for each in found] == ["", "S1 at c"]
    drawn, other = found
    nets = {name: graph.circuit.net_of(name) for name in ("F1.1", "F1.2", "S1.2", "S2.1", "S2.2", "S1.4")}
    assert drawn.of(nets["F1.1"]) == drawn.of(nets["F1.2"]) == drawn.of(nets["S1.2"])
    assert other.of(nets["F1.1"]) == other.of(nets["F1.2"]) != other.of(nets["S1.2"])
    for each in found:
        assert each.of(nets["S2.1"]) == each.of(nets["S2.2"]) == each.of(nets["S1.4"])
        assert each.all_of({each.of(nets["S2.1"])}) == {nets["S2.1"], nets["S2.2"], nets["S1.4"]}


def test_of_more_contacts_than_can_be_joined_the_rest_is_not_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(settings, "MOST_JOINED", 5)
    said, complete = _tried([3, 4])  # two contacts each time
    assert (len(said), complete) == (3, False)


@pytest.mark.parametrize(
    ("names", "last", "said"),
    [
        (["R1"], True, "R1"),
        (["R1", "R2"], True, "R1 and R2"),
        (["R1", "R2", "R3"], True, "R1, R2 and R3"),
        (["R1", "R2"], False, "R1, R2"),
        ([], True, ""),
    ],
)
def test_names_in_a_row(names: list[str], *, last: bool, said: str) -> None:
    assert enumerated(names, last=last) == said


@pytest.mark.parametrize(("shares", "shown"), [((1.0, 0.11), 2), ((1.0, 0.09), 1), ((0.05, 0.04), 1), ((0.3, 0.3), 2)])
def test_a_part_with_a_tenth_of_the_current_is_shown_and_one_always(shares: tuple[float, ...], shown: int) -> None:
    ways = tuple(Share(f"R{at}", each) for at, each in enumerate(shares))
    leak = Leak(0, "chassis", 1.0, 0.0005, ways, "P1.1")
    assert shown_ways(leak) == list(ways[:shown])


@pytest.mark.parametrize(("ohms", "said"), [(220_000, True), (3_300_000, True), (4_700_000, False)])
def test_what_of_a_leak_is_direct_is_said_from_a_tenth_up(ohms: int, *, said: bool) -> None:
    """A bleeder behind a rectifier beside a capacitor of .01 mfd: 0.45 mA alternating, and the peak by the ohms."""
    text = f"""
        mains 120 V 60 Hz
        cord P1 polarized
        diode D1 1000 V 1 A
        electrolytic C1 40 mfd 250 V
        resistor R1 {ohms // 1000}k
        capacitor C2 .01 mfd
        net hot: P1.hot, D1.anode, C2.1
        net B+: D1.cathode, C1+, R1.1
        net bus: P1.neutral, C1-
        net frame: chassis, R1.2, C2.2"""
    graph = CircuitGraph(circuit(text))
    (leak,) = leaks(graph)
    assert leak.direct == pytest.approx(120 * sqrt(2) / (ohms + 50))
    assert ("of it is direct current" in leak_told(graph, leak).why) is said
