"""One card of a picture: what it consists of, and where lines may begin at its cells."""

from collections.abc import Mapping

from msgspec import Struct

from netcheck.reports.drawing.scene import Point, Thing

__all__ = ["CardShape", "Facing", "Port"]

Facing = str
"""``down`` or ``up``: the side that a card's lines leave by."""


class Port(Struct, frozen=True):
    """Where a line meets a cell, and the ways out from there: each a few points, the first on the cell.

    ``exclusive`` ways are gaps between pins, one line each. ``inner`` is where a line within a ring begins.
    """

    at: Point
    ways: tuple[tuple[Point, ...], ...] = ()
    exclusive: bool = False
    inner: Point | None = None

    @property
    def exits(self) -> tuple[tuple[Point, ...], ...]:
        """The ways out; straight from the cell where none is given."""
        return self.ways or ((self.at,),)


class CardShape(Struct, frozen=True):
    """A drawn card in points from its own upper left corner; ``over`` is drawn after the lines.

    ``middle`` is that of a ring; ``block`` is a body that no line may cross, by its upper left and its lower right
    corner.
    """

    width: float
    height: float
    things: tuple[Thing, ...]
    ports: Mapping[str, Port]
    over: tuple[Thing, ...] = ()
    middle: Point | None = None
    block: tuple[Point, Point] | None = None
