"""Small pieces of sentences: a number with what it counts or to so many figures, and a list as it is spoken."""

from collections.abc import Sequence

__all__ = ["listed", "number_of", "significant"]


def number_of(count: int, word: str) -> str:
    """``1 part``, ``2 parts``."""
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"


def significant(amount: float, figures: int) -> str:
    """An amount to so many figures, never as a power of ten: ``110`` for 112 to two. Nothing has no minus."""
    rounded = float(f"{amount:.{figures}g}") + 0.0
    return f"{rounded:.0f}" if abs(rounded) >= 10 ** (figures - 1) else f"{rounded:g}"


def listed(names: Sequence[str], most: int | None = None) -> str:
    """``A``, ``A and B``, ``A, B and C``; of more than ``most`` the last are counted: ``A, B and 4 more``."""
    if most is not None and len(names) > most:
        return f"{', '.join(names[: most - 1])} and {len(names) - most + 1} more"
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else "".join(names)
