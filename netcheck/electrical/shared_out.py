"""How a stated current divides among the tubes that it covers is not known: nor is what hangs on that.

Nor is what a damper or a high-voltage rectifier charges, which the sweep drives, nor a line that a tube's cathode
feeds.

What the line gets that the `draws` speaks of is known; behind the loads and cathode resistors of the tubes that it
feeds any part of the current may flow. Cold tubes draw nothing, so volts before that are as they are.
"""

from collections.abc import Mapping
from math import inf

from msgspec import Struct, field

from netcheck.core.wording import listed
from netcheck.electrical.network.draws import STATED_LOAD
from netcheck.electrical.network.elements import Capacitor, Inductor, Load, Network, Resistor, pair_of, part_of
from netcheck.electrical.network.pumped import feeding_cathodes, moved_by_cathodes, moved_by_pumps, pumps
from netcheck.electrical.network.sharing import covered_paths, moved_by_sharing
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.study import running
from netcheck.model.graph import CircuitGraph

__all__ = ["SharedOut", "say_counted", "say_fed", "say_pumped", "say_shared", "shared_out"]

MOST_NAMES = 5


class SharedOut(Struct, frozen=True):
    """What runs at volts or a current that depends on how a stated current divides, by the network's names.

    ``drops`` are the volts that it may move a node by at most: infinite where nothing bounds them.
    ``resistances`` and ``capacitors`` have an end on one of the ``nodes``; ``tubes`` share the current, ``example`` is
    the net of the plate of one. ``most`` are the volts that each of the ``capacitors`` may be off by at most.
    ``pumped`` are those of the nodes that a damper or a high-voltage rectifier charges, ``fed`` those that a cathode
    feeds.
    """

    drops: Mapping[int, float] = field(default_factory=dict)
    resistances: frozenset[str] = frozenset()
    capacitors: frozenset[str] = frozenset()
    tubes: tuple[str, ...] = ()
    example: str = ""
    most: Mapping[str, float] = field(default_factory=dict)
    pumped: frozenset[int] = frozenset()
    fed: frozenset[int] = frozenset()

    @property
    def nodes(self) -> frozenset[int]:
        """The nodes that it moves, by more than what is no other figure."""
        return frozenset(self.drops)


def shared_out(graph: CircuitGraph) -> SharedOut:
    """What of a supply's running figures rests on a current that the file states of several tubes together."""
    return graph.once(_shared_out)


def _shared_out(graph: CircuitGraph) -> SharedOut:
    translation = translated(graph)
    network = translation.network
    pumped, fed = moved_by_pumps(network), moved_by_cathodes(network)
    if not (translation.covered or pumped or fed):
        return SharedOut()
    paths = covered_paths(network, translation.covered)
    seen = running(graph) if translation.covered else None
    nodes = moved_by_sharing(network, paths, None if seen is None else seen.nodes) if translation.covered else {}
    open_ = [one for one in paths if not nodes.keys().isdisjoint((one.plate, one.cathode))]
    nodes.update(dict.fromkeys(pumped | fed, inf))
    papers = (one for one in translation.papers if not nodes.keys().isdisjoint((one.plus, one.minus)))
    elements = [one for one in network.elements if not nodes.keys().isdisjoint(pair_of(one))]
    capacitors = [one for one in (*elements, *papers) if isinstance(one, Capacitor)]
    return SharedOut(
        nodes,
        frozenset(one.name for one in elements if isinstance(one, Resistor | Inductor)),
        frozenset(one.name for one in capacitors),
        tuple(dict.fromkeys(part_of(one.name) for one in open_)),
        next((_point(network, one.plate) for one in open_ if one.plate in nodes and one.plate not in pumped | fed), ""),
        {one.name: nodes.get(one.plus, 0.0) + nodes.get(one.minus, 0.0) for one in capacitors},
        pumped,
        fed,
    )


def _point(network: Network, node: int) -> str:
    """What a statement may call a node: a net without a name is called after a lead, with its electrode behind."""
    return network.names[node].partition(" ")[0]


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


def say_pumped(graph: CircuitGraph) -> str:
    """Which tubes charge lines to volts that the mains do not tell, and what to state; empty where none does."""
    pumped = shared_out(graph).pumped
    if not pumped:
        return ""
    network = translated(graph).network
    tubes = [one for one in pumps(network) if one.cathode in pumped]
    first = tubes[0]
    to = f" to {_point(network, first.anode)}" if first.anode not in pumped else ""
    charge, what = ("charge", "their cathodes") if len(tubes) > 1 else ("charges", "its cathode")
    return (
        f"The sweep drives {listed([one.name for one in tubes], MOST_NAMES)}, which {charge} what is on {what} to "
        f"volts that no figure of the supply tells, often hundreds above B+: running figures there are left out (?). "
        f"To have them, state what the service sheet says, `supply {_point(network, first.cathode)}{to} ... V`"
    )


def say_fed(graph: CircuitGraph) -> str:
    """Which tubes feed a line from their cathodes, and what to state; empty where none does."""
    fed = shared_out(graph).fed
    if not fed:
        return ""
    network = translated(graph).network
    loads = feeding_cathodes(network)
    tubes = listed([one.name.partition(" ")[0] for one in loads], MOST_NAMES)
    stated = listed([f"`draws {_point(network, one.plus)} ... mA`" for one in loads], MOST_NAMES)
    return (
        f"{tubes} {'feed lines from their cathodes' if len(loads) > 1 else 'feeds a line from its cathode'}: running "
        f"figures there are left out (?). To have them, state {stated}"
    )


def say_counted(graph: CircuitGraph) -> str:
    """Which currents nothing is added for: whoever wrote `draws` for another chassis alone has to know.

    Empty where there are none, or ``say_shared`` says so already.
    """
    translation, shared = translated(graph), shared_out(graph).tubes
    told = shared if len(shared) <= MOST_NAMES else ()
    elements = translation.network.elements
    paths = (one.name for one in elements if one.name in translation.covered)
    electrodes = [name if " " in name else f"{name} plate" for name in paths if part_of(name) not in told]
    if not electrodes or not any(isinstance(one, Load) and one.stated for one in elements):
        return ""
    stated = listed([f"`{STATED_LOAD}{load.point}`" for load in graph.circuit.loads])
    return f"counted in {stated}, and not added to it: {listed(electrodes)} current"
