"""Every verdict held against the figure in its own row, and against what it would be in other cases.

A proof and a computed figure that contradict each other are a fault of one of them: neither is told as certain.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from netcheck.electrical.proof.judgement import HARMLESS_VOLTS, Surety, Verdict, Way

__all__ = ["Seen", "agreed", "contradicts", "held_against"]

_CERTAIN = (Surety.PROVEN, Surety.COMPUTED)


@dataclass(frozen=True, slots=True)
class Seen:
    """What was computed of a capacitor, volts from plus to minus: running on average and at the ends of its ripple."""

    mean: float
    low: float
    high: float


def contradicts(verdict: Verdict, seen: Seen) -> bool:
    """Whether a verdict that claims to be certain says other than the figures.

    Less than a volt is no contradiction: rectifiers may drop as much, and it does no harm.
    """
    if verdict.surety not in _CERTAIN:
        return False
    match verdict.way:
        case Way.RIGHT:
            return seen.mean < -HARMLESS_VOLTS
        case Way.REVERSED:
            return seen.mean > HARMLESS_VOLTS
        case Way.EITHER:
            return abs(seen.mean) > HARMLESS_VOLTS
        case _:
            return False


def held_against(verdict: Verdict, seen: Seen | None) -> Verdict:
    """The verdict, unproven where its own figures contradict it.

    One that lies across alternating current with less than a volt of direct voltage is neither way round.
    """
    if seen is not None and verdict.way is Way.REVERSED and _alternates(seen):
        reason = "alternating current lies across it, and less than a volt of DC"
        return replace(verdict, surety=Surety.COMPUTED, way=Way.EITHER, reason=reason, state="running")
    if seen is None or not contradicts(verdict, seen):
        return verdict
    reason = (
        f"{seen.mean:.3g} V are computed across it, against the {verdict.surety.value} verdict ({verdict.reason}): "
        f"rely on neither"
    )
    return replace(verdict, surety=Surety.UNPROVEN, way=Way.UNKNOWN, reason=reason, state="")


def _alternates(seen: Seen) -> bool:
    return abs(seen.mean) < HARMLESS_VOLTS and seen.low < -HARMLESS_VOLTS and seen.high > HARMLESS_VOLTS


def agreed(verdict: Verdict, others: Iterable[Verdict | None], switches: str = "", missing: str = "") -> Verdict:
    """The verdict as far as it holds in other cases too: with switches elsewhere, with missing values otherwise."""
    cases = list(others)
    if verdict.surety not in _CERTAIN or not cases:
        return verdict
    if all(other is None or (other.way is verdict.way and other.surety in _CERTAIN) for other in cases):
        weaker = any(other is not None and other.surety is Surety.COMPUTED for other in cases)
        return replace(verdict, surety=Surety.COMPUTED, state=verdict.state) if weaker else verdict
    on_what = f"how {switches} stand: write `drawn`" if switches else f"what is not stated: {missing}"
    return replace(
        verdict, surety=Surety.UNPROVEN, way=Way.UNKNOWN, reason=f"it depends on {on_what}", state="", volts=None
    )
