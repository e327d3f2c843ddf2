"""What pairs join to one, and what is reached from a place."""

from collections.abc import Callable, Iterable

__all__ = ["joined_by", "reached"]


def joined_by(pairs: Iterable[tuple[int, int]]) -> dict[int, int]:
    """Every number that is in a pair, with the least that pairs join it to, by however many steps."""
    above: dict[int, int] = {}
    for a, b in pairs:
        one, other = _least(above, a), _least(above, b)
        above[max(one, other)] = min(one, other)
    return {number: _least(above, number) for number in above}


def reached(start: int, onward: Callable[[int], Iterable[int]]) -> frozenset[int]:
    """A number and all that are come to from it, each by a step that ``onward`` gives."""
    seen, waiting = {start}, [start]
    while waiting:
        fresh = {number for number in onward(waiting.pop()) if number not in seen}
        seen |= fresh
        waiting += fresh
    return frozenset(seen)


def _least(above: dict[int, int], number: int) -> int:
    """The least that one is joined to; ways that were gone are made shorter."""
    while (up := above.setdefault(number, number)) != number:
        above[number] = above.setdefault(up, up)
        number = up
    return number
