"""Voltages that are not as expected, what may explain them, what to read next."""

from collections.abc import Iterator, Sequence

from netcheck.bench.rounded import volts_words
from netcheck.bench.volts_explain import VoltsNext, VoltsTold
from netcheck.bench.volts_read import WrongVolts
from netcheck.core.sheet import Column, Row, Table

__all__ = ["volts_tables"]

_OFF = "Pull the plug, discharge, then look for the cause cold: volts alone do not name the part."
_HALF = "Off at half line already: do not go on to full line."
_FITS, _LEAVES = "fits every voltage that was read", "leaves voltages unexplained"


def volts_tables(wrong: Sequence[WrongVolts], told: VoltsTold | None) -> Iterator[Table]:
    """The voltages off and those of which nothing is known; then the causes, where any was found."""
    if wrong:
        yield _wrong(wrong)
    if told is not None:
        yield _causes(told)
        if told.next is not None:
            yield _next(told, told.next)


def _wrong(wrong: Sequence[WrongVolts]) -> Table:
    rows = tuple(
        Row((one.name, "half" if one.read.at_half else "full", one.expected or "not known", one.read.reading.text))
        for one in wrong
    )
    columns = (Column("point"), Column("line"), Column("expected"), Column("read"))
    before = (_OFF, _HALF) if any(one.read.at_half and one.expected for one in wrong) else (_OFF,)
    return Table("Voltages not as expected, or not known", columns, rows, before, boxes=False, key="off")


def _causes(told: VoltsTold) -> Table:
    rows, lead = [], ""
    for cause in told.causes:
        words = _FITS if cause.explains_all else _LEAVES
        rows.append(Row((cause.failure.words, cause.failure.tell), words if words != lead else ""))
        lead = words
    columns = (Column("what it may be", wide=True), Column("how to make sure", wide=True))
    return Table(
        "What may explain the volts, the likeliest first", columns, tuple(rows), (_verdict(told),), key="causes"
    )


def _verdict(told: VoltsTold) -> str:
    fits = sum(cause.explains_all for cause in told.causes)
    if not told.causes:
        return "No failure that is looked at, and no two, come near these voltages."
    if not fits:
        return "No failure that is looked at, and no two, explain all of them; below is what comes nearest."
    if told.alone:
        return (
            "Of the single failures that are looked at only the first fits every voltage. Make sure before changing it."
        )
    if told.causes[0].failure.two:
        return "No single failure that is looked at fits every voltage; two together may. Make sure of each."
    if fits == 1:
        return "Only the first fits every voltage, but others come near: the voltages do not single it out."
    return f"These voltages do not tell the first {fits} apart."


def _next(told: VoltsTold, found: VoltsNext) -> Table:
    rows = tuple(
        Row((f"about {volts_words(volts)}", "; or ".join(told.causes[at].failure.words for at in places)))
        for volts, places in found.means
    )
    where = f"red on {found.point} ({found.name}), at full line"
    return Table("Read this next", (Column("it reads"), Column("then", wide=True)), rows, (where,), key="next-volts")
