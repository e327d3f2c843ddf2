"""A pencil blank: each strip, socket and can with a line for every lug, to note a chassis before it is typed."""

from collections.abc import Sequence

from netcheck.core.circuit import Circuit
from netcheck.core.kind import Seat
from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.model.places import PlaceListing

__all__ = ["blank_sheet"]

_COLUMNS = (Column("lug"), Column("is"), Column("leads, wires and where they go", blank=True, wide=True))
_WRITE = (
    "Write at each lug every lead and every wire with its colour, and where the wire's other end goes. Nothing there: "
    "write `empty`, so that it is known to have been looked at."
)
_HOW = (_WRITE, "Before anything is unsoldered. Take a photograph too, with this sheet's lug numbers on tape in it.")
_EMPTY = (Row(("", "", "")),) * 4


def blank_sheet(
    listing: Sequence[PlaceListing], circuit: Circuit, files: tuple[str, ...], cautions: tuple[str, ...]
) -> Sheet:
    """A table for each place of the listing, its lugs in the order of the part; then the chassis, and what is loose."""
    tables = tuple(_table(place) for place in listing if _is_place(place))
    chassis = Table("chassis: what is soldered or bolted straight to it", _COLUMNS, _EMPTY, boxes=False)
    loose = Table("in the air: parts soldered lead to lead", _COLUMNS, _EMPTY, boxes=False)
    title = circuit.title or circuit.source.name
    return Sheet("lugs", title, "blank", files, (*tables, chassis, loose), cautions, _HOW)


def _is_place(place: PlaceListing) -> bool:
    return place.made is not None and not (place.seat is Seat.LEADS and len(place.spots) <= 2)


def _table(place: PlaceListing) -> Table:
    rows = tuple(Row((spot.label, spot.word, "")) for spot in place.spots)
    return Table(f"{place.name}: {place.about}", _COLUMNS, rows, boxes=False, key=place.name)
