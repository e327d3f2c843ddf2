"""What the trade takes for the same value: bands by kind and material, and old values with their modern picks."""

from collections.abc import Iterator, Mapping
from decimal import Context, Decimal
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Grade
from netcheck.core.kind import Family, PartKind
from netcheck.core.quantity import MICROFARAD, Dimension
from netcheck.parts.capacitor import ADJUSTABLE

__all__ = ["OldValue", "OutOfBand", "compared_dimensions", "old_values", "picks", "verdict", "winding_verdict"]


class OldValue(Struct, frozen=True):
    """A value from before the preferred numbers, what shops fit for it (the usual pick first), and who says so."""

    dimension: Dimension
    amount: Decimal
    picks: tuple[Decimal, ...]
    source: str


class OutOfBand(Struct, frozen=True):
    """A value outside its band: how grave, and whether it is the same figures in another decade."""

    grade: Grade
    decade: bool = False


# Capacitors in mfd and resistors in ohms: the value of the drawing | what is fitted, the usual pick first | source.
# Fixed composition resistors had preferred numbers from 1936 on, capacitors not before the late 1940s.
_CAPACITORS = """
0.0005 | 0.00047              | common practice
0.001  | 0.001                | the same in both systems
0.002  | 0.0022 0.0018        | common practice
0.0025 | 0.0022 0.0027        | common practice
0.003  | 0.0033 0.0027        | common practice
0.004  | 0.0039               | common practice
0.005  | 0.0047 0.0056        | common practice
0.006  | 0.0056 0.0068 0.0062 | common practice
0.008  | 0.0082               | common practice
0.01   | 0.01                 | the same in both systems
0.02   | 0.022 0.018          | common practice
0.025  | 0.022 0.027          | common practice
0.03   | 0.033                | common practice
0.04   | 0.039 0.047          | common practice
0.05   | 0.047 0.056          | .047/600 V for .05/400 V: radioworld.com, on the power of capacitors
0.06   | 0.068 0.056          | common practice
0.1    | 0.1                  | the same in both systems
0.15   | 0.15                 | the same in both systems
0.2    | 0.22 0.18            | .22 for .2: a repair thread on safety capacitors
0.25   | 0.22 0.27 0.24       | common practice
0.5    | 0.47                 | common practice
4      | 4.7 3.9              | common practice
5      | 4.7                  | common practice
8      | 10 8.2               | common practice (10 for 8)
10     | 10                   | the same in both systems
12     | 12 15 10             | common practice
16     | 22 15                | 22 for 16: published substitution tables; 15 common practice
20     | 22                   | common practice
25     | 22 27 33             | common practice
30     | 33                   | common practice
40     | 47 39                | common practice (47 for 40)
50     | 47                   | a catalogue's replacement for 50 mfd
60     | 68 56                | common practice
80     | 100 82               | common practice (100 for 80)
125    | 120 150              | common practice
"""
_RESISTORS = """
300     | 330 300         | computed from E12 and E24
7500    | 7500            | computed from E24
25000   | 27000 24000     | computed from E12 and E24
50000   | 47000 51000     | computed from E12 and E24
250000  | 270000 240000   | computed from E12 and E24
500000  | 470000 510000   | computed from E12 and E24
2000000 | 2200000 2000000 | computed from E12 and E24
5000000 | 4700000         | computed from E12
"""


@cache
def old_values() -> tuple[OldValue, ...]:
    """Every row of the tables."""
    return (
        *_rows(_CAPACITORS, Dimension.CAPACITANCE, MICROFARAD),
        *_rows(_RESISTORS, Dimension.RESISTANCE, Decimal(1)),
    )


def _rows(table: str, dimension: Dimension, unit: Decimal) -> Iterator[OldValue]:
    for line in table.strip().splitlines():
        old, fitted, source = (field.strip() for field in line.split("|"))
        yield OldValue(dimension, Decimal(old) * unit, tuple(Decimal(v) * unit for v in fitted.split()), source)


def picks(dimension: Dimension, amount: Decimal) -> tuple[Decimal, ...]:
    """What shops fit for an old value; empty where the table does not have it."""
    return next((row.picks for row in old_values() if row.dimension is dimension and row.amount == amount), ())


class _Band(Struct, frozen=True):
    """Ratios of new to old: silent inside ``same``, then NOTE, then LOOK, else STOP."""

    same: tuple[Decimal, Decimal]
    note: tuple[Decimal, Decimal] = (Decimal(1), Decimal(1))
    look: tuple[Decimal, Decimal] = (Decimal(1), Decimal(1))

    def grade(self, ratio: Decimal) -> Grade | None:
        for (low, high), grade in (
            (self.same, None),
            (self.note, Grade.NOTE),
            (self.look, Grade.LOOK),
        ):
            if low <= ratio <= high:
                return grade
        return Grade.STOP


def _band(same: str, note: str = "1 1", look: str = "1 1") -> _Band:
    ends = [tuple(map(Decimal, text.split())) for text in (same, note, look)]
    return _Band(*((low, high) for low, high in ends))


# Electrolytics: within 20 % (a published restoration page), more than -20 to +100 % never (a maker's rule of thumb),
# to +50 % what a service book of 1947 lets pass; the same book has 30 % for controls. The rest is common practice.
_ELECTROLYTIC = _band("0.8 1.2", "0.8 1.5", "0.8 2")
_FILM = _band("0.8 1.2")
_TUNED = _band("0.9 1.1", look="0.8 1.2")  # mica, trimmers and gangs set a frequency
_FIXED = _band("0.9 1.1", note="0.8 1.2")
_CONTROL = _band("0.7 1.3")
_WINDING = _band("0.7 1.3", look="0.5 2")

# Of iron, as its henries follow the current. One in air sets a frequency.
_CHOKE = ((Dimension.INDUCTANCE, _band("0.8 1.5", look="0.5 2")), (Dimension.RESISTANCE, _WINDING))
# Family of the old part to what is compared, the weightiest first.
_BANDS: Mapping[Family, tuple[tuple[Dimension, _Band], ...]] = {
    Family.RESISTOR: ((Dimension.RESISTANCE, _FIXED),),
    Family.CAPACITOR: ((Dimension.CAPACITANCE, _FILM),),
    Family.ELECTROLYTIC: ((Dimension.CAPACITANCE, _ELECTROLYTIC),),
    Family.CONTROL: ((Dimension.RESISTANCE, _CONTROL),),
    Family.INDUCTOR: ((Dimension.INDUCTANCE, _band("0.9 1.1", look="0.5 2")), (Dimension.RESISTANCE, _WINDING)),
    Family.SPEAKER: ((Dimension.RESISTANCE, _band("0.75 1.35", look="0.5 2")),),
    # Less is the safe side of a fuse, and of nothing else.
    Family.FUSE: ((Dimension.CURRENT, _band("1 1", look="0 1")),),
    Family.LAMP: (
        (Dimension.VOLTAGE, _band("0.9 1.15", look="0.5 2")),
        (Dimension.CURRENT, _band("0.9 1.1", look="0.5 2")),
    ),
    Family.BATTERY: ((Dimension.VOLTAGE, _band("0.9 1.1")),),
}
# Of one winding of a transformer. A maker's own tolerance is 5 %; a tube's heater is allowed 10 %, and B+ follows the
# volts of its winding. From memory.
_OF_A_WINDING: Mapping[Dimension, _Band] = {
    Dimension.VOLTAGE: _band("0.95 1.05", note="0.9 1.1", look="0.8 1.2"),
    Dimension.INDUCTANCE: _band("0.8 1.5", look="0.5 2"),
    Dimension.RESISTANCE: _WINDING,
}
_SET_A_FREQUENCY = frozenset({*ADJUSTABLE, "mica"})


def bands_of(kind: PartKind) -> tuple[tuple[Dimension, _Band], ...]:
    """What of a kind is held against the original's, the weightiest first."""
    return _CHOKE if kind.is_choke else _BANDS.get(kind.family, ())


def compared_dimensions(old: Part, new: Part) -> tuple[Dimension, ...]:
    """What of two parts in one role is held against each other, the weightiest first."""
    both = {q.dimension for q in old.features.quantities} & {q.dimension for q in new.features.quantities}
    return tuple(dimension for dimension, _ in bands_of(old.kind) if dimension in both)


def verdict(old: Part, dimension: Dimension, then: Decimal, now: Decimal) -> OutOfBand | None:
    """What the trade says of a new amount in the place of an old part's; None where it is the same value.

    A pick of the table is at most NOTE. The same figures in another decade are always STOP.
    """
    band = _band_of(old, dimension)
    if band is None:
        return None
    if not then:  # a link: any ohms at all are another part
        return OutOfBand(Grade.STOP) if now else None
    ratio = _ROUNDED.divide(now, then)
    grade = band.grade(ratio)
    if grade is None:
        return None
    if now in picks(dimension, then) and not set(ADJUSTABLE).intersection(old.features.words):
        return OutOfBand(Grade.NOTE)
    decade = _is_another_decade(ratio)
    return OutOfBand(Grade.STOP if decade else grade, decade)


def winding_verdict(dimension: Dimension, ratio: Decimal) -> OutOfBand | None:
    """What the trade says of a winding's volts, henries or ohms, new to old; None where it is the same value."""
    band = _OF_A_WINDING.get(dimension)
    grade = band.grade(ratio) if band is not None else None
    return None if grade is None else OutOfBand(grade, _is_another_decade(ratio))


_ROUNDED = Context(prec=9)  # a total of several parts is not exact in its last place


def _is_another_decade(ratio: Decimal) -> bool:
    figures = ratio.scaleb(-ratio.adjusted())  # from 1 to below 10
    power = ratio.adjusted() if figures < 5 else ratio.adjusted() + 1
    return power != 0 and abs(ratio.scaleb(-power) - 1) <= Decimal("0.2")


def _band_of(old: Part, dimension: Dimension) -> _Band | None:
    band = dict(bands_of(old.kind)).get(dimension)
    if _SET_A_FREQUENCY.intersection(old.features.words):
        band = _TUNED
    if band is _FIXED or band is _TUNED:
        said = old.features.first(Dimension.TOLERANCE)
        if said is not None:
            wide = min(said.amount, Decimal(50)) / 100
            low, high = band.same
            band = replace(band, same=(min(low, 1 - wide), max(high, 1 + wide)))
    return band
