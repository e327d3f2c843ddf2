"""Which value to order for one that a file has: what is made, what the trade fits, what serves as well."""

from collections.abc import Callable, Iterable
from decimal import Decimal

from netcheck.core.quantity import Dimension
from netcheck.parts.made import preferred

__all__ = ["Picks", "is_made", "ordered", "serving"]

Picks = Callable[[Dimension, Decimal], tuple[Decimal, ...]]
"""What shops fit for an old value, the usual one first."""

SAME = Decimal("0.005")
NEAR = (Decimal("0.8"), Decimal("1.25"))  # of what is fitted, within which another value serves (common practice)
# IEC 60063: resistors are made in E24, capacitors in E12 (what shops have; common practice).
_SERIES = {Dimension.RESISTANCE: "E24", Dimension.CAPACITANCE: "E12"}


def is_made(amount: Decimal, dimension: Dimension) -> bool:
    """Whether a value is one of its kind's series."""
    return abs(_nearest(amount, dimension) / amount - 1) <= SAME


def _nearest(amount: Decimal, dimension: Dimension) -> Decimal:
    return Decimal(f"{preferred(float(amount), _SERIES[dimension]):.3g}")


def ordered(fitted: Decimal, dimension: Dimension, picks: Picks, kept: Callable[[Decimal], bool]) -> Decimal:
    """The value to order for the one that is to be fitted: itself where it is made, else the trade's first pick.

    ``kept`` says which values keep what the place asks for; where none does the value stays as it is.
    """
    if is_made(fitted, dimension):
        return fitted
    return next(filter(kept, (*picks(dimension, fitted), _nearest(fitted, dimension))), fitted)


def serving(
    fitted: Decimal, originals: Iterable[Decimal], dimension: Dimension, picks: Picks, kept: Callable[[Decimal], bool]
) -> tuple[Decimal, ...]:
    """What serves in its place: fitted by the trade for the original, near to what is fitted, and kept."""
    low, high = NEAR
    found = [pick for amount in (*originals, fitted) for pick in picks(dimension, amount)]
    return tuple(one for one in dict.fromkeys(found) if low <= one / fitted <= high and one != fitted and kept(one))
