"""Explanations that no reading tells apart, named in few words: one of these slips, and one of those."""

from collections.abc import Mapping, Sequence

from netcheck.bench.explanation import Explanation
from netcheck.bench.slips import Cause

__all__ = ["products"]

_Places = tuple[tuple[Cause, ...], ...]
_Partners = dict[str, dict[str, None]]


def products(group: Sequence[Explanation]) -> tuple[_Places, ...]:
    """For each place of an explanation the slips that may be there: every choice is one of the group, and no other."""
    slips = {slip.words: slip for one in group for slip in one.slips}
    if len(group[0].slips) == 1:
        return ((tuple(slips.values()),),)
    found = []
    left = _partners(group)
    for one in group:
        first, second = (slip.words for slip in one.slips)
        if second in left[first]:
            places = _product(left, first)
            _strike(left, places)
            found.append(tuple(tuple(slips[words] for words in place) for place in places))
    return tuple(found)


def _partners(group: Sequence[Explanation]) -> _Partners:
    """For each slip those that it explains the readings with, whichever is named first."""
    found: _Partners = {}
    for one in group:
        first, second = (slip.words for slip in one.slips)
        found.setdefault(first, {})[second] = None
        found.setdefault(second, {})[first] = None
    return found


def _product(left: Mapping[str, dict[str, None]], first: str) -> tuple[list[str], list[str]]:
    """All that go with a slip, and all that go with every one of those."""
    seconds = left[first]
    firsts = [words for words, others in left.items() if seconds.keys() <= others.keys()]
    return [first, *(words for words in firsts if words != first)], list(seconds)


def _strike(left: _Partners, places: tuple[list[str], list[str]]) -> None:
    for one in places[0]:
        for other in places[1]:
            left[one].pop(other, None)
            left[other].pop(one, None)
