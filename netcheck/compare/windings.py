"""The windings of two parts held against each other: volts, henries and ohms as values, amperes as a rating."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.quantity import Dimension, Quantity

__all__ = ["WindingValue", "of_windings"]


class WindingValue(Struct, frozen=True):
    """One value of one winding in both states; ``then`` and ``now`` are as written, ``ratio`` is new to old.

    ``alike`` windings have as many leads: one with a middle and one without are for two kinds of rectifier.
    """

    winding: str
    dimension: Dimension
    then: Quantity
    now: Quantity
    alike: bool = True

    @property
    def ratio(self) -> Decimal:
        """New to old, of the stretch that is farthest from the same."""
        old, new = _stretches(self.then), _stretches(self.now)
        if len(old) != len(new) or not all(old):
            old, new = (sum(old, Decimal()),), (sum(new, Decimal()),)
        ratios = [after / before for before, after in zip(old, new, strict=True) if before]
        return max(ratios, key=lambda ratio: abs(ratio - 1), default=Decimal(1))


def of_windings(old: Part, new: Part) -> Iterator[WindingValue]:
    """Every value that both state of a winding: one of the same name, else one of the same leads."""
    after = dict(new.features.windings)
    by_leads = {leads: name for name, leads in after.items()}
    for name, leads in old.features.windings:
        other = name if name in after else by_leads.get(leads, "")
        values = new.features.winding_values.get(other, ())
        for then in old.features.winding_values.get(name, ()):
            now = next((q for q in values if q.dimension is then.dimension), None)
            if now is not None:
                yield WindingValue(name, then.dimension, then, now, alike=len(leads) == len(after[other]))


def _stretches(said: Quantity) -> tuple[Decimal, ...]:
    """``290-0-290`` is 290 and 290, ``0-110-125`` is 110 and 15, one number is itself."""
    amounts = said.amounts
    if len(amounts) == 1:
        return amounts
    zero = amounts.index(Decimal()) if Decimal() in amounts else 0
    signed = [-amount if at < zero else amount for at, amount in enumerate(amounts)]
    return tuple(b - a for a, b in pairwise(signed))
