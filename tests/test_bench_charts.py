"""Which probe goes where in the charts."""

import pytest

from netcheck.bench.expected import Want
from netcheck.bench.plan import plan_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

ACROSS = """
state rewired
strip SP1 5 lugs foot 5
diode D1 1000 V 1 A anode SP1.1 cathode SP1.2
resistor R1 0.8 ohm from SP1.1 to SP1.2
resistor R2 0.8 ohm from SP1.3 to SP1.2
electrolytic C1 100 mfd 25 V plus SP1.2 minus SP1.3
wire SP1.2 to SP1.5
"""


def test_probes_are_put_so_that_what_is_polarised_blocks_however_little_is_across_it() -> None:
    """Less than an ohm beside a rectifier or an electrolytic: still the rectifier blocks and the plus gets the plus."""
    found = plan_of(CircuitGraph(circuit(ACROSS)))
    names = found.chassis.names
    ohms = [(names[step.red], names[step.black]) for step in found.steps if step.expected.want is Want.OHMS]
    assert ("chassis", "SP1.1") in ohms
    assert ("SP1.1", "chassis") not in ohms
    assert ("chassis", "SP1.3") in ohms
    assert ("SP1.3", "chassis") not in ohms


CONTROL = """
state rewired
strip SP1 5 lugs foot 5
pot RV1 {words}
at SP1.1: RV1.ccw
at SP1.2: RV1.wiper
at SP1.3: RV1.cw
resistor R1 1k from SP1.3 to SP1.5
"""
# At its left end a control's wiper is at that end, give or take a fiftieth of its ohms.
CONTROLS = [
    ("500k", {"SP1.1": "501 k \N{PLUS-MINUS SIGN}22 %", "SP1.2": "501 k \N{PLUS-MINUS SIGN}24 %"}),
    ("", {"SP1.1": "above 784", "SP1.2": "above 784"}),
    ("500k tapped", {"SP1.1": "above 784", "SP1.2": "above 784"}),
]


@pytest.mark.parametrize(("words", "said"), CONTROLS)
def test_a_control_reads_by_its_ohms_and_one_without_or_with_a_tap_by_none(words: str, said: dict[str, str]) -> None:
    """Of a tapped control nobody says how many ohms lie on which side of the tap."""
    found = plan_of(CircuitGraph(circuit(CONTROL.format(words=words))))
    names = found.chassis.names
    rows = {names[s.red]: s.expected.words for s in found.steps if s.joint is None and names[s.black] == "chassis"}
    assert {lug: rows[lug] for lug in said} == said
    assert rows["SP1.3"] == "1 k \N{PLUS-MINUS SIGN}22 %"
    assert "SP1.4" not in rows  # bare: there is nothing to measure
