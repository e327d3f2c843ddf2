"""Pages of cards: one that is too tall for the rest of a page lets a shorter one go first, and none is left empty."""

from netcheck.reports.drawing.block import Block
from netcheck.reports.drawing.paper import A4, NARROW
from netcheck.reports.drawing.scene import Thing
from netcheck.reports.drawing.sheet import filling, paged

HEIGHT = A4.height or 0.0
ROOM = HEIGHT - 2 * A4.margin - 14  # of which the foot takes 14


def blocks(*heights: float) -> list[Block]:
    return [Block(height, tuple[Thing, ...](), 0.0) for height in heights]


def filled(first: list[float], rows: list[float]) -> list[float]:
    return [block.height for block in filling(blocks(*first), blocks(*rows), A4)]


def test_what_fits_goes_before_what_does_not() -> None:
    assert filled([500.0], [300.0, 200.0, 50.0, 250.0]) == [500.0, 200.0, 50.0, 300.0, 250.0]


def test_to_the_last_point_of_a_page() -> None:
    assert filled([500.0], [300.0, ROOM - 500]) == [500.0, ROOM - 500, 300.0]
    assert filled([500.0], [300.0, ROOM - 500 + 1]) == [500.0, 300.0, ROOM - 500 + 1]


def test_the_order_stays_where_each_fits_and_where_none_does() -> None:
    assert filled([100.0], [200.0, 100.0, 300.0]) == [100.0, 200.0, 100.0, 300.0]
    assert filled([500.0], [400.0, 300.0]) == [500.0, 400.0, 300.0]


def test_a_row_never_goes_before_the_heading_and_the_map() -> None:
    assert filled([100.0, 700.0], [50.0]) == [100.0, 700.0, 50.0]


def test_a_gap_below_a_block_counts() -> None:
    gapped = [Block(500.0, (), 20.0), Block(ROOM - 510, (), 0.0), Block(ROOM - 520, (), 0.0)]
    assert filling(gapped[:1], gapped[1:], A4) == [gapped[0], gapped[2], gapped[1]]


def test_a_page_without_an_end_keeps_the_order() -> None:
    assert filling(blocks(500.0), blocks(300.0, 200.0), NARROW) == blocks(500.0, 300.0, 200.0)


def test_the_pages_are_fewer() -> None:
    given, rows = blocks(500.0), blocks(300.0, 200.0, 400.0)
    assert paged([*given, *rows], A4, "").pages == 3
    assert paged(filling(given, rows, A4), A4, "").pages == 2
