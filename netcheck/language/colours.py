"""The colours of wires and of the leads of parts, one word or several with a stroke: ``red``, ``green-yellow``."""

import re

__all__ = ["is_colour"]

_COLOURS = frozenset(
    {"black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "purple", "gray", "grey", "slate"}
    | {"white", "pink", "tan", "maroon", "natural", "clear", "bare"}
)


def is_colour(word: str) -> bool:
    """Whether a word names a colour, with or without that of a tracer."""
    return all(piece in _COLOURS for piece in re.split(r"[-/]", word.lower()))
