"""What carries current to each piece of metal: nothing passes beyond the two sides of the line, which are held."""

from collections.abc import Collection, Mapping, Sequence
from itertools import chain

from netcheck.core.groups import joined_by
from netcheck.electrical.mains.impedance import Passage
from netcheck.electrical.mains.settings import Setting

__all__ = ["NearMetal"]


class NearMetal:
    """The passages by the piece of the network that they are in, once the sides of the line are taken out of it.

    What a switch joins in one of its positions counts as one piece.
    """

    def __init__(self, carriers: Sequence[Passage], ways: Sequence[Setting], held: Collection[int]) -> None:
        self._held = frozenset(held)
        line = self._held.union(*(way.all_of({way.of(net) for net in held}) for way in ways))
        pairs = chain(((each.a, each.b) for each in carriers), *(way.root.items() for way in ways))
        self._pieces = joined_by(pair for pair in pairs if self._held.isdisjoint(pair))
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

    def _piece(self, net: int) -> int:
        return self._pieces.get(net, net)
