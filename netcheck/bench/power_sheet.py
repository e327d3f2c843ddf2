"""The power-up as tables: limiter and fuse, volts in the order to measure, when to switch off, discharge."""

import math

from netcheck.bench.power import fuse_for, lamps_for
from netcheck.bench.power_up import LITTLE, PowerUp, Volts
from netcheck.bench.rounded import volts_words
from netcheck.core.caution import ANODE, DISCHARGE, ISOLATED, Dangers
from netcheck.core.sheet import Column, Row, Table
from netcheck.core.wording import significant
from netcheck.electrical.table.rows import ChargeRow

__all__ = ["full_words", "half_words", "power_tables"]

OFF = 1.3  # times the volts expected
_COLUMNS = (
    Column("point"), Column("red"), Column("black"), Column("half line"), Column("half", blank=True),
    Column("full line"), Column("reading", blank=True), Column("off at"), Column("chart"),
)  # fmt: skip
_OFF = (
    "The lamp stays bright for more than three seconds.",
    "A line reads nothing while the one before it has its volts, or a bias line reads nothing: at once.",
    "A line is above its limit in the table.",
    "Smoke, a hiss, a hot can or a red plate; any resistor that smells. Pull the plug first, look afterwards.",
)
_SAFE = (
    f"Calculated; measure before touching. By hand: {DISCHARGE}. "
    "Look again after a minute: some of the volts come back."
)
_ISOLATE = f"Run the set, not the instruments, {ISOLATED}. Antenna and ground off."
_TUBE = f"The picture tube, anode: {ANODE}. Wear goggles."
_HALF = "Half line (variac) with the lamp, all readings; then full line with the lamp; then without it."
# Common practice: at reduced line a sweep may not start, and its output tube has no bias without drive.
_HALF_TELEVISION = (
    "Half line (variac) with the lamp, only as long as the supply's readings take: a sweep tube without drive "
    "overheats. Then full line with the lamp; then without it."
)


def power_tables(found: PowerUp, dangers: Dangers) -> tuple[Table, ...]:
    """The tables of the sheet; what could not be computed says so."""
    return (_first(found, dangers), _volts(found), _off(), _discharge(found, dangers))


def _first(found: PowerUp, dangers: Dangers) -> Table:
    isolated = (_ISOLATE,) if dangers.hot else ()
    half = _HALF_TELEVISION if dangers.television else _HALF
    words = [*isolated, _lamp(found), half, _fuse(found), "All tubes in, speaker connected, one hand in your pocket."]
    rows = tuple(Row((text,)) for text in words)
    return Table("Power-up: first", (Column("", wide=True),), rows, key="first")


def _lamp(found: PowerUp) -> str:
    if found.taken is None:
        return "Filament lamp in series with the line: the file does not say what the set takes; begin with 60 W."
    least, most = lamps_for(found.taken.watts)
    about = "at least" if found.taken.unknown else "about"
    unknown = f" ({', '.join(found.taken.unknown)} not known)" if found.taken.unknown else ""
    size = f"{least} W" if least == most else f"{least} to {most} W"
    return f"Filament lamp in series with the line: {size}. The set takes {about} {found.taken.watts:.0f} W{unknown}."


def _fuse(found: PowerUp) -> str:
    fitted = f"In the file: {', '.join(found.fuses)}." if found.fuses else "The file has no fuse."
    if found.taken is None:
        return f"Fuse: not known, as what the set takes is not. {fitted}"
    low, high = fuse_for(found.taken.amperes)
    size = f"{low:g} A" if low == high else f"{low:g} to {high:g} A"
    about = "at least" if found.taken.unknown else "about"
    return f"Fuse: {size} slow, 1.5 to 2 times the running {found.taken.amperes:.2f} A ({about}). {fitted}"


def _volts(found: PowerUp) -> Table:
    if found.unknown:
        return Table("Volts: not known", before=(f"No volts can be computed: {found.unknown}.",))
    before = []
    if found.waits:
        names = " and ".join(found.waits)
        before.append(
            f"{names}: a rectifier tube gives nothing until it is hot, and little at half line: there, low "
            "or no volts are not a fault."
        )
    if any(one.chart is not None for one in found.lines + found.electrodes):
        before.append("Where the chart has a reading, that is what counts; it had its own meter and line.")
    of: dict[str, list[str]] = {}
    for one in (*found.lines, *found.electrodes):
        if one.chart_of:
            of.setdefault(one.chart_of, []).append(one.name)
    before += [
        f"* The chart's reading of {point}; the same volts belong at {', '.join(at)}." for point, at in of.items()
    ]
    rows = tuple(_row(found, one) for one in (*found.lines, *found.electrodes))
    return Table(f"Volts to {found.common}, in this order", _COLUMNS, rows, tuple(before), key="volts")


def _row(found: PowerUp, one: Volts) -> Row:
    chart = "" if one.chart is None else f"{volts_words(one.chart)}{'*' if one.chart_of else ''}"
    return Row(
        (one.name, one.point, found.common_point, half_words(one), "", full_words(one), "", _limit(one), chart)
    )  # fmt: skip


def half_words(one: Volts) -> str:
    """What to expect at half line; empty where nothing is known."""
    if one.half is None:
        return ""
    low, high = one.half
    if abs(low) < 0.5:
        return f"up to {volts_words(high)}"
    return f"{low:.0f} to {volts_words(high)}"


def full_words(one: Volts) -> str:
    """What to expect at full line."""
    if one.said is None:
        return "not known" if one.below is None else f"below {volts_words(one.below)}"
    if abs(one.said) < LITTLE:
        return f"below {significant(one.little, 2)} V"
    return f"{volts_words(one.said)} \N{PLUS-MINUS SIGN}{100 * one.within:.0f} %"


def _limit(one: Volts) -> str:
    """A third more than expected once tubes draw, but no more than what the rectifier gives without a load."""
    said = one.said
    if said is None or one.most is None or abs(said) < LITTLE:
        return ""
    free = abs(one.most) if abs(one.most) > abs(said) else math.inf
    return volts_words(math.copysign(min(OFF * abs(said), free), said))


def _off() -> Table:
    return Table(
        "Switch off if", (Column("", wide=True),), tuple(Row((text,)) for text in _OFF), boxes=False, key="off"
    )


def _discharge(found: PowerUp, dangers: Dangers) -> Table:
    said = (_SAFE, _TUBE) if dangers.television else (_SAFE,)
    if not found.charges:
        return Table("Afterwards, plug out", before=("Discharge every filter capacitor.", *said))
    rows = tuple(Row((row.name, volts_words(row.emptying.volts), _seconds(row), "")) for row in found.charges)
    columns = (
        Column("capacitor"), Column("from at most"), Column("below 60 V after"),
        Column("measured", blank=True),
    )  # fmt: skip
    return Table("Afterwards, plug out: discharge", columns, rows, said, key="discharge")


def _seconds(row: ChargeRow) -> str:
    seconds = row.emptying.seconds[0]
    if seconds is None:
        return "never by itself: by hand"
    return "at once" if seconds <= 0 else f"{seconds:.0f} s" if seconds >= 1 else "1 s"
