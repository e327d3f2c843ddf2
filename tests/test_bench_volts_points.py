"""How a failure's volts fit what was read: closed forms, at both sides of each limit, on lines of either sign."""

import numpy as np
import pytest

from netcheck.bench.power_up import LITTLE, Volts
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_points import NodeVolts, SheetPoint, misfit, parted, ratio_of
from netcheck.bench.volts_read import VoltsRead


def point(said: float, read: float | None = None, half: float | None = None, little: float = LITTLE) -> SheetPoint:
    """A point of node 1 that is expected at some volts within a fifth, at half line between 0.4 and 0.5 of them."""
    ends = (0.4 * said, 0.5 * said)
    volts = Volts("B+1", "SP1.1", said, (min(ends), max(ends)), little=little)
    return SheetPoint(volts, 1, said, 0.2, reading(read, at_half=False), reading(half, at_half=True))


def reading(volts: float | None, *, at_half: bool) -> VoltsRead | None:
    return None if volts is None else VoltsRead("SP1.1", Reading(str(volts), volts, volts, Unit.VOLTS), at_half)


def nodes(volts: float) -> NodeVolts:
    """Node 1 at these volts, at half line at 0.4 of them with all loads and 0.5 with none; node 0 is the common."""
    return NodeVolts(np.array([0.0, volts]), (np.array([0.0, 0.4 * volts]), np.array([0.0, 0.5 * volts])))


@pytest.mark.parametrize("sign", [1, -1])
def test_a_failure_halves_what_the_sheet_expects_where_it_halves_what_is_computed(sign: int) -> None:
    one = point(sign * 250.0)
    before, after = nodes(sign * 200.0), nodes(sign * 100.0)
    assert one.reads(before, after) == sign * 125
    assert one.reads_half(before, after) == pytest.approx((50, 62.5) if sign > 0 else (-62.5, -50))


def test_where_next_to_nothing_was_computed_the_difference_counts_and_no_gain_is_more_than_five() -> None:
    assert point(0.2).reads(nodes(0.5), nodes(3.0)) == pytest.approx(0.2 + 3.0 - 0.5)
    assert point(10.0).reads(nodes(0.6), nodes(3.0)) == pytest.approx(50)
    assert point(10.0).reads_half(nodes(2.0), nodes(100.0)) == pytest.approx((20, 25))
    assert point(10.0).reads_half(nodes(2.0), nodes(-100.0)) == pytest.approx((-25, -20))
    assert point(10.0).reads_half(nodes(0.5), nodes(100.0)) == pytest.approx((4, 5))  # half of 0.5 is nothing to go by
    assert point(10.0).reads_half(NodeVolts(np.zeros(2)), nodes(1.0)) is None


FULL = [(125.0, 0.0, True), (149.9, (24.9 / 10) ** 2, True), (150.1, (25.1 / 10) ** 2, False), (300.0, 16.0, False)]


@pytest.mark.parametrize(("read", "total", "possible"), FULL)
@pytest.mark.parametrize("sign", [1, -1])
def test_at_full_line_a_fifth_is_left_open_and_four_tenths_of_that_counts_as_one(
    read: float, total: float, sign: int, *, possible: bool
) -> None:
    """Expected are 125 V, within 25 V; as many of 10 V count by their square, to 16 at most."""
    for each in (read, 250 - read):
        found, may_be = misfit([point(sign * 250.0, sign * each)], nodes(sign * 200.0), nodes(sign * 100.0))
        assert found == pytest.approx(total)
        assert may_be is possible


def test_near_nothing_a_meters_own_error_or_what_the_sheet_allows_is_left_open() -> None:
    dead = nodes(0.0)
    assert [misfit([point(250.0, read)], nodes(200.0), dead)[1] for read in (7.4, 7.6)] == [True, False]
    assert [misfit([point(0.2, read)], dead, dead)[1] for read in (0.6, 0.8)] == [True, False]
    assert [misfit([point(0.2, read, little=1.25)], dead, dead)[1] for read in (1.4, 1.5)] == [True, False]
    assert [misfit([point(0.6, read)], nodes(0.6), dead)[1] for read in (0.09, 0.11)] == [True, False]


HALF = [(101.0, True), (125.0, True), (137.0, True), (138.0, False), (91.5, True), (90.5, False)]


@pytest.mark.parametrize(("read", "possible"), HALF)
@pytest.mark.parametrize("sign", [1, -1])
def test_at_half_line_a_tenth_beyond_either_end_is_left_open(read: float, sign: int, *, possible: bool) -> None:
    """From 100 to 125 V: to 137.5 V, and down to 90.9 V; of a negative line the same below the common."""
    one, as_it_is = point(sign * 250.0, half=sign * read), nodes(sign * 250.0)
    assert misfit([one], as_it_is, as_it_is)[1] is possible


def test_at_half_line_too_what_is_off_counts_by_its_square() -> None:
    as_it_is = nodes(250.0)
    assert misfit([point(250.0, half=130.0)], as_it_is, as_it_is)[0] == pytest.approx((5 / (0.4 * 12.5)) ** 2)
    assert misfit([point(250.0, half=95.0)], as_it_is, as_it_is)[0] == pytest.approx((5 / (0.4 * 100 / 11)) ** 2)
    assert misfit([point(250.0, half=110.0)], as_it_is, as_it_is) == (0.0, True)


def test_of_a_point_that_nothing_holds_any_reading_is_possible_at_a_cost() -> None:
    hanging = misfit([point(250.0, 3.0), point(250.0)], nodes(200.0), nodes(200.0), adrift={1})
    assert hanging == (4.0, True)


def test_ratios_are_of_what_there_was_and_one_where_there_was_next_to_nothing() -> None:
    assert list(ratio_of(np.array([50.0, 9.0, -30.0]), np.array([100.0, 0.5, 60.0]))) == [0.5, 1.0, -0.5]
    changed = nodes(100.0).times(np.array([1.0, 0.5]))
    assert changed.full[1] == 50
    assert changed.half is not None
    assert [one[1] for one in changed.half] == [20, 50]


def test_volts_are_told_apart_by_three_tenths_of_the_larger() -> None:
    one = point(250.0)
    assert parted([(100.0, 0), (142.0, 1)], one, 1.3) == ((121.0, (0, 1)),)
    assert parted([(144.0, 1), (100.0, 0)], one, 1.3) == ((100.0, (0,)), (144.0, (1,)))
    assert parted([(-100.0, 0), (-70.0, 1)], one, 1.3) == ((-85.0, (0, 1)),)
    assert parted([(0.0, 0), (0.09, 1)], one, 1.3) == ((0.045, (0, 1)),)
    assert len(parted([(0.0, 0), (0.11, 1)], one, 1.3)) == 2
