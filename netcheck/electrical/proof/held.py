"""Verdicts that a proof alone does not bear, because rectifiers may drop what it leaves: figures decide there.

A proof that leans on a rectifier says that a capacitor is held up *less the forward drop*. In a supply that is loaded
too heavily no more than that may stand across it, either way round. A rectifier's threshold is such a drop too: where
nothing flows, nothing has to stand across it at all.
"""

from msgspec.structs import replace

from netcheck.electrical.network.elements import Element, Load, Network
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.judgement import HARMLESS_VOLTS, STATED, Surety, Verdict, WayRound
from netcheck.electrical.proof.order import Proof
from netcheck.electrical.running.steady import Steady

__all__ = ["held", "leaves_volts"]

AMPLE = 10.0  # times the forward drop: a cold peak that no ordinary load uses up


def held(network: Network, proof: Proof, verdict: Verdict, figures: Figures) -> Verdict | None:
    """The verdict with the surety that figures give it, None where they do not bear it out.

    With stated load currents the running set is calculated, as stated and with the most that they may be. Without any,
    the cold peak has to be far above what the rectifiers drop. A capacitor is backwards only if more than
    ``HARMLESS_VOLTS`` stand across it.
    """
    if _is_loaded(network):
        if _running(network, proof, figures) <= _least(verdict):
            return None
        state = STATED
    else:
        peak = _peak(network, verdict, figures)
        if peak < AMPLE * proof.margin or peak <= _least(verdict):
            return None
        state = f"cold; and hot, as long as that drop is below {peak:.0f} V"
    return replace(verdict, surety=Surety.COMPUTED, state=state, reason=f"{verdict.reason} ({state})")


def leaves_volts(network: Network, proof: Proof, verdict: Verdict, figures: Figures) -> bool:
    """Whether volts that matter are left by a proof with the thresholds of rectifiers in it, cold or running."""
    if _peak(network, verdict, figures) > _least(verdict):
        return True
    return _is_loaded(network) and _running(network, proof, figures) > _least(verdict)


def _least(verdict: Verdict) -> float:
    return HARMLESS_VOLTS if verdict.way is WayRound.REVERSED else 0.0


def _is_loaded(network: Network) -> bool:
    return any(isinstance(element, Load) for element in network.elements)


def _peak(network: Network, verdict: Verdict, figures: Figures) -> float:
    """The cold peak across the capacitor in the direction that the verdict says."""
    peak = figures.cold(network)[verdict.capacitor]
    return -peak if verdict.way is WayRound.REVERSED else peak


def _running(network: Network, proof: Proof, figures: Figures) -> float:
    """The least mean volts from the higher to the lower node of the proof."""
    return min(_volts(figures.running(each), proof) for each in (network, _most_loaded(network)))


def _volts(running: Steady, proof: Proof) -> float:
    return running.nodes[proof.higher] - running.nodes[proof.lower] if running.converged else 0.0


def _most_loaded(network: Network) -> Network:
    return replace(network, elements=tuple(map(_most_drawn, network.elements)))


def _most_drawn(element: Element) -> Element:
    if isinstance(element, Load):
        return replace(element, amperes=element.amperes * (1 + element.tolerance))
    return element
