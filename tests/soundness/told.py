"""What is told of random supplies, verdicts and figures, against the tests' own oracle."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from random import Random

from netcheck.electrical.network.elements import Network, VoltageSource
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.guard import Seen, contradicts, held_against
from netcheck.electrical.proof.rows import seen_by
from netcheck.electrical.proof.tolerance import settled
from netcheck.electrical.proof.verdict import Verdict, WayRound, verdicts
from netcheck.electrical.starting import backwards_at_first
from tests.soundness.classes import random_class
from tests.soundness.oracle import Period, one_period, seconds_below
from tests.soundness.planted import planted
from tests.soundness.taken_over import wiring

__all__ = ["Told", "of_classes", "of_supplies"]

NEAR = 1.0  # volts: less is neither way round, and does no harm
REVERSAL, NEAR_ENOUGH = 1.5, 0.1
FIRST_CYCLES, HIGH_LINE = 10, 1.1  # after switching on
LASTS = 1.1  # cycles backwards then, all parts together, that have to be told

Draw = Callable[[Random], tuple[Network, frozenset[str]]]


@dataclass
class Told:
    """``wrong`` verdicts are refuted by the oracle.

    ``against_row`` are those that any figure beside them refutes: proofs that the guard had to take back, and verdicts
    that it let pass. ``untold_reversal`` are capacitors that the oracle sees reversed in every cycle, in silence;
    ``untold_at_first`` those that it sees reversed for more than a cycle after switching on, all parts together.
    ``reversed`` ones were turned round.
    """

    supplies: int = 0
    converged: int = 0
    electrolytics: int = 0
    decided: int = 0
    reversed: int = 0
    reversed_decided: int = 0
    reversed_found: int = 0
    wrong: int = 0
    against_row: int = 0
    untold_reversal: int = 0
    told_at_first: int = 0
    untold_at_first: int = 0
    errors: list[float] = field(default_factory=list)

    @property
    def share_decided(self) -> float:
        return round(self.decided / max(self.electrolytics, 1), 4)

    @property
    def share_converged(self) -> float:
        return round(self.converged / max(self.supplies, 1), 4)

    def figures(self) -> dict[str, float]:
        ordered = sorted(self.errors) or [0.0]
        return {f"figures_p{part}": round(ordered[int(part / 100 * (len(ordered) - 1))], 6) for part in (90, 99)}


def of_supplies(supplies: int, seed: int) -> Told:
    """Supplies of the common kinds, some of their electrolytics turned round."""
    return _told(supplies, f"supply {seed}", planted)


def of_classes(supplies: int, seed: int) -> Told:
    """Supplies of the classes that once were told wrongly."""
    return _told(supplies, f"class {seed}", lambda rng: (random_class(rng)[1], frozenset()))


def _told(supplies: int, seed: str, draw: Draw) -> Told:
    count = Told()
    for trial in range(supplies):
        _count(count, *draw(Random(f"{seed} {trial}")))  # noqa: S311 - repeatable, not secret
    return count


def _count(count: Told, network: Network, turned: frozenset[str]) -> None:
    figures = Figures()
    found = figures.running(network)
    count.supplies += 1
    count.converged += found.converged
    if not found.converged:
        return
    stored = len(found.capacitors)
    truth = one_period(wiring(network), (*found.start[:stored], *found.start[stored : stored + len(found.inductors)]))
    scale = max(abs(one.peak) for one in network.elements if isinstance(one, VoltageSource))
    proofs = settled(network, {one.capacitor: one for one in verdicts(network, (), figures)}, figures)
    rows = seen_by(network, proofs, found, figures)
    _count_starting(count, network, {name: held_against(one, rows.get(name)) for name, one in proofs.items()}, figures)
    for duty in found.capacitors:
        seen = rows[duty.name]
        _count_verdict(count, proofs[duty.name], seen, truth)
        count.errors.append((abs(duty.volts.mean - truth.means[duty.name]) + truth.drift) / scale)
        final = held_against(proofs[duty.name], seen)
        if duty.name in turned:
            count.reversed += 1
            count.reversed_decided += final.is_certain
            count.reversed_found += final.is_certain and final.way is not WayRound.RIGHT


def _count_starting(count: Told, network: Network, final: Mapping[str, Verdict], figures: Figures) -> None:
    told = {one.name for one in backwards_at_first(network, final, figures)}
    told |= {name for name, one in final.items() if one.way in (WayRound.BOTH, WayRound.REVERSED) or one.partner}
    lasts = LASTS / max(one.hertz for one in network.elements if isinstance(one, VoltageSource))
    below = seconds_below(wiring(network), -REVERSAL - NEAR_ENOUGH, FIRST_CYCLES, line=HIGH_LINE)
    seen = {name for name, seconds in below.items() if seconds > lasts}
    count.told_at_first += len(seen & told)
    count.untold_at_first += len(seen - told)


def _count_verdict(count: Told, raw: Verdict, seen: Seen, truth: Period) -> None:
    final, name = held_against(raw, seen), raw.capacitor
    count.electrolytics += 1
    count.decided += final.is_certain
    count.against_row += contradicts(final, seen) or (raw.is_certain and not final.is_certain)
    count.wrong += _is_wrong(final, truth.means[name])
    silent = final.way not in (WayRound.BOTH, WayRound.REVERSED) and final.partner is None
    turns = truth.highs[name] > REVERSAL or final.is_certain
    count.untold_reversal += silent and turns and truth.lows[name] < -REVERSAL - NEAR_ENOUGH


def _is_wrong(verdict: Verdict, volts: float) -> bool:
    if not verdict.is_certain or verdict.way is WayRound.BOTH:
        return False
    match verdict.way:
        case WayRound.RIGHT:
            return volts < -NEAR
        case WayRound.REVERSED:
            return volts > NEAR
        case _:
            return abs(volts) > NEAR
