"""Which way round free parts lie, against every way that they can lie."""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import product
from random import Random

import pytest

from netcheck.compare.faults.orientation import turned_parts

Case = tuple[list[int], list[int], list[tuple[int, int]]]


def chassis(rng: Random, parts: int, nets: int, anchors: int) -> Case:
    """The old and new nets of the leads: parts of two ends, of which some lie the other way round, and single leads."""
    ends = [rng.sample(range(nets), 2) for _ in range(parts)]
    fixed = [rng.randrange(nets) for _ in range(anchors)]
    old = [net for pair in ends for net in pair] + fixed
    lying = [pair[::-1] if rng.random() < 0.5 else pair for pair in ends]
    name = rng.sample(range(100, 100 + nets), nets)
    new = [name[net] for pair in lying for net in pair] + [name[net] for net in fixed]
    return old, new, [(2 * n, 2 * n + 1) for n in range(parts)]


def slipped(rng: Random, case: Case, slips: int) -> Case:
    """The same with some leads on a net at random."""
    old, new, free = case
    astray = list(new)
    for _ in range(slips):
        astray[rng.randrange(len(new))] = rng.choice(new)
    return old, astray, free


def lying(new: Sequence[int], pairs: Sequence[tuple[int, int]]) -> list[int]:
    out = list(new)
    for i, j in pairs:
        out[i], out[j] = out[j], out[i]
    return out


def together(old: Sequence[int], new: Sequence[int]) -> int:
    """How many pairs of leads share a net in both states."""
    return sum(n * (n - 1) // 2 for n in Counter(zip(old, new, strict=True)).values())


def are_equal(old: Sequence[int], new: Sequence[int]) -> bool:
    return len(set(zip(old, new, strict=True))) == len(set(old)) == len(set(new))


@pytest.mark.parametrize("seed", range(60))
def test_of_equal_chassis_every_part_lies_as_it_was(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    old, new, free = chassis(rng, rng.randint(2, 30), rng.randint(3, 12), rng.randint(1, 3))
    assert are_equal(old, lying(new, turned_parts(old, new, free, {}, {})))


@pytest.mark.parametrize("seed", range(60))
def test_of_equal_chassis_without_a_fixed_lead_either_way_of_the_first_part_will_do(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    old, new, free = chassis(rng, rng.randint(3, 9), 4, 0)
    best = max(together(old, lying(new, chosen(free, ways))) for ways in product((False, True), repeat=len(free)))
    assert together(old, lying(new, turned_parts(old, new, free, {}, {}))) == best


def chosen(free: Sequence[tuple[int, int]], ways: Sequence[bool]) -> list[tuple[int, int]]:
    return [pair for pair, way in zip(free, ways, strict=True) if way]


@pytest.mark.parametrize("seed", range(60))
def test_of_a_wrong_chassis_no_part_turned_back_would_agree_with_more(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    old, new, free = slipped(rng, chassis(rng, rng.randint(3, 12), rng.randint(3, 7), 2), rng.randint(1, 6))
    laid = lying(new, turned_parts(old, new, free, {}, {}))
    for pair in free:
        assert together(old, lying(laid, [pair])) <= together(old, laid)


def test_of_wrong_chassis_the_best_of_all_ways_is_found_nearly_always() -> None:
    found = 0
    for seed in range(200):
        rng = Random(seed)  # noqa: S311 - repeated from a seed
        old, new, free = slipped(rng, chassis(rng, 7, 5, 3), 3)
        best = max(together(old, lying(new, chosen(free, ways))) for ways in product((False, True), repeat=len(free)))
        found += together(old, lying(new, turned_parts(old, new, free, {}, {}))) == best
    assert found >= NEARLY


NEARLY = 195  # of 200


def test_a_part_with_both_ends_on_one_net_has_no_way_round() -> None:
    assert turned_parts([1, 1, 1], [5, 6, 6], [(0, 1)], {}, {}) == ()
    assert turned_parts([1, 2, 1], [5, 5, 6], [(0, 1)], {}, {}) == ()


@pytest.mark.parametrize(
    ("votes", "ties", "turns"),
    [
        ({}, {}, False),  # nothing speaks for either way: it lies as it is written
        ({(1, 6): 1}, {}, True),  # the name of a net that both states have
        ({(2, 5): 1}, {}, True),
        ({(1, 5): 1}, {}, False),
        ({(1, 6): 1, (1, 5): 2}, {}, False),
        ({}, {(1, 6): 40}, True),  # a lug that both states name decides where nothing else does
        ({}, {(1, 6): 40, (2, 6): 80}, False),
        ({(1, 5): 1}, {(1, 6): 40}, False),  # and never against a vote
    ],
)
def test_names_decide_before_lugs(
    votes: Mapping[tuple[int, int], int],
    ties: Mapping[tuple[int, int], int],
    turns: bool,  # noqa: FBT001
) -> None:
    assert turned_parts([1, 2], [5, 6], [(0, 1)], votes, ties) == (((0, 1),) if turns else ())
