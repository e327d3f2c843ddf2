"""Trials: a sample, a rewriting, some faults, a report and a verdict."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from random import Random

from netcheck.api import compare
from netcheck.core.report import Report
from netcheck.core.source import Source
from tests.campaign.bench import Bench
from tests.campaign.chassis import Chassis
from tests.campaign.kinds import KINDS
from tests.campaign.planted import Planted, Spoilt
from tests.campaign.reading import SAMPLES, original_of, rewired_of, text_of
from tests.campaign.rewriting import as_log, as_trace
from tests.campaign.sameness import labels_of, same
from tests.campaign.writing import ORIGINAL, text_for

__all__ = ["Trial", "fitting_samples", "reported", "trial"]

_TRIES = 60


@dataclass(frozen=True, slots=True)
class Trial:
    """One drawn trial: the text, what was planted, how many draws changed nothing, and the leads of the state."""

    sample: str
    text: str
    faults: tuple[Planted, ...]
    rejected: int
    leads: frozenset[str]


def trial(kinds: Sequence[str], rng: Random, samples: Sequence[str] = SAMPLES) -> Trial:
    """Rewrites a sample's state and plants a fault of each kind."""
    rejected = 0
    while True:
        sample = rng.choice(samples)
        original = _original(sample)
        rewrite: Callable[[Chassis, Random], Chassis] = rng.choice((as_log, as_trace))
        chassis = rewrite(_rewired(sample), rng)
        faults: list[Planted] = []
        for kind in kinds:
            drawn = _draw(chassis, original, kind, rng, faults)
            if drawn is None:
                break
            chassis, fault, tries = drawn
            rejected += tries
            faults.append(fault)
        if len(faults) == len(kinds):
            leads = frozenset(lead for part in chassis.parts.values() for lead in part.leads)
            return Trial(sample, text_for(chassis, original, rng), tuple(faults), rejected, leads)


def _draw(
    chassis: Chassis, original: Chassis, kind: str, rng: Random, earlier: Sequence[Planted]
) -> tuple[Chassis, Planted, int] | None:
    """A fault that changes something; None where the state has no place for this kind."""
    tries = 0
    while tries < _TRIES:
        bench = Bench(chassis.copy(), original, rng)
        try:
            fault = KINDS[kind](bench)
        except Spoilt:
            return None
        if not same(bench.before, bench.labels, bench.chassis.nets(), labels_of(bench.chassis)) or kind in _BY_DATA:
            if _is_apart(fault, earlier):
                return bench.chassis, fault, tries
            return None
        tries += 1
    return None


_BY_DATA = frozenset({"dead-part"})


def _is_apart(fault: Planted, earlier: Sequence[Planted]) -> bool:
    """Whether a fault is at other leads than those before it: two faults at one lead are not two faults."""
    mine = {name for group in fault.answers[0].groups for name in group} if fault.answers else set()
    return all(mine.isdisjoint(name for group in e.answers[0].groups for name in group) for e in earlier)


@cache
def _original(sample: str) -> Chassis:
    return original_of(sample)


@cache
def _rewired(sample: str) -> Chassis:
    return rewired_of(sample)


@cache
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
    return tuple(
        sample
        for sample in SAMPLES
        if any(_draw(as_trace(_rewired(sample), rng), _original(sample), kind, rng, ()) for _ in range(4))
    )
