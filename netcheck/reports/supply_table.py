"""The supply as a table for the bench."""

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.article import with_article
from netcheck.core.report import Report
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, shown

if TYPE_CHECKING:
    from netcheck.electrical.table.heaters import Dropper, HeaterString
    from netcheck.electrical.table.rows import CapacitorRow, FirstFilter, Line, RectifierRow, ResistorRow
    from netcheck.electrical.table.supply import SupplyTable
    from netcheck.electrical.table.swap import Swap

__all__ = ["supply_table"]

_GAP = 2
_WHOLE = 100  # volts and seconds from which no tenths are told
_LEAST = 16  # columns that a wrapped line keeps, however narrow the screen
_FAINT = 0.05  # watts below which a resistor is only named
_SIZES = (1, 2, 3, 5, 7, 10, 15, 20, 25, 50, 100)  # watts that resistors are made for
_WAYS = {"right": "right way round", "reversed": "REVERSED", "either": "either way round"}
_STAYS = (
    "That restores the running voltage only. Before the tubes draw current nothing drops across it: cold at high line "
    "{name} still sees {volts}, with the resistor as without."
)
_LATE = (
    "Silicon needs no warming up: from switching on until the other tubes draw current, {names} is no longer in the "
    "way and every filter capacitor stands at its cold volts."
)
_OPEN = "worst open: the one resistor that, burnt out, lets the volts stand longest, and how long they then do."
_PROVEN = "proven to be the right way round, whatever the resistors and tubes, hot or cold, because of:"
_OVERSHOOT = (
    "With a choke behind rectifiers that need no warming up the volts overshoot for a moment after switching on; the "
    "cold figures are those of that moment."
)
_NEVER = "never: nothing bleeds it, discharge it by hand through a resistor and measure."
_AGAIN = "Some of the volts come back by themselves: look again after a minute, and measure before touching."


def supply_table(report: Report, table: "SupplyTable", style: Style) -> str:
    """The table in plain text; on a narrow screen each row becomes a list of its figures."""
    blocks = [
        [*_head(report, table, style)],
        [*_columns(_LINES, [_line(row) for row in table.lines], style)],
        [*_columns(_CAPACITORS, [_capacitor(row) for row in table.capacitors], style)],
        [*_wrapped(_OVERSHOOT, "  ", style)] if table.overshoots else [],
        [*_verdicts(table, style)],
        [*_columns(_RECTIFIERS, [_rectifier(row) for row in table.rectifiers], style)],
        [line for row in table.first_filters for line in _wrapped(_first_filter(row), "  ", style)],
        [*_resistors(table.resistors, style)],
        [line for string in table.heaters for line in _heaters(string, style)],
        [*_emptying(table.capacitors, style)],
        [] if table.swap is None else [*_swap(table.swap, style)],
    ]
    for title, lines in (("taken by default", table.defaults), ("not modelled", table.left_out)):
        if lines:
            blocks.append([f"{title}:", *(line for text in lines for line in _wrapped(f"  {text}", "    ", style))])
    blocks.append([line for text in report.closing for line in _wrapped(text, "  ", style)])
    return "\n".join("".join(f"{line.rstrip()}\n" for line in block) for block in blocks if block)


_LINES = ("supply line", "running", "ripple", "cold", "high line", "chart")
_CAPACITORS = (
    "electrolytic", "rated", "running", "ripple", "current", "cold", "high line", "polarity", "over",
)  # fmt: skip
_RECTIFIERS = ("rectifier", "mean", "RMS", "peak", "switch-on", "inverse", "high line", "rated", "over")
_RESISTORS = ("resistor", "mean", "RMS", "heat", "rated", "over")
_DROPPERS = ("dropper", "volts", "current", "heat", "rated", "over")
_EMPTYING = ("discharge", "from", "below 60 V", "below 50 V", "worst open", "60 V", "50 V")


def _head(report: Report, table: "SupplyTable", style: Style) -> Iterator[str]:
    yield from _wrapped(f"netcheck supply: {', '.join(report.files)}", "  ", style)
    yield from _wrapped(report.title, "  ", style)
    if not table.converged:
        yield from _wrapped("The running figures did not settle: none of them may be trusted.", "  ", style)


def _line(row: "Line") -> tuple[str, ...]:
    chart = "" if row.chart is None else _volts(row.chart)
    return row.name, _volts(row.running), _ripple(row.ripple), _volts(row.cold), _volts(row.cold_high), chart


def _capacitor(row: "CapacitorRow") -> tuple[str, ...]:
    return (
        row.name,
        _rating(row.rated, "V"),
        _volts(row.running),
        _ripple(row.ripple),
        _of(row.amperes, row.rated_amperes),
        _volts(row.cold),
        _volts(row.cold_high),
        "REVERSED" if row.verdict.way.value == "reversed" else row.verdict.surety.value,
        row.over,
    )


def _rectifier(row: "RectifierRow") -> tuple[str, ...]:
    return (
        row.name,
        _of(row.mean, row.rated_mean),
        _amperes(row.rms),
        _of(row.peak, row.rated_peak),
        "" if row.surge is None else _amperes(row.surge),
        _volts(row.inverse),
        "" if row.inverse_high is None else _volts(row.inverse_high),
        _rating(row.rated_inverse, "V"),
        row.over,
    )


def _first_filter(row: "FirstFilter") -> str:
    over = {"too large": " TOO MUCH:", "within tolerance": " within tolerance:", "": ""}[row.over]
    return (
        f"{row.tube} charges {row.farads * 1e6:.3g} mfd directly ({', '.join(row.capacitors)});{over} "
        f"{with_article(row.type)} takes {row.most * 1e6:.3g} mfd at most: {row.source}"
    )


def _verdicts(table: "SupplyTable", style: Style) -> Iterator[str]:
    """Those proven to be right in a line each, all others with their whole reason."""
    rows = table.capacitors
    proven = [row for row in rows if (row.verdict.surety.value, row.verdict.way.value) == ("proven", "right")]
    for row in rows:
        if row not in proven:
            yield from _wrapped(_judged(row), "  ", style)
    if proven:
        yield from _wrapped(_PROVEN, "  ", style)
    diodes = {row.name for row in table.rectifiers}
    for row in proven:
        loads = "".join(f"; {name} taken for a load" for name in row.verdict.assumes if name in diodes)
        grids = [name for name in row.verdict.assumes if name not in diodes]
        grid = f"; if the grid of {', '.join(grids)} draws no current" if grids else ""
        path = ", ".join(row.verdict.path) or "nothing between its leads"
        yield from _wrapped(f"  {row.name} on {row.net}: {path}{loads}{grid}", "    ", style)


def _judged(row: "CapacitorRow") -> str:
    said = row.verdict
    way = _WAYS.get(said.way.value, "way round unknown")
    witness = f" ({said.witness})" if said.witness else ""
    return f"{row.name} on {row.net}: {said.surety.value}: {way}: {said.reason}{witness}"


def _resistors(rows: Sequence["ResistorRow"], style: Style) -> Iterator[str]:
    warm = [row for row in rows if row.watts >= _FAINT or row.over]
    cells_of = [
        (row.name, _amperes(row.amperes), _amperes(row.rms), _watts(row.watts), _rating(row.rated, "W"), row.over)
        for row in warm
    ]
    yield from _columns(_RESISTORS, cells_of, style)
    faint = [row.name for row in rows if row not in warm]
    if faint:
        yield from _wrapped(f"under {_FAINT:g} W each: {', '.join(faint)}", "  ", style)


def _heaters(string: "HeaterString", style: Style) -> Iterator[str]:
    heaters = ", ".join(f"{row.tube} {row.rated_volts:g} V" for row in string.heaters)
    total = sum(row.rated_volts for row in string.heaters)
    text = f"heaters on {string.cord}: {heaters}"
    if string.left is not None:
        text += f"; {total:.1f} V together at {_amperes(string.amperes)}, and {string.left:.1f} V left to be dropped"
    yield from _wrapped(text, "  ", style)
    yield from _columns(_DROPPERS, [_dropper(row) for row in string.droppers], style)
    worst = string.worst
    gets = f"{worst.tube} gets {worst.volts:.1f} V of {worst.rated_volts:g} V"
    said = "none is farther off" if not string.is_wrong else f"over 10 % {'more' if worst.share > 1 else 'less'}"
    yield from _wrapped(f"{'CHECK: ' if string.is_wrong else ''}{gets}; {said}.", "  ", style)


def _dropper(row: "Dropper") -> tuple[str, ...]:
    rated = _rating(row.rated, "W")
    return row.name, _volts(row.volts), _amperes(row.amperes), _watts(row.watts), rated, row.over


def _emptying(rows: Sequence["CapacitorRow"], style: Style) -> Iterator[str]:
    charged = [row for row in rows if row.emptying.seconds[1] != 0]
    yield from _columns(_EMPTYING, [_emptied(row) for row in charged], style)
    times = {time for row in charged for time in (*row.emptying.seconds, *row.emptying.opened_seconds)}
    if any(row.emptying.opened for row in charged):
        yield from _wrapped(_OPEN, "  ", style)
    if None in times:
        yield from _wrapped(_NEVER, "  ", style)
    if charged:
        yield from _wrapped(_AGAIN, "  ", style)


def _emptied(row: "CapacitorRow") -> tuple[str, ...]:
    said = row.emptying
    opened = [_time(each) for each in said.opened_seconds] if said.opened else ["", ""]
    return row.name, _volts(said.volts), *map(_time, said.seconds), said.opened, *opened


def _swap(swap: "Swap", style: Style) -> Iterator[str]:
    parts = " and ".join(swap.parts)
    yield from _wrapped(f"silicon in place of {parts}:", "  ", style)
    rows = [(c.name, _volts(c.before), _volts(c.after), f"{c.after - c.before:+.1f} V") for c in swap.changes]
    yield from _columns(("electrolytic", "before", "silicon", "change"), rows, style)
    if swap.late:
        yield from _wrapped(_LATE.format(names=" and ".join(swap.late)), "  ", style)
    if swap.ohms is None or swap.watts is None:
        yield from _wrapped(_no_resistor(swap), "  ", style)
        return
    text = f"{swap.ohms:.0f} ohm {swap.place} bring {swap.held} back, and shed {swap.watts:.1f} W."
    yield from _wrapped(text, "  ", style)
    for one in {one.ohms: one for one in swap.preferred}.values():
        size = next((size for size in _SIZES if size >= 2 * one.watts), _SIZES[-1])
        series = " and ".join(each.series for each in swap.preferred if each.ohms == one.ohms)
        value = f"  next of {series}: {one.ohms:g} ohm leaves {_volts(one.volts)} and sheds {one.watts:.1f} W"
        yield from _wrapped(f"{value}; fit one for {size} W or more", "    ", style)
    yield from _wrapped(_STAYS.format(name=swap.held, volts=_volts(swap.cold_high)), "  ", style)


def _no_resistor(swap: "Swap") -> str:
    if not swap.place:
        return "No single lead carries all of their current, so no one resistor brings the running voltage back."
    return "It raises nothing that a series resistor could bring back."


def _columns(heads: Sequence[str], rows: Sequence[tuple[str, ...]], style: Style) -> Iterator[str]:
    """A table with its figures to the right; without rows nothing, and below its width a list per row."""
    if not rows:
        return
    table = [tuple(shown(text, style) for text in row) for row in (tuple(heads), *rows)]
    widths = [max(cells(row[at]) for row in table) for at in range(len(heads))]
    if sum(widths) + _GAP * (len(widths) - 1) > style.width:
        for row in rows:
            said = [f"{head} {text}" for head, text in zip(heads[1:], row[1:], strict=True) if text]
            yield from _wrapped(f"{row[0]}: {', '.join(said)}", "  ", style)
        return
    for row in table:
        padded = [f"{' ' * (width - cells(text))}{text}" for text, width in zip(row[1:], widths[1:], strict=True)]
        yield (" " * _GAP).join([row[0] + " " * (widths[0] - cells(row[0])), *padded])


def _wrapped(text: str, other: str, style: Style) -> Iterator[str]:
    room = max(style.width, _LEAST)
    start = text[: len(text) - len(text.lstrip())]
    line = start
    for word in shown(text, style).split():
        if line.strip() and cells(line) + 1 + cells(word) > room:
            yield line
            line = other
        line = f"{line} {word}" if line.strip() else line + word
    yield line


def _rating(amount: float | None, unit: str) -> str:
    if amount is None:
        return ""
    return f"{amount:.0f} {unit}" if amount >= _WHOLE else f"{amount:.3g} {unit}"


def _volts(volts: float) -> str:
    return "no bound" if math.isinf(volts) else f"{_near_zero(volts):.{0 if abs(volts) >= _WHOLE else 1}f} V"


def _near_zero(volts: float) -> float:
    """The same, without the minus of what rounds to nothing."""
    return volts if abs(volts) >= _FAINT else 0.0


def _ripple(volts: float) -> str:
    return f"{volts:.{0 if volts >= _WHOLE else 1}f} V"


def _watts(watts: float) -> str:
    return f"{watts:.2f} W" if watts < _WHOLE / 10 else f"{watts:.1f} W"


def _amperes(amperes: float) -> str:
    return f"{amperes:.3g} A" if abs(amperes) >= 1 else f"{amperes * 1000:.0f} mA"


def _of(amperes: float, rated: float | None) -> str:
    """What flows, of what may flow."""
    if rated is None:
        return _amperes(amperes)
    seen, limit = _amperes(amperes), _amperes(rated)
    same = seen.split()[-1] == limit.split()[-1]
    return f"{seen.split()[0] if same else seen} of {limit}"


def _time(seconds: float | None) -> str:
    if seconds is None:
        return "never"
    if not seconds:
        return "at once"
    if seconds < _WHOLE:
        return f"{seconds:.1f} s"
    minutes = seconds / 60
    return f"{minutes:.0f} min" if minutes < 2 * 60 else f"{minutes / 60:.0f} h"
