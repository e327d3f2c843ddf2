"""Which known word was meant, where one near name exists."""

from collections.abc import Iterable

__all__ = ["near"]

_LONGEST = 24
"""Longer words are no slip of the finger, and comparing them would cost."""


def near(word: str, known: Iterable[str], cutoff: float = 0.7) -> str:
    """The known word that is most like this one; empty where none is near."""
    if len(word) > _LONGEST:
        return ""
    import difflib  # only a mistake needs it

    matches = difflib.get_close_matches(word, known, n=1, cutoff=cutoff)
    return matches[0] if matches else ""
