"""What an exchange would leave, weighed on paper, against the nets of all leads counted one by one."""

from types import SimpleNamespace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from netcheck.compare.faults.paper import OnPaper

NETS = st.integers(0, 4)
PAIRS = st.lists(st.tuples(NETS, NETS), min_size=1, max_size=12)


def counted(pairs: list[tuple[int, int]]) -> int:
    """Two for each pair of nets that leads are on, less one for each net of either state: nothing where all agree."""
    each = set(pairs)
    return 2 * len(each) - len({old for old, _ in each}) - len({new for _, new in each})


@given(pairs=PAIRS, moves=st.dictionaries(st.integers(0, 11), NETS, max_size=4), idle=st.integers(0, 2))
def test_what_leads_on_other_nets_leave_is_counted_as_if_anew(
    pairs: list[tuple[int, int]], moves: dict[int, int], idle: int
) -> None:
    laid: Any = SimpleNamespace(
        pairs=tuple(pairs), leads=[SimpleNamespace(new=100 + at) for at in range(len(pairs))], free=(), idle=range(idle)
    )
    after = [(old, moves.get(at, new)) for at, (old, new) in enumerate(pairs)]
    assert OnPaper(laid).moved({100 + at: net for at, net in moves.items()}) == counted(after) + idle
