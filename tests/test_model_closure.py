"""The nets of a file are the connected components that networkx finds."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.core.circuit import How, Join
from netcheck.core.source import Source
from netcheck.model.closure import closure
from tests.paper import circuit, nets
from tests.strategies import Chassis, chassis


@settings(max_examples=150)
@given(chassis())
def test_nets_are_connected_components(drawn: Chassis) -> None:
    expected = {frozenset(part) for part in drawn.components() if len(part) > 1}
    assert nets(circuit(drawn.text())) == expected


@settings(max_examples=50)
@given(chassis(), st.randoms(use_true_random=False))
def test_the_order_of_statements_makes_no_other_nets(drawn: Chassis, rng: random.Random) -> None:
    assert nets(circuit(drawn.shuffled(rng))) == nets(circuit(drawn.text()))


@given(st.lists(st.tuples(st.integers(0, 19), st.integers(0, 19)), max_size=40), st.randoms(use_true_random=False))
def test_a_net_is_numbered_by_its_first_point(pairs: list[tuple[int, int]], rng: random.Random) -> None:
    place = Source("state.netck", "").whole
    joins = [Join(a, b, How.WIRE, place, place) for a, b in pairs]
    found = closure(20, joins)
    assert all(found[net] == net <= at for at, net in enumerate(found))
    assert all(found[a] == found[b] for a, b in pairs)
    rng.shuffle(joins)
    assert closure(20, joins) == found
