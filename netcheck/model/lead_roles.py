"""Which lead of a part ``from``, ``plus``, ``anode`` and their partners mean."""

from netcheck.core.article import with_article
from netcheck.core.circuit import Part
from netcheck.core.kind import Junction

__all__ = ["terminal_of", "wrong_role"]


def terminal_of(part: Part, role: str) -> str | None:
    """Which terminal a leads clause means by ``from``, ``plus``, ``anode`` and their partners."""
    shape = part.shape
    if shape is None:
        return None
    if role in ("from", "to"):
        leads = [t.name for t in part.leads]
        two = len(leads) == 2 and shape.polarity is None
        return leads[("from", "to").index(role)] if two else None
    if shape.polarity is None:
        return None
    return shape.polarity[0] if role in ("plus", "cathode") else shape.polarity[1]


def wrong_role(part: Part, role: str) -> tuple[str, str]:
    """What is said where a part has no such lead, and what to write."""
    shape = part.shape
    if shape is not None and shape.polarity is not None:
        words = ("anode POINT cathode POINT", "plus POINT minus POINT")[part.kind.junction is not Junction.SILICON]
        return f"`{part.name}` is polarised, and `{role}` does not say which lead", f"write `{words}`"
    leads = [t.name for t in part.leads]
    if role not in ("from", "to"):
        return f"`{part.name}` is {with_article(part.kind.word)} and has no {role} lead", "write `from POINT to POINT`"
    return f"`{part.name}` has {len(leads)} leads, not two", "put each where it is soldered with `at POINT: LEAD`"
