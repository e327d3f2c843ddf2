"""Leads that changed places among themselves: tried as exchanges, kept where they explain more than they cost.

Two leads that changed places are two displaced leads to the partition and one slip of the hand. So each likely
exchange is undone on trial: a polarised part turned round, the units of one tube, two
like parts, two leads. One that leaves none of its leads displaced, and at least two displaced strands fewer, is
what may have happened; the one that explains most is taken, and of equals the one that is harmless.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from netcheck.compare.faults.evidence import borne_out
from netcheck.compare.faults.strands import Homes, Strands, homes, strands, weight
from netcheck.compare.roles.alike import alike
from netcheck.core.circuit import Part
from netcheck.core.difference import Lead, Rearranged, Swap, Way
from netcheck.model.graph import CircuitGraph

__all__ = ["Arrangement", "arrangement"]

_PARTS_TRIED = 24
"""Beyond this many displaced parts a pair of them is not told from chance."""

_SMALL = 3
"""A net with no more leads than this does not say by numbers which of them moved."""

Moves = Mapping[int, int]
"""Which lead (by index) is taken to stand at which point of the rewired state."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """The leads with every exchange undone, what they then come to, and the exchanges."""

    leads: tuple[Lead, ...]
    strands: Strands
    home: Homes
    exchanges: tuple[Rearranged, ...]


def arrangement(
    leads: tuple[Lead, ...],
    free: tuple[tuple[int, int], ...],
    original: CircuitGraph,
    rewired: CircuitGraph,
    hints: Mapping[tuple[int, int], int],
) -> Arrangement:
    """Undoes exchanges until none is left that explains two displaced strands or more."""
    now = _state(leads, free, original, rewired, hints)
    found: list[Rearranged] = []
    while len(now.displaced) > 1:
        best: tuple[tuple[int, bool, int], _State, Rearranged] | None = None
        for number, (way, parts, moves) in enumerate(_candidates(now, rewired)):
            then = now.moved(moves)
            gained = len(now.displaced) - len(then.displaced)
            if gained < 2 or then.still_displaced(moves):
                continue
            if way is Way.LEADS and not _is_likely(now, rewired, moves):
                continue
            swaps = _swaps(now, then, moves)
            rank = (gained, _is_equal(way, parts, rewired), -number)
            if swaps and (best is None or rank > best[0]):
                best = (rank, then, Rearranged(way, parts, swaps))
        if best is None:
            break
        now = best[1]
        found.append(best[2])
    return Arrangement(now.leads, now.strands(), now.home, tuple(found))


def _is_likely(now: "_State", rewired: CircuitGraph, moves: Moves) -> bool:
    own = {now.leads[at].new for at in moves}
    return all(borne_out(rewired, own, point) for point in moves.values())


def _is_equal(way: Way, parts: tuple[str, ...], rewired: CircuitGraph) -> bool:
    """Whether an exchange leaves an equal circuit; of two explanations that explain as much, the harmless one holds."""
    present = rewired.circuit.parts
    return way is Way.UNITS or (way is Way.PARTS and alike(present[parts[0]], present[parts[1]]))


@dataclass(frozen=True, slots=True, eq=False)
class _Ground:
    """What every trial stands on: the rewired state's nets by point, the hints, the ends that may change places."""

    nets: tuple[int, ...]
    hints: Mapping[tuple[int, int], int]
    free: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, eq=False)
class _State:
    """Leads on trial, and which strands of them are not at home; ``pairs`` are each lead's (old net, new net)."""

    leads: tuple[Lead, ...]
    pairs: tuple[tuple[int, int], ...]
    weighed: Counter[tuple[int, int]]
    ground: _Ground
    home: Homes
    displaced: frozenset[tuple[int, int]]

    @property
    def nets(self) -> tuple[int, ...]:
        return self.ground.nets

    def moved(self, moves: Moves) -> "_State":
        """The state with some leads taken to stand elsewhere, and the free ends that this turns round turned."""
        then = self.stepped(moves)
        turned: dict[int, int] = {}
        for i, j in self.ground.free:
            if then.pairs[i] in then.displaced and then.pairs[j] in then.displaced and then.fits(i, j):
                turned[i], turned[j] = then.leads[j].new, then.leads[i].new
        return then.stepped(turned) if turned else then

    def stepped(self, moves: Moves) -> "_State":
        """The state with some leads taken to stand elsewhere; only their strands are weighed anew."""
        leads, pairs, weighed = list(self.leads), list(self.pairs), Counter(self.weighed)
        for at, point in moves.items():
            leads[at] = replace(leads[at], new=point)
            weighed[pairs[at]] -= weight(leads[at])
            pairs[at] = (pairs[at][0], self.nets[point])
            weighed[pairs[at]] += weight(leads[at])
        return _weighed(tuple(leads), tuple(pairs), +weighed, self.ground)

    def fits(self, one: int, other: int) -> bool:
        """Whether two leads are each on the net where the other belongs."""
        (old_one, new_one), (old_other, new_other) = self.pairs[one], self.pairs[other]
        return self.home.new_of.get(old_one) == new_other and self.home.new_of.get(old_other) == new_one

    def still_displaced(self, moves: Moves) -> bool:
        return any(self.pairs[at] in self.displaced for at in moves)

    def displaced_leads(self) -> list[int]:
        return [at for at, pair in enumerate(self.pairs) if pair in self.displaced]

    def strands(self) -> Strands:
        return strands(self.leads, [old for old, _ in self.pairs], [new for _, new in self.pairs])


def _state(
    leads: tuple[Lead, ...],
    free: tuple[tuple[int, int], ...],
    original: CircuitGraph,
    rewired: CircuitGraph,
    hints: Mapping[tuple[int, int], int],
) -> _State:
    old, new = original.circuit.nets, rewired.circuit.nets
    pairs = tuple((old[lead.old], new[lead.new]) for lead in leads)
    weighed: Counter[tuple[int, int]] = Counter()
    for lead, pair in zip(leads, pairs, strict=True):
        weighed[pair] += weight(lead)
    return _weighed(leads, pairs, weighed, _Ground(new, hints, free))


def _weighed(
    leads: tuple[Lead, ...], pairs: tuple[tuple[int, int], ...], weighed: Counter[tuple[int, int]], ground: _Ground
) -> _State:
    home = homes(weighed, ground.hints)
    displaced = frozenset(pair for pair in weighed if home.new_of.get(pair[0]) != pair[1])
    return _State(leads, pairs, weighed, ground, home, displaced)


Candidate = tuple[Way, tuple[str, ...], Moves]


def _candidates(state: _State, rewired: CircuitGraph) -> Iterator[Candidate]:
    wrong = state.displaced_leads()
    by_part: dict[str, list[int]] = {}
    for at, lead in enumerate(state.leads):
        by_part.setdefault(lead.part, []).append(at)
    parts = _suspects(state, wrong)
    present = rewired.circuit.parts
    yield from _turned(state, parts, by_part, present)
    for name in parts:
        yield from _units(state, name, by_part[name], rewired)
    crosswise = _crosswise(state, wrong, by_part)
    yield from _two_leads(state, [pair for pair in crosswise if state.leads[pair[0]].part == state.leads[pair[1]].part])
    yield from _like_parts(state, parts, by_part, rewired)
    yield from _two_leads(state, [pair for pair in crosswise if state.leads[pair[0]].part != state.leads[pair[1]].part])


def _suspects(state: _State, wrong: Sequence[int]) -> list[str]:
    """The parts with a displaced lead, then those on a small net that is in trouble: there the home is a toss-up."""
    old_nets = Counter(old for old, _ in state.pairs)
    troubled = {net for pair in state.displaced for net in pair}
    small = [
        at
        for at, (old, new) in enumerate(state.pairs)
        if old_nets[old] <= _SMALL and (old in troubled or new in troubled)
    ]
    return [name for name in dict.fromkeys(state.leads[at].part for at in (*wrong, *small)) if name]


def _turned(
    state: _State, parts: Sequence[str], by_part: Mapping[str, list[int]], present: Mapping[str, Part]
) -> Iterator[Candidate]:
    for name in parts:
        shape = present[name].shape
        if shape is not None and shape.polarity is not None and len(by_part[name]) == 2:
            yield Way.TURNED, (name,), _exchanged(state, *by_part[name])


def _exchanged(state: _State, one: int, other: int) -> Moves:
    return {one: state.leads[other].new, other: state.leads[one].new}


def _units(state: _State, name: str, own: Sequence[int], rewired: CircuitGraph) -> Iterator[Candidate]:
    """Two equal units of one envelope: every electrode ``-a`` with its ``-b``."""
    keys = {_key(rewired, state.leads[at].new): at for at in own}
    pairs = [(keys[k], keys[f"{k[:-2]}-b"]) for k in keys if k.endswith("-a") and f"{k[:-2]}-b" in keys]
    lone = [k for k in keys if k.endswith(("-a", "-b")) and f"{k[:-2]}{'-b' if k.endswith('-a') else '-a'}" not in keys]
    if pairs and not lone:
        moves: dict[int, int] = {}
        for one, other in pairs:
            moves.update(_exchanged(state, one, other))
        yield Way.UNITS, (name,), moves


def _key(graph: CircuitGraph, at: int) -> str:
    terminal = graph.point(at).terminal
    return terminal.key if terminal is not None else ""


def _like_parts(
    state: _State,
    parts: Sequence[str],
    by_part: Mapping[str, list[int]],
    rewired: CircuitGraph,
) -> Iterator[Candidate]:
    """Two parts of one kind that took each other's place, lead by lead, either way round where ends are free."""
    present = rewired.circuit.parts
    if len(parts) > _PARTS_TRIED:
        return
    for one, other in combinations(parts, 2):
        if present[one].kind is not present[other].kind or len(by_part[one]) != len(by_part[other]):
            continue
        ones = {_key(rewired, state.leads[at].new): at for at in by_part[one]}
        others = {_key(rewired, state.leads[at].new): at for at in by_part[other]}
        if ones.keys() != others.keys():
            continue
        for turn in _turns(present[one], list(ones)):
            moves: dict[int, int] = {}
            for key, at in ones.items():
                moves[at] = state.leads[others[turn(key)]].new
                moves[others[turn(key)]] = state.leads[at].new
            yield Way.PARTS, (one, other), moves


def _turns(part: Part, keys: Sequence[str]) -> Iterator[Callable[[str], str]]:
    yield lambda key: key
    if len(keys) == 2 and part.shape is not None and part.shape.polarity is None and part.shape.free:
        swapped = {keys[0]: keys[1], keys[1]: keys[0]}
        yield lambda key: swapped[key]


def _crosswise(state: _State, wrong: Sequence[int], by_part: Mapping[str, list[int]]) -> list[tuple[int, int]]:
    """Pairs of leads that may have changed places: each on the other's net, or of one part with one of them displaced.

    One of the two may be the only lead left of its net, and then it seems to be at home.
    """
    displaced = set(wrong)
    pairs = [pair for pair in combinations([at for at in wrong if state.leads[at].part], 2) if state.fits(*pair)]
    for name in dict.fromkeys(state.leads[at].part for at in wrong):
        pairs.extend(p for p in combinations(by_part[name], 2) if name and displaced & set(p) and p not in pairs)
    return pairs


def _two_leads(state: _State, pairs: Sequence[tuple[int, int]]) -> Iterator[Candidate]:
    for one, other in pairs:
        parts = tuple(dict.fromkeys((state.leads[one].part, state.leads[other].part)))
        yield Way.LEADS, parts, _exchanged(state, one, other)


def _swaps(now: _State, then: _State, moves: Moves) -> tuple[Swap, ...]:
    """What each lead of an exchange is on, and where it belongs; leads that the exchange left as they were are not."""
    found = []
    nets = now.nets
    for at, point in moves.items():
        lead = now.leads[at]
        if nets[lead.new] == nets[point]:
            continue
        wrong = then.home.old_of.get(nets[lead.new])
        if wrong is not None:
            found.append(Swap((lead,), then.pairs[at][0], wrong, point))
    return tuple(found)
