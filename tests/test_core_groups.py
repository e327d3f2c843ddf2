"""Groups of numbers against the components of a graph library."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.groups import joined_by

PAIRS = st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30)), max_size=40)


@given(PAIRS)
def test_what_is_joined_is_known_by_its_least(pairs: list[tuple[int, int]]) -> None:
    groups = nx.connected_components(nx.Graph(pairs))
    assert joined_by(pairs) == {number: min(group) for group in groups for number in group}
