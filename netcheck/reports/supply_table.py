"""The supply as a table for the bench and as a document for programs."""

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, shown

if TYPE_CHECKING:
    from netcheck.electrical.supply import CapacitorRow, RectifierRow, ResistorRow, SupplyTable
    from netcheck.electrical.swap import Swap

__all__ = ["supply_document", "supply_table"]

_GAP = 2
_WHOLE = 100  # volts from which no tenths are told
_MINUTES = 100  # seconds from which minutes read better
_LEAST = 16  # columns that a wrapped line keeps, however narrow the screen
_WAYS = {"right": "right way round", "reversed": "reversed", "either": "either way round"}
_STAYS = "It restores the running voltage only: cold, {name} still sees {volts} at high line."


def supply_table(report: Report, table: "SupplyTable", style: Style) -> str:
    """The table in plain text; on a narrow screen each row becomes a list of its figures."""
    blocks = [[*_head(report, table, style)]]
    blocks.append([*_columns(_CAPACITORS, [_capacitor(row) for row in table.capacitors], style)])
    blocks.append([line for row in table.capacitors for line in _wrapped(_judged(row), "  ", style)])
    blocks.append([*_columns(_RECTIFIERS, [_rectifier(row) for row in table.rectifiers], style)])
    blocks.append([*_columns(_RESISTORS, [_resistor(row) for row in table.resistors], style)])
    if table.swap is not None:
        blocks.append([*_swap(table.swap, style)])
    for title, lines in (("taken by default", table.defaults), ("not modelled", table.left_out)):
        if lines:
            blocks.append([f"{title}:", *(line for text in lines for line in _wrapped(f"  {text}", "    ", style))])
    blocks.append([line for text in report.closing for line in _wrapped(text, "  ", style)])
    return "\n".join("".join(f"{line.rstrip()}\n" for line in block) for block in blocks if block)


_CAPACITORS = ("capacitor", "rated", "running", "ripple", "cold", "high line", "below 60 V", "over")
_RECTIFIERS = ("rectifier", "mean", "peak", "inverse", "high line", "rated", "over")
_RESISTORS = ("resistor", "current", "heat", "rated", "over")


def _head(report: Report, table: "SupplyTable", style: Style) -> Iterator[str]:
    yield from _wrapped(f"netcheck supply: {', '.join(report.files)}", "  ", style)
    yield from _wrapped(report.title, "  ", style)
    if not table.converged:
        yield from _wrapped("The running figures did not settle: none of them may be trusted.", "  ", style)


def _capacitor(row: "CapacitorRow") -> tuple[str, ...]:
    return (
        row.name,
        _rating(row.rated, "V"),
        *map(_volts, (row.running, row.ripple, row.cold, row.cold_high)),
        _time(row.seconds),
        row.over,
    )


def _rectifier(row: "RectifierRow") -> tuple[str, ...]:
    high = "" if row.inverse_high is None else _volts(row.inverse_high)
    rated = _rating(row.rated_inverse, "V")
    return row.name, _milli(row.mean), _milli(row.peak), _volts(row.inverse), high, rated, row.over


def _resistor(row: "ResistorRow") -> tuple[str, ...]:
    over = "yes" if row.rated is not None and row.watts > row.rated else ""
    return row.name, _milli(row.amperes), f"{row.watts:.2f} W", _rating(row.rated, "W"), over


def _judged(row: "CapacitorRow") -> str:
    said = row.verdict
    way = _WAYS.get(said.way.value, "way round unknown")
    witness = f" ({said.witness})" if said.witness else ""
    return f"{row.name} on {row.net}: {said.grade.value}: {way}: {said.reason}{witness}"


def _swap(swap: "Swap", style: Style) -> Iterator[str]:
    yield from _wrapped(f"silicon in place of {swap.part}:", "  ", style)
    rows = [(c.name, _volts(c.before), _volts(c.after), f"{c.after - c.before:+.1f} V") for c in swap.changes]
    yield from _columns(("capacitor", "before", "silicon", "change"), rows, style)
    if swap.ohms is None or swap.watts is None:
        yield from _wrapped("No single series resistor was found that brings the running voltage back.", "  ", style)
        return
    text = f"{swap.ohms:.0f} ohm in series bring {swap.held} back; the resistor has to shed {swap.watts:.1f} W. "
    yield from _wrapped(text + _STAYS.format(name=swap.held, volts=_volts(swap.cold_high)), "  ", style)


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
    return "" if amount is None else f"{amount:.4g} {unit}"


def _volts(volts: float) -> str:
    return "no bound" if math.isinf(volts) else f"{volts + 0.0:.{0 if abs(volts) >= 100 else 1}f} V"


def _milli(amperes: float) -> str:
    return f"{amperes * 1000:.0f} mA"


def _time(seconds: float | None) -> str:
    if seconds is None:
        return "never"
    if not seconds:
        return "at once"
    if seconds < 100:
        return f"{seconds:.1f} s"
    return f"{seconds / 60:.0f} min"


def supply_document(report: Report, table: "SupplyTable", style: Style) -> str:
    """The table as one JSON document in volts, amperes, watts, seconds; null is never, unsaid or without bound."""
    import dataclasses
    import json  # only this format pays for it

    document = {
        "generator": "netcheck",
        "version": 1,
        "command": report.command,
        "title": visible(report.title),
        "files": [visible(name) for name in report.files],
        "converged": table.converged,
        "capacitors": [_capacitor_object(row) for row in table.capacitors],
        "rectifiers": [dataclasses.asdict(row) for row in table.rectifiers],
        "resistors": [dataclasses.asdict(row) for row in table.resistors],
        "swap": None if table.swap is None else dataclasses.asdict(table.swap),
        "defaults": [visible(text) for text in table.defaults],
        "not_modelled": [visible(text) for text in table.left_out],
        "closing": [visible(line) for line in report.closing],
    }
    return json.dumps(_finite(document), indent=2, ensure_ascii=not style.unicode, allow_nan=False) + "\n"


def _finite(value: object) -> object:
    """The same with null for what has no bound, which JSON has no number for."""
    match value:
        case dict():
            return {key: _finite(each) for key, each in value.items()}
        case list() | tuple():
            return [_finite(each) for each in value]
        case float():
            return value if math.isfinite(value) else None
        case _:
            return value


def _capacitor_object(row: "CapacitorRow") -> dict[str, object]:
    said = row.verdict
    return {
        "name": visible(row.name),
        "net": visible(row.net),
        "rated": row.rated,
        "running": row.running,
        "ripple": row.ripple,
        "peak": row.peak,
        "cold": row.cold,
        "cold_high": row.cold_high,
        "over": row.over,
        "seconds_to_60": row.seconds,
        "grade": said.grade.value,
        "way": said.way.value,
        "reason": visible(said.reason),
        "witness": None if said.witness is None else visible(said.witness),
    }
