"""The campaign: many trials, their figures, and the misses shown."""

import json
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from netcheck.reports.json_document import render
from netcheck.reports.renderer import Style
from tests.campaign.planted import Planted
from tests.campaign.reading import SAMPLES
from tests.campaign.repairs import Repair, has_fewer_slips, repair
from tests.campaign.rewired_sets import fresh_names
from tests.campaign.trials import Trial, fitting_samples, reported, trial
from tests.campaign.verdict import Verdict, judged

__all__ = ["CIRCUITS", "Shower", "Tally", "campaign"]


@dataclass(slots=True)
class Tally:
    """What came of all trials so far."""

    kinds: Counter[str] = field(default_factory=Counter)
    rejected: int = 0
    single: list[tuple[Verdict, Repair]] = field(default_factory=list)
    multiple: list[tuple[Verdict, Repair]] = field(default_factory=list)
    equivalent: int = 0
    false_alarms: int = 0

    def summary(self) -> dict[str, Any]:
        """The figures, as they are printed: fractions of 1, and counts."""
        return {
            "trials": len(self.single) + len(self.multiple) + self.equivalent,
            "kinds": dict(sorted(self.kinds.items())),
            "rejected": self.rejected,
            "single": {
                "detected": _share([v.detected for v, _ in self.single]),
                "right_first": _share([v.right_first for v, _ in self.single]),
                "exactly_one": _share([v.exact for v, _ in self.single]),
                **_followed([r for _, r in self.single]),
            },
            "multiple": {
                "detected": _share([v.detected for v, _ in self.multiple]),
                "exactly_one_each": _share([v.exact for v, _ in self.multiple]),
                **_followed([r for _, r in self.multiple]),
            },
            "equivalent": {"trials": self.equivalent, "false_alarms": self.false_alarms},
        }


def _followed(repairs: list[Repair]) -> dict[str, float | None]:
    """The figures about orders; what each means is said where they are judged."""
    return {
        "ordered": _share([r.ordered for r in repairs if r.concerned]),
        "repaired": _share([r.repaired for r in repairs if r.concerned and r.tried and r.ordered]),
        "wrong_orders": sum(1 for r in repairs if r.wrong),
    }


def _share(hits: list[bool]) -> float | None:
    return round(sum(hits) / len(hits), 5) if hits else None


class Shower:
    """Prints the first misses of each kind of fault."""

    def __init__(self, most: int, *, texts: bool) -> None:
        self._most = most
        self._texts = texts
        self._shown: Counter[str] = Counter()

    def show(self, heading: str, drawn: Trial, report: Report, said: str) -> None:
        if self._shown[heading] >= self._most:
            return
        self._shown[heading] += 1
        lines = [f"--- {heading} ({said}) in {drawn.sample}"]
        lines += [f"    planted: {fault.what}   [right: {_right(fault)}]" for fault in drawn.faults]
        lines += [f"    and no more than names: {fault.what}" for fault in drawn.names_only]
        found = [d for d in report.diagnostics if d.grade is not Grade.NOTE]
        for d in found[:6]:
            lines.append(f"    {d.grade.value} {d.rule}: {d.headline}   DO {d.do}")
            lines += [f"        {'; '.join(act.line for act in mend)}" for mend in d.mends]
        lines += [f"    and {len(found) - 6} more"] if len(found) > 6 else []
        lines += [] if found else ["    (nothing was said)"]
        if self._texts:
            lines.append(drawn.text)
        sys.stdout.write("\n".join(lines) + "\n")


def _right(fault: Planted) -> str:
    return " or ".join(f"{'/'.join(sorted(a.rules))}" for a in fault.answers[:3])


CIRCUITS = ("samples", "fresh", "both")
_MANY = 8  # fresh circuits that a trial is tried on, until one has a place for its faults


def campaign(
    trials: int, seed: int, kinds: tuple[str, ...], shower: Shower | None = None, circuits: str = "samples"
) -> Tally:
    """N single faults, N double or triple ones, and two fifths of N without any."""
    rng = Random(seed)  # noqa: S311 - trials are repeated from a seed
    tally = Tally()
    deck = _Deck(kinds, rng, circuits)
    for _ in range(trials if kinds else 0):
        _one(tally, deck, 1, rng, shower)
    for _ in range(trials if kinds else 0):
        _one(tally, deck, rng.choice((2, 3)), rng, shower)
    for _ in range(trials * 2 // 5):
        _equal(tally, deck.places(()), rng, shower)
    return tally


class _Deck:
    """Kinds in random order, each as often as the others, and the circuits that have places for some of them."""

    def __init__(self, kinds: tuple[str, ...], rng: Random, circuits: str) -> None:
        self._kinds = kinds
        self._rng = rng
        self._circuits = circuits
        self._left: list[str] = []

    def places(self, kinds: tuple[str, ...]) -> tuple[str, ...]:
        """The samples that have a place for every kind, or some fresh circuits, of which that is not known."""
        fresh = self._circuits == "fresh" or (self._circuits == "both" and self._rng.random() < 0.5)
        if fresh:
            return fresh_names(self._rng, _MANY)
        return tuple(s for s in SAMPLES if all(s in fitting_samples(kind) for kind in kinds))

    def take(self, count: int) -> tuple[str, ...]:
        """The next kinds."""
        while len(self._left) < count:
            more = list(self._kinds)
            self._rng.shuffle(more)
            self._left = more + self._left
        return tuple(self._left.pop() for _ in range(count))

    def put_back(self, kinds: tuple[str, ...]) -> None:
        """Kinds that did not go together; they come again with others."""
        self._left.extend(kinds)
        self._rng.shuffle(self._left)


def _one(tally: Tally, deck: "_Deck", count: int, rng: Random, shower: Shower | None) -> None:
    drawn = _drawn(deck, count, rng)
    tally.kinds.update(fault.kind for fault in (*drawn.faults, *drawn.names_only))
    tally.rejected += drawn.rejected
    report = reported(drawn)
    verdict = judged(report, drawn.faults, drawn.leads)
    document = json.loads(render(report, Style()))
    done = repair(document, drawn.faulty, drawn.sound)
    if has_fewer_slips(document, done, len(drawn.faults)):
        verdict = replace(verdict, exact=True)
    (tally.single if count == 1 else tally.multiple).append((verdict, done))
    said = ", ".join(_misses(verdict, done, count))
    if said and shower is not None:
        shower.show(drawn.faults[0].kind if count == 1 else f"{count} faults", drawn, report, said)


def _misses(verdict: Verdict, done: Repair, count: int) -> Iterator[str]:
    hits = {
        "undetected": verdict.detected,
        "not first": verdict.right_first or count > 1,
        "not one": verdict.exact,
        "not all ordered": done.ordered or not done.concerned,
        "not repaired": done.repaired or not (done.concerned and done.tried and done.ordered),
    }
    yield from (word for word, hit in hits.items() if not hit)
    yield from done.wrong


def _drawn(deck: "_Deck", count: int, rng: Random) -> Trial:
    """A trial of the deck's next kinds; kinds that no one sample has are put back."""
    while True:
        kinds = deck.take(count)
        samples = deck.places(kinds)
        drawn = trial(kinds, rng, samples) if samples else None
        if drawn is not None:
            return drawn
        deck.put_back(kinds)


def _equal(tally: Tally, samples: tuple[str, ...], rng: Random, shower: Shower | None) -> None:
    drawn = trial((), rng, samples)
    if drawn is None:
        return
    report = reported(drawn)
    tally.equivalent += 1
    alarms = sum(1 for d in report.diagnostics if d.grade is not Grade.NOTE)
    tally.false_alarms += alarms
    if alarms and shower is not None:
        shower.show("equivalent", drawn, report, f"{alarms} alarms")
