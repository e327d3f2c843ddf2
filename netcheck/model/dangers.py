"""What a file shows of a set that can hurt who works on it, apart from the line: a picture tube, selenium."""

import re

from netcheck.core.caution import Dangers
from netcheck.core.circuit import Circuit

__all__ = ["dangers_of"]

_TELEVISION = re.compile(r"\b(television|televisor|TV)\b", re.IGNORECASE)
_BOOST = re.compile(r"\bboost", re.IGNORECASE)


def dangers_of(circuit: Circuit, *, hot: bool) -> Dangers:
    """The dangers of one state; ``hot`` is what is known of its metal. A boost voltage is a television's."""
    texts = (circuit.title, *(text for _, text in circuit.notes))
    boosted = any(_BOOST.search(one.point) for one in circuit.supplies)
    return Dangers(
        hot=hot,
        television=boosted or any(_TELEVISION.search(text) for text in texts),
        selenium=any(part.kind.word == "selenium" for part in circuit.parts.values()),
    )
