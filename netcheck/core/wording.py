"""Small pieces of sentences: a number with what it counts, and a list as it is spoken."""

from collections.abc import Sequence

__all__ = ["listed", "number_of"]


def number_of(count: int, word: str) -> str:
    """``1 part``, ``2 parts``."""
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"


def listed(names: Sequence[str], most: int | None = None) -> str:
    """``A``, ``A and B``, ``A, B and C``; of more than ``most`` the last are counted: ``A, B and 4 more``."""
    if most is not None and len(names) > most:
        return f"{', '.join(names[: most - 1])} and {len(names) - most + 1} more"
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else "".join(names)
