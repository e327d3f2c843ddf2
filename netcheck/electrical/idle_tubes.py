"""Tubes that carry no current the way they are wired: the cathode is as positive as all that feeds the plate.

What such a tube is taken to draw goes into no figure, and nothing else would tell: a cathode and a screen on each
other's pins leave every part within its rating.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from netcheck.core.groups import reached
from netcheck.core.wording import listed
from netcheck.electrical.network.supplies import is_driven, translated
from netcheck.model.graph import CircuitGraph

__all__ = ["idle_tubes"]

LIFTED = 10.0  # volts on a cathode from which it is fed, and not only held up by a bias resistor
MOST_NAMES = 5


def idle_tubes(graph: CircuitGraph) -> tuple[str, ...]:
    """The closing line that names them; none where there are none, or nothing is calculated."""
    said = list(_idle(graph)) if is_driven(graph) else []
    if not said:
        return ()
    cathode, plate = ("its cathode", "its plate") if len(said) == 1 else ("their cathodes", "their plates")
    what = f"NO CURRENT flows through {listed(said, MOST_NAMES)}: {cathode} and {plate} are fed from the same point"
    return (f"{what}; check whether electrodes are on each other's pins",)


def _idle(graph: CircuitGraph) -> Iterator[str]:
    from netcheck.electrical.network.elements import Tube
    from netcheck.electrical.network.translate import draft_of
    from netcheck.electrical.study import known

    seen, translation = known(graph), translated(graph)
    if seen is None:
        return
    draft = draft_of(graph)
    conducting = {one.name for one in translation.network.elements}
    ways = _ways([pair for one in draft.elements for pair in _joined(one)] + draft.closed)
    for one in draft.elements:
        node = translation.nodes.get(one.cathode) if isinstance(one, Tube) else None
        # A screen's path has the word behind the tube's name.
        if not isinstance(one, Tube) or node is None or " " in one.name or one.name in conducting:
            continue
        if seen.nodes[node] > LIFTED and one.cathode in reached(one.plate, lambda net: ways.get(net, ())):
            yield f"{one.name} (cathode at {seen.nodes[node]:.0f} V)"


def _joined(element: object) -> Iterator[tuple[int, int]]:
    from netcheck.electrical.network.elements import Inductor, Resistor

    if isinstance(element, Resistor | Inductor):
        yield element.a, element.b


def _ways(pairs: Sequence[tuple[int, int]]) -> Mapping[int, list[int]]:
    ways: dict[int, list[int]] = defaultdict(list)
    for a, b in pairs:
        ways[a].append(b)
        ways[b].append(a)
    return ways
