"""Which electrolytics are backwards for a while after switching on, and right once the tubes draw current.

It is followed only where it can happen: a capacitor lies between two lines or rides on alternating current as the first
one of a doubler does, lines go both ways, alternating current reaches an electrolytic, or a choke swings one below
nothing. Rectifier tubes are taken to come up too slowly to
overshoot: behind them only what the set settles to before its tubes draw counts.
"""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from msgspec.structs import replace

from netcheck.electrical.network.elements import Capacitor, Inductor, Load, Network, Rectifier, VoltageSource
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.judgement import BORNE_VOLTS, Verdict, WayRound
from netcheck.electrical.proof.peaks import AtRest
from netcheck.electrical.proof.rows import heated
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.study import HIGH_LINE, cold, computed, judged, missing, probe_name, probed
from netcheck.electrical.unsettled import unsettled
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.running.coming_up import Reversal
    from netcheck.electrical.running.switch_on import SwitchOn

__all__ = ["backwards_at_first", "reversed_while_starting"]


def reversed_while_starting(graph: CircuitGraph) -> "tuple[Reversal, ...]":
    """The electrolytics that the running set has right, or leaves open, on a high line before the tubes draw."""
    return () if missing(graph) else graph.once(_while_starting)


def _while_starting(graph: CircuitGraph) -> "tuple[Reversal, ...]":
    network, unknown = translated(graph).network, unsettled(graph) | shared_out(graph).capacitors
    try:
        found = backwards_at_first(network, judged(graph), computed(graph), cold(graph).switched)
    except ValueError:  # no common period
        return ()
    return tuple(one for one in found if not (one.lasting and one.name in unknown))


def backwards_at_first(
    network: Network, verdicts: Mapping[str, Verdict], figures: Figures, seen: "SwitchOn | None" = None
) -> "tuple[Reversal, ...]":
    """Those of a network's electrolytics that no verdict has reversed already.

    ``seen`` are the first moments after switching on, where they are known: a supply whose lines all go one way and
    meet on the common alone does not turn round later what is right then.

    Raises:
        ValueError: the sources have different frequencies.
    """
    asked = {
        one.name
        for one in network.elements
        if isinstance(one, Capacitor) and one.polarised and _is_open(verdicts.get(one.name))
    }
    draws = any(isinstance(one, Load) for one in network.elements)
    return tuple(
        one
        for one in (*_at_once(network, figures, seen, asked), *_once_warm(network, figures, asked))
        if one.name in asked and (draws or not one.lasting)
    )


def _is_open(verdict: Verdict | None) -> bool:
    return verdict is None or (verdict.way not in (WayRound.REVERSED, WayRound.BOTH) and verdict.partner is None)


def _at_once(
    network: Network, figures: Figures, seen: "SwitchOn | None", asked: Iterable[str]
) -> "tuple[Reversal, ...]":
    """What rectifiers do that need no heat."""
    if not any(isinstance(one, Rectifier) and one.cold for one in network.elements):
        return ()
    resting = figures.at_rest(network)
    rides = (resting.riding(BORNE_VOLTS) | _on_one_side(network)) & set(asked)
    if not (
        rides
        or _meets_elsewhere(network)
        or _dips(network, seen, asked)
        or _swings(network, asked)
        or _goes_both_ways(network)
    ):
        return ()
    from netcheck.electrical.running.coming_up import coming_up

    found = coming_up(network, BORNE_VOLTS, HIGH_LINE)
    if not rides:
        return found
    later = coming_up(_half_a_cycle_later(network), BORNE_VOLTS, HIGH_LINE)
    return tuple(replace(one, rides=one.name in rides) for one in _worst(*found, *later))


def _half_a_cycle_later(network: Network) -> Network:
    """The same, switched on as the line goes the other way: it matters to what charges in every other half wave."""
    turned = (
        replace(one, plus=one.minus, minus=one.plus) if isinstance(one, VoltageSource) and one.hertz else one
        for one in network.elements
    )
    return replace(network, elements=tuple(turned))


def _worst(*found: "Reversal") -> "tuple[Reversal, ...]":
    """Of each capacitor the time that is the longest."""
    ordered = sorted(found, key=lambda one: (one.lasting, one.seconds))
    return tuple({one.name: one for one in ordered}.values())


def _meets_elsewhere(network: Network) -> bool:
    """Whether a capacitor lies between two lines: neither on the reference nor on a side of alternating current."""
    ends = {0} | {n for s in network.elements if isinstance(s, VoltageSource) and s.hertz for n in (s.plus, s.minus)}
    return any(isinstance(one, Capacitor) and ends.isdisjoint((one.plus, one.minus)) for one in network.elements)


def _on_one_side(network: Network) -> frozenset[str]:
    """The capacitors with one end on a side of alternating current, as both of a full-wave doubler have."""
    sources = [s for s in network.elements if isinstance(s, VoltageSource) and s.hertz]
    sides = {n for s in sources for n in (s.plus, s.minus)} - {0}
    return frozenset(
        one.name for one in network.elements if isinstance(one, Capacitor) and len({one.plus, one.minus} & sides) == 1
    )


def _goes_both_ways(network: Network) -> bool:
    """Whether lines on both sides of the reference come up."""
    means = AtRest(probed(network)).means()
    # Of the nodes alone: across a capacitor a line below the reference reads above it.
    volts = [means[name] for node in range(1, network.count) if (name := probe_name(node)) in means]
    return min(volts, default=0.0) < -BORNE_VOLTS and max(volts, default=0.0) > BORNE_VOLTS


def _swings(network: Network, asked: Iterable[str]) -> bool:
    """Whether alternating current reaches a capacitor: it begins with a push to one side that only dies away.

    The push is up to twice the swing that is left in the end.
    """
    resting = AtRest(network, HIGH_LINE)
    peaks, means = resting.peaks(), resting.means()
    return any(2 * (abs(peaks[name]) - abs(means.get(name, 0.0))) > BORNE_VOLTS for name in asked)


def _dips(network: Network, seen: "SwitchOn | None", asked: Iterable[str]) -> bool:
    """Whether a choke swings a capacitor below nothing; without a choke none does."""
    if not any(isinstance(one, Inductor) for one in network.elements):
        return False
    return seen is None or any(one.low < -BORNE_VOLTS for one in seen.capacitors if one.name in asked)


def _once_warm(network: Network, figures: Figures, asked: Iterable[str]) -> "tuple[Reversal, ...]":
    """What rectifier tubes do that are warm before all others; they come up too slowly for anything to overshoot."""
    if all(one.cold for one in network.elements if isinstance(one, Rectifier)):
        return ()
    bounds = figures.at_rest(network).means()
    if not any(bounds.get(name, 0.0) < -BORNE_VOLTS for name in asked):
        return ()
    run = figures.running(heated(network), warm=False)
    if not run.converged:
        return ()
    from netcheck.electrical.running.coming_up import Reversal

    return tuple(
        Reversal(one.name, -HIGH_LINE * one.volts.mean, 0.0, lasting=True)
        for one in run.capacitors
        if one.volts.mean < -BORNE_VOLTS
    )
