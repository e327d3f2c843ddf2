"""A part as it lies: its band at the end that it marks, its name inside of its body and on no band."""

import pytest

from netcheck.core.panel import End, Form, Panel, PartBox
from netcheck.reports.drawing import drawn_panel
from netcheck.reports.drawing.scene import Box, Disc, Words
from tests.geometry import frame, overlap

ENDS = {
    Form.DIODE: ("anode", "cathode"),
    Form.ELECTROLYTIC: ("-", "+"),
    Form.CAPACITOR: ("1", "2"),
    Form.RESISTOR: ("1", "2"),
    Form.BOX: ("1", "2"),
    Form.FUSE: ("1", "2"),
}
MARKED = (Form.DIODE, Form.ELECTROLYTIC)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("name", ["D1", "C101A", "SELENIUM-STACK-7"])
@pytest.mark.parametrize("form", ENDS)
def test_a_band_is_at_the_end_that_it_marks_and_the_name_beside_it(form: Form, name: str, *, turned: bool) -> None:
    ends = tuple(End(label) for label in (ENDS[form][::-1] if turned else ENDS[form]))
    things = drawn_panel(Panel((PartBox(name, ("1k",), ends, form),)), 509).things
    body = max((x for x in things if isinstance(x, Box)), key=lambda box: box.width)
    bands = [x for x in things if isinstance(x, Box) and x is not body and x.height > body.height / 2]
    (said,) = [x for x in things if isinstance(x, Words) and x.text == name]
    left, _, right, _ = frame(said)
    assert body.x <= left
    assert right <= body.x + body.width
    if form in MARKED:
        (band,) = bands
        assert not overlap(frame(said), frame(band))
        assert (band.x + band.width / 2 > body.x + body.width / 2) != turned
    else:
        assert (left + right) / 2 == pytest.approx(body.x + body.width / 2)
    leads = sorted(x.x for x in things if isinstance(x, Disc) and x.radius < 3)
    assert leads[0] < body.x
    assert leads[-1] > body.x + body.width
