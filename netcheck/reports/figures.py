"""Figures and columns of the supply table: volts, amperes, watts, times, and rows that fit the screen."""

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.wording import significant
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, shown
from netcheck.reports.wrapping import in_lines

if TYPE_CHECKING:
    from netcheck.electrical.divided import Divided

__all__ = [
    "UNKNOWN", "amperes_of", "columns", "in_amperes", "in_seconds", "in_volts", "in_watts", "rating", "ripple",
    "spans", "touch_current", "wrapped",
]  # fmt: skip

UNKNOWN = "?"  # a figure that depends on a value which the file does not state
_GAP = 2
_WHOLE = 100  # volts and seconds from which no tenths are told
_LEAST = 16  # columns that a wrapped line keeps, however narrow the screen
_FAINT = 0.05  # volts that round to nothing


def columns(heads: Sequence[str], rows: Sequence[tuple[str, ...]], style: Style) -> Iterator[str]:
    """A table with its figures to the right; without rows nothing, and below its width a list per row."""
    if not rows:
        return
    table = [tuple(shown(text, style) for text in row) for row in (tuple(heads), *rows)]
    widths = [max(cells(row[at]) for row in table) for at in range(len(heads))]
    if sum(widths) + _GAP * (len(widths) - 1) > style.width:
        for row in rows:
            said = [f"{head} {text}" for head, text in zip(heads[1:], row[1:], strict=True) if text]
            yield from wrapped(f"{row[0]}: {', '.join(said)}", "  ", style)
        return
    for row in table:
        padded = [f"{' ' * (width - cells(text))}{text}" for text, width in zip(row[1:], widths[1:], strict=True)]
        yield (" " * _GAP).join([row[0] + " " * (widths[0] - cells(row[0])), *padded])


def wrapped(text: str, other: str, style: Style) -> Iterator[str]:
    """Words in lines of the screen's width, the later ones after ``other``."""
    start = text[: len(text) - len(text.lstrip())]
    return in_lines(shown(text, style).split(), max(style.width, _LEAST), start, other)


def rating(amount: float | None, unit: str) -> str:
    """What a part is rated for; empty where unsaid."""
    if amount is None:
        return ""
    return f"{amount:.0f} {unit}" if amount >= _WHOLE else f"{significant(amount, 3)} {unit}"


def touch_current(amperes: float) -> str:
    """The current that a hand gets, two figures; what nothing holds back is the line itself."""
    if math.isnan(amperes):
        return UNKNOWN
    if math.isinf(amperes):
        return "the whole line"
    amount, unit = (amperes, "A") if amperes >= 1 else (amperes * 1000, "mA")
    rounded = float(f"{amount:.2g}")
    return f"{rounded:.0f} {unit}" if rounded >= 10 else f"{round(rounded, 2):g} {unit}"


def in_volts(volts: float) -> str:
    """Volts as a meter reads them."""
    if math.isnan(volts):
        return UNKNOWN
    return "no limit" if math.isinf(volts) else f"{_near_zero(volts):.{0 if abs(volts) >= _WHOLE else 1}f} V"


def spans(said: "Divided") -> tuple[str, str, str]:
    """Between what volts lie that leakage alone divides: running, cold, on a high line."""
    every = (said.running, said.cold, said.high)
    running, cold, high = (UNKNOWN if one is None else f"{one.low:.0f} to {one.high:.0f} V" for one in every)
    return running, cold, high


def _near_zero(volts: float) -> float:
    """The same, without the minus of what rounds to nothing."""
    return volts if abs(volts) >= _FAINT else 0.0


def ripple(volts: float) -> str:
    """Volts from peak to peak."""
    return UNKNOWN if math.isnan(volts) else f"{volts:.{0 if volts >= _WHOLE else 1}f} V"


def in_watts(watts: float) -> str:
    """Heat."""
    if math.isnan(watts):
        return UNKNOWN
    return f"{watts:.2f} W" if watts < _WHOLE / 10 else f"{watts:.1f} W"


def in_amperes(amperes: float) -> str:
    """A current in milliamperes below 1 A."""
    if math.isnan(amperes):
        return UNKNOWN
    return f"{significant(amperes, 3)} A" if abs(amperes) >= 1 else f"{round(amperes * 1000)} mA"


def amperes_of(amperes: float, rated: float | None) -> str:
    """What flows, of what may flow."""
    if rated is None:
        return in_amperes(amperes)
    seen, limit = in_amperes(amperes), in_amperes(rated)
    same = seen.split()[-1] == limit.split()[-1]
    return f"{seen.split()[0] if same else seen} of {limit}"


def in_seconds(seconds: float | None) -> str:
    """How long, in seconds, minutes or hours."""
    if seconds is None:
        return "never"
    if not seconds:
        return "at once"
    if seconds < _WHOLE:
        return f"{seconds:.1f} s"
    minutes = seconds / 60
    return f"{minutes:.0f} min" if minutes < 2 * 60 else f"{minutes / 60:.0f} h"
