"""Every card of a panel as it looks, with its marks: what lines end at its cells."""

from collections import defaultdict
from collections.abc import Mapping

from netcheck.core.panel import BareChassis, Can, Card, Mark, NetCard, Panel, PartBox, Socket, Strip
from netcheck.reports.drawing.bodies import lying_part
from netcheck.reports.drawing.card import CardShape, Facing
from netcheck.reports.drawing.plain_cards import chassis_shape, net_shape
from netcheck.reports.drawing.ring import ring_shape
from netcheck.reports.drawing.row import row_shape
from netcheck.reports.drawing.turned_places import is_turned, turned_ring, turned_row
from netcheck.reports.drawing.windings import standing_part

__all__ = ["is_lying", "marks_at", "shape_of"]

_AT_SIDES = 2


def marks_at(panel: Panel) -> Mapping[int, Mapping[str, set[Mark]]]:
    """By card, then by cell: the marks of the lines that end there."""
    found: dict[int, dict[str, set[Mark]]] = {i: defaultdict(set) for i in range(len(panel.cards))}
    for line in panel.lines:
        for index, label in (line.a, line.b):
            found[index][label].add(line.mark)
    return {i: dict(cells) for i, cells in found.items()}


def is_lying(part: PartBox) -> bool:
    """Whether a part is drawn with a lead at each side."""
    return len(part.ends) <= _AT_SIDES and not part.windings


def shape_of(
    card: Card, marks: Mapping[str, set[Mark]], facing: Facing, room: float, *, turned: bool = False
) -> CardShape:
    """The card as it looks; a lying part's leads change sides where ``turned``."""
    match card:
        case Strip():
            return turned_row(card, room) if is_turned(card) else row_shape(card, marks, facing, room)
        case Socket() | Can():
            return turned_ring(card, room) if is_turned(card) else ring_shape(card, marks, facing)
        case BareChassis():
            return chassis_shape(card, facing)
        case NetCard():
            return net_shape(card, marks, facing)
        case PartBox():
            if not is_lying(card):
                return standing_part(card, marks, facing)
            return lying_part(card, tuple(reversed(card.ends)) if turned else card.ends, marks)
