"""One structure laid over another: parts paired so far, and the nets that they speak for.

Each pair of parts votes for the pairs of nets that its ends are on. Two nets are linked once two parts say so, or
one does and all else on them looks alike. A net may be linked twice, as a bridge or a missing joint asks.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from netcheck.matching.structure import Structure

__all__ = ["CROWD", "Laying"]

_SURE = 2  # votes
_LIKELY = 0.5
CROWD = 24
"""On a net with more parts than this, or more of one colour, nobody looks for partners; they have other ends."""


class Laying:
    """Pairs and links in the making.

    ``touched`` gathers the old parts whose chances have changed, for the caller to empty.
    """

    def __init__(self, a: Structure, b: Structure) -> None:
        self.a = a
        self.b = b
        self.on_a = _parts_on(a)
        self.on_b = _parts_on(b)
        self.new_of: dict[int, int] = {}
        self.old_of: dict[int, int] = {}
        self.links: dict[int, list[int]] = defaultdict(list)
        self.touched: list[int] = []
        self.linked_back: dict[int, list[int]] = defaultdict(list)
        self._voters: dict[tuple[int, int], set[int]] = defaultdict(set)
        self._doubted: dict[tuple[int, int], None] = {}
        self._unsettled: dict[int, None] = {}
        self._likenesses: dict[tuple[int, int], tuple[tuple[int, int], float]] = {}
        self._paired_on_a, self._paired_on_b = Counter[int](), Counter[int]()

    def pair(self, old: int, new: int) -> None:
        """Takes two parts for each other."""
        self.new_of[old] = new
        self.old_of[new] = old
        self._paired_on_a.update({net for _, net in self.a.parts[old].ends})
        self._paired_on_b.update({net for _, net in self.b.parts[new].ends})
        self._vote(old)
        for net in {net for _, net in self.a.parts[old].ends}:
            self.touched.extend(self._near(net))

    def exchange(self, one: int, other: int | None, new: int) -> None:
        """Gives an old part another partner; the part that had it gets the first one's."""
        was = self.new_of[one]
        self._likenesses.clear()
        self.new_of[one], self.old_of[new] = new, one
        if other is None:
            del self.old_of[was]
        else:
            self.new_of[other], self.old_of[was] = was, other

    def link(self, old: int, new: int) -> None:
        """Takes two nets for each other."""
        if new in self.links[old]:
            return
        self.links[old].append(new)
        self.linked_back[new].append(old)
        for part in self.on_a[old]:
            if part in self._unsettled:
                del self._unsettled[part]
                self._vote(part)
        self.touched.extend(part for part in self.on_a[old] if part not in self.new_of)

    def link_doubted(self) -> bool:
        """Links the likeliest nets that only one part speaks for; False where none is likely enough."""
        self._doubted = {pair: None for pair in self._doubted if self._is_open(*pair)}
        likeness, *pair = max(
            ((self._likeness(*pair), -pair[0], -pair[1]) for pair in self._doubted), default=(0, 0, 0)
        )
        if likeness < _LIKELY:
            return False
        self.link(-int(pair[0]), -int(pair[1]))
        return True

    def turn_unsettled(self) -> bool:
        """Decides for one pair of parts whose ends may lie either way which way they lie; False where none is left."""
        for part in list(self._unsettled):
            del self._unsettled[part]
            for olds, news in self._roles(part, self.new_of[part]):
                left, right = self._unlinked(olds, news)
                if left and right:
                    self.link(*max(((n, m) for n in left for m in right), key=lambda pair: self._alike(*pair)))
                    self._vote(part)
                    return True
        return False

    def agreed(self, old: int, new: int) -> tuple[int, int]:
        """How many ends of an old part a new one has on linked nets: in the same role, and in any."""
        same = sum(len(olds) - len(self._unlinked(olds, news)[0]) for olds, news in self._roles(old, new))
        return same, len(self.shared(old, new))

    def shared(self, old: int, new: int) -> tuple[int, ...]:
        """The nets of an old part's ends that are linked to nets of a new one, whatever the roles."""
        olds = [net for _, net in self.a.parts[old].ends]
        left = Counter(self._unlinked(olds, [net for _, net in self.b.parts[new].ends])[0])
        return tuple((Counter(olds) - left).elements())

    def _near(self, net: int) -> Iterator[int]:
        parts = self.on_a[net]
        if len(parts) <= CROWD:
            yield from (part for part in parts if part not in self.new_of)

    def _vote(self, old: int) -> None:
        for olds, news in self._roles(old, self.new_of[old]):
            left, right = self._unlinked(olds, news)
            if len(left) == len(right) == 1:
                self._voters[left[0], right[0]].add(old)
                self._consider(left[0], right[0])
            elif left and right:
                self._unsettled[old] = None

    def _consider(self, old: int, new: int) -> None:
        if len(self._voters[old, new]) >= _SURE or (self._is_open(old, new) and self._likeness(old, new) == 1):
            self.link(old, new)
        else:
            self._doubted[old, new] = None

    def _is_open(self, old: int, new: int) -> bool:
        return not self.links.get(old) and not self.linked_back.get(new)

    def _likeness(self, old: int, new: int) -> float:
        """How many ends on two nets may be the same, for each part on the fuller; till a part on one is paired."""
        now = self._paired_on_a[old], self._paired_on_b[new]
        then, known = self._likenesses.get((old, new), (None, 0.0))
        if then != now:
            known = self._alike(old, new) / max(len(self.on_a[old]), len(self.on_b[new]))
            self._likenesses[old, new] = now, known
        return known

    def _alike(self, old: int, new: int) -> int:
        """How many ends on two nets may be the same: of paired parts, or of the same colour and role."""
        b = self.b.parts
        there: Counter[object] = Counter()
        for part in self.on_b[new]:
            own = self.old_of.get(part)
            for role, net in b[part].ends:
                there[role, b[part].colour if own is None else own, own is None] += net == new
        here: Counter[object] = Counter()
        for part in self.on_a[old]:
            is_open = part not in self.new_of
            for role, net in self.a.parts[part].ends:
                here[role, self.a.parts[part].colour if is_open else part, is_open] += net == old
        return (here & there).total()

    def _roles(self, old: int, new: int) -> Iterator[tuple[list[int], list[int]]]:
        """The nets of both parts role by role."""
        theirs: dict[object, list[int]] = defaultdict(list)
        for role, net in self.b.parts[new].ends:
            theirs[role].append(net)
        mine: dict[object, list[int]] = defaultdict(list)
        for role, net in self.a.parts[old].ends:
            mine[role].append(net)
        for role, nets in mine.items():
            if role in theirs:
                yield nets, theirs[role]

    def _unlinked(self, olds: Sequence[int], news: Sequence[int]) -> tuple[list[int], list[int]]:
        """What is left of both when every old net has taken a linked new one."""
        left, right = [], list(news)
        for old in olds:
            met = next((new for new in self.links.get(old, ()) if new in right), None)
            if met is None:
                left.append(old)
            else:
                right.remove(met)
        return left, right


def _parts_on(structure: Structure) -> list[list[int]]:
    found: list[list[int]] = [[] for _ in range(structure.nets)]
    for at, part in enumerate(structure.parts):
        for net in {net for _, net in part.ends}:
            found[net].append(at)
    return found
