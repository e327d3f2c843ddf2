"""What a place is in a few words: its kind, how its lugs count, where it sits."""

from netcheck.core.circuit import Part, Stand
from netcheck.core.kind import Standing
from netcheck.core.quantity import Dimension
from netcheck.parts.basings import basing_of

__all__ = ["about"]


def about(part: Part, stand: Stand | None) -> str:
    """``strip, 5 lugs, left to right seen from below, "by the fuse"``, and where it sits if that is known."""
    features = part.features
    basing = features.basing or (basing_of(features.type) if features.type else None)
    count = features.first(Dimension.LUGS) or features.first(Dimension.PINS)
    mounting = [word for word in features.words if word in ("grounded", "insulated")]
    words = [
        f"{part.kind.word} {features.type}".strip(),
        basing.socket if basing is not None else "",
        "basing from memory" if basing is not None and basing.standing is Standing.MEMORY else "",
        count.written if count is not None else "",
        "" if part.kind.place or features.windings else " ".join(q.written for q in features.quantities[:2]),
        *mounting,
        part.kind.seat.counted,
        f'"{features.description}"' if features.description else "",
    ]
    return f"{', '.join(word for word in words if word)}{_sits(stand)}"


def _sits(stand: Stand | None) -> str:
    """``, 120 mm from the left, 85 mm from the back``."""
    if stand is None:
        return ""
    turned = ", turned" if stand.turned else ""
    return f", {stand.written[0]} from the left, {stand.written[1]} from the back{turned}"
