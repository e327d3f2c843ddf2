"""Which probe goes where in the charts."""

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
