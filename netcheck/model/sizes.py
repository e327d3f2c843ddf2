"""Sizes that no part has: a rating of nothing, or of less. What is computed with one has no end, or means nothing."""

from collections.abc import Iterable, Iterator

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.quantity import Dimension, Quantity
from netcheck.language import tree
from netcheck.model.messages import stop

__all__ = ["of_no_line", "unfit"]

_LINE_HERTZ = 16, 800  # railways have 16 2/3, the first town lines 25 to 133, aircraft 400 to 800
# A resistor of 0 ohm is a wire, and a tolerance of 0 % a boast; what has no lugs, pins or wires its kind refuses, which
# knows how many there may be. Of the rest nothing is nothing.
_MAY_BE_NOTHING = frozenset(
    {Dimension.RESISTANCE, Dimension.TOLERANCE, Dimension.GAUGE, Dimension.LUGS, Dimension.PINS, Dimension.WIRES}
)


def unfit(values: Iterable[tree.Item], principal: Dimension | None = None) -> Iterator[Diagnostic]:
    """What is wrong with each value of a part, a winding or the mains by its size alone.

    A centre tap's nothing (``310-0-310 V``) is where the volts are counted from. ``principal`` is what the part is made
    for: capacitors of -10 % to +100 % were made, anything else would be without a least value.
    """
    for item in values:
        quantity = item.quantity if isinstance(item, tree.Value) else None
        if quantity is None:
            continue
        if quantity.amount < 0:
            do = "leave the minus out: which end is minus is said by where its leads are"
            yield stop("unreadable-value", item.place, f"`{quantity.written}` is less than nothing", do)
        elif len(quantity.amounts) == 1 and not quantity.amount and quantity.dimension not in _MAY_BE_NOTHING:
            do = "write what is printed on the part, or leave it out"
            yield stop("unreadable-value", item.place, f"`{quantity.written}` is nothing at all", do)
        elif _is_endless(quantity) and principal is not Dimension.CAPACITANCE:
            do = "write what is printed on the part, as `10%`, or leave it out"
            yield stop("unreadable-value", item.place, f"`{quantity.written}` is no tolerance: it could be nothing", do)


def of_no_line(values: Iterable[tree.Item]) -> Iterator[Diagnostic]:
    """What is wrong with a frequency of the mains by its size: periods of years are followed for ever."""
    low, high = _LINE_HERTZ
    for item in values:
        quantity = item.quantity if isinstance(item, tree.Value) else None
        if quantity is not None and quantity.dimension is Dimension.FREQUENCY and not low <= quantity.amount <= high:
            do = f"lines have {low} to {high} Hz: write what the set's plate says, as `mains 117 V 60 Hz`"
            yield stop("unreadable-value", item.place, f"`{quantity.written}` is the frequency of no line", do)


def _is_endless(quantity: Quantity) -> bool:
    return quantity.dimension is Dimension.TOLERANCE and quantity.amount >= 100
