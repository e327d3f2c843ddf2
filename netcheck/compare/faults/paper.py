"""What an exchange of ends would leave, weighed on paper: much cheaper than a trial on the chassis."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from functools import cached_property
from itertools import combinations

from netcheck.compare.faults.laid import Laid

__all__ = ["OnPaper"]


class OnPaper:
    """The strands of a state, to weigh on paper what an exchange of ends would leave; much cheaper than a trial."""

    def __init__(self, laid: Laid) -> None:
        self._laid = laid
        self._counted = Counter(laid.pairs)
        self._sides = Counter(old for old, _ in self._counted), Counter(new for _, new in self._counted)
        self._at = {lead.new: number for number, lead in enumerate(laid.leads)}
        self._other = dict((*laid.free, *((b, a) for a, b in laid.free)))

    @cached_property
    def _across(self) -> Mapping[tuple[int, int], list[tuple[int, int]]]:
        """The free pairs by the two nets that they lie across, the lesser first."""
        found: dict[tuple[int, int], list[tuple[int, int]]] = {}
        for a, b in self._laid.free:
            one, other = self._laid.pairs[a][1], self._laid.pairs[b][1]
            found.setdefault((min(one, other), max(one, other)), []).append((a, b))
        return found

    def knows(self, points: Iterable[int]) -> bool:
        """Whether all of some leads are compared; an inserted part's are not."""
        return all(at in self._at for at in points)

    def disorder(self, ends: Mapping[int, int], *, across: bool = False) -> int:
        """What is left when the lead ``to`` of each pair is in the place of ``end``."""
        nets = self._laid.graph.circuit.nets
        return self.moved({to: nets[end] for end, to in ends.items()}, across=across)

    def moved(self, onto: Mapping[int, int], *, across: bool = False) -> int:
        """What is left when leads are on other nets, by their points; parts with free ends lie the better way round.

        With ``across`` those too that lie across the nets that change.
        """
        pairs = {self._at[at]: (self._laid.pairs[self._at[at]][0], net) for at, net in onto.items() if at in self._at}
        left = self._with(pairs)
        for one in tuple(pairs):
            other = self._other.get(one)
            if other is not None:
                (a, c), (b, d) = pairs[one], pairs.get(other, self._laid.pairs[other])
                turned = {**pairs, one: (b, c), other: (a, d)}
                if (less := self._with(turned)) < left:
                    left, pairs = less, turned
        return self._with_those_across(pairs, left) if across else left

    def _with_those_across(self, pairs: Mapping[int, tuple[int, int]], left: int) -> int:
        """The same with parts of free ends turned that lie across two nets that leads have changed."""
        nets = {self._laid.pairs[number][1] for number in pairs}
        for two in combinations(sorted(nets), 2):
            for one, other in self._across.get(two, ()):
                if one not in pairs and other not in pairs:
                    (a, c), (b, d) = self._laid.pairs[one], self._laid.pairs[other]
                    turned = {**pairs, one: (b, c), other: (a, d)}
                    if (less := self._with(turned)) < left:
                        left, pairs = less, turned
        return left

    def _with(self, pairs: Mapping[int, tuple[int, int]]) -> int:
        """Two for each pair of nets with leads on both, less one for each net: only what changes is counted anew."""
        change: defaultdict[tuple[int, int], int] = defaultdict(int)
        for number, pair in pairs.items():
            change[self._laid.pairs[number]] -= 1
            change[pair] += 1
        sides: tuple[defaultdict[int, int], ...] = (defaultdict(int), defaultdict(int))
        for pair, by in change.items():
            before = self._counted[pair]
            for side, net in zip(sides, pair, strict=True):
                side[net] += (before + by > 0) - (before > 0)
        more = sum(sides[0].values())
        nets = sum(len(counted) for counted in self._sides)
        for counted, side in zip(self._sides, sides, strict=True):
            nets += sum((counted[net] + by > 0) - (counted[net] > 0) for net, by in side.items())
        return 2 * (len(self._counted) + more) - nets + len(self._laid.idle)
