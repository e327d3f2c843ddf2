"""The campaign: many trials, their figures, and the misses shown."""

import sys
from collections import Counter
from dataclasses import dataclass, field
from random import Random
from typing import Any

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.campaign.planted import Planted
from tests.campaign.trials import Trial, fitting_samples, reported, trial
from tests.campaign.verdict import Verdict, judged

__all__ = ["Shower", "Tally", "campaign"]


@dataclass(slots=True)
class Tally:
    """What came of all trials so far."""

    kinds: Counter[str] = field(default_factory=Counter)
    rejected: int = 0
    single: list[Verdict] = field(default_factory=list)
    multiple: list[Verdict] = field(default_factory=list)
    equivalent: int = 0
    false_alarms: int = 0

    def summary(self) -> dict[str, Any]:
        """The figures, as they are printed: fractions of 1, and counts."""
        return {
            "trials": len(self.single) + len(self.multiple) + self.equivalent,
            "kinds": dict(sorted(self.kinds.items())),
            "rejected": self.rejected,
            "single": {
                "detected": _share([v.detected for v in self.single]),
                "right_first": _share([v.right_first for v in self.single]),
                "exactly_one": _share([v.exact for v in self.single]),
            },
            "multiple": {
                "detected": _share([v.detected for v in self.multiple]),
                "exactly_one_each": _share([v.exact for v in self.multiple]),
            },
            "equivalent": {"trials": self.equivalent, "false_alarms": self.false_alarms},
        }


def _share(hits: list[bool]) -> float:
    return round(sum(hits) / len(hits), 5) if hits else 1.0


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
        found = [d for d in report.diagnostics if d.grade is not Grade.NOTE]
        lines += [f"    {d.grade.value} {d.rule}: {d.headline}   DO {d.do}" for d in found[:6]]
        lines += [f"    and {len(found) - 6} more"] if len(found) > 6 else []
        lines += [] if found else ["    (nothing was said)"]
        if self._texts:
            lines.append(drawn.text)
        sys.stdout.write("\n".join(lines) + "\n")


def _right(fault: Planted) -> str:
    return " or ".join(f"{'/'.join(sorted(a.rules))}" for a in fault.answers[:3])


def campaign(trials: int, seed: int, kinds: tuple[str, ...], shower: Shower | None = None) -> Tally:
    """N single faults, N double or triple ones, and two fifths of N without any."""
    rng = Random(seed)  # noqa: S311 - trials are repeated from a seed
    tally = Tally()
    deck = _Deck(kinds, rng)
    for _ in range(trials if kinds else 0):
        _one(tally, deck, 1, rng, shower)
    for _ in range(trials if kinds else 0):
        _one(tally, deck, rng.choice((2, 3)), rng, shower)
    for _ in range(trials * 2 // 5):
        _equal(tally, rng, shower)
    return tally


class _Deck:
    """Kinds in random order, each as often as the others."""

    def __init__(self, kinds: tuple[str, ...], rng: Random) -> None:
        self._kinds = kinds
        self._rng = rng
        self._left: list[str] = []

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
    tally.kinds.update(fault.kind for fault in drawn.faults)
    tally.rejected += drawn.rejected
    report = reported(drawn)
    verdict = judged(report, drawn.faults, drawn.leads)
    (tally.single if count == 1 else tally.multiple).append(verdict)
    hits = (
        ("undetected", verdict.detected),
        ("not first", verdict.right_first or count > 1),
        ("not one", verdict.exact),
    )
    said = ", ".join(word for word, hit in hits if not hit)
    if said and shower is not None:
        shower.show(drawn.faults[0].kind if count == 1 else f"{count} faults", drawn, report, said)


def _drawn(deck: "_Deck", count: int, rng: Random) -> Trial:
    """A trial of the deck's next kinds; kinds that no one sample has are put back."""
    while True:
        kinds = deck.take(count)
        samples = [s for s in fitting_samples(kinds[0]) if all(s in fitting_samples(k) for k in kinds)]
        drawn = trial(kinds, rng, samples) if samples else None
        if drawn is not None:
            return drawn
        deck.put_back(kinds)


def _equal(tally: Tally, rng: Random, shower: Shower | None) -> None:
    drawn = trial((), rng)
    if drawn is None:
        return
    report = reported(drawn)
    tally.equivalent += 1
    alarms = sum(1 for d in report.diagnostics if d.grade is not Grade.NOTE)
    tally.false_alarms += alarms
    if alarms and shower is not None:
        shower.show("equivalent", drawn, report, f"{alarms} alarms")
