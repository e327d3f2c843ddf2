"""What the next restorer wants to know of a set: what was done and why, what was found, what it measures."""

from msgspec import Struct

from netcheck.core.report import Report
from netcheck.core.sheet import Sheet, Table

__all__ = ["Reason", "Record"]


class Reason(Struct, frozen=True):
    """Something that differs on purpose, why, and where the file says so."""

    what: str
    why: str
    where: str


class Record(Struct, frozen=True):
    """Everything for the page. ``supply`` is empty where the list has none; ``readings`` are those filled in."""

    report: Report
    state: str
    reasons: tuple[Reason, ...]
    job: Sheet
    bench: Sheet
    supply: tuple[Table, ...] = ()
    supply_notes: tuple[str, ...] = ()
    readings: Sheet | None = None
