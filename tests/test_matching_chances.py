"""Who may be the counterpart of a part on the nets that are linked so far, weighed by hand."""

import pytest

from netcheck.matching.chances import Chances
from netcheck.matching.laying import Laying
from netcheck.matching.structure import Anchors, Structure
from netcheck.matching.surroundings import surroundings
from tests.test_matching_correspondence import CROWD, resistor, triode


def chances(old: Structure, new: Structure, *nets: tuple[int, int]) -> tuple[Laying, Chances]:
    anchors = Anchors(nets=nets)
    laying = Laying(old, new)
    for pair in nets:
        laying.link(*pair)
    return laying, Chances(laying, surroundings(old, new, anchors))


def test_the_best_partner_misses_the_fewest_ends_that_could_be_there() -> None:
    old = Structure((triode(0, 1, 2),), 6)
    new = Structure((triode(0, 1, 3), triode(0, 4, 5)), 6)
    _, weighed = chances(old, new, (0, 0), (1, 1), (2, 2))
    best = weighed.best(0)
    assert best is not None
    # Plate and grid agree: one of three is missed; half of what could speak for it in role and net does not.
    assert (best.old, best.new, best.missed, best.rivals) == (0, 0, 1, False)
    assert best.apart == pytest.approx(1 - (2 + 2) / 6)


def test_a_partner_in_the_wrong_role_is_half_as_good() -> None:
    old, new = Structure((triode(0, 1, 2),), 3), Structure((triode(1, 0, 2),), 3)
    best = chances(old, new, (0, 0), (1, 1), (2, 2))[1].best(0)
    assert best is not None
    assert best.missed == 2
    assert best.apart == pytest.approx(1 - (1 + 3) / 6)


def test_no_link_no_partner_and_none_that_is_taken_or_of_another_colour() -> None:
    old = Structure((resistor(0, 1), resistor(0, 1, "22k")), 2)
    new = Structure((resistor(0, 1), resistor(0, 1, "33k")), 2)
    assert chances(old, new)[1].best(0) is None
    laying, weighed = chances(old, new, (0, 0))
    assert weighed.best(1) is None
    best = weighed.best(0)
    assert best is not None
    assert best.new == 0
    laying.old_of[0] = 1
    assert weighed.best(0) is None


def test_two_that_are_as_good_are_rivals_on_either_side() -> None:
    one, two = Structure((resistor(0, 1),), 3), Structure((resistor(0, 1), resistor(0, 2)), 3)
    for old, new in ((one, two), (two, one)):
        best = chances(old, new, (0, 0))[1].best(0)
        assert best is not None
        assert best.rivals
    # One of the two has something at its far end, as the old one has.
    marked = Structure((*two.parts, resistor(1, 3, "22k")), 4)
    best = chances(Structure((resistor(0, 1), resistor(1, 2, "22k")), 3), marked, (0, 0))[1].best(0)
    assert best is not None
    assert (best.new, best.rivals) == (0, False)


def test_a_rival_that_has_its_partner_is_none_any_more() -> None:
    two = Structure((resistor(0, 1), resistor(0, 2)), 3)
    laying, weighed = chances(two, two, (0, 0))
    laying.pair(1, 1)
    best = weighed.best(0)
    assert best is not None
    assert not best.rivals
    # The same where the other pair has linked nothing further yet.
    laying, weighed = chances(two, two, (0, 0))
    laying.new_of[1] = laying.old_of[1] = 1
    best = weighed.best(0)
    assert best is not None
    assert (best.new, best.rivals) == (0, False)


@pytest.mark.parametrize(("alike", "found"), [(CROWD, True), (CROWD + 1, False)])
def test_in_a_crowd_of_one_colour_nobody_looks_for_a_partner(alike: int, *, found: bool) -> None:
    wide = Structure(tuple(resistor(0, n) for n in range(1, alike + 1)), alike + 1)
    assert (chances(wide, wide, (0, 0))[1].best(0) is not None) is found


@pytest.mark.parametrize(("away", "unlike"), [(1, 4), (2, 3), (3, 2), (4, 1), (5, 0)])
def test_how_unlike_two_look_is_counted_in_steps_from_afar(away: int, unlike: int) -> None:
    """Two rows of resistors, of which one so many away is another: next to it at the first of four steps."""
    old = Structure(tuple(resistor(n, n + 1) for n in range(away + 1)), away + 2)
    new = Structure((*old.parts[:-1], resistor(away, away + 1, "22k")), away + 2)
    best = chances(old, new, (0, 0))[1].best(0)
    assert best is not None
    assert (best.new, best.unlike) == (0, unlike)


def test_a_part_had_better_change_partners_where_more_ends_agree_then() -> None:
    """Two triodes taken for each other; the first would have all of its ends, and so would the second."""
    both = Structure((triode(0, 1, 2), triode(3, 4, 2)), 5)
    laying, weighed = chances(both, both, *((n, n) for n in range(5)))
    laying.pair(0, 1)
    laying.pair(1, 0)
    assert weighed.better(0) == 0
    laying.exchange(0, 1, 0)
    assert weighed.better(0) is None
    assert weighed.better(1) is None


def test_what_the_other_loses_counts_as_much() -> None:
    """The first has one end more with the second's partner, the second loses all three of its own."""
    old = Structure((triode(0, 1, 2), triode(0, 4, 5)), 6)
    new = Structure((triode(3, 4, 2), triode(0, 4, 5)), 6)
    laying, weighed = chances(old, new, *((n, n) for n in range(6)))
    laying.pair(0, 0)
    laying.pair(1, 1)
    assert weighed.better(0) is None


def test_an_end_on_a_net_that_is_linked_to_nothing_is_not_missed() -> None:
    """Of three ends one is on a linked net, and agrees; what the others are on is not known yet."""
    one = Structure((triode(0, 1, 2),), 3)
    best = chances(one, one, (0, 0))[1].best(0)
    assert best is not None
    assert best.missed == 0
    assert best.apart == pytest.approx(1 - (1 + 1) / 6)
