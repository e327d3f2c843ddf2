"""A text, and a stretch of it; the one definition of line and column."""

from bisect import bisect_right
from functools import cached_property

from msgspec import Struct

__all__ = ["Place", "Source"]


class Source(Struct, frozen=True, eq=False, dict=True):
    """A netlist's text under the name that messages show; a line ends at a line feed and nowhere else."""

    name: str
    text: str

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """The offset of each line's first character."""
        starts = [0]
        find = self.text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        return tuple(starts)

    def line_of(self, offset: int) -> int:
        """The 1-based line that holds the character at a 0-based offset."""
        return bisect_right(self.line_starts, offset)

    def line_text(self, line: int) -> str:
        """The text of a 1-based line without its ending."""
        start = self.line_starts[line - 1]
        end = self.text.find("\n", start)
        return (self.text[start:] if end < 0 else self.text[start:end]).rstrip("\r")

    @property
    def whole(self) -> "Place":
        """The empty place at the start, for what is wrong with the file as such."""
        return Place(self, 0, 0)

    def between(self, start: int, end: int) -> "Place":
        """The half-open stretch between two offsets."""
        return Place(self, start, end - start)


class Place(Struct, frozen=True, gc=False):
    """A half-open stretch of a source, in 0-based code points.

    Its size is kept and no end: a small number is the same object everywhere, which is a third of what a place takes.
    """

    source: Source
    start: int
    size: int

    @property
    def end(self) -> int:
        """The offset behind the last character."""
        return self.start + self.size

    @property
    def line(self) -> int:
        """The 1-based line of the first character."""
        return self.source.line_of(self.start)

    @property
    def column(self) -> int:
        """The 1-based column of the first character, in code points."""
        return self.start - self.source.line_starts[self.line - 1] + 1

    @property
    def text(self) -> str:
        """What stands there."""
        return self.source.text[self.start : self.end]

    @property
    def order(self) -> tuple[str, int, int]:
        """A sort key: file, then position."""
        return (self.source.name, self.start, self.end)

    def __str__(self) -> str:
        """The place as editors read it: ``name:line:column``."""
        return f"{self.source.name}:{self.line}:{self.column}"
