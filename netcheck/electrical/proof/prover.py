"""Polarity without a simulation: is the mean potential of one node never below that of another?

The argument is about mean values over one period of the mains. Suppose a lay below b, and cut all nodes at a level
between the two. Take what current from a can reach below the cut: current that crosses the edge of this set comes
in, or it is lifted out by a pump (a rectifier, a supply, a grid). Where no pump can lift it out nothing may come
in either, so everything that would certainly feed the set lies below the cut as well. When this pulls b below the cut,
the supposition was wrong. The same is tried from b with all potentials negated. No value is used but the
thresholds of rectifiers.
"""

from collections.abc import Set as AbstractSet
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.blocks import Blocks
from netcheck.electrical.network.elements import (
    USUAL_AMPERES,
    Conduction,
    Element,
    Load,
    Network,
    Rectifier,
    Tube,
    VoltageSource,
)
from netcheck.electrical.proof.argument import Argument, Stop, Ties
from netcheck.electrical.proof.currents import MayFlow, currents, mirrored
from netcheck.electrical.proof.order import Order, Proof, Trust

__all__ = ["Proof", "Prover", "Witness", "prove"]


class Witness(Struct, frozen=True):
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

    def __init__(
        self,
        network: Network,
        *,
        grids: bool = True,
        loads: AbstractSet[str] = frozenset(),
        amperes: float | None = None,
    ) -> None:
        """Take a network, with or without currents into grids, and with some rectifiers taken for mere ``loads``.

        No rectifier carries more than ``amperes`` on average: by default the sum of the stated loads.
        """
        low = currents(network, grids=grids, loads=loads)
        self._joined = low.joined
        self._order = Order(network.count)
        below, above = self._order.exact()
        self._low = Argument(low, below, above)
        self._high = Argument(mirrored(low), above, below, mirrored=True)
        self._stopped: dict[tuple[int, int, int], tuple[int, Stop]] = {}
        self._blocks = Blocks(network.count, [(flow.source, flow.target) for flows in low.ways for flow in flows])
        self._hubs = _hubs(network, low.joined)
        self._surveyed: set[int] = set()
        stated = sum(load.amperes * (1 + load.tolerance) for load in network.elements if isinstance(load, Load))
        most = amperes if amperes is not None else stated or USUAL_AMPERES
        for rectifier in network.elements:
            if isinstance(rectifier, Rectifier) and rectifier.driven:
                ends = low.joined[rectifier.cathode], low.joined[rectifier.anode]
                self._order.add(Proof(*ends, _drop(rectifier.law, most), (rectifier,), clamped=True))

    def claim(self, a: int, b: int, *, thorough: bool = True) -> Proof | Witness:
        """A proof that the mean potential of ``a`` is at least that of ``b``, or what stands against it.

        A ``thorough`` search first settles how the two nodes lie to the terminals of rectifiers and supplies.
        """
        here, there = self._joined[a], self._joined[b]
        found = self._tried(here, there)
        if thorough and (found.clamped if isinstance(found, Proof) else found.pump is not None):
            self._survey(here, there)
            found = self._tried(here, there)
        if isinstance(found, Proof):
            return replace(found, higher=a, lower=b)
        grid = found.pump is not None and _by_grid(found.pump)
        path = (self._high if found.mirrored else self._low).path(found)
        return Witness(a, b, found.pump.element if found.pump is not None else None, path, grid)

    def order(self, a: int, b: int) -> int:
        """1 where ``a`` is plainly at least as high as ``b``, -1 where ``b`` is, 0 where neither is plain."""
        for sign, claim in ((1, (a, b)), (-1, (b, a))):
            found = self.claim(*claim, thorough=False)
            if isinstance(found, Proof) and not found.clamped:
                return sign
        return 0

    def _tried(self, a: int, b: int) -> Proof | Stop:
        known = self._order.known(a, b)
        if known is not None and not known.clamped:
            return known
        between = self._blocks.between(a, b)
        stop: Stop | None = None
        last = (0, 0)
        for trust in self._order.trusts():
            low, high, slack = self._order.around(a, b, trust)
            if (low & between, high & between) == last:
                continue
            last = (low & between, high & between)
            found = self._argued(between, low, high)
            if isinstance(found, Ties):
                self._order.add(self._joined_up(Proof(a, b, slack, clamped=trust is Trust.CLAMP), found))
                return self._order.known(a, b) or Proof(a, b)
            if stop is None or (stop.pump is not None and found.pump is None):
                stop = found
        return known or stop or Stop()

    def _argued(self, between: int, low: int, high: int) -> Ties | Stop:
        """The argument from the low end, then in the mirrored network from the high end."""
        key = (between, low & between, high & between)
        version = self._order.version
        if self._stopped.get(key, (-1, Stop()))[0] == version:
            return self._stopped[key][1]
        first = self._low.run(between, low, high)
        if isinstance(first, Ties):
            return first
        second = self._high.run(between, high, low)
        if isinstance(second, Ties):
            return Ties(second.last, second.first, second.margin, second.route[::-1])
        stop = first if first.pump is None or second.pump is not None else second
        self._stopped[key] = (version, stop)
        return stop

    def _joined_up(self, claim: Proof, ties: Ties) -> Proof:
        legs = (self._order.known(claim.higher, ties.first), ties, self._order.known(ties.last, claim.lower))
        route = tuple(element for leg in legs if leg is not None for element in leg.route)
        return replace(claim, margin=claim.margin + ties.margin, route=route)

    def _survey(self, a: int, b: int) -> None:
        """Prove what can be proved among the terminals of rectifiers and supplies, then between them and a and b."""
        if not self._surveyed:
            self._settled([(p, q) for p in self._hubs for q in self._hubs if p != q])
            self._surveyed.update(self._hubs)
        for node in sorted({a, b} - self._surveyed):
            self._settled([pair for hub in self._hubs for pair in ((hub, node), (node, hub))])
            self._surveyed.add(node)

    def _settled(self, pairs: list[tuple[int, int]]) -> None:
        while True:
            left = [pair for pair in pairs if isinstance(self._tried(*pair), Stop)]
            if len(left) == len(pairs) or not left:
                return
            pairs = left


def _drop(law: Conduction, amperes: float) -> float:
    """The forward volts at this mean current: more than this a rectifier does not drop on average."""
    corners = law.corners or ((0.0, 0.0),)
    for (low, i_low), (high, i_high) in pairwise(corners):
        if amperes <= i_high or (high, i_high) == corners[-1]:
            return low + (amperes - i_low) * (high - low) / (i_high - i_low)
    return corners[0][0]


def _by_grid(flow: MayFlow) -> bool:
    # A mirrored flow starts where the current ends, so either end may be the grid.
    return isinstance(flow.element, Tube) and flow.element.grid in (flow.source, flow.target)


def _hubs(network: Network, joined: tuple[int, ...]) -> tuple[int, ...]:
    """The nodes whose order decides most other claims: the terminals of rectifiers and sources, and the reference."""
    nodes = {0}
    for element in network.elements:
        match element:
            case Rectifier(anode=anode, cathode=cathode):
                nodes |= {anode, cathode}
            case VoltageSource(plus=plus, minus=minus):
                nodes |= {plus, minus}
            case _:
                pass
    return tuple(sorted({joined[node] for node in nodes}))
