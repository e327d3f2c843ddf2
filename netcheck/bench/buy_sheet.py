"""The order as a sheet: a line for parts that one order serves, a table for each group with the columns it needs."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.bench.buy import Need, OrderGroup
from netcheck.bench.rounded import volts_words
from netcheck.core.circuit import Circuit
from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.core.wording import significant

__all__ = ["buy_sheet", "lines_of"]

UNKNOWN = "not known"
# By how much the larger size may be above what one part needs for one order to serve both (common practice; 600 V
# for all film capacitors: a published restoration page).
TOGETHER = {OrderGroup.ELECTROLYTIC: 1.3, OrderGroup.CAPACITOR: 2.6, OrderGroup.RESISTOR: 2.0}
LITTLE_WATTS = 0.01
_LEAST_RIPPLE = 0.0005  # amperes: less than a milliampere
_NEVER = "Never less than the part that goes out is rated for. Surge volts are no rating."


class _Laid(Struct, frozen=True):
    """The columns of one group, between how many and for what, and what to know first."""

    columns: Mapping[str, Callable[[Sequence[Need]], str]]
    before: tuple[str, ...] = ()


def buy_sheet(found: tuple[Need, ...], new: Circuit, files: tuple[str, ...], cautions: tuple[str, ...]) -> Sheet:
    """The sheet of an order."""
    tables = tuple(table for group in OrderGroup if (table := _table(group, found)).rows)
    closing = (f"{len(found)} parts, {sum(len(table.rows) for table in tables)} lines to order.",)
    return Sheet("buy", new.title or new.source.name, new.state.value, files, tables, cautions, (_NEVER,), closing)


def lines_of(found: Sequence[Need]) -> Iterator[tuple[Need, ...]]:
    """Needs that one line of an order serves: the same value and kind, in sizes near enough for the larger."""
    groups: dict[tuple[object, ...], list[Need]] = {}
    for need in found:
        key = (
            need.group,
            need.value,
            need.kind,
            need.size is None,
            need.sizes,
            need.rated if need.size is None else "",
        )
        groups.setdefault(key, []).append(need)
    for group in groups.values():
        yield from _near(sorted(group, key=lambda need: -(need.size or 0.0)))


def _near(needs: Sequence[Need]) -> Iterator[tuple[Need, ...]]:
    """Runs of falling sizes of which the largest serves all."""
    run: list[Need] = []
    for need in needs:
        if run and (run[0].size or 0.0) > (need.size or 0.0) * TOGETHER.get(need.group, 1.0):
            yield tuple(run)
            run = []
        run.append(need)
    if run:
        yield tuple(run)


def _table(group: OrderGroup, found: tuple[Need, ...]) -> Table:
    laid = _LAID[group]
    rows = tuple(_row(needs, laid) for needs in lines_of([need for need in found if need.group is group]))
    noted = any(row.cells[-2] for row in rows)
    columns = [Column("how many"), *map(Column, laid.columns), Column("for"), Column("note", wide=True)]
    if not noted:
        columns[-2:] = [Column("for", wide=True)]
        rows = tuple(Row((*row.cells[:-2], row.cells[-1])) for row in rows)
    return Table(group.value, (*columns, Column("spare", blank=True)), rows, laid.before, key=group.name.lower())


def _row(needs: Sequence[Need], laid: _Laid) -> Row:
    names = ", ".join(_named(need) for need in sorted(needs, key=_counted))
    notes = "; ".join(dict.fromkeys(need.note for need in needs if need.note))
    return Row((str(len(needs)), *(words(needs) for words in laid.columns.values()), names, notes, ""))


def _counted(need: Need) -> tuple[str | int, ...]:
    """Names as they are counted, C9 before C57, as a hand goes through the list of the file."""
    return tuple(int(piece) if piece.isdecimal() else piece for piece in re.split(r"(\d+)", need.part))


def _named(need: Need) -> str:
    """The part; with the value that the file has where another is ordered."""
    return need.part if need.fitted in ("", need.value) else f"{need.part} ({need.fitted})"


def _value(needs: Sequence[Need]) -> str:
    return needs[0].value


def _kind(needs: Sequence[Need]) -> str:
    return needs[0].kind


def _computed(needs: Sequence[Need]) -> str:
    words = _most([need.computed for need in needs], volts_words)
    return f"{words} or more" if any(need.bound for need in needs) and not words.endswith("or more") else words


def _heat(needs: Sequence[Need]) -> str:
    return _most([need.computed for need in needs], _watts_words)


def _watts_words(watts: float) -> str:
    return "little" if watts < LITTLE_WATTS else f"{significant(watts, 2)} W"


def _was_volts(needs: Sequence[Need]) -> str:
    return _was(needs, "V")


def _was_watts(needs: Sequence[Need]) -> str:
    return _was(needs, "W")


def _was(needs: Sequence[Need], unit: str) -> str:
    said = [need.was for need in needs if need.was is not None]
    return f"{max(said):g} {unit}" if said else ""


def _most(figures: Sequence[float | None], words: Callable[[float], str]) -> str:
    """The largest figure; that one of several is not known is said beside it."""
    known = [one for one in figures if one is not None]
    if not known:
        return UNKNOWN
    return words(max(known)) + (" or more" if len(known) < len(figures) else "")


def _order_volts(needs: Sequence[Need]) -> str:
    return _order(needs, "V")


def _order_watts(needs: Sequence[Need]) -> str:
    return _order(needs, "W")


def _order(needs: Sequence[Need], unit: str) -> str:
    size, least = needs[0].size, needs[0].least
    if size is not None:
        return f"{size:g} {unit}"
    if least is not None:
        return "more than is made: two in series"
    return f"{needs[0].rated}, as in the file" if needs[0].rated else UNKNOWN


def _ripple(needs: Sequence[Need]) -> str:
    known = [need.amperes for need in needs if need.amperes is not None]
    if known and max(known) < _LEAST_RIPPLE:
        return "little"
    return _most([need.amperes for need in needs], lambda amperes: f"{1000 * amperes:.0f} mA")


def _mean(needs: Sequence[Need]) -> str:
    return _most([need.amperes for need in needs], lambda amperes: f"{1000 * amperes:.0f} mA")


def _order_amperes(needs: Sequence[Need]) -> str:
    """Twice the mean current, one ampere at least."""
    known = [need.amperes for need in needs if need.amperes is not None]
    return f"{significant(max(1.0, 2 * max(known)), 2)} A" if known else UNKNOWN


def _takes(needs: Sequence[Need]) -> str:
    return _most([need.amperes for need in needs], lambda amperes: f"{amperes:.2f} A")


def _fuse(needs: Sequence[Need]) -> str:
    sizes = needs[0].sizes
    if sizes is None:
        return f"{UNKNOWN}: as the maker of the set says"
    return f"{sizes[0]:g} A slow" if sizes[0] == sizes[1] else f"{sizes[0]:g} to {sizes[1]:g} A slow"


def _others(needs: Sequence[Need]) -> str:
    """What serves every one of them."""
    return ", ".join(one for one in needs[0].others if all(one in need.others for need in needs))


_LAID: Mapping[OrderGroup, _Laid] = {
    OrderGroup.ELECTROLYTIC: _Laid(
        {"value": _value, "computed": _computed, "was": _was_volts, "order": _order_volts, "ripple": _ripple,
         "serves as well": _others},
        ("Computed: the most that it sees, cold on a high line or in use. Ripple: the current that it has to carry.",),
    ),
    OrderGroup.LINE: _Laid({"value": _value, "class": _kind}),
    OrderGroup.CAPACITOR: _Laid(
        {"value": _value, "kind": _kind, "computed": _computed, "was": _was_volts, "order": _order_volts,
         "serves as well": _others},
        ("Computed: direct volts alone. Signal peaks come on top; the maker of the set chose for those too.",),
    ),
    OrderGroup.RESISTOR: _Laid(
        {"value": _value, "twice its heat": _heat, "was": _was_watts, "order": _order_watts, "serves as well": _others}
    ),
    OrderGroup.RECTIFIER: _Laid(
        {"value": _value, "backwards": _computed, "order": _order_volts, "mean": _mean, "amperes": _order_amperes},
        ("Backwards: the inverse volts with no load, on a high line; order at least a fifth more.",),
    ),
    OrderGroup.FUSE: _Laid(
        {"value": _value, "set takes": _takes, "order": _fuse},
        ("From 1.5 to 2 times what the set takes running. A larger fuse protects less.",),
    ),
    OrderGroup.OTHER: _Laid({"value": _value}),
}  # fmt: skip
