"""Lines past bodies: against points along them, and the shortest way of a graph of all that see each other."""

from itertools import combinations, pairwise
from math import dist
from random import Random

import networkx as nx
import pytest

from netcheck.reports.drawing.arranging import crosses
from netcheck.reports.drawing.past import ASIDE, Block, distance, is_free, past
from netcheck.reports.drawing.scene import Point

STEPS = 600


def along(start: Point, end: Point) -> list[Point]:
    """Points of a stretch, close to each other."""
    return [
        (start[0] + (end[0] - start[0]) * n / STEPS, start[1] + (end[1] - start[1]) * n / STEPS)
        for n in range(STEPS + 1)
    ]


def inside(at: Point, block: Block, margin: float) -> bool:
    """Whether a point is within a rectangle that is so much smaller on every side."""
    (left, top), (right, bottom) = block
    return left + margin < at[0] < right - margin and top + margin < at[1] < bottom - margin


def anywhere(random: Random) -> Point:
    return (random.uniform(0, 100), random.uniform(0, 100))


def block_at(random: Random, size: float = 30.0) -> Block:
    left, top = anywhere(random)
    return (left, top), (left + random.uniform(5, size), top + random.uniform(5, size))


@pytest.mark.parametrize("lot", range(20))
def test_how_far_a_point_is_from_a_line(lot: int) -> None:
    random = Random(lot)  # noqa: S311 - a repeated drawing of lots
    at, start, end = (anywhere(random) for _ in range(3))
    assert distance(at, start, end) == pytest.approx(min(dist(at, one) for one in along(start, end)), abs=0.2)
    assert distance(at, start, start) == dist(at, start)


@pytest.mark.parametrize("lot", range(60))
def test_whether_a_line_runs_over_a_body(lot: int) -> None:
    random = Random(lot)  # noqa: S311 - a repeated drawing of lots
    start, end, block = anywhere(random), anywhere(random), block_at(random, 60)
    over = [point for point in along(start, end) if inside(point, block, 0.1)]
    near = [point for point in along(start, end) if inside(point, block, -0.1)]
    if over or not near:
        assert crosses((start, end), block) is bool(over)
        assert is_free((start, end), [block]) is not bool(over)


BODY: Block = ((40.0, 40.0), (60.0, 60.0))
STRAIGHT: list[tuple[Point, Point, bool]] = [
    ((0.0, 50.0), (100.0, 50.0), True), ((0.0, 40.0), (100.0, 40.0), False), ((0.0, 60.0), (100.0, 60.0), False),
    ((50.0, 0.0), (50.0, 100.0), True), ((40.0, 0.0), (40.0, 100.0), False), ((60.0, 100.0), (60.0, 0.0), False),
    ((0.0, 50.0), (30.0, 50.0), False), ((0.0, 50.0), (40.0, 50.0), False), ((45.0, 45.0), (55.0, 55.0), True),
    ((0.0, 80.0), (80.0, 0.0), False), ((0.0, 80.2), (80.2, 0.0), True), ((50.0, 50.0), (50.0, 50.0), True),
]  # fmt: skip


@pytest.mark.parametrize(("start", "end", "over"), STRAIGHT)
def test_a_line_along_the_edge_of_a_body_is_not_over_it(start: Point, end: Point, *, over: bool) -> None:
    assert crosses((start, end), BODY) is over
    assert crosses(((0.0, 0.0), start, end), BODY) is over


def test_a_line_passes_a_body_at_its_nearer_corners() -> None:
    assert past((20.0, 48.0), (80.0, 48.0), [BODY]) == (
        (20.0, 48.0), (40 - ASIDE, 40 - ASIDE), (60 + ASIDE, 40 - ASIDE), (80.0, 48.0)
    )  # fmt: skip
    assert past((0.0, 20.0), (100.0, 25.0), [BODY]) == ((0.0, 20.0), (100.0, 25.0))


def test_where_no_way_is_free_it_is_straight() -> None:
    assert past((50.0, 50.0), (100.0, 50.0), [BODY]) == ((50.0, 50.0), (100.0, 50.0))


@pytest.mark.parametrize("lot", range(8))
def test_the_way_is_the_shortest_of_all_from_corner_to_corner(lot: int) -> None:
    random = Random(lot)  # noqa: S311 - a repeated drawing of lots
    blocks = [block_at(random) for _ in range(3)]
    start, end = (-20.0, random.uniform(0, 100)), (160.0, random.uniform(0, 100))
    corners = [
        (x, y) for (left, top), (right, bottom) in blocks
        for x in (left - ASIDE, right + ASIDE) for y in (top - ASIDE, bottom + ASIDE)
    ]  # fmt: skip
    sees = nx.Graph()
    for one, other in combinations([start, end, *corners], 2):
        if not any(inside(point, block, 0.01) for point in along(one, other) for block in blocks):
            sees.add_edge(one, other, weight=dist(one, other))
    found = past(start, end, blocks)
    assert (found[0], found[-1]) == (start, end)
    length = sum(dist(one, other) for one, other in pairwise(found))
    assert length == pytest.approx(nx.dijkstra_path_length(sees, start, end), rel=1e-3)
