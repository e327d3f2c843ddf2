"""Every verdict held against the figures in its own row, and against what it would be in other cases.

A proof and a computed figure that contradict each other are a fault of one of them: neither is told as certain.

The quick bound on cold volts is none for what a battery loads: where it contradicts, the cold set is followed through
time. A proof promises the running set; switching on is not in it, since every doubler reverses a capacitor for half a
cycle then.
"""

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.wording import significant
from netcheck.electrical.proof.judgement import BORNE_VOLTS, HARMLESS_VOLTS, Surety, Verdict, WayRound

__all__ = ["Seen", "agreed", "contradicts", "held_against"]


class Seen(Struct, frozen=True):
    """What was computed of a capacitor, volts from plus to minus.

    Running: on average and at the ends of its ripple. ``cold`` is what it settles to while nothing is drawn, None
    where nothing bounds it.
    """

    mean: float
    low: float
    high: float
    cold: float | None = None

    @property
    def turns(self) -> bool:
        """Whether the voltage turns round in every cycle."""
        return self.low < -BORNE_VOLTS and self.high > BORNE_VOLTS


def contradicts(verdict: Verdict, seen: Seen) -> bool:
    """Whether a verdict that claims to be certain says other than any of the figures.

    Less than a volt is no contradiction: rectifiers may drop as much, and it does no harm.
    """
    if not verdict.is_certain:
        return False
    means = [seen.mean, seen.cold] if verdict.holds_cold and seen.cold is not None else [seen.mean]
    match verdict.way:
        case WayRound.RIGHT:
            return min(means) < -HARMLESS_VOLTS or seen.low < -BORNE_VOLTS
        case WayRound.REVERSED:
            return max(means) > HARMLESS_VOLTS
        case WayRound.EITHER:
            return max(map(abs, means)) > HARMLESS_VOLTS or (seen.turns and verdict.partner is None)
        case WayRound.BOTH:
            return not seen.turns
        case _:
            return False


def held_against(verdict: Verdict, seen: Seen | None) -> Verdict:
    """The verdict, unproven where its own figures contradict it.

    One whose voltage turns round in every cycle is neither way round, unless it is backwards on average too; together
    with another, back to back, it bears that.
    """
    if seen is None or verdict.surety is Surety.CONTRADICTED:
        return verdict
    if seen.turns and verdict.partner and abs(seen.mean) < HARMLESS_VOLTS:
        return verdict if verdict.way is WayRound.EITHER else _nonpolar(verdict)
    if seen.turns and (seen.mean > -HARMLESS_VOLTS or verdict.way is WayRound.UNKNOWN):
        return _both(verdict, seen)
    if not contradicts(verdict, seen):
        return verdict
    cold = "" if seen.cold is None else f", {significant(seen.cold, 3)} V cold"
    reason = (
        f"{significant(seen.mean, 3)} V are calculated across it ({_ends(seen)}{cold}), against the "
        f"{verdict.surety.value} verdict ({verdict.reason}): rely on neither"
    )
    return replace(verdict, surety=Surety.UNPROVEN, way=WayRound.UNKNOWN, reason=reason, state="")


def _both(verdict: Verdict, seen: Seen) -> Verdict:
    reason = f"it is reversed for a part of every cycle: from {_ends(seen)}"
    return replace(verdict, surety=Surety.COMPUTED, way=WayRound.BOTH, reason=reason, state="running", settles=())


def _ends(seen: Seen) -> str:
    return f"{significant(seen.low, 3)} to {significant(seen.high, 3)} V"


def _nonpolar(verdict: Verdict) -> Verdict:
    pair = f"{verdict.capacitor} and {verdict.partner}"
    reason = f"{pair} are back to back, with less than a volt of DC across them: together they have no polarity"
    return replace(verdict, surety=Surety.COMPUTED, way=WayRound.EITHER, reason=reason, state="running")


def agreed(verdict: Verdict, others: Iterable[Verdict | None], switches: str = "", missing: str = "") -> Verdict:
    """The verdict as far as it holds in other cases too: with switches elsewhere, with missing values otherwise."""
    cases = list(others)
    if not verdict.is_certain:
        return verdict
    if all(other is None or (other.way is verdict.way and other.is_certain) for other in cases):
        weaker = any(other is not None and other.surety is Surety.COMPUTED for other in cases)
        return replace(verdict, surety=Surety.COMPUTED, state=verdict.state) if weaker else verdict
    stands = f"the position of {switches}: write how it is drawn, as in `drawn closed`"
    on_what = stands if switches else f"what is not stated: {missing}"
    return replace(
        verdict, surety=Surety.UNPROVEN, way=WayRound.UNKNOWN, reason=f"it depends on {on_what}", state="", volts=None
    )
