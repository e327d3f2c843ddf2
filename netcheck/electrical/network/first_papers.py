"""Small capacitors that a rectifier charges first: without a filter before them they smooth what there is."""

from itertools import chain

from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import Capacitor, Inductor, Rectifier, Resistor, VoltageSource, pair_of

__all__ = ["LEAST_CHARGE", "take_first_papers"]

LEAST_CHARGE = 1e-7
"""Farads from which one that a rectifier charges is dangerous to touch (45 microcoulombs at 450 V)."""


def take_first_papers(draft: Draft) -> None:
    """Small capacitors that a rectifier charges through resistors, with no filter before them, smooth what there is."""
    reached = _unfiltered(draft)
    first = [one for one in draft.papers if one.farads >= LEAST_CHARGE and not reached.isdisjoint(pair_of(one))]
    draft.elements.extend(first)
    draft.papers = [one for one in draft.papers if one not in first]


def _unfiltered(draft: Draft) -> set[int]:
    """The nets that resistors and chokes join to a rectifier's output, up to where a filter capacitor stands."""
    kinds: dict[type, list[tuple[int, int]]] = {}
    for one in draft.elements:
        kinds.setdefault(type(one), []).append(pair_of(one))
    still = {draft.reference, *chain.from_iterable((*kinds.get(Capacitor, ()), *kinds.get(VoltageSource, ())))}
    ways = [*kinds.get(Resistor, ()), *kinds.get(Inductor, ()), *draft.closed]
    seen = set(chain.from_iterable(kinds.get(Rectifier, ()))) - still
    while fresh := {net for way in ways if not seen.isdisjoint(way) for net in way} - seen - still:
        seen |= fresh
    return seen
