"""A sheet for the bench as data: what it is about, tables to tick and write on, and what is said before and after."""

from msgspec import Struct

__all__ = ["Column", "Row", "Sheet", "Table"]


class Column(Struct, frozen=True):
    """One column of a table: its heading; ``blank`` columns are to write in, ``wide`` ones take the room left over."""

    name: str
    blank: bool = False
    wide: bool = False


class Row(Struct, frozen=True):
    """One line of a table, a cell for each column; ``lead`` stands above it where it is not empty."""

    cells: tuple[str, ...]
    lead: str = ""


class Table(Struct, frozen=True):
    """A heading, what to know first, and rows; ``boxes`` puts a box to tick before each.

    ``key`` names it in a file for a spreadsheet.
    """

    heading: str
    columns: tuple[Column, ...] = ()
    rows: tuple[Row, ...] = ()
    before: tuple[str, ...] = ()
    boxes: bool = True
    key: str = ""


class Sheet(Struct, frozen=True):
    """A whole sheet: ``command`` made it of ``files``; ``cautions`` stand on top, ``closing`` below.

    ``failed`` says that something on it is not as it should be.
    """

    command: str
    title: str
    state: str
    files: tuple[str, ...]
    tables: tuple[Table, ...]
    cautions: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    closing: tuple[str, ...] = ()
    failed: bool = False
