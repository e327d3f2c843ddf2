"""What is said of joints beside making them: which points an `intended` change speaks of, and what a file says once."""

import pytest

from netcheck.core.circuit import StateOfWork
from tests.paper import circuit

BASE = """
strip SP1 5 lugs insulated
resistor R1 1k
resistor R2 2k
resistor R3 3k
tube V1 6J5
net grid: R1.1, R2.1, V1.grid
at SP1.1: R1.2, R3.1
wire SP1.1 to SP1.2 red
"""
WHY = ' intended "why"'

# The hub or the lead first, each point by its own name; a line about a whole strip speaks of one joint a lug.
INTENDED = {
    "net B+: R3.2, SP1.4": [("net", ("B+", "R3.2", "SP1.4"))],
    "at SP1.4: R3.2, V1.cathode": [("at", ("SP1.4", "R3.2", "V1.8"))],
    "at SP1: 3 R3.2, 4 V1.cathode": [("at", ("SP1.3", "R3.2")), ("at", ("SP1.4", "V1.8"))],
    "wire SP1.3 to SP1.4 to V1.plate black": [("wire", ("SP1.3", "SP1.4", "V1.3"))],
    "lift R1.1, V1.grid": [("lift", ("R1.1", "V1.5"))],
    "move R1.1 to SP1.4": [("move", ("R1.1", "SP1.4"))],
    "cut SP1.2 to SP1.1": [("cut", ("SP1.2", "SP1.1"))],
}


@pytest.mark.parametrize("line", INTENDED)
def test_an_intended_change_speaks_of_its_points(line: str) -> None:
    log = f'start from "base.netck"\n{line}'
    state = circuit(f"{log}{WHY}\n", base=BASE)
    assert [(one.verb, one.points) for one in state.intended] == INTENDED[line]
    assert {(one.reason, one.place.line) for one in state.intended} == {("why", 2)}
    assert circuit(f"{log}\n", base=BASE).intended == ()


def test_a_fit_that_is_intended_speaks_of_both_ends() -> None:
    state = circuit(f"strip SP1 5 lugs\nresistor R1 1k\nfit R1 from SP1.1 to SP1.2{WHY}\n")
    assert [(one.verb, one.points) for one in state.intended] == [("fit", ("SP1.1", "SP1.2"))]


@pytest.mark.parametrize("word", ["drawn", "found", "planned", "rewired"])
def test_a_state_is_one_of_four_and_finished_unless_said(word: str) -> None:
    for unfinished in (False, True):
        state = circuit(f"state {word}{' unfinished' * unfinished}\n{BASE}")
        assert (state.state, state.unfinished) == (StateOfWork(word), unfinished)


def test_a_later_layer_says_again_what_a_file_says_once() -> None:
    base = f'title "first"\nstate drawn\nmains 117 V 60 Hz\nmeter 20000 ohm/V\nleakage 0.75 mA\ncommon grid\n{BASE}'
    kept = circuit('start from "base.netck"\nstate found\n', base=base)
    assert (kept.title, kept.common, [q.written for q in kept.mains]) == ("first", "grid", ["117 V", "60 Hz"])
    log = 'title "second"\nstate found\nmains 230 V 50 Hz\nmeter 11 meg\nleakage 0.5 mA\ncommon SP1.1\n'
    said = circuit(f'start from "base.netck"\n{log}', base=base)
    assert (said.title, said.common, [q.written for q in said.mains]) == ("second", "SP1.1", ["230 V", "50 Hz"])
    assert said.meter is not None
    assert said.leakage is not None
    assert (said.meter.written, said.leakage.written) == ("11 meg", "0.5 mA")


@pytest.mark.parametrize("hertz", ["16 Hz", "16.7 Hz", "50 Hz", "800 Hz"])
def test_a_line_may_be_a_railways_or_an_aircrafts(hertz: str) -> None:
    assert [q.written for q in circuit(f"mains 117 V {hertz}\n{BASE}").mains] == ["117 V", hertz]
