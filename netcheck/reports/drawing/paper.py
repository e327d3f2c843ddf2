"""The papers that a sheet is laid out for, in points.

The SVG names its page, so that a browser prints one to a sheet. Nothing is smaller than 9 points.
"""

from msgspec import Struct

__all__ = ["A4", "LETTER", "NARROW", "PAPERS", "POSTER", "Paper"]


class Paper(Struct, frozen=True):
    """A page with its margin; a page without a height is as long as what is on it."""

    width: float
    height: float | None
    margin: float

    @property
    def room(self) -> float:
        """The width between the margins."""
        return self.width - 2 * self.margin


A4 = Paper(595.28, 841.89, 34.0)
LETTER = Paper(612.0, 792.0, 36.0)
NARROW = Paper(270.0, None, 5.0)
"""360 px wide: a telephone, or a tablet beside the chassis."""

POSTER = Paper(595.28, None, 34.0)
"""One sheet as long, and for a whole circuit as wide, as what is on it."""

PAPERS = {"a4": A4, "letter": LETTER, "narrow": NARROW, "poster": POSTER}
