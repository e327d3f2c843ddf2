"""How a stated current divides among the tubes that it covers is not known: nor is what hangs on that.

What the line gets that the `draws` speaks of is known; behind the loads and cathode resistors of the tubes that it
feeds any part of the current may flow. Cold tubes draw nothing, so volts before that are as they are.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from math import inf

from msgspec import Struct, field

from netcheck.core.wording import listed
from netcheck.electrical.network.draft import ends_of
from netcheck.electrical.network.draws import STATED_LOAD
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    Tube,
    part_of,
)
from netcheck.electrical.network.least_ohms import least_ohms
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.study import running
from netcheck.model.graph import CircuitGraph

__all__ = ["SharedOut", "say_shared", "shared_out"]

SAME_SHARE, SAME_VOLTS = 0.01, 0.05  # of what a line gets: less is no other figure
MOST_NAMES = 5


class SharedOut(Struct, frozen=True):
    """What runs at volts or a current that depends on how a stated current divides, by the network's names.

    ``drops`` are the volts that it may move a node by at most: infinite where nothing bounds them.
    ``resistances`` and ``capacitors`` have an end on one of the ``nodes``; ``tubes`` share the current, ``example`` is
    the net of the plate of one.
    """

    drops: Mapping[int, float] = field(default_factory=dict)
    resistances: frozenset[str] = frozenset()
    capacitors: frozenset[str] = frozenset()
    tubes: tuple[str, ...] = ()
    example: str = ""

    @property
    def nodes(self) -> frozenset[int]:
        """The nodes that it moves, by more than what is no other figure."""
        return frozenset(self.drops)


def shared_out(graph: CircuitGraph) -> SharedOut:
    """What of a supply's running figures rests on a current that the file states of several tubes together."""
    return graph.once(_shared_out)


def _shared_out(graph: CircuitGraph) -> SharedOut:
    translation = translated(graph)
    if not translation.covered:
        return SharedOut()
    network = translation.network
    own = {(one.plus, one.minus) for one in network.elements if _is_stated(one) and isinstance(one, Load)}
    paths = [
        one
        for one in network.elements
        if isinstance(one, Tube) and one.name in translation.covered and (one.plate, one.cathode) not in own
    ]
    seen = running(graph)
    nodes = dict(_open(network, paths, None if seen is None else seen.nodes))
    papers = (one for one in translation.papers if not nodes.keys().isdisjoint((one.plus, one.minus)))
    open_ = [one for one in paths if not nodes.keys().isdisjoint((one.plate, one.cathode))]
    elements = [one for one in network.elements if not nodes.keys().isdisjoint(_ends(one))]
    return SharedOut(
        nodes,
        frozenset(one.name for one in elements if isinstance(one, Resistor | Inductor)),
        frozenset(one.name for one in (*elements, *papers) if isinstance(one, Capacitor)),
        tuple(dict.fromkeys(part_of(one.name) for one in open_)),
        next((_point(network, one.plate) for one in open_ if one.plate in nodes), ""),
    )


def _open(network: Network, paths: Sequence[Tube], volts: Sequence[float] | None) -> Iterator[tuple[int, float]]:
    """The nodes that some part of the stated current may move, by what joins them to known ones, with the volts."""
    ends = {end for one in paths for end in (one.plate, one.cathode)}
    known = _known(network, {one.cathode for one in paths})
    ways = _ways(network)
    most = sum(one.amperes for one in network.elements if isinstance(one, Load) and _is_stated(one))
    drops = least_ohms(ways, known)
    reached, left = set[int](), list(ends - known)
    while left:
        at = left.pop()
        reached.add(at)
        left.extend(other for other, _ in ways.get(at, ()) if other not in reached and other not in known)
    for node in reached:
        held = SAME_VOLTS if volts is None else max(SAME_SHARE * abs(volts[node]), SAME_VOLTS)
        drop = drops[node] * most if node in drops else inf
        if drop > held:
            yield node, drop


def _known(network: Network, cathodes: set[int]) -> set[int]:
    """The common, the ends of stated currents and rectifiers, and what filter capacitors hold that bypass no tube."""
    found = {0}
    for one in network.elements:
        if _is_stated(one) or isinstance(one, Rectifier) or (isinstance(one, Capacitor) and one.polarised):
            found.update(set(_ends(one)) - cathodes)
    return found


def _ways(network: Network) -> dict[int, list[tuple[int, float]]]:
    ways: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for one in network.elements:
        if isinstance(one, Resistor | Inductor):
            ways[one.a].append((one.b, one.ohms))
            ways[one.b].append((one.a, one.ohms))
    return ways


def _point(network: Network, node: int) -> str:
    """What a statement may call a node: a net without a name is called after a lead, with its electrode behind."""
    return network.names[node].partition(" ")[0]


def _is_stated(one: Element) -> bool:
    return isinstance(one, Load) and one.name.startswith(STATED_LOAD)


def _ends(one: Element) -> tuple[int, ...]:
    return ends_of(one)[:2]


def say_shared(graph: CircuitGraph) -> str:
    """Why some running figures are not told, and what to state; empty where all are."""
    shared = shared_out(graph)
    if not shared.tubes:
        return ""
    stated = listed([f"`draws {one.point} {one.value.written}`" for one in graph.circuit.loads], MOST_NAMES)
    covers, say = ("cover", "do") if len(graph.circuit.loads) > 1 else ("covers", "does")
    tubes, each = listed(shared.tubes, MOST_NAMES), "each" if len(shared.tubes) > 1 else "it"
    mend = f". To have them, state each tube's own, `draws {shared.example} ... mA`, and take it off the line's"
    return (
        f"{stated} {covers} {tubes} and {say} not say how much goes through {each}: running figures that depend on it "
        f"are left out (?){mend if shared.example else ''}"
    )
