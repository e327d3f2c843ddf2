"""The job as a sheet: a box for each lead, a lug is soldered when its last lead is on."""

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from netcheck.bench.job import Job, LugWork, Off
from netcheck.bench.typed import kind_and_type
from netcheck.core.circuit import Circuit, Part
from netcheck.core.mend import Solder, Wire
from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.model.points import HUNG_ON

__all__ = ["job_sheet"]

_WIDE = Column("", wide=True)
_BY_NAME = "* from the net of that name; the file does not say which lug it is on."
_FIRST = "Plug out, every filter capacitor discharged and measured. Take a photograph of each side first."
_DONE = "Done on paper, these steps give what the second file says, lead by lead."
_NOT_DONE = (
    "No steps are given: done on paper, those that were found do not give what the second file says, or one of them "
    "can't be done. Write lug by lug what is under the chassis, and compare the two files."
)
_STEPS = ("off", "out", "screw", "change", "ready", "wires", "on")
_ALL_ON = {1: ": solder now", 2: ": both on, solder now"}


def job_sheet(job: Job, new: Circuit, files: tuple[str, ...], cautions: tuple[str, ...], *, leads_there: bool) -> Sheet:
    """The sheet of a job; ``leads_there`` says that its acts were carried out and gave the new state.

    Where they did not, none is given.
    """
    title, state = new.title or new.source.name, new.state.value
    if not leads_there:
        return Sheet("job", title, state, files, (), cautions, (_NOT_DONE,), (), failed=True)
    tables = tuple(_numbered([table for table in _tables(job) if table.rows]))
    return Sheet("job", title, state, files, tables, cautions, (_FIRST,), (_in_all(job), _DONE))


def _in_all(job: Job) -> str:
    """How much work there is: what there is none of is not counted."""
    ends = sum(len(lug.on) for lug in job.lugs)
    acts = (
        (len(job.off), "joint", "off"), (len(job.out), "part", "out"), (len(job.refits), "part", "changed in place"),
        (len(job.fitted), "part", "in"), (ends, "lead end", "on"),
    )  # fmt: skip
    said = ", ".join(f"{_so_many(count, what)} {how}" for count, what, how in acts if count)
    return f"{said}." if said else "Nothing to do."


def _so_many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _numbered(tables: Sequence[Table]) -> Iterator[Table]:
    """The steps counted as they come, so that no number is missing where there is nothing to do."""
    steps = [table.key for table in tables if table.key in _STEPS]
    for table in tables:
        yield replace(table, heading=f"{steps.index(table.key) + 1}. {table.heading}") if table.key in steps else table


def _tables(job: Job) -> Iterator[Table]:
    off = tuple(Row((_off(one),)) for one in job.off)
    note = (_BY_NAME,) if any(one.by_name for one in job.off) else ()
    yield Table("Off: unsolder", (_WIDE,), off, note, key="off")
    yield Table("Take out", (_WIDE,), tuple(Row((_named(part),)) for part in job.out), key="out")
    yield Table("Mount", (_WIDE,), tuple(Row((_named(part),)) for part in job.screwed), key="screw")
    changed = tuple(Row((one.act.part, one.was, one.now)) for one in job.refits)
    columns = (Column("part"), Column("out", wide=True), Column("in", wide=True))
    yield Table("Change in place", columns, changed, key="change")
    yield Table("Have ready", (_WIDE,), tuple(Row((_named(part),)) for part in job.fitted), key="ready")
    yield Table("Cut the new wires", (Column("wire"), Column("from"), Column("to")), _wires(job), key="wires")
    rows = tuple(row for lug in job.lugs for row in _lug(lug))
    yield Table("On: lug by lug; solder a lug when all its leads are on", (_WIDE,), rows, key="on")
    yield Table("Stays, and is dead", (_WIDE,), tuple(Row((text,)) for text in job.dead), boxes=False, key="dead")


def _named(part: Part) -> str:
    values = " ".join(q.written for q in part.features.quantities)
    replaces = f", for {' and '.join(part.replaces)}" if part.replaces else ""
    said = " ".join(filter(None, (kind_and_type(part), values, *part.features.words)))
    return f"{part.name}: {said}{replaces}"


def _off(one: Off) -> str:
    if one.wire is not None:
        return f"the wire {one.wire} from {one.at} to {one.lead}".replace("  ", " ")
    if one.at.startswith(HUNG_ON):
        return f"{one.lead} from the others that hang {one.at}"
    return f"{one.lead} from {one.at}" + (" *" if one.by_name else "")


def _wires(job: Job) -> tuple[Row, ...]:
    """By colour and gauge, as they come off the reels."""
    wires = [act for lug in job.lugs for act in lug.on if isinstance(act, Wire) and act.a == lug.name]
    rows = [Row((" ".join(act.words.split()) or "colour not said", act.a, act.b)) for act in wires]
    return tuple(sorted(rows, key=lambda row: row.cells[0]))


def _lug(lug: LugWork) -> Iterator[Row]:
    net = f" ({lug.net})" if lug.net and lug.net != lug.name else ""
    stays = f"; stays: {', '.join(lug.stays)}" if lug.stays else ""
    for at, act in enumerate(lug.on):
        last = at == len(lug.on) - 1
        done = _ALL_ON.get(lug.count, f": all {lug.count} on, solder now") if last else ""
        yield Row((_on(lug, act) + done,), f"{lug.name}{net}{stays}" if at == 0 else "")


def _on(lug: LugWork, act: Solder | Wire) -> str:
    if isinstance(act, Solder):
        return act.point
    return f"wire {act.words} to {act.b if act.a == lug.name else act.a}".replace("  ", " ")
