"""Leads in each other's places: what may have been exchanged, turned, mirrored, or gone round by one."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations, permutations

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.hands import Hands
from netcheck.compare.faults.laid import Laid
from netcheck.compare.faults.paper import OnPaper
from netcheck.compare.faults.slips import Slip
from netcheck.compare.faults.turnings import MOST_IN_A_RING, stretches, turned_places
from netcheck.compare.roles.alike import alike
from netcheck.core.circuit import Part
from netcheck.core.difference import Lead, Move, Way
from netcheck.model.graph import CircuitGraph

__all__ = ["in_trouble", "rearrangements"]

Ends = Mapping[int, int]
"""For each electrical end of the rewired state, the end in whose place it belongs."""

_PARTS_TRIED = 24
"""Beyond this many parts in trouble two that took each other's place are not told from chance."""

_TOSS_UP = 3
"""A net with no more leads than this does not say by numbers which of them moved."""


def rearrangements(account: Account, nets: frozenset[int], hands: Hands) -> Iterator[Slip]:
    """The exchanges that would leave less disorder, those of one part before those of two."""
    laid = account.laid
    paper = OnPaper(laid)
    now = laid.disorder
    yield from turned_places(account, nets, hands, paper)
    present = account.real.circuit.parts
    for way, parts, ends in _candidates(account, nets):
        # Like parts in each other's place are no fault, and all else may lie anew; of others it would be a guess.
        harmless = way is Way.PARTS and alike(present[parts[0]], present[parts[1]])
        if paper.disorder(ends, across=harmless) < now:
            mend = hands.exchanged(ends)
            if mend:
                yield Slip(way, mend, parts=parts, ends=ends)
    yield from _rounds(account, hands)


def _candidates(account: Account, nets: frozenset[int]) -> Iterator[tuple[Way, tuple[str, ...], Ends]]:
    laid = account.laid
    by_part: dict[str, list[Lead]] = {}
    for lead in laid.leads:
        by_part.setdefault(lead.part, []).append(lead)
    wrong, parts = in_trouble(laid, nets)
    present = account.real.circuit.parts
    for name in parts:
        if present[name].polarity is not None and len(by_part[name]) == 2:
            yield Way.TURNED, (name,), _crossed(*by_part[name])
        yield from _units(account.real, name, by_part[name])
    yield from _within(account.real, parts, by_part, wrong)
    if len(parts) <= _PARTS_TRIED:
        for one, other in combinations(parts, 2):
            yield from _like(account.real, by_part[one], by_part[other])
    yield from _between(parts, by_part, wrong)


def _between(
    parts: Sequence[str], by_part: Mapping[str, list[Lead]], wrong: set[int]
) -> Iterator[tuple[Way, tuple[str, ...], Ends]]:
    """Two leads of two parts in each other's places."""
    near = [lead for name in parts for lead in by_part[name]]
    for first, second in combinations(near, 2):
        if first.part != second.part and (first.new in wrong or second.new in wrong):
            yield Way.LEADS, (first.part, second.part), _crossed(first, second)


def in_trouble(laid: Laid, nets: frozenset[int]) -> tuple[set[int], list[str]]:
    """The displaced leads, and the parts of these; then of those on a small net in trouble: there home is a toss-up."""
    was, there = Counter(old for old, _ in laid.pairs), Counter(new for _, new in laid.pairs)
    wrong: dict[int, str] = {}
    small: dict[int, str] = {}
    for lead, pair in zip(laid.leads, laid.pairs, strict=True):
        if pair in laid.displaced:
            wrong[lead.new] = lead.part
        elif pair[1] in nets and (was[pair[0]] <= _TOSS_UP or there[pair[1]] <= _TOSS_UP):
            small[lead.new] = lead.part
    names = dict.fromkeys((*wrong.values(), *small.values()))
    return {*wrong, *small}, [name for name in names if name]


def _crossed(one: Lead, other: Lead) -> Ends:
    return {one.new: other.new, other.new: one.new}


def _units(real: CircuitGraph, name: str, own: Sequence[Lead]) -> Iterator[tuple[Way, tuple[str, ...], Ends]]:
    """Two equal units of one envelope: every electrode ``-a`` with its ``-b``."""
    keys = {_key(real, lead.new): lead for lead in own}
    pairs = [(keys[k], keys[f"{k[:-2]}-b"]) for k in keys if k.endswith("-a") and f"{k[:-2]}-b" in keys]
    lone = [k for k in keys if k.endswith(("-a", "-b")) and f"{k[:-2]}{'-b' if k.endswith('-a') else '-a'}" not in keys]
    if pairs and not lone:
        yield Way.UNITS, (name,), {end: to for pair in pairs for end, to in _crossed(*pair).items()}


def _key(graph: CircuitGraph, at: int) -> str:
    terminal = graph.point(at).terminal
    return terminal.key if terminal is not None else ""


def _within(
    real: CircuitGraph, parts: Sequence[str], by_part: Mapping[str, list[Lead]], wrong: set[int]
) -> Iterator[tuple[Way, tuple[str, ...], Ends]]:
    """Two ends of one part, or of the sections of one can, in each other's places; then three gone round by one."""
    present = real.circuit.parts
    groups: dict[str, list[Lead]] = {}
    for name in parts:
        groups.setdefault(present[name].host or name, []).extend(by_part[name])
    for leads in groups.values():
        hit = [lead for lead in leads if lead.new in wrong]
        for one, other in combinations(leads, 2):
            if one.new in wrong or other.new in wrong:
                yield Way.LEADS, tuple(dict.fromkeys((one.part, other.part))), _crossed(one, other)
        for ring in (*_rings(hit), *stretches(_in_a_row(real, leads), 4)):
            yield Way.ROUND, (present[ring[0].part].host or ring[0].part,), _round(ring)


def _rings(leads: Sequence[Lead]) -> Iterator[tuple[Lead, ...]]:
    """Three leads each on the next one's place, either way round."""
    for three in combinations(leads[:MOST_IN_A_RING], 3):
        for rest in permutations(three[1:]):
            yield (three[0], *rest)


def _in_a_row(real: CircuitGraph, leads: Sequence[Lead]) -> Sequence[Lead]:
    """The leads that are soldered by one point, in the order of the part: pins, lugs, colours as they were declared."""
    hands = Hands(real)
    held = [lead for lead in leads if hands.joints(hands.stand(lead.new)) and _points(hands, lead) == 1]
    return sorted(held, key=lambda lead: lead.new)


def _points(hands: Hands, lead: Lead) -> int:
    """How many pins or lugs an end has."""
    return sum(1 for grip in hands.grips(lead.new) if hands.real.point(grip).part == lead.part)


def _round(ring: Sequence[Lead]) -> Ends:
    return {lead.new: ring[(n + 1) % len(ring)].new for n, lead in enumerate(ring)}


def _like(
    real: CircuitGraph, ones: Sequence[Lead], others: Sequence[Lead]
) -> Iterator[tuple[Way, tuple[str, ...], Ends]]:
    """Two parts of one kind in each other's place, lead by lead, either way round where ends are free."""
    present = real.circuit.parts
    one, other = ones[0].part, others[0].part
    mine, theirs = ({_key(real, lead.new): lead for lead in leads} for leads in (ones, others))
    if present[one].kind is not present[other].kind or mine.keys() != theirs.keys():
        return
    for turn in _turns(present[one], list(mine)):
        ends: dict[int, int] = {}
        for key, lead in mine.items():
            ends.update(_crossed(lead, theirs[turn(key)]))
        yield Way.PARTS, (one, other), ends


def _turns(part: Part, keys: Sequence[str]) -> Iterator[Callable[[str], str]]:
    yield lambda key: key
    if len(keys) == 2 and part.free:
        swapped = {keys[0]: keys[1], keys[1]: keys[0]}
        yield lambda key: swapped[key]


# ---- rings of whole bundles


def _rounds(account: Account, hands: Hands) -> Iterator[Slip]:
    """Bundles that sit on each other's nets, two or round a ring: each held by one joint, which goes on by one."""
    single = [f for f in account.faults if isinstance(f, Move) and len(f.culprits) == 1]
    moves = [move for move in single if not move.culprits[0].bridges]
    for ring in _cycles(moves):
        places = [_far_end(account, move) for move in ring]
        changes = []
        for n, move in enumerate(ring):
            join, to = move.culprits[0], places[(n + 1) % len(ring)]
            wrong = places[n]
            changes.append((join, to if join.a == wrong else join.a, to if join.b == wrong else join.b))
        mend = hands.put(changes)
        near = [join.a if join.b == at else join.b for (join, _, _), at in zip(changes, places, strict=True)]
        onward = {near[(n + 1) % len(ring)]: at for n, at in enumerate(near)}
        parts = tuple(dict.fromkeys(lead.part for move in ring for lead in move.leads))
        yield Slip(Way.ROUND if len(ring) > 2 else Way.LEADS, mend, parts=parts, ends=onward)


def _cycles(moves: Sequence[Move]) -> Iterator[tuple[Move, ...]]:
    """Each move of a cycle sits on the net where the next one belongs."""
    leaving: dict[int, list[Move]] = {}
    for move in moves:
        leaving.setdefault(move.old_net, []).append(move)
    seen: set[frozenset[int]] = set()
    for first in moves:
        ring = [first]
        while len(ring) <= MOST_IN_A_RING:
            nexts = [m for m in leaving.get(ring[-1].wrong_net, ()) if m not in ring]
            if ring[-1].wrong_net == first.old_net:
                key = frozenset(map(id, ring))
                if len(ring) > 1 and key not in seen:
                    seen.add(key)
                    yield tuple(reversed(ring))
                break
            if not nexts:
                break
            ring.append(nexts[0])


def _far_end(account: Account, move: Move) -> int:
    """The end of the joint that holds a bundle on the wrong net which is not the bundle's own."""
    join = move.culprits[0]
    graph = account.laid.graph
    own = {lead.new for lead in move.leads}
    return join.b if graph.parts((join,), own, {join.b}) else join.a
