"""Polarity without a simulation: is the mean potential of one node never below that of another?

The argument is about mean values over one period of the mains. Suppose a lay below b, and cut all nodes at a level
between the two. Take what current from a can reach below the cut: current that crosses the edge of this set comes
in, or it is lifted out by a pump (a rectifier, a supply, a grid). Where no pump can lift it out nothing may come
in either, so everything that would certainly feed the set lies below the cut as well. When this pulls b below the cut,
the supposition was wrong. The same is tried from b with all potentials negated. No value is used but the
thresholds of rectifiers.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from netcheck.electrical.blocks import Blocks
from netcheck.electrical.currents import Currents, Flow, currents, mirrored
from netcheck.electrical.network import Conduction, Element, Load, Network, Rectifier, Source, Tube
from netcheck.electrical.order import Order, Proof, Trust, bits

USUAL_AMPERES = 0.1  # drawn from a supply whose loads are not stated

__all__ = ["Proof", "Prover", "Witness", "prove"]


@dataclass(frozen=True, slots=True)
class Witness:
    """Why a claim is not proved: ``pump`` could lift current out, which reaches it along ``path``.

    Without a pump the node argued from floats: nothing certain ties it to the other one.
    """

    higher: int
    lower: int
    pump: Element | None = None
    path: tuple[Element, ...] = ()
    grid: bool = False


def prove(network: Network, a: int, b: int) -> Proof | Witness:
    """A proof that the mean potential of ``a`` is at least that of ``b`` in any tube state, or what is against it."""
    return Prover(network).claim(a, b)


class Prover:
    """Proves claims about one network and remembers what it proved, for later claims to stand on."""

    def __init__(self, network: Network, *, grids: bool = True, undriven: bool = True) -> None:
        """Take a network, with or without currents into grids and through rectifiers off the mains."""
        low = currents(network, grids=grids, undriven=undriven)
        self._joined = low.joined
        self._low = low
        self._high = mirrored(low)
        self._order = Order(network.count)
        self._blocks = Blocks(network.count, [(flow.source, flow.target) for flows in low.ways for flow in flows])
        self._hubs = _hubs(network, low.joined)
        self._surveyed = False
        amperes = sum(load.amperes * (1 + load.tolerance) for load in network.elements if isinstance(load, Load))
        for rectifier in network.elements:
            if isinstance(rectifier, Rectifier) and rectifier.driven:
                ends = low.joined[rectifier.cathode], low.joined[rectifier.anode]
                self._order.add(
                    Proof(*ends, _drop(rectifier.law, amperes or USUAL_AMPERES), (rectifier,), clamped=True)
                )

    def claim(self, a: int, b: int) -> Proof | Witness:
        """A proof that the mean potential of ``a`` is at least that of ``b``, or what stands against it."""
        here, there = self._joined[a], self._joined[b]
        found = self._tried(here, there)
        if isinstance(found, Witness) and found.pump is not None:
            self._survey(here, there)
            found = self._tried(here, there)
        if isinstance(found, Proof):
            return replace(found, higher=a, lower=b)
        return replace(found, higher=a, lower=b)

    def _tried(self, a: int, b: int) -> Proof | Witness:
        found = self._order.known(a, b)
        if found is not None and not found.clamped:
            return found
        witness: Witness | None = None
        between = self._blocks.between(a, b)
        below, above = self._order.exact()
        for trust in self._order.trusts():
            low, high, slack = self._order.around(a, b, trust)
            tried = _Argument(self._low, below, above, between).run(a, low, high)
            if isinstance(tried, Witness):
                witness = witness or tried
                tried = _turned(_Argument(self._high, above, below, between).run(b, high, low))
            if isinstance(tried, Proof):
                legs = (self._order.known(a, tried.higher), tried, self._order.known(tried.lower, b))
                route = tuple(element for leg in legs if leg is not None for element in leg.route)
                proof = Proof(a, b, tried.margin + slack, route, clamped=trust is Trust.CLAMP)
                self._order.add(proof)
                return proof
            if witness is None or (witness.pump is not None and tried.pump is None):
                witness = tried
        return found or witness or Witness(a, b)

    def _survey(self, a: int, b: int) -> None:
        """Prove what can be proved among the terminals of rectifiers and supplies, then between them and a and b."""
        if not self._surveyed:
            self._surveyed = True
            self._settled([(p, q) for p in self._hubs for q in self._hubs if p != q])
        pairs = [pair for hub in self._hubs for node in (a, b) for pair in ((hub, node), (node, hub))]
        self._settled([pair for pair in pairs if pair[0] != pair[1]])

    def _settled(self, pairs: list[tuple[int, int]]) -> None:
        while True:
            left = [pair for pair in pairs if isinstance(self._tried(*pair), Witness)]
            if len(left) == len(pairs) or not left:
                return
            pairs = left


class _Argument:
    """The level argument over permitted currents, given what lies below and above every node without any margin."""

    def __init__(self, model: Currents, below: list[int], above: list[int], between: int) -> None:
        self._model = model
        self._below = below
        self._above = above
        self._between = between

    def run(self, start: int, inside: int, outside: int) -> Proof | Witness:
        """Argue from ``start``: what is drawn below the cut with it joins ``inside`` until that meets ``outside``.

        The proof tells the node of the first set where the ties begin and the node of the second where they end.
        """
        ties: dict[int, Flow] = {}
        margin = 0.0
        witness: Witness | None = None
        while not inside & outside:
            feeds = []
            for seed in bits(inside & self._between):
                exits = self._exit(seed, inside, outside)
                if exits is None:
                    fresh = self._between & ~inside
                    feeds += [feed for feed in self._model.feeds[seed] if fresh >> feed.flow.source & 1]
                elif witness is None:
                    witness = Witness(start, start, exits[-1].element, _elements(exits[:-1]), _by_grid(exits[-1]))
            if not feeds:
                return witness or Witness(start, start)
            # Thresholds are crossed one by one, and only when nothing without a threshold is left.
            least = min(feed.threshold for feed in feeds)
            margin += least
            for feed in feeds:
                if feed.threshold == least:
                    inside |= self._below[feed.flow.source]
                    ties.setdefault(feed.flow.source, feed.flow)
        first, met, route = _route(ties, inside & outside)
        return Proof(first, met, margin, route)

    def _exit(self, seed: int, inside: int, outside: int) -> list[Flow] | None:
        """The flows from ``seed`` to a pump, and the pump, that could lift current above the cut."""
        outside |= ~self._between
        reached = self._reached(seed, outside)
        for pump in self._model.pumps:
            if not reached >> pump.source & 1 or not (self._between & ~inside) >> pump.target & 1:
                continue
            # The target lies above the cut, and with it everything known to lie above the target.
            shut = outside | self._above[pump.target]
            if self._reached(seed, shut) >> pump.source & 1:
                return [*self._path(seed, pump.source, shut), pump]
        return None

    def _reached(self, seed: int, shut: int) -> int:
        onward = self._model.onward
        reached = front = 1 << seed & ~shut
        while front:
            lowest = front & -front
            front ^= lowest
            fresh = onward[lowest.bit_length() - 1] & ~reached & ~shut
            reached |= fresh
            front |= fresh
        return reached

    def _path(self, seed: int, goal: int, shut: int) -> list[Flow]:
        came: dict[int, Flow] = {}
        queue = [seed]
        for node in queue:
            for flow in self._model.ways[node]:
                if flow.target != seed and flow.target not in came and not shut >> flow.target & 1:
                    came[flow.target] = flow
                    queue.append(flow.target)
        path: list[Flow] = []
        while goal != seed:
            path.append(came[goal])
            goal = came[goal].source
        return path[::-1]


def _drop(law: Conduction, amperes: float) -> float:
    """The forward volts at this mean current: more than this a rectifier does not drop on average."""
    corners = law.corners or ((0.0, 0.0),)
    for (low, i_low), (high, i_high) in pairwise(corners):
        if amperes <= i_high or (high, i_high) == corners[-1]:
            return low + (amperes - i_low) * (high - low) / (i_high - i_low)
    return corners[0][0]


def _elements(flows: list[Flow]) -> tuple[Element, ...]:
    return tuple(flow.element for flow in flows)


def _by_grid(flow: Flow) -> bool:
    # A mirrored flow starts where the current ends, so either end may be the grid.
    return isinstance(flow.element, Tube) and flow.element.grid in (flow.source, flow.target)


def _route(ties: dict[int, Flow], met: int) -> tuple[int, int, tuple[Element, ...]]:
    """Where the chain of ties to a node that was met begins and ends, and its elements in order."""
    last = node = next(bits(met))
    route: list[Element] = []
    while node in ties:
        route.append(ties[node].element)
        node = ties[node].target
    return node, last, tuple(route[::-1])


def _turned(found: Proof | Witness) -> Proof | Witness:
    """A proof from the mirrored network, as one of the network itself."""
    if isinstance(found, Witness):
        return found
    return Proof(found.lower, found.higher, found.margin, found.route[::-1])


def _hubs(network: Network, joined: tuple[int, ...]) -> tuple[int, ...]:
    """The nodes whose order decides most other claims: the terminals of rectifiers and sources, and the reference."""
    nodes = {0}
    for element in network.elements:
        match element:
            case Rectifier(anode=anode, cathode=cathode):
                nodes |= {anode, cathode}
            case Source(plus=plus, minus=minus):
                nodes |= {plus, minus}
            case _:
                pass
    return tuple(sorted({joined[node] for node in nodes}))
