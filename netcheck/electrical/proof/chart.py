"""Verdicts that follow from declared values, stated currents and the readings of a voltage chart."""

from collections.abc import Iterable, Sequence
from math import isinf

from msgspec.structs import replace

from netcheck.core.wording import significant
from netcheck.electrical.network.elements import Capacitor, Network
from netcheck.electrical.proof.bounds import Contradiction, Interval, StatedReading
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.judgement import STATED, Surety, Verdict, WayRound
from netcheck.electrical.proof.proof_words import node_name

__all__ = ["judged_by"]

NOTHING = 1e-6  # volts: what rounding makes of none


def judged_by(
    network: Network, readings: Sequence[StatedReading], figures: Figures, found: Iterable[Verdict]
) -> tuple[Verdict, ...]:
    """The verdicts with the running voltages as bounds, and those that nothing proved decided where these allow it.

    The figures' prover of this network has settled what it can.
    """
    proven = tuple(found)
    leads = {e.name: (e.plus, e.minus) for e in network.elements if isinstance(e, Capacitor)}
    known = figures.bounds(network, tuple(readings))
    contradiction = known.contradiction()
    if contradiction is not None:
        return tuple(_contradicted(network, verdict, contradiction) for verdict in proven)
    state = "this voltage chart" if readings else STATED
    return tuple(_within(verdict, known.interval(*leads[verdict.capacitor]), state) for verdict in proven)


def _within(verdict: Verdict, interval: Interval, state: str) -> Verdict:
    volts = (interval.low, interval.high)
    if verdict.surety is Surety.PROVEN:
        return replace(verdict, volts=volts)
    if max(abs(interval.low), abs(interval.high)) <= NOTHING:
        way, reason = WayRound.EITHER, "there is no DC voltage across it"
    elif interval.low >= 0:
        way, reason = WayRound.RIGHT, f"{_span(interval.low, interval.high)} across it"
    elif interval.high <= 0:
        way, reason = WayRound.REVERSED, f"{_span(-interval.high, -interval.low)} across it, reversed"
    else:
        return replace(verdict, volts=volts)
    return Verdict(verdict.capacitor, Surety.COMPUTED, way, f"{reason} ({state})", state, volts=volts)


def _span(least: float, most: float) -> str:
    if isinf(most):
        return f"at least {significant(least, 3)} V" if least > NOTHING else "some voltage"
    return f"{significant(least, 3)} to {significant(most, 3)} V"


def _contradicted(network: Network, verdict: Verdict, found: Contradiction) -> Verdict:
    if verdict.surety is Surety.PROVEN:
        return verdict
    doubtful = " or ".join(
        f"{reading.volts:g} V from {node_name(network, reading.minus)} to {node_name(network, reading.plus)}"
        for reading in found.readings
    )
    reason = f"the readings don't fit the circuit; {f'in doubt: {doubtful}' if doubtful else 'more than one is off'}"
    return replace(verdict, surety=Surety.CONTRADICTED, reason=reason, state="this voltage chart")
