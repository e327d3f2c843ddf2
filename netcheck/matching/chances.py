"""Who may be the counterpart of a part, judged by the nets that are linked so far."""

from collections import defaultdict
from collections.abc import Hashable, Iterator

from msgspec import Struct

from netcheck.matching.laying import CROWD, Laying
from netcheck.matching.structure import Structure
from netcheck.matching.surroundings import DEPTH, Surroundings

__all__ = ["Chance", "Chances"]


class Chance(Struct, frozen=True, order=True):
    """How good the best partner of an old part is; the smallest is the best.

    ``missed`` counts ends on linked nets that the partner does not share, ``apart`` is 0 where every end agrees,
    ``unlike`` how much sooner the surroundings differ.
    """

    rivals: bool
    missed: int
    apart: float
    unlike: int
    old: int
    new: int

    @property
    def rank(self) -> tuple[int, float, int]:
        """What partners are compared by."""
        return self.missed, self.apart, self.unlike


class Chances:
    """Weighs partners of the same colour."""

    def __init__(self, laying: Laying, seen: tuple[Surroundings, Surroundings]) -> None:
        self._laying = laying
        self._seen = seen
        self._on_a = _by_colour(laying.a)
        self._on_b = _by_colour(laying.b)

    def best(self, old: int) -> Chance | None:
        """The best partner that is still free; None where no link leads to one."""
        chances = sorted(self._chance(old, new) for new in self._partners(old))
        if not chances:
            return None
        first = chances[0]
        if any(c.rank == first.rank for c in chances[1:2]) or self._is_wanted(first):
            return Chance(True, *first.rank, first.old, first.new)  # noqa: FBT003 (a field, not a flag)
        return first

    def better(self, old: int) -> int | None:
        """The new part, free or not, that an old one had better be paired with; None where it is well off."""
        laying = self._laying
        had = laying.new_of[old]
        gains = [(self._gain(old, had, new), -new) for new in self._partners(old, free=False)]  # 0 for the one it has
        gain, new = max(gains, default=(0, 0))
        return -new if gain > 0 else None

    def _gain(self, old: int, had: int, new: int) -> int:
        other = self._laying.old_of.get(new)
        before, after = self._score(old, had), self._score(old, new)
        if other is not None:
            before += self._score(other, new)
            after += self._score(other, had)
        return after - before

    def _score(self, old: int, new: int) -> int:
        same, any_role = self._laying.agreed(old, new)
        return same + any_role

    def _is_wanted(self, chance: Chance) -> bool:
        """Whether another old part would be as good a partner for the new one."""
        laying = self._laying
        part = laying.b.parts[chance.new]
        for net in {net for _, net in part.ends}:
            for old in laying.linked_back.get(net, ()):
                rivals = self._on_a.get((old, part.colour), ())
                for rival in rivals if len(rivals) <= CROWD else ():
                    if rival == chance.old or rival in laying.new_of:
                        continue
                    if self._chance(rival, chance.new).rank <= chance.rank:
                        return True
        return False

    def _partners(self, old: int, *, free: bool = True) -> Iterator[int]:
        laying = self._laying
        part = laying.a.parts[old]
        seen: set[int] = set()
        for net in dict.fromkeys(net for _, net in part.ends):
            for there in laying.links.get(net, ()):
                found = self._on_b.get((there, part.colour), ())
                for new in found if len(found) <= CROWD else ():
                    if new not in seen and not (free and new in laying.old_of):
                        seen.add(new)
                        yield new

    def _chance(self, old: int, new: int) -> Chance:
        laying = self._laying
        ends = laying.a.parts[old].ends
        same, any_role = laying.agreed(old, new)
        linked = sum(1 for _, net in ends if laying.links.get(net))
        mine, theirs = self._seen
        like = next((d for d in range(DEPTH, -1, -1) if mine.parts[d][old] == theirs.parts[d][new]), -1)
        apart = 1 - (same + any_role) / (2 * len(ends))
        return Chance(False, linked - same, apart, DEPTH - like, old, new)  # noqa: FBT003 (a field, not a flag)


def _by_colour(structure: Structure) -> dict[tuple[int, Hashable], list[int]]:
    found: dict[tuple[int, Hashable], dict[int, None]] = defaultdict(dict)
    for at, part in enumerate(structure.parts):
        for _, net in part.ends:
            found[net, part.colour][at] = None
    return {key: list(parts) for key, parts in found.items()}
