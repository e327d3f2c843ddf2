"""A filled-in file of readings: which steps it speaks of, and what was read."""

import csv
import io
from collections.abc import Iterator, Mapping

from msgspec import Struct

from netcheck.bench.charts import measured
from netcheck.bench.chassis import Chassis
from netcheck.bench.expected import Expected, Want, limits_of
from netcheck.bench.ohms import JOINT, ohms_of
from netcheck.bench.plan import Plan, Step
from netcheck.bench.readings import Reading, Unit, reading_of
from netcheck.bench.volts_read import VoltsRead
from netcheck.core.diagnostic import Flaw
from netcheck.core.errors import UsageFault
from netcheck.core.source import Source

__all__ = ["FilledIn", "filled_in"]

_NEEDED = ("red", "black", "reading")
_VOLTS, _AT_HALF = "volts", "half"  # the table of the power-up, and its column at half line
_MOST_TOLD = 10


class FilledIn(Struct, frozen=True):
    """Steps with what was read at each; a pair that is not in the plan is a step of its own.

    ``volts`` are those of the power-up; ``open_steps`` counts the plan's steps without a reading.
    """

    steps: tuple[Step, ...]
    readings: tuple[Reading, ...]
    open_steps: int
    volts: tuple[VoltsRead, ...] = ()


class _Line(Struct, frozen=True):
    number: int
    red: str
    black: str
    reading: Reading
    volts: str = ""  # the column of a voltage, at half or at full line


def filled_in(plan: Plan, source: Source) -> FilledIn:
    """The readings in a file of columns `red`, `black` and `reading`, in any order, with any others beside.

    Commas, semicolons or tabs between. Raises UsageFault with every line that can't be read.
    """
    flaws: list[str] = []
    lines = [*_lines(source, flaws)]
    known = {(step.red, step.black): step for step in plan.steps}
    steps: dict[tuple[int, int], tuple[Step, Reading]] = {}
    for line in lines:
        ends = None if line.volts else _ends(plan.chassis, line, source, flaws)
        if ends is not None:
            step = known.get(ends) or known.get(ends[::-1]) or _own(plan.chassis, ends)
            steps[step.red, step.black] = (step, line.reading)
    if flaws:
        more = f"\nand {len(flaws) - _MOST_TOLD} more" if len(flaws) > _MOST_TOLD else ""
        raise UsageFault("\n".join(flaws[:_MOST_TOLD]) + more)
    read = [*steps.values()]
    left = sum(1 for ends in known if ends not in steps)
    volts = tuple(VoltsRead(one.red, one.reading, one.volts == _AT_HALF) for one in lines if one.volts)
    return FilledIn(tuple(step for step, _ in read), tuple(reading for _, reading in read), left, volts)


def _lines(source: Source, flaws: list[str]) -> Iterator[_Line]:
    rows = csv.reader(io.StringIO(source.text), delimiter=_delimiter(source.text))
    heading = next(rows, [])
    columns: Mapping[str, int] = {name.strip().lower(): at for at, name in enumerate(heading)}
    lacking = [name for name in _NEEDED if name not in columns]
    if lacking:
        flaws.append(f"{source.name}: the first line has no column `{lacking[0]}`; it needs red, black and reading")
        return
    for row in rows:
        said = {name: row[at].strip() for name, at in columns.items() if at < len(row)}
        volts = said.get("table") == _VOLTS
        for column in (_AT_HALF, "reading") if volts else ("reading",):
            reading = _read(said.get(column, ""), volts=volts)
            if isinstance(reading, Flaw):
                flaws.append(f"{source.name}:{rows.line_num}: {reading.headline}; {reading.help}")
            elif reading is not None:
                red, black = said.get("red", ""), said.get("black", "")
                yield _Line(rows.line_num, red, black, reading, column if volts else "")


def _read(text: str, *, volts: bool) -> Reading | Flaw | None:
    """A cell; in the table of voltages a bare number is volts."""
    reading = reading_of(text)
    if not volts or reading is None or (isinstance(reading, Reading) and reading.unit is Unit.VOLTS):
        return reading
    as_volts = reading_of(f"{text} V")  # a minus is none of ohms, but of volts
    return reading if isinstance(as_volts, Flaw) else as_volts


def _delimiter(text: str) -> str:
    heading = text.partition("\n")[0]
    return max(",;\t", key=heading.count)


def _ends(chassis: Chassis, line: _Line, source: Source, flaws: list[str]) -> tuple[int, int] | None:
    found = []
    for name in (line.red, line.black):
        node = chassis.node.get(name.partition(" (")[0])
        if node is None or not chassis.touchable[node]:
            flaws.append(f"{source.name}:{line.number}: there is no point `{name}` to hold a probe to")
            return None
        found.append(node)
    return found[0], found[1]


def _own(chassis: Chassis, ends: tuple[int, int]) -> Step:
    """A pair that somebody measured besides the plan."""
    if chassis.nets[ends[0]] == chassis.nets[ends[1]]:
        return Step(0, *ends, Expected(Want.OHMS, 0.0, 2.0, JOINT), chassis.nets[ends[0]])
    one = measured(chassis, ohms_of(chassis), limits_of(chassis), [ends])[0]
    return Step(0, one.red, one.black, one.expected, one.net)
