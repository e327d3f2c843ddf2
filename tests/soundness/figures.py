"""`python -m tests.soundness.figures`: volts, ripple, currents and discharge against the tests' own; JSON last.

Supplies with loads on both sides of the common. An error is a part of the figure, or of a volt, a tenth of a volt of
ripple, a milliampere or a tenth of a second where the figure is less.
"""

import argparse
import json
import math
import sys
from collections.abc import Iterator
from random import Random

from netcheck.electrical.network.elements import Network
from netcheck.electrical.running.discharge import discharge
from netcheck.electrical.running.steady import Steady, steady
from tests.soundness.classes import two_sided
from tests.soundness.oracle import HORIZON, Period, one_period, seconds_to
from tests.soundness.taken_over import wiring

__all__ = ["errors", "shares"]

FLOORS = {"volts": 1.0, "ripple": 0.1, "mean": 1e-3, "rms": 1e-3, "peak": 1e-3, "discharge": 0.1}
LIMIT = 60.0

Errors = dict[str, list[float]]


def errors(supplies: int, seed: int) -> tuple[Errors, int]:
    """By quantity every error, and how many supplies did not converge."""
    found: Errors = {name: [] for name in FLOORS}
    failed = 0
    for trial in range(supplies):
        network = two_sided(Random(f"two-sided {seed} {trial}"))  # noqa: S311 - repeatable, not secret
        seen = steady(network)
        failed += not seen.converged
        for name, told, true in _pairs(network, seen) if seen.converged else ():
            found[name].append(_error(told, true, FLOORS[name]))
    return found, failed


def shares(found: Errors) -> dict[str, float]:
    """The errors that 90 and 99 of a hundred figures stay below."""
    every = {name: sorted(each) for name, each in found.items()}
    return {
        f"{name}_p{part}": round(each[int(part / 100 * (len(each) - 1))], 6)
        for name, each in every.items()
        for part in (90, 99)
    }


def _pairs(network: Network, seen: Steady) -> Iterator[tuple[str, float, float]]:
    truth = one_period(wiring(network), seen.start, currents=True)
    for one in seen.capacitors:
        yield "volts", one.volts.mean, truth.means[one.name] + truth.drift
        yield "ripple", one.volts.swing, truth.highs[one.name] - truth.lows[one.name]
    yield from _currents(seen, truth)
    full = {one.name: one.volts.mean for one in seen.capacitors}
    told = {one.name: one.seconds[0] for one in discharge(network, full, (LIMIT,))}
    dead, gone = (seconds_to(wiring(network), full, LIMIT, unplugged=each) for each in (False, True))
    for name, seconds in told.items():
        yield "discharge", math.inf if seconds is None or seconds > HORIZON else seconds, max(dead[name], gone[name])


def _currents(seen: Steady, truth: Period) -> Iterator[tuple[str, float, float]]:
    for one in seen.rectifiers:
        mean, rms, peak = truth.currents[one.name]
        yield "mean", one.amperes.mean, mean
        yield "rms", one.amperes.rms, rms
        yield "peak", one.amperes.high, peak


def _error(told: float, true: float, floor: float) -> float:
    if math.isinf(told) or math.isinf(true):
        return 0.0 if told == true else 1.0
    return abs(told - true) / max(abs(true), floor)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.soundness.figures", description=__doc__)
    parser.add_argument("--supplies", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    found, failed = errors(asked.supplies, asked.seed)
    counts = ", ".join(f"{len(each)} of {name}" for name, each in found.items())
    sys.stdout.write(f"{asked.supplies} supplies, {failed} of them not converged; {counts}\n")
    sys.stdout.write(json.dumps(shares(found)) + "\n")


if __name__ == "__main__":
    main()
