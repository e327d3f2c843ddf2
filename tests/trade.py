"""One part between two nets, changed for another: what the comparison says of the two."""

from functools import cache

from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.paper import circuit, compared

Found = frozenset[tuple[Grade, str]] | set[tuple[Grade, str]]

STOP, LOOK, NOTE = Grade.STOP, Grade.LOOK, Grade.NOTE
SILENT: Found = frozenset()

_ENDS = {
    "electrolytic": ("+", "-"), "selenium": ("+", "-"), "battery": ("+", "-"), "diode": (".cathode", ".anode"),
    "pot": (".ccw", ".cw", ".wiper"), "tube": (".grid", ".plate", ".cathode", ".heater-1", ".heater-2"),
}  # fmt: skip
_RECTIFIER = (".plate-1", ".plate-2", ".heater-1", ".heater-2")


def _nets(declaration: str) -> str:
    """The part called X and two resistors: one end of X on each of two nets, further ends on the chassis."""
    kind, name, *rest = declaration.split()
    ends = _RECTIFIER if rest[0] in ("5AR4", "GZ34") else _ENDS.get(kind, (".1", ".2"))
    first, second, *more = (f"{name}{end}" for end in ends)
    ground = ", ".join(["chassis", "RA.2", "RB.2", *more])
    return f"net one: {first}, RA.1\nnet other: {second}, RB.1\nnet ground: {ground}\n"


@cache
def report(old: str, new: str) -> Report:
    """The comparison of a part declared as ``old`` with one of the same leads changed to ``new``."""
    around = "resistor RA 1 meg\nresistor RB 1 meg\n"
    values = " ".join(new.split()[2:])
    kind, was = new.split(maxsplit=1)[0], old.split(maxsplit=1)[0]
    if kind == was:
        rewired = f'start from "original.netck"\nchange X {values}\n'
    else:
        fresh = new.replace(" X ", " Y ")
        rewired = f'start from "original.netck"\nremove X\n{fresh} replaces X\n{_joined_as(old, fresh)}'
    found = compared(around + old + "\n" + _nets(old), rewired)
    assert found.built, [d.headline for d in found.diagnostics]
    return found


def _joined_as(old: str, fresh: str) -> str:
    was, now = _ENDS.get(old.split(maxsplit=1)[0], (".1", ".2")), _ENDS.get(fresh.split(maxsplit=1)[0], (".1", ".2"))
    name = fresh.split()[1]
    nets = ["one", "other", *["ground"] * (len(was) - 2)]
    return "".join(f"net {net}: {name}{end}\n" for net, end in zip(nets, now, strict=False))


def told(old: str, new: str) -> Found:
    """How grave each finding is, and its rule."""
    return {(d.grade, d.rule) for d in report(old, new).diagnostics}


def headlines(old: str, new: str) -> list[str]:
    return [d.headline for d in report(old, new).diagnostics]


@cache
def part(declaration: str) -> Part:
    """A part by itself."""
    return circuit(f"{declaration}\nresistor RA 1 meg\nresistor RB 1 meg\n{_nets(declaration)}").parts["X"]
