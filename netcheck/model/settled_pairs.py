"""The pairs of a weighed pairing in which there is no choice."""

from collections.abc import Mapping
from typing import TypeVar

from netcheck.core.pairing import only_pairing

__all__ = ["without_choice"]

A = TypeVar("A")


def without_choice(weights: Mapping[tuple[A, A], int]) -> tuple[dict[A, A], dict[tuple[A, A], int]]:
    """The pairs that every best pairing has, and the weights of all others.

    They stand around one key that has all its partners to itself, one of which weighs most; or all that are left
    outweigh what is beside them. Weights are above nothing.
    """
    sides: dict[tuple[int, A], list[tuple[A, A]]] = {}
    for pair in weights:
        for side in (0, 1):
            sides.setdefault((side, pair[side]), []).append(pair)
    settled: dict[A, A] = {}
    done: set[tuple[A, A]] = set()
    for (side, _), pairs in sides.items():
        heaviest = sorted(map(weights.__getitem__, pairs))[-2:]
        lonely = all(len(sides[1 - side, pair[1 - side]]) == 1 for pair in pairs)
        if lonely and done.isdisjoint(pairs) and len(set(heaviest)) == len(heaviest):
            done.update(pairs)
            old, new = max(pairs, key=weights.__getitem__)
            settled[old] = new
    left = {pair: weight for pair, weight in weights.items() if pair not in done}
    plain = only_pairing(left)
    return (settled, left) if plain is None else (settled | plain, {})
