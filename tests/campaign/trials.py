"""Trials: a sample, a rewriting, some faults, a report and a verdict."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from itertools import combinations
from random import Random

from netcheck.api import compare
from netcheck.core.report import Report
from netcheck.core.source import Source
from tests.campaign.bench import Bench
from tests.campaign.chassis import CHASSIS, Chassis, Nets
from tests.campaign.kinds import KINDS
from tests.campaign.planted import Planted, Spoilt
from tests.campaign.reading import SAMPLES, original_of, rewired_of, text_of
from tests.campaign.renaming import renames_only
from tests.campaign.rewriting import as_log, as_trace
from tests.campaign.sameness import equal, labels_of, members
from tests.campaign.writing import ORIGINAL, text_for

__all__ = ["Trial", "fitting_samples", "reported", "trial"]

_TRIES = 60
_NOTED = 0.4  # of the states without a fault: equal, with NOTE


@dataclass(frozen=True, slots=True)
class Trial:
    """One drawn trial: the text, what was planted, how many draws changed nothing, the states without and with it.

    ``names_only`` was planted too, and is nothing but another use of two names.
    """

    sample: str
    text: str
    faults: tuple[Planted, ...]
    rejected: int
    sound: Chassis
    faulty: Chassis
    names_only: tuple[Planted, ...] = ()

    @property
    def leads(self) -> frozenset[str]:
        """The compared leads of the state that was written."""
        return frozenset(self.faulty.compared())


def trial(kinds: Sequence[str], rng: Random, samples: Sequence[str] = SAMPLES) -> Trial | None:
    """Rewrites the state of a sample or a fresh circuit and plants a fault of each kind; None where none has places."""
    rejected = 0
    for _ in range(_TRIES):
        sample = rng.choice(samples)
        chassis = _rewritten(sample, rng, noted=not kinds and rng.random() < _NOTED)
        drawn = _planted(chassis, _original(sample), kinds, rng)
        rejected += sum(d.rejected for d in drawn)
        if len(drawn) == len(kinds):
            last = drawn[-1].chassis if drawn else chassis
            text = text_for(last, _original(sample), rng)
            faults = tuple(d.fault for d in drawn if not d.names_only)
            names_only = tuple(d.fault for d in drawn if d.names_only)
            return Trial(sample, text, faults, rejected, chassis, last, names_only)
    return None


def _planted(chassis: Chassis, original: Chassis, kinds: Sequence[str], rng: Random) -> list["_Drawn"]:
    """Fault after fault, as long as each is at a place of its own."""
    found: list[_Drawn] = []
    for kind in kinds:
        drawn = _draw(found[-1].chassis if found else chassis, original, kind, rng)
        if drawn is None:
            break
        before = (found[-1].chassis if found else chassis).homes()
        crossings = _crossings(before, drawn.chassis.homes(), chassis.homes())
        if any(not (drawn.spots | crossings).isdisjoint(earlier.spots) for earlier in found):
            break
        if found and _heals(before, drawn.chassis.homes(), chassis.homes()):
            break
        renamed = bool(found) and renames_only(chassis, found[-1].chassis, drawn.chassis)
        found.append(replace(drawn, spots=drawn.spots | crossings, names_only=renamed))
    return found


def _rewritten(sample: str, rng: Random, *, noted: bool) -> Chassis:
    if noted or rng.random() < 0.5:
        return as_trace(_rewired(sample), rng, noted=noted)
    return as_log(_rewired(sample), rng)


def _crossings(before: Nets, after: Nets, base: Nets) -> frozenset[str]:
    """The pairs of nets of the sound state that a fault joins, whole or by one lead.

    Once two nets are joined whole, a lead of the one on the other can't be told any more.
    """
    found: set[str] = set()
    for leads in members(after).values():
        sides: dict[int, set[int]] = defaultdict(set)
        for lead in leads:
            if lead in before and lead in base:
                sides[before[lead]].add(base[lead])
        for one, other in combinations(sides.values(), 2):
            found.update(f"{min(a, b)}|{max(a, b)}" for a in one for b in other if a != b)
    return frozenset(found)


def _heals(before: Nets, after: Nets, base: Nets) -> bool:
    """Whether a fault joins again what an earlier one had parted: of the two no single account is left."""
    for leads in members(after).values():
        parted: dict[int, set[int]] = defaultdict(set)
        for lead in leads:
            if lead in before and lead in base:
                parted[base[lead]].add(before[lead])
        if any(len(nets) > 1 for nets in parted.values()):
            return True
    return False


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One fault made; ``spots`` are the places, parts and small nets that it is at."""

    chassis: Chassis
    fault: Planted
    rejected: int
    spots: frozenset[str]
    names_only: bool = False


def _draw(chassis: Chassis, original: Chassis, kind: str, rng: Random) -> _Drawn | None:
    """A fault that changes something; None where the state has no place for this kind."""
    for rejected in range(_TRIES):
        bench = Bench(chassis.copy(), original, rng)
        try:
            fault = KINDS[kind](bench)
        except Spoilt:
            return None
        if not equal(bench.fixed, bench.chassis.fixed(), bench.labels, labels_of(bench.chassis)):
            return _Drawn(bench.chassis, fault, rejected, _spots(chassis, bench))
    return None


_RAIL = 6  # leads from which on a net keeps its identity whatever happens to one of them


def _spots(chassis: Chassis, bench: Bench) -> frozenset[str]:
    """Where a fault is: the nodes of its joints, its parts, and every lead on a small net of theirs.

    Faults of one trial share none of these: two faults in one small net, or at both ends of a part that may lie either
    way round, are a knot, in which what the hands did is no longer the only account of what is there.
    """
    joints = set(chassis.joints) ^ set(bench.chassis.joints)
    nodes = {end for j in joints for end in (j.a, j.b) if end != CHASSIS and not end.startswith("net:")}
    nodes |= {
        node for pair in set(chassis.insides()) ^ set(bench.chassis.insides()) for node in pair if node != CHASSIS
    }
    was, here = set(chassis.parts.values()), set(bench.chassis.parts.values())
    parts = {p.name for p in was ^ here}
    nodes |= {bench.chassis.node(lead) for p in was ^ here for lead in p.leads}
    found = set(nodes) | parts
    alone: set[str] = set()
    for state in (chassis, bench.chassis):
        number = state.components()
        touched = {number[node] for node in nodes if node in number}
        on_it = [x for p in state.parts.values() for x in map(state.node, p.leads) if number.get(x) in touched]
        sizes = Counter(number[x] for x in on_it)
        found.update(x for x in on_it if sizes[number[x]] <= _RAIL)
        alone.update(x for x in on_it if sizes[number[x]] == 1)
    # A lead that a fault leaves alone is at it as if it were soldered there: its part's other end is the other side.
    ends = {p.name for p in here if p.is_free and not (nodes | alone).isdisjoint(map(bench.chassis.node, p.leads))}
    return frozenset(found | ends)


@lru_cache(maxsize=64)
def _original(sample: str) -> Chassis:
    return original_of(sample)


@lru_cache(maxsize=64)
def _rewired(sample: str) -> Chassis:
    return rewired_of(sample)


@lru_cache(maxsize=64)
def _source(sample: str) -> Source:
    return Source(ORIGINAL, text_of(sample, "original"))


def reported(drawn: Trial) -> Report:
    """What the comparison says."""
    source = _source(drawn.sample)
    return compare(source, Source("rewired.netck", drawn.text), lambda _asker, _path: source)


@cache
def fitting_samples(kind: str) -> tuple[str, ...]:
    """The samples that have a place for a kind of fault."""
    rng = Random(0)  # noqa: S311 - trials are repeated from a seed
    return tuple(sample for sample in SAMPLES if any(_fits(sample, kind, rng) for _ in range(3)))


def _fits(sample: str, kind: str, rng: Random) -> bool:
    return _draw(as_trace(_rewired(sample), rng), _original(sample), kind, rng) is not None
