"""The supply as a table for the bench."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.article import with_article
from netcheck.core.report import Report
from netcheck.core.sheet import Column, Row, Table
from netcheck.core.wording import significant
from netcheck.reports import supply_words as words
from netcheck.reports.figures import (
    amperes_of,
    columns,
    in_amperes,
    in_seconds,
    in_volts,
    in_watts,
    rating,
    ripple,
    spans,
    touch_current,
    wrapped,
)
from netcheck.reports.renderer import Style

if TYPE_CHECKING:
    from netcheck.electrical.table.heaters import Dropper, HeaterString
    from netcheck.electrical.table.rows import (
        CapacitorRow,
        ChargeRow,
        FirstFilter,
        RectifierRow,
        ResistorRow,
        SupplyRail,
        TouchRow,
    )
    from netcheck.electrical.table.supply import SupplyTable
    from netcheck.electrical.table.swap import SiliconSwap

__all__ = ["supply_table", "supply_tables"]

_FAINT = 0.05  # watts below which a resistor is only named
_AT_ONCE = 0.05  # seconds
_SIZES = (1, 2, 3, 5, 7, 10, 15, 20, 25, 50, 100)  # watts that resistors are made for


def supply_table(report: Report, table: "SupplyTable", style: Style) -> str:
    """The table in plain text; on a narrow screen each row becomes a list of its figures."""
    blocks = [
        [*_head(report, table, style)],
        [*columns(_LINES, [_line(row) for row in table.lines], style)],
        [*columns(_CAPACITORS, [_capacitor(row) for row in table.capacitors], style)],
        [*wrapped(words.OVERSHOOT, "  ", style)] if table.overshoots else [],
        [*_verdicts(table, style)],
        [*_findings(report, style)],
        [*columns(_RECTIFIERS, [_rectifier(row) for row in table.rectifiers], style)],
        [line for row in table.first_filters for line in wrapped(_first_filter(row), "  ", style)],
        [*_resistors(table.resistors, style)],
        [line for string in table.heaters for line in _heaters(string, style)],
        [*_touched(table, style)],
        [*_emptying(table, style)],
        [] if table.swap is None else [*_swap(table.swap, style)],
    ]
    for title, lines in ((words.ASSUMED, table.defaults), (words.LEFT_OUT, table.left_out)):
        if lines:
            blocks.append([f"{title}:", *(line for text in lines for line in wrapped(f"  {text}", "    ", style))])
    blocks.append([line for text in report.last_words for line in wrapped(text, "  ", style)])
    return "\n".join("".join(f"{line.rstrip()}\n" for line in block) for block in blocks if block)


def supply_tables(table: "SupplyTable") -> tuple[Table, ...]:
    """The rows of the lines, capacitors, rectifiers and of the discharge, to stand on a page."""
    charged = [_emptied(row) for row in table.charges if row.emptying.seconds[1] != 0]
    never = any(time is None for row in table.charges for time in row.emptying.seconds)
    grids = (
        ("Supply lines", _LINES, [_line(row) for row in table.lines]),
        ("Electrolytics", _CAPACITORS, [_capacitor(row) for row in table.capacitors]),
        ("Rectifiers", _RECTIFIERS, [_rectifier(row) for row in table.rectifiers]),
        ("Line current into metal, calculated, plug either way", _TOUCHED, [_touch(row) for row in table.touched]),
        ("Discharge after switching off, calculated; measure before touching", _EMPTYING, charged),
    )
    return tuple(
        Table(
            heading,
            tuple(map(Column, heads)),
            tuple(map(Row, rows)),
            (words.NEVER,) if never and heads is _EMPTYING else (),
            boxes=False,
        )
        for heading, heads, rows in grids
        if rows
    )


_LINES = ("supply line", "running", "ripple", "cold", "high line", "chart")
_CAPACITORS = (
    "electrolytic", "rated", "running", "ripple", "current", "cold", "high line", "polarity",
)  # fmt: skip
_RECTIFIERS = ("rectifier", "mean", "RMS", "peak", "switch-on", "inverse", "high line", "rated")
_RESISTORS = ("resistor", "mean", "RMS", "heat", "rated")
_DROPPERS = ("dropper", "volts", "current", "heat", "rated")
_TOUCHED = ("touched", "line current", "limit", "hot side", "switches", "through")
_EMPTYING = ("discharge", "from", "below 60 V", "below 50 V", "worst open", "60 V", "50 V")


def _head(report: Report, table: "SupplyTable", style: Style) -> Iterator[str]:
    yield from wrapped(f"netcheck supply: {', '.join(report.files)}", "  ", style)
    yield from wrapped(report.title, "  ", style)
    if table.missing:
        yield from wrapped(f"{words.MISSING} {'; '.join(table.missing)}.", "  ", style)
    if table.shared:
        yield from wrapped(f"{table.shared}.", "  ", style)
    if not table.converged:
        yield from wrapped("The running figures did not settle: do not rely on any of them.", "  ", style)


def _line(row: "SupplyRail") -> tuple[str, ...]:
    chart = "" if row.chart is None else in_volts(row.chart)
    if row.divided is not None:
        running, cold, high = spans(row.divided)
        return row.name, running, ripple(row.ripple), cold, high, chart
    return row.name, in_volts(row.running), ripple(row.ripple), in_volts(row.cold), in_volts(row.cold_high), chart


def _capacitor(row: "CapacitorRow") -> tuple[str, ...]:
    figures = [in_volts(each) for each in (row.running, row.cold, row.cold_high)]
    running, cold, high = figures if row.divided is None else spans(row.divided)
    return (
        row.name,
        rating(row.rated, "V"),
        running,
        ripple(row.ripple),
        amperes_of(row.amperes, row.rated_amperes),
        cold,
        high,
        words.SHOUTED.get(row.verdict.way.value, row.verdict.surety.value),
    )


def _rectifier(row: "RectifierRow") -> tuple[str, ...]:
    return (
        row.name,
        amperes_of(row.mean, row.rated_mean),
        in_amperes(row.rms),
        amperes_of(row.peak, row.rated_peak),
        "" if row.surge is None else in_amperes(row.surge),
        in_volts(row.inverse),
        "" if row.inverse_high is None else in_volts(row.inverse_high),
        rating(row.rated_inverse, "V"),
    )


def _first_filter(row: "FirstFilter") -> str:
    memory = " (from memory)" if row.source.startswith("from memory") else ""
    terms = f"; {row.terms}" if row.terms else ""
    over = {"too large": " TOO MUCH:", "within tolerance": " within tolerance:", "": ""}[row.over]
    return (
        f"{row.tube} charges {significant(row.farads * 1e6, 3)} mfd directly ({', '.join(row.capacitors)});{over} "
        f"{with_article(row.type)} takes {significant(row.most * 1e6, 3)} mfd at most{memory}{terms}"
    )


def _verdicts(table: "SupplyTable", style: Style) -> Iterator[str]:
    """Those proven to be right in a line each, all others with their whole reason."""
    rows = table.capacitors
    proven = [row for row in rows if (row.verdict.surety.value, row.verdict.way.value) == ("proven", "right")]
    for row in rows:
        if row not in proven:
            yield from wrapped(_judged(row), "  ", style)
    if proven:
        yield from wrapped(words.PROVEN, "  ", style)
    diodes = {row.name for row in table.rectifiers}
    for row in proven:
        loads = "".join(f"; {name} taken for a load" for name in row.verdict.assumes if name in diodes)
        grids = [name for name in row.verdict.assumes if name not in diodes]
        one = "the grid of {} draws" if len(grids) == 1 else "the grids of {} draw"
        grid = f"; if {one.format(', '.join(grids))} no current" if grids else ""
        path = ", ".join(row.verdict.path) or "nothing between its leads"
        yield from wrapped(f"  {row.name} on {row.net}: {path}{loads}{grid}", "    ", style)


def _findings(report: Report, style: Style) -> Iterator[str]:
    """What `check` says of this supply."""
    for found in report.diagnostics:
        yield from wrapped(f"{found.grade.value}: {found.headline} [{found.rule}]", "  ", style)
        if found.do:
            yield from wrapped(f"    {found.do}", "    ", style)


def _judged(row: "CapacitorRow") -> str:
    said = row.verdict
    way = words.WAYS.get(said.way.value, "which way round is not settled")
    witness = f" ({said.witness})" if said.witness else ""
    return f"{row.name} on {row.net}: {said.surety.value}: {way}: {said.reason}{witness}"


def _resistors(rows: Sequence["ResistorRow"], style: Style) -> Iterator[str]:
    warm = [row for row in rows if not row.watts < _FAINT or row.over]  # what is not known is not called faint
    cells_of = [
        (row.name, in_amperes(row.amperes), in_amperes(row.rms), in_watts(row.watts), rating(row.rated, "W"))
        for row in warm
    ]
    yield from columns(_RESISTORS, cells_of, style)
    faint = [row.name for row in rows if row not in warm]
    if faint:
        yield from wrapped(f"under {_FAINT:g} W each: {', '.join(faint)}", "  ", style)


def _heaters(string: "HeaterString", style: Style) -> Iterator[str]:
    apart = string.of_other_current
    heaters = ", ".join(
        f"{row.tube} {row.rated_volts:g} V{f' {in_amperes(row.rated_amperes)}' if row in apart else ''}"
        for row in string.heaters
    )
    total = sum(row.rated_volts for row in string.heaters)
    text = f"heaters on {string.cord}: {heaters}"
    if string.left is not None:
        text += f"; {total:.1f} V together at {in_amperes(string.amperes)}, {_left(string.left, total)}"
    yield from wrapped(text, "  ", style)
    yield from columns(_DROPPERS, [_dropper(row) for row in string.droppers], style)
    worst = string.worst
    gets = f"{worst.tube} gets {worst.volts:.1f} V of {worst.rated_volts:g} V"
    said = "no other is farther off" if not string.is_wrong else f"over 10 % {'more' if worst.share > 1 else 'less'}"
    yield from wrapped(f"{'CHECK: ' if string.is_wrong else ''}{gets}; {said}.", "  ", style)


def _left(volts: float, total: float) -> str:
    """What the heaters leave of the line, or what they lack."""
    if volts >= 0:
        return f"and {volts:.1f} V to be dropped"
    return f"{-volts:.1f} V more than the line has: each gets about {(total + volts) / total * 100:.0f} % of its volts"


def _dropper(row: "Dropper") -> tuple[str, ...]:
    rated = rating(row.rated, "W")
    return row.name, in_volts(row.volts), in_amperes(row.amperes), in_watts(row.watts), rated


def _touched(table: "SupplyTable", style: Style) -> Iterator[str]:
    if table.touched:
        yield from wrapped(words.TOUCHED, "  ", style)
    yield from columns(_TOUCHED, [_touch(row) for row in table.touched], style)


def _touch(row: "TouchRow") -> tuple[str, ...]:
    through = ", ".join(row.through) or ("on the neutral" if row.on_neutral else "")
    return row.metal, touch_current(row.amperes), touch_current(row.limit), row.hot, row.switched, through


def _emptying(table: "SupplyTable", style: Style) -> Iterator[str]:
    charged = [row for row in table.charges if not _is_empty_at_once(row)]
    if charged:
        stands = f" (with {', '.join(table.stands)})" if table.stands else ""
        yield from wrapped(words.CALCULATED.format(stands=stands), "  ", style)
    yield from columns(_EMPTYING, [_emptied(row) for row in charged], style)
    times = {time for row in charged for time in (*row.emptying.seconds, *row.emptying.opened_seconds)}
    if any(row.emptying.opened for row in charged):
        yield from wrapped(words.OPEN, "  ", style)
    if None in times:
        yield from wrapped(words.NEVER, "  ", style)
    if charged:
        yield from wrapped(words.AGAIN, "  ", style)


def _is_empty_at_once(row: "ChargeRow") -> bool:
    """Whether a capacitor is harmless before a hand can be there, and no part that opens changes that."""
    said = row.emptying
    return not said.opened and said.seconds[1] is not None and said.seconds[1] < _AT_ONCE


def _emptied(row: "ChargeRow") -> tuple[str, ...]:
    said = row.emptying
    opened = [in_seconds(each) for each in said.opened_seconds] if said.opened else ["", ""]
    return row.name, in_volts(said.volts), *map(in_seconds, said.seconds), said.opened, *opened


def _swap(swap: "SiliconSwap", style: Style) -> Iterator[str]:
    parts = " and ".join(swap.parts)
    yield from wrapped(f"silicon in place of {parts}:", "  ", style)
    rows = [(c.name, in_volts(c.before), in_volts(c.after), f"{c.after - c.before:+.1f} V") for c in swap.changes]
    yield from columns(("electrolytic", "before", "silicon", "change"), rows, style)
    if swap.late:
        yield from wrapped(words.LATE.format(names=" and ".join(swap.late)), "  ", style)
    if swap.ohms is None or swap.watts is None:
        yield from wrapped(_no_resistor(swap), "  ", style)
        return
    text = f"{swap.ohms:.0f} ohm {swap.place} brings {swap.held} back to its running voltage, at {swap.watts:.1f} W."
    yield from wrapped(text, "  ", style)
    for one in {one.ohms: one for one in swap.preferred}.values():
        size = next((size for size in _SIZES if size >= 2 * one.watts), _SIZES[-1])
        series = " and ".join(each.series for each in swap.preferred if each.ohms == one.ohms)
        value = f"  stock value ({series}): {one.ohms:g} ohm ({in_volts(one.volts)}, {one.watts:.1f} W)"
        yield from wrapped(f"{value}; fit {size} W or more, wirewound or flameproof", "    ", style)
    yield from wrapped(words.STAYS.format(name=swap.held, volts=in_volts(swap.cold_high)), "  ", style)


def _no_resistor(swap: "SiliconSwap") -> str:
    if not swap.place:
        return "No single lead carries all of their current, so no single resistor brings the running voltage back."
    return "It raises no voltage, so no series resistor is needed."
