"""The article before a word as it is spoken: ``an electrolytic``, ``a 6V6GT``, ``an 80``, ``an EL34``."""

import re

__all__ = ["with_article"]

# A letter that stands alone is spoken by its name: `an L1`, `a U5`; a figure by its number.
_AN = r"8|1[18](?!\d)|[aeiou]|[AEFHILMNORSX](?![a-z])|[AEIO]"


def with_article(word: str) -> str:
    """A word with the article that goes before it."""
    return f"an {word}" if re.match(_AN, word) else f"a {word}"
