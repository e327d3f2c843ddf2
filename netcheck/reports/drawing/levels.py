"""In which row of a panel each card stands: 0 above, 1 for parts, 2 below."""

from collections.abc import Iterator, Mapping

from netcheck.core.panel import BareChassis, Mark, Panel, PartBox
from netcheck.reports.drawing.card import Facing
from netcheck.reports.drawing.shapes import shape_of

__all__ = ["GAP", "Marks", "facing", "levels_to_try"]

GAP = 16.0
"""Between two cards of a row, in points."""

_TURNED = 15.0
Marks = Mapping[int, Mapping[str, set[Mark]]]


def levels_to_try(panel: Panel, room: float, marks: Marks) -> Iterator[tuple[float, Mapping[int, int]]]:
    """Ways to stand the cards: places joined by a wire in two rows or in one, and everything upside down.

    Before each stands what it costs: a part is looked for below the places.
    """
    tried: list[Mapping[int, int]] = []
    for apart in (True, False):
        levels = _levels(panel, room, marks, apart=apart)
        for cost, way in ((0.0, levels), (_TURNED, {i: 2 - level for i, level in levels.items()})):
            if way not in tried:
                tried.append(way)
                yield cost, way


def _partners(panel: Panel, index: int) -> list[int]:
    found = []
    for line in panel.lines:
        ends = (line.a[0], line.b[0])
        if index in ends and ends[0] != ends[1]:
            found.append(ends[1] if ends[0] == index else ends[0])
    return found


def _levels(panel: Panel, room: float, marks: Marks, *, apart: bool) -> dict[int, int]:
    parts = {i for i, card in enumerate(panel.cards) if isinstance(card, PartBox)}
    levels = dict.fromkeys(parts, 1) | dict.fromkeys(_hosts(panel, parts), 0)
    filled = sum(_placed_width(panel, i, room, marks) for i, level in levels.items() if level == 0)
    for i, card in enumerate(panel.cards):
        if i in levels:
            continue
        width = _placed_width(panel, i, room, marks)
        near = {levels[j] for j in _partners(panel, i) if j in levels}
        if isinstance(card, BareChassis):
            levels[i] = 2 if not parts or parts.intersection(_partners(panel, i)) else 1
        elif (near == {0} and (apart or not parts)) or (filled and filled + width > room):
            levels[i] = 2
        else:
            levels[i] = 0
            filled += width
    return levels


def _hosts(panel: Panel, parts: set[int]) -> Iterator[int]:
    """Parts that others go to: they stand among the places."""
    movers = {line.a[0] for line in panel.lines if line.a[0] in parts} or parts
    for i in parts - movers:
        if any(j in movers for j in _partners(panel, i)):
            yield i


def _placed_width(panel: Panel, i: int, room: float, marks: Marks) -> float:
    return shape_of(panel.cards[i], marks[i], "down", room).width + GAP


def facing(panel: Panel, i: int, levels: Mapping[int, int]) -> Facing:
    """The side that a card's lines leave by."""
    if levels[i] != 1:
        return "down" if levels[i] == 0 else "up"
    near = {levels[j] for j in _partners(panel, i)}
    return "down" if near == {2} else "up"
