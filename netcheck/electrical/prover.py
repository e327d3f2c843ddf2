"""Polarity without a simulation: is the mean potential of one node never below that of another?

The argument is about mean values over one period of the mains. Suppose a lay below b, and cut all nodes at a level
between the two. Take what current from a can reach below the cut: current that crosses the edge of this set comes
in, or it is lifted out by a pump (a rectifier, a supply, a grid). Where no pump can lift it out nothing may come
in either, so everything that would certainly feed the set lies below the cut as well. When this pulls b below the cut,
the supposition was wrong. The same is tried from b with all potentials negated. No value is used but the
thresholds of rectifiers.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from netcheck.electrical.currents import Currents, Flow, currents, mirrored
from netcheck.electrical.network import Element, Network, Rectifier, Source, Tube

__all__ = ["Proof", "Prover", "Witness", "prove"]


@dataclass(frozen=True, slots=True)
class Proof:
    """The mean potential of ``higher`` is never more than ``margin`` volts below that of ``lower``.

    The margin is the sum of the rectifier thresholds that the argument crossed: it can be used up only while nothing
    at all flows. ``route`` are the elements that tie the two nodes together, in order from the node argued from.
    """

    higher: int
    lower: int
    margin: float = 0.0
    route: tuple[Element, ...] = ()


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
        self._order = _Order(network.count)
        self._hubs = _hubs(network, low.joined)
        self._surveyed = False

    def claim(self, a: int, b: int) -> Proof | Witness:
        """A proof that the mean potential of ``a`` is at least that of ``b``, or what stands against it."""
        here, there = self._joined[a], self._joined[b]
        found = self._tried(here, there)
        if isinstance(found, Witness) and found.pump is not None:
            self._survey(here, there)
            found = self._tried(here, there)
        if isinstance(found, Proof):
            return Proof(a, b, found.margin, found.route)
        return Witness(a, b, found.pump, found.path, found.grid)

    def _tried(self, a: int, b: int) -> Proof | Witness:
        margin = self._order.margin(a, b)
        if margin is not None:
            return Proof(a, b, margin, self._order.route(a, b))
        witnesses = []
        for loose in (False, True):
            under, over = self._order.below(loose=loose)[a], self._order.above(loose=loose)[b]
            below, above = self._order.below(loose=False), self._order.above(loose=False)
            found = _Argument(self._low, below, above).run(a, under, over)
            if isinstance(found, Witness):
                witnesses.append(found)
                found = _Argument(self._high, above, below).run(b, over, under)
            if isinstance(found, Proof):
                # The sets at both ends may each be off by the widest margin known.
                slack = 2 * self._order.slack if loose else 0.0
                proof = Proof(a, b, found.margin + slack, found.route)
                self._order.add(proof)
                return proof
            witnesses.append(found)
            if not self._order.slack:
                break
        return next((witness for witness in witnesses if witness.pump is not None), witnesses[0])

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


class _Order:
    """What is known of the order of mean potentials, closed under transitivity; sets are bits of an integer."""

    def __init__(self, count: int) -> None:
        self._margins: dict[tuple[int, int], float] = {}
        self._routes: dict[tuple[int, int], tuple[Element, ...]] = {}
        self._sets = {
            (loose, upward): [1 << node for node in range(count)] for loose in (False, True) for upward in (False, True)
        }
        self.slack = 0.0

    def above(self, *, loose: bool) -> list[int]:
        return self._sets[loose, True]

    def below(self, *, loose: bool) -> list[int]:
        return self._sets[loose, False]

    def margin(self, p: int, q: int) -> float | None:
        return 0.0 if p == q else self._margins.get((p, q))

    def route(self, p: int, q: int) -> tuple[Element, ...]:
        return self._routes.get((p, q), ())

    def add(self, proof: Proof) -> None:
        self._routes[proof.higher, proof.lower] = proof.route
        highs = [(p, self.margin(p, proof.higher) or 0.0) for p in _bits(self.above(loose=True)[proof.higher])]
        lows = [(q, self.margin(proof.lower, q) or 0.0) for q in _bits(self.below(loose=True)[proof.lower])]
        for p, over in highs:
            for q, under in lows:
                if p != q:
                    self._note(p, q, over + proof.margin + under)

    def _note(self, p: int, q: int, margin: float) -> None:
        known = self._margins.get((p, q))
        if known is not None and known <= margin:
            return
        self._margins[p, q] = margin
        self.slack = max(self.slack, margin)
        for loose in (False, True) if margin == 0 else (True,):
            self._sets[loose, False][p] |= 1 << q
            self._sets[loose, True][q] |= 1 << p


class _Argument:
    """The level argument over permitted currents, given what lies below and above every node without any margin."""

    def __init__(self, model: Currents, below: list[int], above: list[int]) -> None:
        self._model = model
        self._below = below
        self._above = above

    def run(self, start: int, inside: int, outside: int) -> Proof | Witness:
        """Argue from ``start``: what is drawn below the cut with it joins ``inside`` until that meets ``outside``."""
        ties: dict[int, Flow] = {}
        margin = 0.0
        witness: Witness | None = None
        while not inside & outside:
            feeds = []
            for seed in _bits(inside):
                exits = self._exit(seed, inside, outside)
                if exits is None:
                    feeds += [f for f in self._model.feeds[seed] if not inside >> f.flow.source & 1]
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
        return Proof(start, start, margin, _route(ties, start, inside & outside))

    def _exit(self, seed: int, inside: int, outside: int) -> list[Flow] | None:
        """The flows from ``seed`` to a pump, and the pump, that could lift current above the cut."""
        reached = self._reached(seed, outside)
        for pump in self._model.pumps:
            if not reached >> pump.source & 1 or inside >> pump.target & 1:
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


def _bits(nodes: int) -> Iterator[int]:
    while nodes:
        lowest = nodes & -nodes
        yield lowest.bit_length() - 1
        nodes ^= lowest


def _elements(flows: list[Flow]) -> tuple[Element, ...]:
    return tuple(flow.element for flow in flows)


def _by_grid(flow: Flow) -> bool:
    # A mirrored flow starts where the current ends, so either end may be the grid.
    return isinstance(flow.element, Tube) and flow.element.grid in (flow.source, flow.target)


def _route(ties: dict[int, Flow], a: int, met: int) -> tuple[Element, ...]:
    node = next(_bits(met))
    route: list[Element] = []
    while node != a and node in ties:
        route.append(ties[node].element)
        node = ties[node].target
    return tuple(route[::-1])


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
