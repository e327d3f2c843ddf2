"""What a reading should be: a beep, none, or ohms between the limits that good parts allow."""

import math
from collections.abc import Callable, Mapping
from enum import Enum

import numpy as np
from msgspec import Struct

from netcheck.bench.branches import Makes, PartPath
from netcheck.bench.chassis import Chassis
from netcheck.bench.ohms import Matrix
from netcheck.bench.rounded import ohms_words, percent_words
from netcheck.electrical.running.resistance import resistances

__all__ = ["BEEPS", "LEADS", "MOST", "SHORTED", "TOLD_APART", "Expected", "Limits", "Want", "limits_of"]

MOST = 20e6  # ohms that a common meter still shows; what is above reads as open
METER = 0.02  # of a reading, twice what a common meter is good for
LEADS = 0.5  # ohms that the meter's leads may add
REVERSED_LEAK = 1e3  # ohms of an electrolytic the wrong way round
BEEPS = 100.0  # ohms below which a beeper may sound; they trip at 20 to 100 (common practice)
SHORTED = 0.4  # ohms of a shorted junction; more may be the volts of a good one, as a meter's diode range shows them
TOLD_APART = 2.0  # ohms that a meter's lowest range tells from a joint
KNOWN = 10.0  # between the limits, times: farther apart a figure says nothing


class Want(Enum):
    """What kind of reading is expected."""

    BEEP = "beep"
    SILENT = "no beep"
    OHMS = "ohms"
    CONDUCTS = "conducts"  # a junction in its forward direction: how much depends on the meter


_OTHERS: Mapping[Want, str] = {
    Want.BEEP: "beep",
    Want.SILENT: "no beep",
    Want.CONDUCTS: "conducts: lower than the other way round",
}


class Expected(Struct, frozen=True):
    """Ohms between ``low`` and ``high`` (infinite: up to open); ``nominal`` is None where no figure is known."""

    want: Want
    low: float = 0.0
    high: float = math.inf
    nominal: float | None = None

    @property
    def words(self) -> str:
        """What the sheet prints; an unknown is never a number."""
        if self.want is Want.CONDUCTS and self.low:
            return "conducts, no short: lower than the other way round"
        if self.want is not Want.OHMS:
            return _OTHERS[self.want]
        return self._ohms

    @property
    def _ohms(self) -> str:
        if self.low >= MOST:
            return "open"
        if self.high >= MOST:
            return f"above {ohms_words(self.low)}" if self.low >= LEADS else "not known: any reading"
        if self.nominal is None:
            known = self.low >= LEADS
            return f"{ohms_words(self.low)} to {ohms_words(self.high)}" if known else f"up to {ohms_words(self.high)}"
        if self.low < LEADS and self.high <= TOLD_APART:
            return f"below {ohms_words(self.high)} ohm"
        return f"{ohms_words(self.nominal)} {percent_words(self.low, self.nominal, self.high)}"


class Limits(Struct, frozen=True):
    """The least and most ohms between nets that good parts allow; ``wrong_way`` with every junction conducting."""

    at: dict[int, int]
    low: Matrix
    high: Matrix
    wrong_way: Matrix

    def ohms(self, one: int, other: int, nominal: float | None, *, wrong_way: bool) -> Expected:
        """What a meter may read between two nets, its own error and its leads reckoned with."""
        a, b = self.at[one], self.at[other]
        low = float((self.wrong_way if wrong_way else self.low)[a, b])
        high = float(self.high[a, b])
        known = high < MOST and high <= KNOWN * max(low, LEADS)
        return Expected(
            Want.OHMS,
            max(low * (1 - METER) - LEADS / 10, 0.0) if low < MOST else low,
            high * (1 + METER) + LEADS,
            nominal if known else None,
        )


def limits_of(chassis: Chassis) -> Limits:
    """The limits between all nets. Resistance never falls where a branch has more, so two solutions enclose all."""
    at = {net: number for number, net in enumerate(dict.fromkeys(chassis.nets))}
    ways = [(at[chassis.nets[a]], at[chassis.nets[b]], branch) for a, b, branch in chassis.branches]
    low, high, wrong = (_solved(len(at), ways, value) for value in (_least, _most, _wrong_way))
    return Limits(at, low, np.maximum(high, low), np.minimum(wrong, low))


def _solved(count: int, ways: list[tuple[int, int, PartPath]], value: Callable[[PartPath], float]) -> Matrix:
    return resistances(count, [(a, b, ohms) for a, b, branch in ways if (ohms := value(branch)) < MOST])


def _least(branch: PartPath) -> float:
    return branch.low


def _most(branch: PartPath) -> float:
    return branch.high


def _wrong_way(branch: PartPath) -> float:
    if branch.makes is Makes.JUNCTION:
        return 0.0
    return REVERSED_LEAK if branch.polarised else branch.low
