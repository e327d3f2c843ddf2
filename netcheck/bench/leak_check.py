"""The cold check from the line to what a hand touches, before the plug ever goes in."""

from netcheck.bench.chassis import Chassis
from netcheck.bench.expected import MOST, Expected, Limits, Want, limits_of
from netcheck.core.sheet import Column, Row, Table
from netcheck.electrical.mains.line import line_of, touched_metal

__all__ = ["leak_table"]

LEAST = 1e6  # ohms; 1 to 5.2 megohm where the set has a path of its own (television service manuals' cold check)
_HOW = (
    "Plug out, its two prongs joined by a wire, the set's switch on: from the prongs to each. A set with a path of its "
    "own reads 1 to 5.2 meg, any other reads open."
)
_COLUMNS = (Column("metal"), Column("must read"), Column("by the file"), Column("measured", blank=True))


def leak_table(chassis: Chassis) -> Table | None:
    """A row for all metal that can be touched; None without a cord, or where the metal is the line's own."""
    line = line_of(chassis.graph)
    if line is None:
        return None
    limits, nets = limits_of(chassis), chassis.graph.circuit.nets
    prongs = [_net(chassis, nets[side.lead]) for side in line.sides]
    metals = {name: _net(chassis, net) for net, name in touched_metal(chassis.graph).items()}
    rows = tuple(
        Row((name, "above 1 meg", _said(_joined(limits, prongs, metal), direct=metal in prongs), ""))
        for name, metal in metals.items()
        if metal is not None
    )
    return Table("Line to what a hand touches, cold", _COLUMNS, rows, (_HOW,), key="leak") if rows else None


def _net(chassis: Chassis, net: int) -> int | None:
    """The chassis' own number of a circuit's net, by any point that can be touched there."""
    circuit = chassis.graph.circuit
    for at, point in enumerate(circuit.points):
        node = chassis.node.get(point.name) if circuit.nets[at] == net else None
        if node is not None:
            return chassis.nets[node]
    return None


def _joined(limits: Limits, prongs: list[int | None], metal: int) -> Expected:
    """From both prongs together: no less than both ways side by side, no more than the better one."""
    ways = [limits.ohms(prong, metal, None, wrong_way=True) for prong in prongs if prong is not None]
    siemens = sum(1 / max(one.low, 1e-3) for one in ways)
    return Expected(Want.OHMS, 1 / siemens if siemens else MOST, min((one.high for one in ways), default=MOST))


def _said(found: Expected, *, direct: bool) -> str:
    if direct or found.high < 1:
        return "joined to the line: made so, or a fault; isolation transformer always"
    words = found.words
    return f"{words}: too low" if found.high < LEAST else words
