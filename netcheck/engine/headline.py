"""How long a headline may be, and the longest way to say it that fits."""

__all__ = ["HEADLINE", "fitting"]

HEADLINE = 90
"""The most characters that a headline may have."""


def fitting(*ways: str) -> str:
    """The first way to say it that fits a headline; the last one, cut in the middle, where none does."""
    for way in ways:
        if len(way) <= HEADLINE:
            return way
    last, half = ways[-1], HEADLINE // 2 - 2
    return f"{last[:half]}...{last[-half:]}"
