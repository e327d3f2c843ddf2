"""The pipeline of the record: the comparison, the reasons, the supply and the sheets of one set. No disk."""

from collections.abc import Iterator

from netcheck import api, sheets
from netcheck.core.circuit import Circuit
from netcheck.core.record import Reason, Record
from netcheck.core.report import Report
from netcheck.core.sheet import Table
from netcheck.core.source import Place, Source
from netcheck.core.wording import listed
from netcheck.model.build import build
from netcheck.model.load import Reader

__all__ = ["record"]


def record(
    original: Source, rewired: Source, *, read: Reader, readings: Source | None = None, report: Report | None = None
) -> tuple[Report, Record | None]:
    """All that is known of the set; without it where a file could not be built.

    ``report`` is what was found where that is known already, by more than these two files.

    Raises UsageFault where the two are in the wrong order or state, and for readings that can't be read.
    """
    report = report or api.compare(original, rewired, read)
    circuit, _ = build(rewired, read)
    _, job = sheets.job(original, rewired, read=read)
    _, bench = sheets.bench(original, rewired, read=read)
    if not report.built or circuit is None or job is None or bench is None:
        return report, None
    told = sheets.bench(rewired, read=read, readings=readings)[1] if readings else None
    tables, notes = _supply(rewired, read)
    return report, Record(
        report, circuit.state.value, tuple(_reasons(report, circuit)), job, bench, tables, notes, told
    )  # fmt: skip


def _supply(rewired: Source, read: Reader) -> tuple[tuple[Table, ...], tuple[str, ...]]:
    from netcheck.reports.supply_table import supply_tables

    report, table = api.supply(rewired, read)
    if table is None or not (table.capacitors or table.rectifiers):
        return (), ()
    shared = (f"{table.shared}.",) if table.shared else ()
    return supply_tables(table), (*table.missing, *shared, *table.left_out, *report.closing)


def _reasons(report: Report, circuit: Circuit) -> Iterator[Reason]:
    """What the rewired file says of itself; what a base says is the base's."""
    for one in report.accepted:
        yield Reason(one.diagnostic.headline, one.reason, str(one.diagnostic.labels[0].place))
    for what, why, place in _declared(circuit):
        if why and place.source is circuit.source:
            yield Reason(what, why, str(place))
    for name, text in circuit.notes:
        yield Reason(name or "noted", text, "")


def _declared(circuit: Circuit) -> Iterator[tuple[str, str | None, Place]]:
    """What was done, the reason if there is one, and where it is written."""
    for intent in circuit.intended:
        yield f"{intent.verb} {listed(intent.points)}", intent.reason, intent.place
    for removal in circuit.removals:
        way = ", a wire in its place" if removal.bridged else ""
        yield f"{removal.part} taken out{way}", removal.reason, removal.place
    for part in circuit.parts.values():
        yield f"{part.name} put in series", part.inserted, part.place
        yield f"{part.name} added", part.added, part.place
