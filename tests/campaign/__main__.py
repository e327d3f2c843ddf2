"""Runs the campaign: ``python -m tests.campaign --trials 5000 --seed 1``."""

import argparse
import json
import sys
from collections import Counter
from dataclasses import dataclass, field
from random import Random

from netcheck.core.diagnostic import Severity
from netcheck.core.report import Report
from tests.campaign.kinds import KINDS
from tests.campaign.planted import Planted
from tests.campaign.trials import Trial, fitting_samples, reported, trial
from tests.campaign.verdict import Verdict, judged

__all__ = ["Tally", "campaign", "main"]


@dataclass(slots=True)
class Tally:
    """What came of all trials so far."""

    kinds: Counter[str] = field(default_factory=Counter)
    rejected: int = 0
    single: list[Verdict] = field(default_factory=list)
    multiple: list[Verdict] = field(default_factory=list)
    equivalent: int = 0
    false_alarms: int = 0

    def summary(self) -> dict[str, object]:
        """The figures, as they are printed."""
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


class _Shower:
    """Prints the first misses of each kind of fault."""

    def __init__(self, most: int, texts: bool) -> None:
        self._most = most
        self._texts = texts
        self._shown: Counter[str] = Counter()

    def show(self, heading: str, drawn: Trial, report: Report, said: str) -> None:
        if self._shown[heading] >= self._most:
            return
        self._shown[heading] += 1
        lines = [f"--- {heading} ({said}) in {drawn.sample}"]
        lines += [f"    planted: {fault.what}   [right: {_right(fault)}]" for fault in drawn.faults]
        found = [d for d in report.diagnostics if d.severity is not Severity.NOTE]
        lines += [f"    {d.severity.value} {d.rule}: {d.headline}   DO {d.do}" for d in found[:6]]
        lines += [f"    and {len(found) - 6} more"] if len(found) > 6 else []
        lines += [] if found else ["    (nothing was said)"]
        if self._texts:
            lines.append(drawn.text)
        sys.stdout.write("\n".join(lines) + "\n")


def _right(fault: Planted) -> str:
    return " or ".join(f"{'/'.join(sorted(a.rules))}" for a in fault.answers[:3])


def campaign(trials: int, seed: int, kinds: tuple[str, ...], shower: _Shower | None = None) -> Tally:
    """N single faults, N double or triple ones, and two fifths of N without any."""
    rng = Random(seed)  # noqa: S311 - trials are repeated from a seed
    tally = Tally()
    deck = _Deck(kinds, rng)
    for _ in range(trials):
        _one(tally, (deck.next(),), tally.single, rng, shower)
    for _ in range(trials):
        _one(tally, tuple(deck.next() for _ in range(rng.choice((2, 3)))), tally.multiple, rng, shower)
    for _ in range(trials * 2 // 5):
        _equal(tally, rng, shower)
    return tally


class _Deck:
    """Kinds in random order, each as often as the others."""

    def __init__(self, kinds: tuple[str, ...], rng: Random) -> None:
        self._kinds = kinds
        self._rng = rng
        self._left: list[str] = []

    def next(self) -> str:
        if not self._left:
            self._left = list(self._kinds)
            self._rng.shuffle(self._left)
        return self._left.pop()


def _one(tally: Tally, kinds: tuple[str, ...], into: list[Verdict], rng: Random, shower: _Shower | None) -> None:
    samples = [s for s in fitting_samples(kinds[0]) if all(s in fitting_samples(k) for k in kinds)]
    if not samples:
        return
    drawn = trial(kinds, rng, samples)
    tally.kinds.update(fault.kind for fault in drawn.faults)
    tally.rejected += drawn.rejected
    report = reported(drawn)
    verdict = judged(report, drawn.faults, drawn.leads)
    into.append(verdict)
    if shower is None or (verdict.detected and verdict.exact and (verdict.right_first or len(kinds) > 1)):
        return
    said = " ".join(n for n, good in (("undetected", verdict.detected), ("not first", verdict.right_first), ("not one", verdict.exact)) if not good)
    shower.show(" + ".join(kinds) if len(kinds) == 1 else f"{len(kinds)} faults", drawn, report, said)


def _equal(tally: Tally, rng: Random, shower: _Shower | None) -> None:
    drawn = trial((), rng)
    report = reported(drawn)
    tally.equivalent += 1
    alarms = sum(1 for d in report.diagnostics if d.severity is not Severity.NOTE)
    tally.false_alarms += alarms
    if alarms and shower is not None:
        shower.show("equivalent", drawn, report, f"{alarms} alarms")


def main(arguments: list[str] | None = None) -> None:
    """The command."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaign", description=__doc__)
    parser.add_argument("--trials", type=int, default=500, help="N single, N multiple and 2N/5 equivalent trials")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", choices=sorted(KINDS), help="faults of this kind only")
    parser.add_argument("--show", type=int, default=0, help="print the first misses of each kind")
    parser.add_argument("--texts", action="store_true", help="with the netlist of each miss shown")
    told = parser.parse_args(arguments)
    kinds = (told.kind,) if told.kind else tuple(KINDS)
    tally = campaign(told.trials, told.seed, kinds, _Shower(told.show, told.texts) if told.show else None)
    sys.stdout.write(json.dumps(tally.summary()) + "\n")


if __name__ == "__main__":
    main()
