"""The one reading more that tells explanations apart best."""

import itertools
import math
from collections.abc import Collection, Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from netcheck.bench.chassis import Chassis
from netcheck.bench.expected import MOST, TOLD_APART
from netcheck.bench.explain import Explanation
from netcheck.bench.ohms import Matrix, Ohms, ohms_of
from netcheck.bench.rounded import ohms_words

Numbers = NDArray[np.intp]

__all__ = ["NextReading", "next_reading"]

APART = 1.5  # times, by which two readings must differ to be told apart
MOST_PROBES = 40


class NextReading(Struct, frozen=True):
    """Where to hold the probes, and what each reading would mean: the reading, and the explanations by place."""

    red: int
    black: int
    means: tuple[tuple[str, tuple[int, ...]], ...]


def next_reading(
    chassis: Chassis, explanations: Sequence[Explanation], done: Collection[frozenset[int]]
) -> NextReading | None:
    """The pair of points whose reading parts the explanations into the most groups; None where none parts any."""
    if len(explanations) < 2:
        return None
    base = ohms_of(chassis)
    probes = _probes(chassis, explanations)
    pairs = [pair for pair in itertools.combinations(probes, 2) if frozenset(pair) not in done]
    if not pairs:
        return None
    red, black = (np.array(side) for side in zip(*pairs, strict=True))
    reads = np.array([_after(base, one).between[red, black] for one in explanations])
    classes = _classes(reads)
    parted = [len(set(column)) for column in classes.T]
    largest = [max(np.bincount(column)) for column in classes.T]
    at = min(range(len(pairs)), key=lambda n: (-parted[n], largest[n], not _easy(chassis, pairs[n]), n))
    if parted[at] < 2:
        return None
    return NextReading(pairs[at][1], pairs[at][0], _means(reads[:, at], classes[:, at]))


def _after(base: Ohms, one: Explanation) -> Ohms:
    return base.after([change for slip in one.slips for change in slip.changes])


def _probes(chassis: Chassis, explanations: Sequence[Explanation]) -> list[int]:
    """The points that the explanations are about, the places of their nets, the chassis."""
    ends = [
        end for one in explanations for slip in one.slips for change in slip.changes for end in (change.a, change.b)
    ]
    anchors = [chassis.anchor(chassis.nets[end]) for end in ends if chassis.nets[end] in chassis.members]
    found = dict.fromkeys((0, *(end for end in ends if chassis.touchable[end]), *anchors))
    return list(found)[:MOST_PROBES]


def _classes(reads: Matrix) -> Numbers:
    """For each pair (columns) a number for each explanation, the same where the readings can't be told apart."""
    found = np.zeros(reads.shape, dtype=np.intp)
    told = np.log(np.clip(reads, TOLD_APART, MOST))
    for at in range(reads.shape[1]):
        edge, number = -math.inf, -1
        for row in np.argsort(told[:, at]):
            if told[row, at] > edge + math.log(APART):
                number += 1
            edge = told[row, at]
            found[row, at] = number
    return found


def _easy(chassis: Chassis, pair: tuple[int, int]) -> bool:
    return all(chassis.is_place(node) for node in pair)


def _means(reads: Matrix, classes: Numbers) -> tuple[tuple[str, tuple[int, ...]], ...]:
    found = []
    for number in range(int(classes.max()) + 1):
        places = tuple(int(at) for at in np.flatnonzero(classes == number))
        found.append((_words([float(reads[at]) for at in places]), places))
    return tuple(found)


def _words(ohms: Sequence[float]) -> str:
    low, high = min(ohms), max(ohms)
    if high <= TOLD_APART:
        return "joined (below 2 ohm)"
    if low >= MOST:
        return "open"
    return f"about {ohms_words(math.sqrt(low * min(high, MOST)))}"
