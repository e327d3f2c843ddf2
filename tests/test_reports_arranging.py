"""Who stands where in a panel: rows that meet the lines between them."""

import pytest

from netcheck.core.panel import Line, Mark, Panel
from netcheck.reports.drawing.arranging import arranged
from tests.panels import BACKWARDS, PANELS, socket, strip

BELOW = Panel(
    cards=(
        strip("SP1", 5, 3, {1: "B+", 5: "AVC"}),
        socket("V1", "6V6GT", 8, {4: "B+"}),
        strip("SP2", 2, 0, {1: "AVC"}),
    ),
    lines=(Line((0, "1"), (1, "4"), Mark.OFF), Line((0, "5"), (2, "1"), Mark.OFF)),
)


@pytest.mark.parametrize(
    ("panel", "level", "along"), [(BACKWARDS, 0, 1.0), (PANELS["selenium"], 1, 0.5), (BELOW, 2, 0.0)]
)
def test_high_and_low_in_a_row_meet_the_lines_between_the_rows(panel: Panel, level: int, along: float) -> None:
    """Places above stand on one line, places below hang from one, parts between are about one."""
    found = arranged(panel, 509)
    assert found is not None
    row = [seat for seat in found.seats.values() if seat.level == level]
    assert len({seat.shape.height for seat in row}) > 1
    assert len({round(seat.corner[1] + along * seat.shape.height, 3) for seat in row}) == 1
