"""The order as a sheet, one line for parts that are the same."""

from collections.abc import Sequence

from netcheck.bench.buy import Group, Need, lines_of
from netcheck.core.circuit import Circuit
from netcheck.core.sheet import Column, Row, Sheet, Table

__all__ = ["buy_sheet"]

_COLUMNS = (
    Column("how many"), Column("value"), Column("at least"), Column("order"), Column("serves as well"),
    Column("for"), Column("why", wide=True), Column("spare", blank=True),
)  # fmt: skip
_UNITS = {Group.RESISTOR: "W"}
_SIZES = (
    "Sizes are those that shops usually have; the next larger is as good, but not a larger first filter capacitor "
    "after a rectifier tube."
)
_NOTES = ("Never less than the part that goes out is rated for. Surge volts are no rating.", _SIZES)


def buy_sheet(found: tuple[Need, ...], new: Circuit, files: tuple[str, ...], cautions: tuple[str, ...]) -> Sheet:
    """The sheet of an order."""
    tables = tuple(table for group in Group if (table := _table(group, found)).rows)
    closing = (f"{len(found)} parts, {sum(len(table.rows) for table in tables)} lines to order.",)
    return Sheet("buy", new.title or new.source.name, new.state.value, files, tables, cautions, _NOTES, closing)


def _table(group: Group, found: tuple[Need, ...]) -> Table:
    rows = tuple(_row(needs) for needs in lines_of(tuple(need for need in found if need.group is group)))
    return Table(group.value, _COLUMNS, rows, key=group.name.lower())


def _row(needs: Sequence[Need]) -> Row:
    first = needs[0]
    least = max((need.least for need in needs), key=_number)
    others = tuple(dict.fromkeys(other for need in needs for other in need.others))
    why = max(needs, key=lambda need: _number(need.least)).why
    names = ", ".join(need.part for need in needs)
    return Row((str(len(needs)), first.value, least, _order(first), ", ".join(others), names, why, ""))


def _number(text: str) -> float:
    number = text.partition(" ")[0]
    return float(number) if number.replace(".", "").isdigit() else 0.0


def _order(need: Need) -> str:
    if need.group is Group.LINE:
        return need.kind
    if need.size is not None:
        return f"{need.size:g} {_UNITS.get(need.group, 'V')}"
    if need.group in (Group.FUSE, Group.OTHER):
        return need.least or "as said"
    known = need.least != "not known"
    return "more than shops have: two in series" if known else "not known: as the old one or more"
