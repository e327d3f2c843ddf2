"""The order of mean potentials as far as it is known, closed under transitivity."""

from collections.abc import Iterator
from enum import IntEnum

from msgspec import Struct

from netcheck.electrical.network.elements import Element

__all__ = ["Order", "Proof", "Trust", "bits"]


class Proof(Struct, frozen=True):
    """The mean potential of ``higher`` is never more than ``margin`` volts below that of ``lower``.

    The margin is the sum of the rectifier thresholds that the argument crossed: it can be used up only while nothing
    at all flows. ``route`` are the elements that tie the two nodes together, in order from the node argued from.
    A ``clamped`` proof also leans on rectifiers that hold their cathodes up; their forward drops are in the margin.
    """

    higher: int
    lower: int
    margin: float = 0.0
    route: tuple[Element, ...] = ()
    clamped: bool = False


class Trust(IntEnum):
    """How far a known order is to be trusted: exactly, within rectifier thresholds, within forward drops."""

    EXACT = 0
    THRESHOLD = 1
    CLAMP = 2


class Order:
    """What is known so far. Sets of nodes are integers, a bit a node; ``version`` counts the exact knowledge."""

    def __init__(self, count: int) -> None:
        """Start with nothing but that every node is as high as itself."""
        self._known: dict[tuple[int, int], Proof] = {}
        self._below = [[1 << node for node in range(count)] for _ in Trust]
        self._above = [[1 << node for node in range(count)] for _ in Trust]
        self.version = 0

    def known(self, p: int, q: int) -> Proof | None:
        """The proof that ``p`` is as high as ``q``, if there is one."""
        return Proof(p, q) if p == q else self._known.get((p, q))

    def trusts(self) -> tuple[Trust, ...]:
        """The kinds of knowledge that there are at present, the best first."""
        return tuple(
            trust for trust in Trust if trust is Trust.EXACT or self._below[trust] != self._below[trust - 1]
        )  # fmt: skip

    def exact(self) -> tuple[list[int], list[int]]:
        """For every node the sets that are known to lie exactly not above it, and not below it."""
        return self._below[Trust.EXACT], self._above[Trust.EXACT]

    def around(self, p: int, q: int, trust: Trust) -> tuple[int, int, float]:
        """The set known to lie below ``p``, the set known to lie above ``q``, and by how much the two may be off."""
        below, above = self._below[trust][p], self._above[trust][q]
        under = max(self._margin(p, node) for node in bits(below))
        over = max(self._margin(node, q) for node in bits(above))
        return below, above, under + over

    def add(self, proof: Proof) -> None:
        """Take in a proof and everything that follows from it."""
        highs = list(bits(self._above[Trust.CLAMP][proof.higher]))
        lows = list(bits(self._below[Trust.CLAMP][proof.lower]))
        for p in highs:
            for q in lows:
                if p != q:
                    self._note(p, q, proof)

    def _margin(self, p: int, q: int) -> float:
        proof = self.known(p, q)
        return 0.0 if proof is None else proof.margin

    def _note(self, p: int, q: int, middle: Proof) -> None:
        legs = [leg for leg in (self.known(p, middle.higher), middle, self.known(middle.lower, q)) if leg is not None]
        proof = Proof(
            p,
            q,
            sum(leg.margin for leg in legs),
            sum((leg.route for leg in legs), ()),
            clamped=any(leg.clamped for leg in legs),
        )
        known = self._known.get((p, q))
        if known is not None and (known.clamped, known.margin) <= (proof.clamped, proof.margin):
            return
        self._known[p, q] = proof
        self.version += not (proof.clamped or proof.margin)
        least = Trust.CLAMP if proof.clamped else Trust.THRESHOLD if proof.margin else Trust.EXACT
        for trust in Trust:
            if trust >= least:
                self._below[trust][p] |= 1 << q
                self._above[trust][q] |= 1 << p


def bits(nodes: int) -> Iterator[int]:
    """The nodes of a set, the lowest first."""
    while nodes:
        lowest = nodes & -nodes
        yield lowest.bit_length() - 1
        nodes ^= lowest
