"""Which old goes with which new, where that can be seen at a glance."""

from collections import defaultdict
from collections.abc import Mapping
from typing import TypeVar

__all__ = ["only_pairing"]

A = TypeVar("A")

_LOOKS = 8


def only_pairing(weights: Mapping[tuple[A, A], int]) -> dict[A, A] | None:
    """The pairing of old with new that keeps the greatest total weight, if a few looks show that it is the only one.

    A pair that outweighs the heaviest other pair of its old and that of its new together is in every heaviest pairing:
    where it was left out, putting it in costs those two at most. Both ends are then settled, and their other pairs out.
    """
    found: dict[A, A] = {}
    left = dict(weights)
    for _ in range(_LOOKS):
        settled = _outweighing(left)
        found.update(settled)
        taken = set(settled.values())
        left = {(old, new): w for (old, new), w in left.items() if old not in settled and new not in taken}
        if not left or not settled:
            break
    return None if left else found


def _outweighing(weights: Mapping[tuple[A, A], int]) -> dict[A, A]:
    """The pairs that outweigh the two heaviest beside them together."""
    of_old, of_new = defaultdict[A, list[int]](list), defaultdict[A, list[int]](list)
    for (old, new), weight in weights.items():
        of_old[old].append(weight)
        of_new[new].append(weight)
    for all_weights in (*of_old.values(), *of_new.values()):
        all_weights.sort(reverse=True)
    return {old: new for (old, new), weight in weights.items() if weight > _beside(of_old[old]) + _beside(of_new[new])
            and weight == of_old[old][0] == of_new[new][0]}  # fmt: skip


def _beside(weights: list[int]) -> int:
    """The heaviest but one, of weights from the heaviest down."""
    return weights[1] if len(weights) > 1 else 0
