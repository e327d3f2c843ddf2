"""One structure over another, by hand: who speaks for which nets, and when two nets are taken for each other."""

import pytest

from netcheck.matching.laying import Laying
from netcheck.matching.structure import Structure, StructurePart

CROWD = 24  # parts on a net up to which they look for partners there


def triode(plate: int, grid: int, cathode: int) -> StructurePart:
    return StructurePart("6J5", (("plate", plate), ("grid", grid), ("cathode", cathode)))


def resistor(one: int, other: int, colour: str = "1k") -> StructurePart:
    return StructurePart(colour, (("end", one), ("end", other)))


def laid(*parts: StructurePart, over: tuple[StructurePart, ...] | None = None) -> Laying:
    """The parts over themselves, or over others; as many nets as the highest number asks for."""
    others = parts if over is None else over
    nets = 1 + max(net for part in (*parts, *others) for _, net in part.ends)
    return Laying(Structure(parts, nets), Structure(others, nets))


def links(laying: Laying) -> set[tuple[int, int]]:
    return {(old, new) for old, news in laying.links.items() for new in news}


def test_a_part_alone_links_nets_where_all_else_on_them_looks_alike() -> None:
    laying = laid(triode(0, 1, 2), resistor(0, 3))
    laying.pair(0, 0)
    assert links(laying) == {(0, 0), (1, 1), (2, 2)}


@pytest.mark.parametrize(
    "more",
    [resistor(0, 4, "22k"), triode(4, 0, 5), resistor(4, 5)],
    ids=["another value", "another end", "one part less"],
)
def test_where_something_else_is_on_a_net_two_parts_have_to_say_that_it_is_the_same(more: StructurePart) -> None:
    old = (triode(0, 1, 2), triode(0, 3, 2), resistor(0, 6))
    laying = laid(*old, over=(*old[:2], more))
    laying.pair(0, 0)
    assert links(laying) == {(1, 1), (2, 2)}
    laying.pair(1, 1)
    assert links(laying) == {(0, 0), (1, 1), (2, 2), (3, 3)}


def test_a_part_that_speaks_twice_for_two_nets_is_one_voice() -> None:
    """Both ends of a coil are on the net in doubt: of its eight parts the coil alone is the same, with two ends."""
    coil = StructurePart("coil", (("a", 0), ("b", 0)))
    hung = range(1, 8)
    laying = laid(coil, *(resistor(0, n) for n in hung), over=(coil, *(resistor(0, n, "22k") for n in hung)))
    laying.pair(0, 0)
    assert links(laying) == set()
    assert not laying.link_doubted()


@pytest.mark.parametrize(("others", "likely"), [(1, True), (2, False)])
def test_a_doubted_pair_of_nets_is_linked_where_half_of_what_is_on_them_is_the_same(
    others: int, *, likely: bool
) -> None:
    """Of two parts on either one is the same; of three one."""
    alien = tuple(resistor(0, 3 + n, "22k") for n in range(others))
    known = tuple(resistor(0, 3 + n) for n in range(others))
    laying = laid(triode(0, 1, 2), *known, over=(triode(0, 1, 2), *alien))
    laying.pair(0, 0)
    assert laying.link_doubted() is likely
    assert ((0, 0) in links(laying)) is likely


def test_of_the_doubted_the_likelier_is_first_and_of_equals_the_lower_number() -> None:
    """Net 0 has one of two the same, net 1 two of three, net 2 one of two."""
    old = (triode(0, 1, 2), resistor(0, 3), resistor(1, 4), resistor(1, 5), resistor(2, 6))
    new = (triode(0, 1, 2), resistor(0, 3, "22k"), resistor(1, 4), resistor(1, 5, "22k"), resistor(2, 6, "22k"))
    laying = laid(*old, over=new)
    laying.pair(0, 0)
    came: list[tuple[int, int]] = []
    while laying.link_doubted():
        came.append(next(iter(links(laying) - set(came))))
    assert came == [(1, 1), (0, 0), (2, 2)]


def test_a_doubted_net_that_is_linked_meanwhile_is_left() -> None:
    laying = laid(triode(0, 1, 2), resistor(0, 3), over=(triode(0, 1, 2), resistor(0, 3, "22k")))
    laying.pair(0, 0)
    laying.link(0, 3)
    assert not laying.link_doubted()
    assert links(laying) == {(0, 3), (1, 1), (2, 2)}


def test_a_net_may_be_linked_twice_but_not_twice_to_the_same() -> None:
    laying = laid(resistor(0, 1))
    for new in (0, 1, 0):
        laying.link(0, new)
    assert laying.links[0] == [0, 1]
    assert (laying.linked_back[0], laying.linked_back[1]) == ([0], [0])


def test_an_alike_net_alone_does_not_link_what_is_linked_already() -> None:
    """A joint that is missing: both halves have one old net, by two voices, not by one that finds it alike."""
    laying = laid(triode(0, 1, 2))
    laying.link(0, 2)
    laying.pair(0, 0)
    assert links(laying) == {(0, 2), (1, 1)}


def test_what_may_lie_either_way_votes_once_one_of_its_ends_is_linked() -> None:
    laying = laid(resistor(0, 1), over=(resistor(1, 0),))
    laying.pair(0, 0)
    assert links(laying) == set()
    laying.link(0, 1)
    assert links(laying) == {(0, 1), (1, 0)}


def test_an_unsettled_part_is_laid_the_way_that_more_else_agrees() -> None:
    old = (resistor(0, 1), resistor(1, 2, "22k"), resistor(0, 3, "47k"))
    laying = laid(*old, over=(resistor(1, 0), resistor(0, 2, "22k"), resistor(1, 3, "47k")))
    laying.pair(0, 0)
    assert laying.turn_unsettled()
    assert links(laying) == {(0, 1), (1, 0)}
    assert not laying.turn_unsettled()


def test_what_is_settled_meanwhile_needs_no_turning() -> None:
    laying = laid(resistor(0, 1), resistor(2, 3))
    laying.pair(0, 0)
    laying.pair(1, 1)
    for net in (0, 1):
        laying.link(net, net)
    assert laying.turn_unsettled()
    assert links(laying) == {(0, 0), (1, 1), (2, 2), (3, 3)}
    assert not laying.turn_unsettled()


def test_ends_agree_by_role_and_are_shared_whatever_the_role() -> None:
    laying = laid(triode(0, 1, 2), over=(triode(1, 0, 2),))
    for net in range(3):
        laying.link(net, net)
    assert laying.agreed(0, 0) == (1, 3)
    assert laying.shared(0, 0) == (0, 1, 2)


def test_two_ends_on_a_net_need_two_ends_there() -> None:
    bridged, whole = resistor(0, 0), resistor(0, 1)
    laying = laid(bridged, whole, over=(whole, bridged))
    laying.link(0, 0)
    assert (laying.agreed(0, 0), laying.shared(0, 0)) == ((1, 1), (0,))
    assert (laying.agreed(0, 1), laying.shared(0, 1)) == ((2, 2), (0, 0))
    assert (laying.agreed(1, 1), laying.shared(1, 1)) == ((1, 1), (0,))


def test_a_part_without_the_role_agrees_in_none() -> None:
    laying = laid(triode(0, 1, 2), over=(StructurePart("6V6", (("plate", 0), ("screen", 1))),))
    for net in range(2):
        laying.link(net, net)
    assert laying.agreed(0, 0) == (1, 2)


def test_an_exchange_gives_both_parts_the_others_partner() -> None:
    laying = laid(resistor(0, 1), resistor(1, 2), resistor(2, 3))
    laying.pair(0, 0)
    laying.pair(1, 1)
    laying.exchange(0, 1, 1)
    assert (laying.new_of, laying.old_of) == ({0: 1, 1: 0}, {1: 0, 0: 1})
    laying.exchange(0, None, 2)
    assert (laying.new_of, laying.old_of) == ({0: 2, 1: 0}, {2: 0, 0: 1})


def test_after_an_exchange_nets_are_as_alike_as_their_parts_are_then() -> None:
    """With the triodes the other way the resistor of the first is on a net with nothing of its own."""
    old = (triode(0, 1, 2), triode(3, 4, 5), resistor(0, 6, "22k"), resistor(0, 7, "47k"))
    new = (triode(0, 1, 2), triode(3, 4, 5), resistor(0, 6, "22k"), resistor(0, 7))
    laying = laid(*old, over=new)
    laying.pair(0, 0)
    laying.pair(1, 1)
    laying.exchange(0, 1, 1)
    assert not laying.link_doubted()


@pytest.mark.parametrize(("parts", "looked"), [(CROWD, True), (CROWD + 1, False)])
def test_on_a_crowded_net_nobody_is_woken_by_a_pair(parts: int, *, looked: bool) -> None:
    laying = laid(*(resistor(0, n) for n in range(1, parts + 1)))
    laying.pair(0, 0)
    assert laying.touched == (list(range(1, parts)) if looked else [])


def test_a_link_wakes_the_parts_that_are_still_free_on_it() -> None:
    laying = laid(resistor(0, 1), resistor(0, 2), resistor(3, 4))
    laying.pair(0, 0)
    laying.touched.clear()
    laying.link(0, 0)
    assert laying.touched == [1]


@pytest.mark.parametrize(("one", "other"), [(1, 3), (3, 1)], ids=["of the first net", "of the second net"])
def test_two_nets_are_less_alike_once_a_part_of_one_has_its_partner_elsewhere(one: int, other: int) -> None:
    """Two of three on either net look alike; then one of them is taken for a part that is on neither."""
    parts = (triode(0, 1, 2), resistor(0, 3, "22k"))
    laying = laid(*parts, resistor(0, 4, "47k"), resistor(5, 6, "22k"),
                  over=(*parts, resistor(0, 4, "33k"), resistor(5, 6, "22k")))  # fmt: skip
    laying.pair(0, 0)
    laying.pair(one, other)
    assert not laying.link_doubted()
    assert links(laying) == {(1, 1), (2, 2)}
