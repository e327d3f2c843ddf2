"""What carries current to each piece of metal: nothing passes beyond the two sides of the line, which are held."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from netcheck.electrical.mains.impedance import Passage
from netcheck.electrical.mains.settings import Setting

__all__ = ["NearMetal"]


class NearMetal:
    """The passages by the piece of the network that they are in, once the sides of the line are taken out of it.

    What a switch joins in one of its positions counts as one piece.
    """

    def __init__(self, carriers: Sequence[Passage], ways: Iterable[Setting], held: Collection[int]) -> None:
        self._held = frozenset(held)
        self._above: dict[int, int] = {}
        line = set(held)
        for way in ways:
            line |= way.all_of({way.of(net) for net in held})
            for net, root in way.root.items():
                self._join(net, root)
        for each in carriers:
            self._join(each.a, each.b)
        self._carriers = {
            piece: tuple(every)
            for piece, every in self._by_piece(carriers).items()
            if not line.isdisjoint(end for each in every for end in (each.a, each.b))
        }

    def around(self, metal: int) -> tuple[Passage, ...]:
        """What can carry current into the metal, in the order of all; nothing where none of it is on the line."""
        return self._carriers.get(self._piece(metal), ())

    def _by_piece(self, carriers: Sequence[Passage]) -> Mapping[int, list[Passage]]:
        found: dict[int, list[Passage]] = {}
        for each in carriers:
            inner = [net for net in (each.a, each.b) if net not in self._held]
            for piece in {self._piece(net) for net in inner}:
                found.setdefault(piece, []).append(each)
        return found

    def _join(self, one: int, other: int) -> None:
        if one not in self._held and other not in self._held:
            self._above[self._piece(one)] = self._piece(other)

    def _piece(self, net: int) -> int:
        while (up := self._above.setdefault(net, net)) != net:
            self._above[net] = self._above.setdefault(up, up)
            net = up
        return net
