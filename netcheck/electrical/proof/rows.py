"""What stands in the row of each capacitor, and the verdicts as far as it bears them out."""

from collections.abc import Mapping

from msgspec.structs import replace

from netcheck.electrical.network.elements import Network, Rectifier
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.guard import Seen, contradicts, held_against
from netcheck.electrical.proof.judgement import Verdict, WayRound
from netcheck.electrical.running.measure import CapacitorDuty
from netcheck.electrical.running.steady import Steady

__all__ = ["borne_out", "heated", "seen_by"]


def borne_out(network: Network, found: Mapping[str, Verdict], running: Steady, figures: Figures) -> dict[str, Verdict]:
    """The verdicts on a network's capacitors, each held against the figures beside it."""
    seen = seen_by(network, found, running, figures)
    held = {name: held_against(one, seen.get(name)) for name, one in found.items()}
    return {name: _measured(one, seen.get(name)) for name, one in held.items()}


def _measured(verdict: Verdict, seen: Seen | None) -> Verdict:
    """A reversed one with the volts of its row, where nothing else bounds them: how grave it is depends on them."""
    if seen is None or verdict.way is not WayRound.REVERSED or verdict.volts is not None:
        return verdict
    ends = (seen.low, seen.high) if seen.cold is None else (seen.low, seen.high, seen.cold)
    return replace(verdict, volts=(min(ends), max(ends)))


def seen_by(network: Network, found: Mapping[str, Verdict], running: Steady, figures: Figures) -> dict[str, Seen]:
    """The figures of each capacitor; where a bound on its cold volts contradicts its verdict, these are computed."""
    bounds = figures.at_rest(network).means()
    rows = {duty.name: _row(duty, bounds.get(duty.name)) for duty in running.capacitors}
    doubted = [name for name, one in found.items() if _is_doubted(one, rows[name])]
    if not doubted:
        return rows
    cold = figures.running(heated(network), warm=False)
    means = {duty.name: duty.volts.mean for duty in cold.capacitors} if cold.converged else {}
    return {**rows, **{name: replace(rows[name], cold=means.get(name)) for name in doubted}}


def heated(network: Network) -> Network:
    """The same with rectifiers that are warm before all other tubes."""
    elements = (replace(one, cold=True) if isinstance(one, Rectifier) else one for one in network.elements)
    return replace(network, elements=tuple(elements))


def _row(duty: CapacitorDuty, cold: float | None) -> Seen:
    return Seen(duty.volts.mean, duty.volts.low, duty.volts.high, cold)


def _is_doubted(verdict: Verdict, seen: Seen) -> bool:
    return contradicts(verdict, seen) and not contradicts(verdict, replace(seen, cold=None))
