"""Which part is probably which where two structures are not the same: the best pairing in spite of a few faults.

What is known, and what looks like nothing else to some depth, is paired first. From there pairs spread along the
nets: of the parts on two linked nets those are paired whose ends agree best, the sure ones before the doubtful
ones. At the end pairs that don't agree are exchanged where that brings more ends to agree.
"""

import heapq
from collections import Counter, defaultdict
from collections.abc import Hashable, Iterator, Sequence

from msgspec import Struct

from netcheck.matching.chances import Chance, Chances
from netcheck.matching.laying import Laying
from netcheck.matching.structure import Anchors, Structure
from netcheck.matching.surroundings import DEPTH, surroundings

__all__ = ["Correspondence", "Evidence", "correspondence"]

_PASSES = 3
_ANY = 1_000  # more ends than a part has


class Evidence(Struct, frozen=True):
    """A pair of parts and what speaks for it.

    Of its ``ends`` so many ``agreed`` in net and role; ``shared`` are the old nets that the new part is on too,
    in whatever role, one for each end.
    """

    old: int
    new: int
    ends: int
    agreed: int
    shared: tuple[int, ...]


class Correspondence(Struct, frozen=True):
    """The pairs, without those that were known beforehand, and the nets that go with them, best first."""

    parts: tuple[Evidence, ...]
    nets: tuple[tuple[int, int], ...]


def correspondence(a: Structure, b: Structure, anchors: Anchors | None = None) -> Correspondence:
    """The best pairing that could be found; parts without a likely counterpart are left out. Deterministic."""
    known = anchors or Anchors()
    growth = _Growth(a, b, known)
    growth.seed()
    growth.spread(0)
    growth.pair_twins()
    growth.follow_looks()
    growth.spread(_ANY)
    growth.pair_twins()
    growth.improve()
    growth.pair_kin()
    fixed = {old for old, _ in known.parts}
    pairs = sorted(growth.laying.new_of.items())
    return Correspondence(
        tuple(
            Evidence(
                old, new, len(a.parts[old].ends), growth.laying.agreed(old, new)[0], growth.laying.shared(old, new)
            )
            for old, new in pairs
            if old not in fixed
        ),
        tuple((old, news[0]) for old, news in sorted(growth.laying.links.items())),
    )


class _Growth:
    def __init__(self, a: Structure, b: Structure, anchors: Anchors) -> None:
        self.laying = Laying(a, b)
        self._fixed = dict(anchors.parts)
        self._anchors = anchors
        self._seen = surroundings(a, b, anchors)
        self._chances = Chances(self.laying, self._seen)
        self._heap: list[Chance] = []

    def seed(self) -> None:
        """Pairs what is known, then what looks like one thing only on either side, the deepest look first."""
        for nets in self._anchors.nets:
            self.laying.link(*nets)
        for parts in self._anchors.parts:
            self.laying.pair(*parts)
        old, new = self._seen
        for depth in range(DEPTH, -1, -1):
            for one, other in _only(old.parts[depth], new.parts[depth]):
                self._pair_free(one, other)

    def spread(self, tolerance: int) -> None:
        """Pairs along linked nets; ``tolerance`` is how many ends of a part may be elsewhere."""
        self.laying.touched.extend(self._open())
        while True:
            self._wake(tolerance)
            if self._heap and not self._heap[0].rivals:
                self._take(heapq.heappop(self._heap), tolerance)
            elif self.laying.link_doubted():
                continue
            elif self._heap:
                self._take(heapq.heappop(self._heap), tolerance)
            elif not self.laying.turn_unsettled():
                return

    def follow_looks(self) -> None:
        """Pairs what no link leads to, first with first of those that look alike."""
        old, new = self._seen
        for depth in range(DEPTH, 0, -1):
            there = _groups(new.parts[depth])
            for look, ones in _groups(old.parts[depth]).items():
                for one in ones:
                    if one not in self.laying.new_of:
                        other = next((o for o in there.get(look, ()) if o not in self.laying.old_of), None)
                        if other is not None and self._pair_free(one, other):
                            self.spread(0)

    def pair_twins(self) -> None:
        """Pairs parts of one colour that are on the same nets throughout, first with first."""
        free: dict[Hashable, list[int]] = defaultdict(list)
        for new, part in enumerate(self.laying.b.parts):
            if new not in self.laying.old_of:
                free[part.colour, frozenset(Counter(part.ends).items())].append(new)
        for old in self._open():
            part = self.laying.a.parts[old]
            there = Counter((role, next(iter(self.laying.links.get(net, ())), -1)) for role, net in part.ends)
            waiting = free.get((part.colour, frozenset(there.items())))
            if waiting:
                self.laying.pair(old, waiting.pop(0))

    def improve(self) -> None:
        """Exchanges partners of parts that don't agree where more ends agree then."""
        for _ in range(_PASSES):
            changed = False
            for one in sorted(self.laying.new_of):
                if one in self._fixed or self._agrees(one):
                    continue
                new = self._chances.better(one)
                other = None if new is None else self.laying.old_of.get(new)
                if new is not None and other not in self._fixed:
                    self.laying.exchange(one, other, new)
                    changed = True
            if not changed:
                return

    def pair_kin(self) -> None:
        """Pairs what is left of one kin, whatever its colour, where every end agrees."""
        laying = self.laying
        for old in self._open():
            part = laying.a.parts[old]
            places = [new for net in dict.fromkeys(n for _, n in part.ends) for new in laying.links.get(net, ())]
            for new in dict.fromkeys(new for place in places for new in laying.on_b[place]):
                is_kin = part.kin is not None and part.kin == laying.b.parts[new].kin
                if is_kin and laying.agreed(old, new)[0] == len(part.ends) and self._pair_free(old, new):
                    break

    def _open(self) -> list[int]:
        return [old for old in range(len(self.laying.a.parts)) if old not in self.laying.new_of]

    def _agrees(self, old: int) -> bool:
        return self.laying.agreed(old, self.laying.new_of[old])[0] == len(self.laying.a.parts[old].ends)

    def _pair_free(self, old: int, new: int) -> bool:
        if old in self.laying.new_of or new in self.laying.old_of:
            return False
        self.laying.pair(old, new)
        return True

    def _wake(self, tolerance: int) -> None:
        """Weighs anew what the last pairs have touched."""
        for old in dict.fromkeys(self.laying.touched):
            if old not in self.laying.new_of:
                self._push(self._chances.best(old), tolerance)
        self.laying.touched.clear()

    def _take(self, chance: Chance, tolerance: int) -> None:
        """Pairs by a chance, unless it has become worse while it was waiting."""
        if chance.old in self.laying.new_of:
            return
        now = self._chances.best(chance.old)
        if now is not None and now <= chance:
            self.laying.pair(now.old, now.new)
        else:
            self._push(now, tolerance)

    def _push(self, chance: Chance | None, tolerance: int) -> None:
        if chance is not None and chance.missed <= tolerance:
            heapq.heappush(self._heap, chance)


def _groups(looks: Sequence[int]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = defaultdict(list)
    for at, look in enumerate(looks):
        found[look].append(at)
    return found


def _only(old: Sequence[int], new: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The pairs of what has a look of its own on both sides."""
    there = _groups(new)
    for look, ones in _groups(old).items():
        if len(ones) == len(there.get(look, ())) == 1:
            yield ones[0], there[look][0]
