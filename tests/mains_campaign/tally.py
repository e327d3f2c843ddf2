"""The leak that the product finds against the tests' own, over random sets."""

from dataclasses import dataclass, field
from random import Random
from statistics import median

from netcheck.electrical.mains.leakage import LIMIT, leaks
from netcheck.model.graph import CircuitGraph
from tests.mains_campaign.drawn import random_set
from tests.mains_campaign.truth import leak
from tests.paper import circuit

__all__ = ["Tally", "tally"]

NEAR = 0.005  # of the limit, within which either answer will do
SOME = LIMIT / 100  # amperes from which a current's error is counted


@dataclass
class Tally:
    """``over`` sets let more than the limit through; ``missed`` are those of them that were passed."""

    trials: int = 0
    over: int = 0
    joined: int = 0
    missed: int = 0
    false_alarms: int = 0
    errors: list[float] = field(default_factory=list)

    def summary(self) -> dict[str, float]:
        ordered = sorted(self.errors) or [0.0]
        return {
            "trials": self.trials,
            "over": self.over,
            "joined": self.joined,
            "missed": self.missed,
            "false_alarms": self.false_alarms,
            "compared": len(self.errors),
            "median_error": round(median(ordered), 6),
            "p99_error": round(ordered[int(0.99 * (len(ordered) - 1))], 6),
        }


def tally(trials: int, seed: int) -> Tally:
    count = Tally()
    for trial in range(trials):
        _count(count, Random(f"{seed} {trial}"))  # noqa: S311 - repeatable, not secret
    return count


def _count(count: Tally, rng: Random) -> None:
    drawn = random_set(rng)
    (found, *_) = leaks(CircuitGraph(circuit(drawn.text)))
    true = leak(drawn)
    count.trials += 1
    count.over += true > LIMIT
    count.joined += found.is_joint
    count.missed += true > LIMIT * (1 + NEAR) and not found.is_over
    count.false_alarms += true < LIMIT * (1 - NEAR) and found.is_over
    if SOME < true < float("inf"):
        count.errors.append(abs(found.amperes - true) / true if not found.is_joint else 1.0)
