"""What lies where on another structure: against pairs that are known, since the other was made of the first."""

import random
from collections import Counter
from collections.abc import Mapping
from itertools import pairwise

import pytest
from msgspec.structs import replace
from scipy.optimize import linear_sum_assignment

from netcheck.matching.correspondence import correspondence
from netcheck.matching.structure import Anchors, Structure, StructurePart

ROLES = {
    "100k": ("end", "end"), "22k": ("end", "end"), "47k": ("end", "end"), "20 mfd": ("plus", "minus"),
    "6J5": ("plate", "grid", "cathode"), "6V6": ("plate", "grid", "cathode", "screen"),
}  # fmt: skip
CROWD = 24  # parts of one colour on a net, or parts at all, up to which they look for partners there
Pairs = Mapping[int, int]


def resistor(one: int, other: int, colour: str = "1k", kin: str | None = None) -> StructurePart:
    return StructurePart(colour, (("end", one), ("end", other)), kin)


def triode(plate: int, grid: int, cathode: int) -> StructurePart:
    return StructurePart("6J5", (("plate", plate), ("grid", grid), ("cathode", cathode)))


def drawn(dice: random.Random) -> Structure:
    """Ten to forty parts on about as many nets as a set has."""
    parts = dice.randint(10, 40)
    nets = dice.randint(parts // 2, parts)
    colours = dice.choices(list(ROLES), k=parts)
    return Structure(
        tuple(StructurePart(c, tuple((role, dice.randrange(nets)) for role in ROLES[c])) for c in colours), nets
    )


def planted(old: Structure, dice: random.Random, faults: int) -> tuple[Structure, Pairs, Pairs]:
    """The same in another order with so many ends exchanged, and which part and net is which."""
    ends = [[list(end) for end in part.ends] for part in old.parts]
    for _ in range(faults):
        one, other = (dice.choice(dice.choice(ends)) for _ in range(2))
        one[1], other[1] = other[1], one[1]
    nets = dice.sample(range(old.nets), old.nets)
    order = dice.sample(range(len(ends)), len(ends))
    made = [
        replace(
            old.parts[at], ends=tuple((role, nets[int(str(net))]) for role, net in dice.sample(ends[at], len(ends[at])))
        )
        for at in order
    ]
    return Structure(tuple(made), old.nets), {was: now for now, was in enumerate(order)}, dict(enumerate(nets))


def agreed(old: Structure, new: Structure, parts: Pairs, nets: Pairs) -> int:
    """How many ends of all parts a pairing explains."""
    return sum(
        (Counter((role, nets.get(net, -1)) for role, net in old.parts[a].ends) & Counter(new.parts[b].ends)).total()
        for a, b in parts.items()
    )


def kept(*nets: int) -> Anchors:
    """So many nets that are known to be what they were."""
    return Anchors(nets=tuple((net, net) for net in nets))


def test_what_is_the_same_is_laid_end_on_end() -> None:
    dice = random.Random(5)  # noqa: S311 (repeatable, and no secret)
    for _ in range(80):
        old = drawn(dice)
        new, *_ = planted(old, dice, 0)
        found = correspondence(old, new)
        pairs = {each.old: each.new for each in found.parts}
        assert len(pairs) == len(old.parts)
        assert agreed(old, new, pairs, dict(found.nets)) == sum(len(part.ends) for part in old.parts)
        assert all(each.agreed == each.ends == len(old.parts[each.old].ends) for each in found.parts)
        assert all(sorted(each.shared) == sorted(net for _, net in old.parts[each.old].ends) for each in found.parts)


# Ends exchanged, and of 80 structures how often less agrees than with the pairs that the other was made by.
SHORT = [(1, 6), (2, 13), (3, 23)]


@pytest.mark.parametrize(("faults", "most"), SHORT)
def test_with_a_few_ends_exchanged_it_seldom_explains_less_than_what_was_done(faults: int, most: int) -> None:
    dice = random.Random(5)  # noqa: S311 (repeatable, and no secret)
    short = 0
    for _ in range(80):
        old = drawn(dice)
        new, parts, nets = planted(old, dice, faults)
        found = correspondence(old, new)
        pairs = {each.old: each.new for each in found.parts}
        short += agreed(old, new, pairs, dict(found.nets)) < agreed(old, new, parts, nets)
    assert short <= most


def most_agreed(old: Structure, new: Structure, nets: Pairs) -> int:
    """How many ends the best pairing of all could explain on these nets: an assignment for each colour, by scipy."""
    found = 0
    for colour in ROLES:
        olds, news = ([part for part in side.parts if part.colour == colour] for side in (old, new))
        alike = [
            [(Counter((role, nets.get(net, -1)) for role, net in a.ends) & Counter(b.ends)).total() for b in news]
            for a in olds
        ]
        if olds:
            rows, columns = linear_sum_assignment(alike, maximize=True)
            found += sum(alike[row][column] for row, column in zip(rows, columns, strict=True))
    return found


def test_with_many_ends_exchanged_no_other_pairing_would_mostly_agree_in_more_of_them() -> None:
    """Sixteen ends of some seventy: of 80 structures eleven are not paired as well as their nets would allow."""
    dice = random.Random(5)  # noqa: S311 (repeatable, and no secret)
    short = 0
    for _ in range(80):
        old = drawn(dice)
        new, *_ = planted(old, dice, 8)
        found = correspondence(old, new)
        nets = dict(found.nets)
        short += agreed(old, new, {each.old: each.new for each in found.parts}, nets) < most_agreed(old, new, nets)
    assert short <= 11


@pytest.mark.parametrize("left_out", [0, 1])
def test_more_twins_than_look_for_one_another_are_paired_all_the_same(left_out: int) -> None:
    """Thirty equal bypass capacitors from one line to another; in a crowd of one colour nobody weighs partners."""
    tube = triode(0, 1, 2)
    old = Structure((tube, *(resistor(0, 1, "22k"),) * (CROWD + 6)), 3)
    new = Structure((*(resistor(1, 0, "22k"),) * (CROWD + 6 - left_out), tube), 3)
    found = correspondence(old, new)
    twins = [(each.old, each.new, each.agreed) for each in found.parts if each.ends == 2]
    assert twins == [(n + 1, n, 2) for n in range(CROWD + 6 - left_out)]


def test_twins_on_the_same_nets_in_other_roles_are_none() -> None:
    """A crowd of electrolytics, one of them with its plus where the others have their minus."""
    tube, right, turned = triode(0, 1, 2), (("plus", 0), ("minus", 1)), (("plus", 1), ("minus", 0))
    parts = [StructurePart("20 mfd", ends) for ends in (*(right,) * CROWD, turned)]
    found = correspondence(Structure((tube, *parts), 3), Structure((tube, parts[-1], *parts[:-1]), 3))
    assert {each.old: each.new for each in found.parts} == {0: 0, CROWD + 1: 1} | {
        n: n + 1 for n in range(1, CROWD + 1)
    }
    assert all(each.agreed == each.ends for each in found.parts)


def test_of_islands_that_look_alike_each_goes_whole_to_one() -> None:
    """Two dividers; in the other structure the upper halves stand in another order than the lower ones."""
    old = Structure((resistor(0, 1), resistor(1, 2, "22k"), resistor(3, 4), resistor(4, 5, "22k")), 6)
    new = Structure((resistor(3, 4), resistor(0, 1), resistor(1, 2, "22k"), resistor(4, 5, "22k")), 6)
    found = correspondence(old, new)
    assert {each.old: each.new for each in found.parts} == {0: 0, 1: 3, 2: 1, 3: 2}
    assert all(each.agreed == 2 for each in found.parts)


@pytest.mark.parametrize("length", [4, 12, 40])
def test_along_two_rows_that_look_alike_each_keeps_to_its_own(length: int) -> None:
    """Their first nets are known; four steps on nothing looks otherwise, and only what is next to it tells a part."""
    one = [0, *range(2, 2 + length)]
    other = [1, *range(2 + length, 2 + 2 * length)]
    rows = [resistor(*ends) for nets in (one, other) for ends in pairwise(nets)]
    old = Structure(tuple(rows), 2 + 2 * length)
    new = Structure((*rows[length:], *reversed(rows[:length])), 2 + 2 * length)
    found = correspondence(old, new, kept(0, 1))
    assert all(each.agreed == 2 for each in found.parts)
    assert [each.new for each in found.parts] == [*reversed(range(length, 2 * length)), *range(length)]
    assert found.nets == tuple((net, net) for net in range(2 + 2 * length))


def test_evidence_is_counted_on_the_nets_that_go_together() -> None:
    """A triode with plate and grid exchanged: both are shared, the cathode alone agrees."""
    rest = (resistor(0, 3), resistor(1, 4, "22k"), resistor(2, 5, "47k"))
    old, new = Structure((triode(0, 1, 2), *rest), 6), Structure((triode(1, 0, 2), *rest), 6)
    found = correspondence(old, new, kept(0, 1, 2))
    (first, *others) = found.parts
    assert (first.old, first.new, first.ends, first.agreed, sorted(first.shared)) == (0, 0, 3, 1, [0, 1, 2])
    assert [(each.old, each.new, each.agreed) for each in others] == [(n, n, 2) for n in (1, 2, 3)]
    assert found.nets == tuple((n, n) for n in range(6))


def test_what_was_known_is_not_told_again() -> None:
    chain = Structure((resistor(0, 1), resistor(1, 2), resistor(2, 3)), 4)
    found = correspondence(chain, chain, Anchors(parts=((0, 2),)))
    assert [(each.old, each.new) for each in found.parts] == [(1, 1), (2, 0)]
    assert found.nets == ((0, 3), (1, 2), (2, 1), (3, 0))


def test_what_is_known_is_kept_though_more_ends_would_agree_otherwise() -> None:
    """Two triodes said to be each other: the second would have all of its ends where the first one is."""
    both = Structure((triode(0, 1, 2), triode(3, 4, 2)), 5)
    found = correspondence(both, both, Anchors(parts=((0, 1),), nets=tuple((n, n) for n in range(5))))
    assert [(each.old, each.new, each.agreed) for each in found.parts] == [(1, 0, 1)]


def test_twins_are_paired_first_with_first_and_the_one_too_many_is_left() -> None:
    old = Structure((resistor(0, 1), *(resistor(0, 1, "22k"),) * 3), 2)
    new = Structure((resistor(1, 0), *(resistor(1, 0, "22k"),) * 2), 2)
    found = correspondence(old, new, Anchors(nets=((0, 0), (1, 1))))
    assert [(each.old, each.new, each.agreed) for each in found.parts] == [(0, 0, 2), (1, 1, 2), (2, 2, 2)]


def test_islands_that_nothing_leads_to_are_paired_by_their_looks() -> None:
    """Two dividers that look alike, in another order; nothing tells which is which, and their ends go together."""
    old = Structure((resistor(0, 1), resistor(1, 2, "22k"), resistor(3, 4), resistor(4, 5, "22k")), 6)
    new = Structure((resistor(4, 5, "22k"), resistor(3, 4), resistor(1, 2, "22k"), resistor(0, 1)), 6)
    found = correspondence(old, new)
    assert {each.old: each.new for each in found.parts} == {0: 1, 1: 0, 2: 3, 3: 2}
    assert all(each.agreed == 2 for each in found.parts)


def test_a_part_with_more_ends_elsewhere_is_paired_where_one_still_holds() -> None:
    """All three of a triode's ends but the cathode have moved to nets of other parts."""
    rest = (resistor(0, 3), resistor(1, 4, "22k"), resistor(2, 5, "47k"), resistor(6, 7, "33k"), resistor(8, 9, "10k"))
    old, new = Structure((triode(0, 1, 2), *rest), 10), Structure((*rest, triode(6, 8, 2)), 10)
    pairs = {each.old: each for each in correspondence(old, new, kept(0, 1, 2, 6, 8)).parts}
    assert (pairs[0].new, pairs[0].agreed, pairs[0].shared) == (5, 1, (2,))


def test_of_one_kin_the_first_that_agrees_at_every_end_is_taken() -> None:
    rest = (triode(0, 1, 2),)
    old = Structure((*rest, resistor(0, 2, "22k", "resistor"), resistor(0, 2, "33k", "resistor")), 3)
    new = Structure(
        (*rest, resistor(0, 1, "1k", "resistor"), resistor(2, 0, "2k", "resistor"), resistor(0, 2, "3k")), 3
    )
    found = correspondence(old, new, kept(0, 2))
    assert [(each.old, each.new) for each in found.parts] == [(0, 0), (1, 2)]


def test_a_few_in_a_crowd_are_found_once_doubtful_parts_have_led_to_its_net() -> None:
    """The net is known late, when tubes are laid there in spite of their grids; none looks for partners in a crowd."""
    others = (triode(5, 6, 7), resistor(3, 0, "22k"))
    old = Structure((triode(1, 3, 2), triode(1, 3, 8), *others, *(resistor(1, 0),) * 3), 9)
    new = Structure((triode(1, 4, 2), triode(1, 4, 8), *others, *(resistor(1, 0),) * (CROWD + 1)), 9)
    found = {each.old: each.new for each in correspondence(old, new, kept(0, 2, 3, 8)).parts}
    assert found == {0: 0, 1: 1, 2: 2, 3: 3, 4: 4, 5: 5, 6: 6}
