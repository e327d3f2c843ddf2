"""A circuit is drafted once for all who ask, and what one of them adds is not in what the next is given."""

from netcheck.electrical.network.translate import draft_of, network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_electrical_translate import FULL_WAVE


def test_a_draft_is_its_callers_own_to_add_to() -> None:
    graph = CircuitGraph(circuit(FULL_WAVE))
    before, drafted = network_of(graph), draft_of(graph)
    for name in drafted.__struct_fields__[3:]:
        getattr(drafted, name).clear()
    assert before.network.elements
    assert network_of(graph) == before
