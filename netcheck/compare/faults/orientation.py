"""Which way round parts lie whose ends are free: as the original has them, if any way does.

Ends of a resistor, heater ends, the plates of a rectifier may change places without a difference. Each free pair
is one yes or no. They are settled by votes: a pair of (old net, new net) that settled leads share counts for it.
What has most votes is settled first and votes in turn, so a chain of free parts falls into place from any fixed
end. Where a cluster touches nothing settled, both ways are tried for its first pair and the better one is kept:
for equal circuits one of the two settles the whole cluster exactly.
"""

import heapq
from collections import Counter
from collections.abc import Mapping, Sequence

__all__ = ["turned_parts"]

Pairs = Counter[tuple[int, int]]


def turned_parts(
    old: Sequence[int],
    new: Sequence[int],
    free: Sequence[tuple[int, int]],
    votes: Mapping[tuple[int, int], int],
    ties: Mapping[tuple[int, int], int],
) -> tuple[tuple[int, int], ...]:
    """The free pairs that lie the other way round now.

    ``votes`` are given beforehand (shared names); ``ties`` decide where votes do not (lugs that both states name).
    """
    open_pairs = [pair for pair in free if old[pair[0]] != old[pair[1]] and new[pair[0]] != new[pair[1]]]
    is_loose = bytearray(len(old))
    for i, j in open_pairs:
        is_loose[i] = is_loose[j] = True
    counts: Pairs = Counter(votes)
    counts.update((was, now) for was, now, loose in zip(old, new, is_loose, strict=True) if not loose)
    table = _Table(old, new, open_pairs)
    flips = [False] * len(open_pairs)
    waiting = bytearray([True]) * len(open_pairs)
    table.spread(counts, flips, waiting, range(len(open_pairs)))
    for first in range(len(open_pairs)):
        if waiting[first]:
            _settle_cluster(table, counts, flips, waiting, first)
    while _improve(table, counts, flips, ties):
        pass  # more leads are together after each turn, or as many with more to speak for them: it ends
    return tuple(pair for pair, flip in zip(open_pairs, flips, strict=True) if flip)


class _Table:
    """The four nets of each free pair, and which pairs could give an (old net, new net) a vote, where several could."""

    def __init__(self, old: Sequence[int], new: Sequence[int], pairs: Sequence[tuple[int, int]]) -> None:
        self.nets = [(old[i], old[j], new[i], new[j]) for i, j in pairs]
        self.able: dict[tuple[int, int], list[int]] = {}
        first: dict[tuple[int, int], int] = {}
        for number, (a, b, c, d) in enumerate(self.nets):
            for way in ((a, c), (a, d), (b, c), (b, d)):
                one = first.setdefault(way, number)
                if one != number:
                    self.able.setdefault(way, [one]).append(number)

    def ways(self, number: int, *, flip: bool) -> tuple[tuple[int, int], tuple[int, int]]:
        a, b, c, d = self.nets[number]
        return ((a, d), (b, c)) if flip else ((a, c), (b, d))

    def lead(self, counts: Pairs, number: int) -> int:
        """How many more votes there are for keeping a pair than for turning it."""
        a, b, c, d = self.nets[number]
        votes = counts.get
        return votes((a, c), 0) + votes((b, d), 0) - votes((a, d), 0) - votes((b, c), 0)

    def spread(self, counts: Pairs, flips: list[bool], waiting: bytearray, seeds: Sequence[int] | range) -> int:
        """Settles what votes reach, strongest first; returns the votes that agreed with what was settled."""
        heap = [(-abs(lead), n) for n in seeds if waiting[n] and (lead := self.lead(counts, n))]
        heapq.heapify(heap)
        agreed = 0
        while heap:
            strength, number = heapq.heappop(heap)
            if not waiting[number]:
                continue
            lead = self.lead(counts, number)
            if -abs(lead) != strength:
                if lead:
                    heapq.heappush(heap, (-abs(lead), number))
                continue
            agreed += self.settle(counts, flips, waiting, number, flip=lead < 0)
            for way in self.ways(number, flip=lead < 0):
                # Only the first vote wakes others: what was woken is weighed anew when its turn comes, so
                # a rail with thousands of parts is not walked once for each of them.
                for other in self.able.get(way, ()) if counts[way] == 1 else ():
                    if waiting[other] and (votes := self.lead(counts, other)):
                        heapq.heappush(heap, (-abs(votes), other))
        return agreed

    def settle(self, counts: Pairs, flips: list[bool], waiting: bytearray, number: int, *, flip: bool) -> int:
        flips[number] = flip
        waiting[number] = False
        agreed = 0
        for way in self.ways(number, flip=flip):
            agreed += counts[way] > 0
            counts[way] += 1
        return agreed


def _settle_cluster(table: _Table, counts: Pairs, flips: list[bool], waiting: bytearray, first: int) -> None:
    """Tries a pair both ways, lets each spread, and keeps the one that more leads agree with."""
    best: tuple[int, Pairs, list[bool], bytearray] | None = None
    for flip in (False, True):
        trial = (Counter(counts), list(flips), waiting[:])
        agreed = table.settle(*trial, first, flip=flip)
        neighbours = [n for way in table.ways(first, flip=flip) for n in table.able.get(way, ())]
        agreed += table.spread(*trial, neighbours)
        if best is None or agreed > best[0]:
            best = (agreed, *trial)
    if best is not None:
        _, kept, kept_flips, kept_waiting = best
        counts.clear()
        counts.update(kept)
        flips[:] = kept_flips
        waiting[:] = kept_waiting


def _improve(table: _Table, counts: Pairs, flips: list[bool], ties: Mapping[tuple[int, int], int]) -> bool:
    """Turns single pairs with which more leads agree the other way round; whether there was one."""
    turned = False
    for number, flip in enumerate(flips):
        sign = -1 if flip else 1
        lead = sign * table.lead(counts, number) - 2  # its own two votes are for the way it lies
        if lead < 0 or (lead == 0 and sign * _tie(table, ties, number) < 0):
            counts.subtract(table.ways(number, flip=flip))
            counts.update(table.ways(number, flip=not flip))
            flips[number] = not flip
            turned = True
    return turned


def _tie(table: _Table, ties: Mapping[tuple[int, int], int], number: int) -> int:
    """How much more there is for keeping a pair than for turning it, where votes do not say."""
    keep, turn = (sum(ties.get(way, 0) for way in table.ways(number, flip=flip)) for flip in (False, True))
    return keep - turn
