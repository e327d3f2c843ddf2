"""Verdicts on capacitors that rectifiers hold up against a load: right as long as these do not drop too much."""

from dataclasses import replace

from netcheck.electrical.judgement import STATED, Grade, Verdict
from netcheck.electrical.network import Element, Load, Network
from netcheck.electrical.order import Proof
from netcheck.electrical.peaks import cold_peaks
from netcheck.electrical.steady import Steady, steady

__all__ = ["held"]

AMPLE = 10.0  # times the forward drop: a cold peak that no ordinary load uses up


def held(network: Network, proof: Proof, verdict: Verdict) -> Verdict | None:
    """The verdict with the grade that figures give it, None where they do not bear it out.

    With stated load currents the running set is calculated, as stated and with the most that they may be. Without any,
    the cold peak has to be far above what the rectifiers drop.
    """
    if not any(isinstance(element, Load) for element in network.elements):
        return _cold(network, proof, verdict)
    if any(_volts(steady(each), proof) <= 0 for each in (network, _most_loaded(network))):
        return None
    return replace(verdict, grade=Grade.COMPUTED, state=STATED, reason=f"{verdict.reason} ({STATED})")


def _cold(network: Network, proof: Proof, verdict: Verdict) -> Verdict | None:
    peak = abs(cold_peaks(network)[verdict.capacitor])
    if peak < AMPLE * proof.margin:
        return None
    state = f"cold; hot as long as that drop stays below {peak:.0f} V"
    return replace(verdict, grade=Grade.COMPUTED, state=state, reason=f"{verdict.reason} ({state})")


def _volts(running: Steady, proof: Proof) -> float:
    return running.nodes[proof.higher] - running.nodes[proof.lower] if running.converged else 0.0


def _most_loaded(network: Network) -> Network:
    return replace(network, elements=tuple(map(_most_drawn, network.elements)))


def _most_drawn(element: Element) -> Element:
    if isinstance(element, Load):
        return replace(element, amperes=element.amperes * (1 + element.tolerance))
    return element
