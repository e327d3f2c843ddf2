"""Voltages that were read at power-up, beside what the sheet expects."""

from collections.abc import Sequence

from msgspec import Struct

from netcheck.bench.power_sheet import full_words, half_words
from netcheck.bench.power_up import LITTLE, PowerUp, Volts
from netcheck.bench.readings import Reading

__all__ = ["VoltsRead", "WrongVolts", "wrong_volts"]

HALF_MORE = 1.1  # of the ends at half line: the variac's own scale


class VoltsRead(Struct, frozen=True):
    """A reading at a point, to the common, at half line or at full line."""

    point: str
    reading: Reading
    at_half: bool


class WrongVolts(Struct, frozen=True):
    """A reading that is not as expected; ``expected`` is empty where nothing is known of that point."""

    read: VoltsRead
    name: str
    expected: str


def wrong_volts(found: PowerUp, read: Sequence[VoltsRead]) -> tuple[WrongVolts, ...]:
    """The readings outside what is expected, and those of points whose volts are not known."""
    known = {one.point: one for one in (*found.lines, *found.electrodes)}
    wrong = []
    for each in read:
        one = known.get(each.point)
        limits = None if one is None else _half(one) if each.at_half else _full(one)
        if one is None or limits is None:
            wrong.append(WrongVolts(each, each.point, ""))
        elif each.reading.high < limits[0] or each.reading.low > limits[1]:
            wrong.append(WrongVolts(each, one.name, half_words(one) if each.at_half else full_words(one)))
    return tuple(wrong)


def _half(one: Volts) -> tuple[float, float] | None:
    if one.half is None:
        return None
    low, high = sorted(one.half)
    return min(low * HALF_MORE, low / HALF_MORE), max(high * HALF_MORE, high / HALF_MORE)


def _full(one: Volts) -> tuple[float, float] | None:
    said, within = one.said, one.within
    if said is None:
        return None if one.below is None else (-LITTLE, one.below)
    if abs(said) < LITTLE:
        return -one.little, one.little
    low, high = sorted((said * (1 - within), said * (1 + within)))
    return low, high
