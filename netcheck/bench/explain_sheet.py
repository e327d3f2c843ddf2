"""The diagnosis as a sheet: what disagrees, what explains it, what to measure next, what to mend."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from netcheck.bench.chassis import Chassis
from netcheck.bench.explain import MOST_NAMED, Diagnosis, Explanation
from netcheck.bench.filled_in import FilledIn
from netcheck.bench.next_reading import next_reading
from netcheck.bench.one_of import products
from netcheck.bench.plan import Plan
from netcheck.bench.slips import Cause
from netcheck.bench.volts_explain import VoltsTold
from netcheck.bench.volts_read import WrongVolts
from netcheck.bench.volts_sheet import volts_tables
from netcheck.core.mend import spoken
from netcheck.core.sheet import Column, Row, Sheet, Table

__all__ = ["Said", "diagnosis_sheet"]

_MOST_ALIKE = 6  # told line by line, and tried against each other for the next reading
_AGREE = "All readings are as expected."


class Said(Struct, frozen=True):
    """What was found of ohms and of volts; ``causes`` where voltages are off and something computes them."""

    ohms: Diagnosis
    volts: tuple[WrongVolts, ...] = ()
    causes: VoltsTold | None = None


def diagnosis_sheet(plan: Plan, filled: FilledIn, said: Said, files: tuple[str, ...]) -> Sheet:
    """What the readings say. The sheet has failed where a reading is not as expected."""
    found, volts = said.ohms, said.volts
    circuit = plan.chassis.graph.circuit
    closing = [f"Readings: {len(filled.readings)}. Steps of the plan not measured: {filled.open_steps}."]
    off = [one for one in volts if one.expected]
    if filled.volts:
        closing.insert(0, f"Voltages: {len(filled.volts)}.")
    if filled.open_steps and not found.wrong:
        closing.append("What was not measured is not proved.")
    tables = (*_tables(plan, filled, found), *volts_tables(volts, said.causes))
    title, state = circuit.title or circuit.source.name, circuit.state.value
    return Sheet(
        "bench", title, state, files, tables, (), (_verdict(filled, found, volts),), tuple(closing),
        failed=bool(found.wrong or off),
    )  # fmt: skip


def _verdict(filled: FilledIn, found: Diagnosis, volts: tuple[WrongVolts, ...]) -> str:
    """What was read at all, and how that is: of ohms, then of volts."""
    off = [one for one in volts if one.expected]
    said = [_ohms_verdict(found, alone=not filled.volts)] if filled.readings else []
    if off:
        said.append(f"{len(off)} voltage{'s are' if len(off) > 1 else ' is'} not as expected.")
    elif filled.volts and not volts:
        said.append("All volts are as expected.")
    return " ".join(said) or "Nothing that was read can be compared with the plan."


def _ohms_verdict(found: Diagnosis, *, alone: bool) -> str:
    if not found.wrong:
        return _AGREE if alone else "All ohms are as expected."
    count = f"{len(found.wrong)} reading{'s are' if len(found.wrong) > 1 else ' is'} not as expected."
    if not found.groups:
        return f"{count} No slip that is looked for explains them, nor do two together."
    if found.certain:
        return f"{count} Of all single faults only one explains every reading: {found.ranked[0].words}."
    if not found.groups[0][0].explains_all:
        return f"{count} Nothing explains all of them; below is what comes nearest. Measure more before mending."
    return f"{count} The readings do not single out one fault."


def _tables(plan: Plan, filled: FilledIn, found: Diagnosis) -> Iterator[Table]:
    if not found.wrong:
        return
    chassis = plan.chassis
    read = {(step.red, step.black): reading.text for step, reading in zip(filled.steps, filled.readings, strict=True)}
    rows = tuple(
        Row((str(step.number or ""), chassis.spoken(step.red), chassis.spoken(step.black), step.expected.words,
             read[step.red, step.black]))
        for step in found.wrong
    )  # fmt: skip
    columns = (Column("step"), Column("red"), Column("black"), Column("expected"), Column("read"))
    yield Table("Not as expected", columns, rows, boxes=False, key="disagree")
    if found.groups:
        yield _explanations(found)
        if not found.certain:
            yield from _next(chassis, filled, found)
        yield _mending(found)


def _explanations(found: Diagnosis) -> Table:
    rows = []
    for number, group in enumerate(found.groups[:MOST_NAMED], 1):
        tie = "; these readings do not tell them apart" if len(group) > 1 else ""
        rows += _group(group, f"{number}. {_fit(group[0])}{tie}")
    columns = (Column("what it may be", wide=True), Column("what mends it", wide=True))
    return Table("What explains the readings, the likeliest first", columns, tuple(rows), key="explain")


def _group(group: Sequence[Explanation], lead: str) -> list[Row]:
    """Every explanation of a group: a few line by line, many by the choices that each of their slips leaves."""
    if len(group) <= _MOST_ALIKE:
        cells = [(one.words, ", ".join(spoken(one.mend))) for one in group]
    else:
        cells = [_choice(slips, at) for places in products(group) for at, slips in enumerate(places)]
    return [Row(cell, lead if at == 0 else "") for at, cell in enumerate(cells)]


def _choice(slips: Sequence[Cause], place: int) -> tuple[str, str]:
    """One of some slips, and what mends each."""
    said = "; or ".join(slip.words for slip in slips)
    mends = dict.fromkeys(", ".join(spoken(slip.mend)) for slip in slips)
    one_of = "one of: " if len(slips) > 1 else ""
    return f"{'and ' if place else ''}{one_of}{said}", "; or ".join(mends)


def _fit(one: Explanation) -> str:
    many = "one fault" if len(one.slips) == 1 else "two faults"
    return f"{many}, fits every reading" if one.explains_all else f"{many}, leaves readings unexplained"


def _next(chassis: Chassis, filled: FilledIn, found: Diagnosis) -> Iterator[Table]:
    """The reading that tells the likeliest apart; of a tie only that."""
    rivals = _rivals(found)
    done = {frozenset((step.red, step.black)) for step in filled.steps}
    more = next_reading(chassis, rivals, done)
    if more is not None:
        where = f"red on {chassis.spoken(more.red)}, black on {chassis.spoken(more.black)}"
        rows = tuple(Row((said, "; or ".join(rivals[at].words for at in places))) for said, places in more.means)
        yield Table("Measure this next", (Column("it reads"), Column("then", wide=True)), rows, (where,), key="next")
    elif len(rivals) > 1:
        yield Table("No reading tells them apart", before=("Look at each, or take one lead off and measure the part.",))


def _rivals(found: Diagnosis) -> Sequence[Explanation]:
    first = found.groups[0]
    if len(first) > 1:
        return first[:_MOST_ALIKE]
    return [group[0] for group in found.groups[:MOST_NAMED]]


def _mending(found: Diagnosis) -> Table:
    first = found.ranked[0]
    rows = tuple(Row((line,)) for line in spoken(first.mend))
    sure = "" if found.certain else "If the first line above is right. Nothing is proved until the readings agree."
    before = (sure,) if sure else ()
    return Table("To mend, in this order, then measure again", (Column(""),), rows, before, key="mend")
