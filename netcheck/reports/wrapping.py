"""Words in lines of a width; only blanks break a line, so that a lead's name stays whole."""

from collections.abc import Iterable, Iterator

from netcheck.reports.excerpt import cells

__all__ = ["in_lines"]


def in_lines(words: Iterable[str], width: int, first: str = "", other: str = "") -> Iterator[str]:
    """Lines of at most ``width`` cells, the first begun with ``first``, the others with ``other``.

    A word longer than a line has a line to itself; without a word there is no line.
    """
    words = tuple(words)
    whole = first + " ".join(words)
    if words and cells(whole) <= width:
        yield whole
        return
    line, empty = first, True
    for word in words:
        if not empty and cells(line) + 1 + cells(word) > width:
            yield line
            line, empty = other, True
        line, empty = (line + word if empty else f"{line} {word}"), False
    if not empty:
        yield line
