"""Verdicts and figures of the classes against the tests' own oracle."""

from dataclasses import dataclass, field
from random import Random

from netcheck.electrical.network.elements import Source
from netcheck.electrical.proof.guard import Seen, contradicts, held_against
from netcheck.electrical.proof.tolerance import settled
from netcheck.electrical.proof.verdict import Surety, Verdict, Way, verdicts
from netcheck.electrical.running.steady import steady
from tests.soundness.classes import random_class
from tests.soundness.oracle import one_period

__all__ = ["Told", "told"]

NEAR = 1.0  # volts: less is neither way round, and does no harm
REVERSAL = 1.5


@dataclass
class Told:
    """``wrong`` verdicts are refuted by the oracle, ``against_row`` by the figure beside them before the guard."""

    supplies: int = 0
    converged: int = 0
    electrolytics: int = 0
    decided: int = 0
    wrong: int = 0
    against_row: int = 0
    untold_reversal: int = 0
    errors: list[float] = field(default_factory=list)

    def summary(self) -> dict[str, float]:
        ordered = sorted(self.errors) or [0.0]
        return {
            "class_supplies": self.supplies,
            "class_converged": round(self.converged / max(self.supplies, 1), 4),
            "class_decided": round(self.decided / max(self.electrolytics, 1), 4),
            "class_wrong": self.wrong,
            "against_row": self.against_row,
            "untold_reversal": self.untold_reversal,
            "figures_p90": round(ordered[int(0.9 * (len(ordered) - 1))], 6),
            "figures_p99": round(ordered[int(0.99 * (len(ordered) - 1))], 6),
        }


def told(supplies: int, seed: int) -> Told:
    count = Told()
    for trial in range(supplies):
        _count(count, Random(f"class {seed} {trial}"))  # noqa: S311 - repeatable, not secret
    return count


def _count(count: Told, rng: Random) -> None:
    _, network = random_class(rng)
    found = steady(network)
    count.supplies += 1
    count.converged += found.converged
    if not found.converged:
        return
    stored = sum(1 for _ in found.capacitors)
    truth = one_period(network, (*found.start[:stored], *found.start[stored : stored + len(found.inductors)]))
    scale = max(abs(one.peak) for one in network.elements if isinstance(one, Source))
    proofs = settled(network, {one.capacitor: one for one in verdicts(network)})
    for duty in found.capacitors:
        seen = Seen(duty.volts.mean, duty.volts.low, duty.volts.high)
        raw = proofs[duty.name]
        final = held_against(raw, seen)
        count.electrolytics += 1
        count.decided += final.surety in (Surety.PROVEN, Surety.COMPUTED)
        count.against_row += contradicts(raw, seen) and final.way is Way.UNKNOWN
        count.wrong += _is_wrong(final, truth.means[duty.name])
        count.untold_reversal += truth.lows[duty.name] < -REVERSAL < duty.volts.low - 0.1
        error = abs(duty.volts.mean - truth.means[duty.name]) + truth.drift
        count.errors.append(error / scale)


def _is_wrong(verdict: Verdict, volts: float) -> bool:
    if verdict.surety not in (Surety.PROVEN, Surety.COMPUTED):
        return False
    match verdict.way:
        case Way.RIGHT:
            return volts < -NEAR
        case Way.REVERSED:
            return volts > NEAR
        case _:
            return abs(volts) > NEAR
