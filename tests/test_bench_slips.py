"""What slips there are, and what undoes them."""

from netcheck.bench.chassis import chassis_of
from netcheck.bench.slips import simple_slips
from netcheck.core.mend import lines
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_bench_explain import CHASSIS


def test_a_rectifier_in_backwards_changes_places_with_itself() -> None:
    """Each lead goes where the other belongs: as the file has it, the anode on SP1.1 and the cathode on SP1.2."""
    slips = simple_slips(chassis_of(CircuitGraph(circuit(CHASSIS))))
    turned = next(slip for slip in slips if slip.words == "D1 is in backwards")
    assert lines(turned.mend) == ("move D1.anode to SP1.2", "move D1.cathode to SP1.1")


def test_what_states_no_ohms_has_not_drifted_to_any() -> None:
    text = "state found\nstrip SP1 4 lugs\nresistor R1 from SP1.1 to SP1.2\nresistor R2 1k from SP1.3 to SP1.4\n"
    words = [slip.words for slip in simple_slips(chassis_of(CircuitGraph(circuit(text))))]
    assert [one for one in words if one.startswith("R1 ")] == ["R1 is open", "R1 is shorted"]
    assert "R2 has drifted to about 500" in words
