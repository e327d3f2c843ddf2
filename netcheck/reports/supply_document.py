"""The supply as a document for programs."""

import math
from typing import TYPE_CHECKING

from msgspec import to_builtins

from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.renderer import Style

if TYPE_CHECKING:
    from netcheck.electrical.table.heaters import HeaterString
    from netcheck.electrical.table.rows import CapacitorRow, Emptying, FirstFilter, TouchRow
    from netcheck.electrical.table.supply import SupplyTable

__all__ = ["supply_document"]


def supply_document(report: Report, table: "SupplyTable", style: Style) -> str:
    """The table as one JSON document in volts, amperes, watts, seconds; null is never, unsaid or without bound."""
    import json  # only this format pays for it

    document = {
        "generator": "netcheck",
        "version": 1,
        "command": report.command,
        "title": visible(report.title),
        "files": [visible(name) for name in report.files],
        "converged": table.converged,
        "overshoots": table.overshoots,
        "lines": [to_builtins(row) for row in table.lines],
        "capacitors": [_capacitor(row) for row in table.capacitors],
        "charges": [{"name": visible(row.name), **_emptying(row.emptying)} for row in table.charges],
        "touched": [_touch(row) for row in table.touched],
        "missing": [visible(say) for say in table.missing],
        "shared": visible(table.shared),
        "switches": [visible(said) for said in table.stands],
        "rectifiers": [{**to_builtins(row), "over": row.over} for row in table.rectifiers],
        "first_capacitors": [_first_filter(row) for row in table.first_filters],
        "resistors": [{**to_builtins(row), "over": row.over} for row in table.resistors],
        "heaters": [_heaters(string) for string in table.heaters],
        "swap": None if table.swap is None else to_builtins(table.swap),
        "defaults": [visible(text) for text in table.defaults],
        "not_modelled": [visible(text) for text in table.left_out],
        "closing": [visible(line) for line in report.closing],
        "cautions": [visible(line) for line in report.cautions],
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


def _capacitor(row: "CapacitorRow") -> dict[str, object]:
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
        "ripple_amperes": row.amperes,
        "rated_ripple_amperes": row.rated_amperes,
        "over": row.over,
        "grade": said.surety.value,
        "way": said.way.value,
        "reason": visible(said.reason),
        "witness": None if said.witness is None else visible(said.witness),
    }


def _touch(row: "TouchRow") -> dict[str, object]:
    return {
        "metal": visible(row.metal),
        "joined": math.isinf(row.amperes),
        "line_amperes": row.amperes,
        "limit": row.limit,
        "direct_amperes": row.direct,
        "hot": visible(row.hot),
        "switched": visible(row.switched),
        "through": [visible(name) for name in row.through],
        "on_neutral": row.on_neutral,
    }


def _emptying(said: "Emptying") -> dict[str, object]:
    return {
        "discharged_from": said.volts,
        "seconds_to_60": said.seconds[0],
        "seconds_to_50": said.seconds[1],
        "one_open": {
            "part": said.opened,
            "seconds_to_60": said.opened_seconds[0],
            "seconds_to_50": said.opened_seconds[1],
        }
        if said.opened
        else None,
    }


def _first_filter(row: "FirstFilter") -> dict[str, object]:
    return {**to_builtins(row), "over": row.over}


def _heaters(string: "HeaterString") -> dict[str, object]:
    return {**to_builtins(string), "left": string.left, "is_wrong": string.is_wrong}
