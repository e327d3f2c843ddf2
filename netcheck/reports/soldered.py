"""What is on a lug, in words: the leads and wires soldered there, and what the drawing alone puts there."""

from collections.abc import Iterator

from netcheck.model.places import HeldBy, Item, Spot

__all__ = ["COPIED", "DRAWN_ONLY", "said"]

_MOST_DRAWN = 8  # of a net as drawn; the rest is counted
COPIED = "* copied from the file that this one starts from; nobody has looked at it on the chassis since"
DRAWN_ONLY = "(in brackets): connected here by the drawing; which lug it is soldered to is not written down"


def said(spot: Spot) -> Iterator[str]:
    """What is on a spot, piece by piece."""
    if not spot.is_held:
        reason = f' "{spot.spare}"' if spot.spare else ""
        yield "empty" if spot.spare is None else f"empty on purpose{reason}"
    yield from (_piece(item) for item in spot.items if item.put not in (HeldBy.DRAWN, HeldBy.MORE))
    names = list(dict.fromkeys(item.name for item in spot.items if item.put is HeldBy.DRAWN))
    count = len(names) + sum(int(item.name) for item in spot.items if item.put is HeldBy.MORE)
    if count > _MOST_DRAWN + 1:
        names = [*names[:_MOST_DRAWN], f"and {count - _MOST_DRAWN} more"]
    if names:
        yield f"({', '.join(names)})"


def _piece(item: Item) -> str:
    star = "*" if item.inherited else ""
    if item.put is HeldBy.WIRE:
        passed = f" that passes {' and '.join(item.past)}" if item.past else ""
        return f"wire {item.words + ' ' if item.words else ''}to {item.name}{star}{passed}"
    if item.put is HeldBy.PAST:
        return f"wire {item.words + ' ' if item.words else ''}from {item.name} only passes{star}"
    if item.put is HeldBy.AT:
        return f"soldered at {item.name}{star}"
    if item.put is HeldBy.BONDED:
        return "bolted to the chassis"
    if item.put is HeldBy.INSIDE:
        return f"one point with {item.name}"
    return f"{item.name}{star}"
