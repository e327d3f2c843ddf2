"""How much of a rating is too much: each bound held from both sides, against what the part is seen to get."""

import pytest

from netcheck.core.diagnostic import Diagnostic
from netcheck.electrical.duties import Demand, duties
from netcheck.electrical.off_chart import off_chart
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit

SUPPLY = """state {state}
mains 117 V 60 Hz
cord P1
fuse F1 1 A slow
transformer T1
winding T1 primary black-a black-b 117 V 10 ohm
winding T1 high red-a red-b 117 V 20 ohm
diode D1 1000 V {mean} A
resistor R1 47 ohm {watts} W
electrolytic C1 47 mfd 250 V {ripple} A
resistor R2 2.7k 200 W
net in: P1.1, F1.1
net line-a: F1.2, T1.black-a
net line-b: P1.2, T1.black-b
net high: T1.red-a, R1.1
net rect: R1.2, D1.anode
net B+: D1.cathode, C1+, R2.1
net ground: chassis, T1.red-b, C1-, R2.2
"""
AMPLE = {"state": "rewired", "mean": "3", "watts": "50", "ripple": "5"}
RULES = {"mean": "rectifier-overloaded", "watts": "resistor-overloaded", "ripple": "ripple-too-high"}
SEEN = {
    one.asked: one.seen
    for one in duties(CircuitGraph(circuit(SUPPLY.format(**AMPLE))))
    if one.part in ("D1", "R1", "C1")
}
OF = {"mean": SEEN[Demand.MEAN], "watts": SEEN[Demand.WATTS], "ripple": SEEN[Demand.RIPPLE]}


def told(**said: str) -> list[Diagnostic]:
    return list(checked(SUPPLY.format(**{**AMPLE, **said})).diagnostics)


def grades(**said: str) -> list[tuple[str, str]]:
    return [(d.grade.value, d.rule) for d in told(**said)]


@pytest.mark.parametrize("what", sorted(RULES))
@pytest.mark.parametrize(
    ("share", "grade"), [(0.79, None), (0.81, "LOOK"), (1.04, "LOOK"), (1.06, "STOP"), (3.0, "STOP")]
)
def test_over_a_rating_is_a_stop_and_within_a_fifth_of_it_a_look(what: str, share: float, grade: str | None) -> None:
    found = grades(**{what: f"{OF[what] / share:.6f}"})
    assert found == ([] if grade is None else [(grade, RULES[what])])


@pytest.mark.parametrize("what", sorted(RULES))
@pytest.mark.parametrize("state", ["drawn", "found"])
@pytest.mark.parametrize(("share", "grade"), [(0.9, None), (1.04, None), (1.06, "LOOK"), (3.0, "LOOK")])
def test_a_set_as_it_was_built_is_looked_at_and_never_stopped(
    what: str, state: str, share: float, grade: str | None
) -> None:
    found = grades(**{what: f"{OF[what] / share:.6f}"}, state=state)
    assert found == ([] if grade is None else [(grade, RULES[what])])


# What resistors are sold for; twice the heat is fitted, and from 3 W upward they are wirewound.
SIZES = (0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 50, 100)
OHMS = (360000, 60000, 36000, 19000, 14000, 9000, 6000, 3200, 2200, 1800, 1400, 600, 150)


def bleeding(ohms: int) -> str:
    supply = SUPPLY.format(**{**AMPLE, "watts": "900"})
    for soft in (47, 10, 20):  # stiff enough for a hundred watts
        supply = supply.replace(f"{soft} ohm", f"{soft // 10} ohm")
    return supply + f"resistor R3 {ohms} ohm 0.001 W wirewound\nnet B+: R3.1\nnet ground: R3.2\n"


def size_for(ohms: int) -> float | None:
    heat = next(one.seen for one in duties(CircuitGraph(circuit(bleeding(ohms)))) if one.part == "R3")
    return next((each for each in SIZES if each >= 2 * heat), None)


@pytest.mark.parametrize("ohms", OHMS)
def test_the_resistor_to_fit_is_sold_for_twice_the_heat(ohms: int) -> None:
    size = size_for(ohms)
    (found,) = (d for d in checked(bleeding(ohms)).diagnostics if d.touched.parts == ("R3",))
    wound = ", wirewound or flameproof" if size and size > 2 else ""
    several = "share the heat among several resistors, or find what draws so much"
    assert found.do == (f"fit {size:g} W or more{wound}" if size else several)


def test_the_cases_reach_every_size_and_one_above_them_all() -> None:
    assert {size_for(ohms) for ohms in OHMS} == {*SIZES, None}


DIODES = (1, 1.5, 3, 6)  # amperes of the usual ones; four fifths are used with a capacitor behind
LOADS = (0.5, 0.7, 0.9, 1.1, 1.3, 2.2, 2.6, 4.5, 5.2)


def drawing(amperes: float) -> str:
    """A supply of few ohms that can give all of it, with a diode that is far too small."""
    few = SUPPLY.format(**{**AMPLE, "mean": "0.001", "watts": "9000", "ripple": "99"})
    few = few.replace("10 ohm", "0.1 ohm").replace("20 ohm", "1 ohm").replace("47 ohm", "1 ohm")
    return few.replace("47 mfd", "1000 mfd").replace("1 A slow", "10 A") + f"draws B+ {amperes} A\n"


def diode_for(amperes: float) -> float | None:
    every = duties(CircuitGraph(circuit(drawing(amperes))))
    mean = next(one.seen for one in every if one.part == "D1" and one.asked is Demand.MEAN)
    return next((each for each in DIODES if each * 0.8 >= mean), None)


@pytest.mark.parametrize("amperes", LOADS)
def test_the_diode_to_fit_is_used_to_four_fifths(amperes: float) -> None:
    size = diode_for(amperes)
    (found,) = (d for d in checked(drawing(amperes)).diagnostics if d.rule == "rectifier-overloaded")
    assert found.do == (f"fit one for {size:g} A or more" if size else "find what draws so much")


def test_the_loads_reach_every_diode_and_one_above_them_all() -> None:
    assert {diode_for(amperes) for amperes in LOADS} == {*DIODES, None}


def test_the_capacitor_to_fit_stands_a_quarter_more() -> None:
    (found,) = told(ripple=f"{OF['ripple'] / 2:.6f}")
    assert found.do == f"fit one that is rated {OF['ripple'] * 1250:.0f} mA or more"


def computed(volts: str) -> float:
    found = off_chart(CircuitGraph(circuit(SUPPLY.format(**AMPLE) + f"volts B+ {volts} V\n")))
    assert found is not None
    return found.far[0].computed


@pytest.mark.parametrize(("share", "is_far"), [(1.29, False), (1.31, True), (0.71, False), (0.69, True)])
def test_a_chart_is_far_off_by_three_tenths_of_what_it_says(share: float, *, is_far: bool) -> None:
    said = computed("10") / share
    found = checked(SUPPLY.format(**AMPLE) + f"volts B+ {said:.3f} V\n").diagnostics
    assert [(d.grade.value, d.rule) for d in found] == ([("LOOK", "volts-off-chart")] if is_far else [])


@pytest.mark.parametrize(("off", "is_far"), [(4.9, False), (5.1, True)])
def test_on_a_line_of_few_volts_five_are_far(off: float, *, is_far: bool) -> None:
    """A line of some ten volts: three tenths of that are less than what a meter's needle shows."""
    divider = "resistor R3 100k 1 W\nresistor R4 6k 1 W\nelectrolytic C2 10 mfd 50 V\n"
    nets = "net B+: R3.1\nnet low: R3.2, R4.1, C2+\nnet ground: R4.2, C2-\n"
    text = SUPPLY.format(**AMPLE) + divider + nets
    found = off_chart(CircuitGraph(circuit(f"{text}volts low 100 V\n")))
    assert found is not None
    said = found.far[0].computed + off
    rules = [d.rule for d in checked(f"{text}volts low {said:.3f} V\n").diagnostics]
    assert 0.3 * said < 5
    assert ("volts-off-chart" in rules) is is_far


@pytest.mark.parametrize(
    ("held", "reading", "told"),
    [
        ("electrolytic C2 10 mfd 50 V", "volts low 100 V", True),
        ("electrolytic C2 10 mfd 50 V", "volts low to ground 100 V", True),
        ("electrolytic C2 10 mfd 50 V", "volts ground to low 100 V", True),
        ("electrolytic C2 10 mfd 50 V", "volts B+ to low 10 V", True),
        ("capacitor C2 10 mfd 50 V", "volts low 100 V", False),
    ],
)
def test_a_line_is_what_a_filter_capacitor_holds_whichever_way_it_is_read(
    held: str, reading: str, *, told: bool
) -> None:
    """A paper capacitor by-passes a screen, which has what its own current leaves."""
    plus, minus = ("C2+", "C2-") if held.startswith("electrolytic") else ("C2.1", "C2.2")
    divider = f"resistor R3 100k 1 W\nresistor R4 6k 1 W\n{held}\n"
    nets = f"net B+: R3.1\nnet low: R3.2, R4.1, {plus}\nnet ground: R4.2, {minus}\n"
    found = off_chart(CircuitGraph(circuit(f"{SUPPLY.format(**AMPLE)}{divider}{nets}{reading}\n")))
    assert (found is not None) is told


def test_the_worst_four_places_are_shown() -> None:
    parts = "".join(f"resistor R{n} 1k 1 W\nelectrolytic C{n} 10 mfd 250 V\n" for n in range(3, 8))
    nets = "".join(f"net B{n}: R{n}.2, C{n}+\nnet B+: R{n}.1\nnet ground: C{n}-\n" for n in range(3, 8))
    volts = "".join(f"volts B{n} {20 + n} V\n" for n in range(3, 8))
    (found,) = (d for d in checked(SUPPLY.format(**AMPLE) + parts + nets + volts).diagnostics)
    assert [label.place.text for label in found.labels] == [f"volts B{n} {20 + n} V" for n in range(3, 7)]
