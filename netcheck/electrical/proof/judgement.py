"""What can be said of a polarised capacitor, as data."""

from enum import Enum

from msgspec import Struct

__all__ = ["BORNE_VOLTS", "HARMLESS_VOLTS", "STATED", "Surety", "Verdict", "WayRound", "graded", "is_reversed"]

STATED = "running with the currents stated"
COLD = "cold"  # what a state says that speaks of cold tubes
HARMLESS_VOLTS = 1.0  # either way: no damage to an electrolytic is known from less (IEC 60384-4, from memory)
BORNE_VOLTS = 1.5  # backwards for a moment: polar aluminium parts bear as much (IEC 60384-4, from memory)


class Surety(Enum):
    """How surely a verdict is known; a contradicted one has readings against it that cannot all be true."""

    PROVEN = "proven"
    COMPUTED = "calculated"
    UNPROVEN = "unproven"
    CONTRADICTED = "contradicted"


class WayRound(Enum):
    """How a capacitor stands to the voltage across it; EITHER where none does or none can harm it.

    BOTH is right for a part of every cycle, and reversed for the rest.
    """

    RIGHT = "right"
    REVERSED = "reversed"
    EITHER = "either"
    BOTH = "both"
    UNKNOWN = "unknown"


class Verdict(Struct, frozen=True):
    """What can be said of one capacitor.

    ``state`` is what the verdict holds for. ``witness`` is what could reverse an unproven one; ``settles`` are at most
    two pairs of nodes, plus and minus of a meter, whose reading decides it. ``assumes`` are the tubes whose grids are
    taken to draw no current and the rectifiers taken for loads. ``volts`` are the computed bounds. ``partner`` is the
    other one of a pair back to back.
    """

    capacitor: str
    surety: Surety
    way: WayRound
    reason: str
    state: str = ""
    witness: str | None = None
    path: tuple[str, ...] = ()
    settles: tuple[tuple[int, int], ...] = ()
    assumes: tuple[str, ...] = ()
    volts: tuple[float, float] | None = None
    partner: str | None = None
    by_grid: bool = False

    @property
    def is_certain(self) -> bool:
        """Whether it is proven or calculated."""
        return self.surety in (Surety.PROVEN, Surety.COMPUTED)

    @property
    def holds_cold(self) -> bool:
        """Whether it speaks of cold tubes too."""
        return self.surety is Surety.PROVEN or COLD in self.state


def graded(verdict: Verdict) -> str:
    """The reason with its surety before it, and of computed ones the state they hold for."""
    if verdict.surety is not Surety.COMPUTED:
        return f"{verdict.surety.value}: {verdict.reason}"
    return f"{verdict.surety.value} ({verdict.state}): {verdict.reason.removesuffix(f' ({verdict.state})')}"


def is_reversed(verdict: Verdict | None) -> bool:
    """Whether a capacitor is known to lie backwards."""
    return verdict is not None and verdict.way is WayRound.REVERSED and verdict.is_certain
