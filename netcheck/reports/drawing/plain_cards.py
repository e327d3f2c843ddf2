"""The chassis, and a net of which no lug is known."""

from collections.abc import Mapping

from netcheck.core.panel import BareChassis, Mark, NetCard
from netcheck.reports.drawing.card import CardShape, Facing, Port
from netcheck.reports.drawing.glyphs import chassis_sign
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, leading
from netcheck.reports.drawing.marks import CELL, GREY, cell_look
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words, straight

__all__ = ["chassis_shape", "net_shape"]

_MOST_LEADS = 6
_A_LINE = 3


def chassis_shape(card: BareChassis, facing: Facing) -> CardShape:
    """Sheet metal; a line from above meets its upper side."""
    width = max(52.0, advance(brief(card.name), NAME, bold=True))
    down = facing == "down"
    y = 16.0 if down else 6.0
    things: list[Thing] = [Disc(width / 2, y, 3, "black"), *chassis_sign(0, y, width)]
    if down:  # the hatching is on the far side of the line
        things = [Disc(width / 2, y, 3, "black"), Stroke(straight((0, y), (width, y)), "black", 2)]
    base = y - 5 if down else y + 19
    over: tuple[Thing, ...] = (Words(width / 2, base, brief(card.name), NAME, bold=True, anchor="middle"),)
    return CardShape(width, 22.0 if down else 30.0, tuple(things), {"": Port((width / 2, y))}, over)


def net_shape(net: NetCard, marks: Mapping[str, set[Mark]], facing: Facing) -> CardShape:
    """A net: its name and the first leads on it, or only how many there are."""
    lines = [(brief(net.name), NAME, True), *((line, SMALL, False) for line in _leads(net))]
    width = max(advance(text, size, bold=bold) for text, size, bold in lines) + 16
    height = sum(leading(size) for _, size, _ in lines) + 8
    colour, weight, dashed = cell_look(marks.get("", set()))
    things: list[Thing] = [Box(1, 1, width, height, CELL, colour, weight, 8, dashed)]
    over: list[Thing] = []
    base = 3.0
    for text, size, bold in lines:
        base += leading(size)
        over.append(Words(width / 2 + 1, base - 2, text, size, bold, "black" if bold else GREY, "middle"))
    edge = height + 1 if facing == "down" else 1.0
    return CardShape(width + 2, height + 2, tuple(things), {"": Port((width / 2 + 1, edge))}, tuple(over))


def _leads(net: NetCard) -> list[str]:
    shown = [brief(lead) for lead in net.leads[:_MOST_LEADS]]
    if not shown:
        return [f"{net.count} lead{'' if net.count == 1 else 's'}"] if net.count else []
    lines = [", ".join(shown[at : at + _A_LINE]) for at in range(0, len(shown), _A_LINE)]
    rest = net.count - len(shown)
    return [*lines, f"and {rest} more"] if rest > 0 else lines
