"""Pieces of a sheet that no page cuts: things of a height, from the margin's left edge."""

from collections.abc import Sequence

from msgspec import Struct

from netcheck.reports.drawing.lettering import leading, wrapped
from netcheck.reports.drawing.scene import Thing, Words, moved

__all__ = ["Block", "paragraph", "stacked"]

_MOST_LINES = 12


class Block(Struct, frozen=True):
    """``number`` is that of its finding, 0 where it belongs to none; ``after`` is the gap below it."""

    height: float
    things: tuple[Thing, ...]
    after: float = 6.0
    number: int = 0


def paragraph(text: str, room: float, size: float, *, bold: bool = False, colour: str = "black") -> Block:
    """A text in lines of the room's width."""
    lines = wrapped(text, room, size, bold=bold, most=_MOST_LINES)
    step = leading(size)
    things = tuple(Words(0.0, step * (i + 1) - size * 0.3, line, size, bold, colour) for i, line in enumerate(lines))
    return Block(step * len(lines), things, 0.0)


def stacked(blocks: Sequence[Block], *, gap: float = 0.0) -> Block:
    """Blocks one below the other as one."""
    things: list[Thing] = []
    y = 0.0
    for i, block in enumerate(blocks):
        y += gap if i else 0.0
        things += moved(block.things, 0.0, y)
        y += block.height
    return Block(y, tuple(things))
