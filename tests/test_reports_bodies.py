"""A part as it lies: its band at the end that it marks, its name inside of its body and on no band."""

import pytest
from msgspec.structs import replace

from netcheck.core.panel import End, Form, Line, Lug, Mark, Panel, PartBox, Strip, Winding
from netcheck.reports.drawing import drawn_panel
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words
from tests.geometry import frame, overlap, spots

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


def lying(form: Form, *labels: str, name: str = "X1", **more: object) -> tuple[Thing, ...]:
    """What is drawn of a part that lies by itself."""
    part = PartBox(name, (), tuple(End(label) for label in labels or ENDS.get(form, ("1", "2"))), form)
    return drawn_panel(Panel((replace(part, **more),)), 509).things


def body_of(things: tuple[Thing, ...]) -> Box:
    return max((x for x in things if isinstance(x, Box)), key=lambda box: box.width)


def inside(thing: Thing, body: Box) -> bool:
    left, top, right, bottom = frame(thing)
    return body.x <= left and right <= body.x + body.width and body.y <= top and bottom <= body.y + body.height


def test_a_coil_is_its_turns_from_one_lead_to_the_other_and_no_box() -> None:
    things = lying(Form.COIL)
    assert not [x for x in things if isinstance(x, Box)]
    (turns,) = [x for x in things if isinstance(x, Stroke) and len(x.points) > 4]
    leads = sorted(end for x in things if isinstance(x, Stroke) and len(x.points) == 4 for end, _ in x.points)
    across = [x for x, _ in turns.points[::3]]
    assert across == sorted(across)
    assert across[0] in [pytest.approx(each) for each in leads]
    assert across[-1] in [pytest.approx(each) for each in leads]
    heights = [y for _, y in spots(turns)]
    crests = [1 for a, b, c in zip(heights, heights[1:], heights[2:], strict=False) if b < a and b <= c]
    assert len(crests) == 5
    (name,) = [x for x in things if isinstance(x, Words) and x.text == "X1"]
    assert frame(name)[1] > turns.points[0][1]  # under its axis, where the turns are not


def test_each_form_has_what_tells_it_from_the_others() -> None:
    """As the parts look: rings of a resistor, rims of a capacitor, caps of a fuse, a round lamp, plates of a stack."""
    looks = {}
    for form in (*ENDS, Form.LAMP, Form.STACK):
        things = lying(form, *(("-", "+") if form is Form.STACK else ()))
        body = body_of(things)
        bars = [x for x in things if isinstance(x, Box) and x is not body]
        rims = [x for x in things if isinstance(x, Stroke) and inside(x, body)]
        looks[form] = body, bars, rims
    ends = {form: sorted((bar.x - body.x, body.x + body.width - bar.x - bar.width) for bar in bars)
            for form, (body, bars, _) in looks.items()}  # fmt: skip
    for form in (Form.RESISTOR, Form.FUSE):
        (left, right) = ends[form]
        assert left[0] == pytest.approx(right[1])
        assert left[0] < 8
    assert ends[Form.FUSE][0][0] == 0  # its caps are its ends
    assert ends[Form.RESISTOR][0][0] > 0
    assert all(inside(bar, looks[Form.RESISTOR][0]) for bar in looks[Form.RESISTOR][1])
    assert len(looks[Form.CAPACITOR][2]) == 2
    assert not looks[Form.CAPACITOR][1]
    assert not looks[Form.BOX][1]
    body, plates, _ = looks[Form.STACK]
    out = [bar for bar in plates if bar.y < body.y and bar.y + bar.height > body.y + body.height]
    assert len(out) >= 4
    assert all(body.x < bar.x and bar.x + bar.width < body.x + body.width for bar in out)
    lamp = looks[Form.LAMP][0]
    assert lamp.radius == pytest.approx(lamp.height / 2)
    assert {looks[form][0].fill for form in looks} == {"#FFFFFF", looks[Form.BOX][0].fill}
    assert looks[Form.FUSE][0].fill == "#FFFFFF"  # glass


@pytest.mark.parametrize("form", [Form.ELECTROLYTIC, Form.STACK])
@pytest.mark.parametrize("ends", [("+", "-"), ("-", "+")])
def test_plus_and_minus_are_at_their_ends(form: Form, ends: tuple[str, str]) -> None:
    things = lying(form, *ends)
    body = body_of(things)
    plus = next(x for x in things if isinstance(x, Words) and x.text == "+")
    minus = next(x for x in things if isinstance(x, Words) and x.text in ("-", "\u2212"))
    assert (plus.x < minus.x) == (ends[0] == "+")
    band = next(x for x in things if isinstance(x, Box) and x.fill == "#555555")
    assert inside(plus, band)
    assert plus.colour == "#FFFFFF"
    assert inside(minus, body)
    assert not overlap(frame(minus), frame(band))


def test_a_part_of_one_lead_has_one_and_a_part_of_none_is_a_body() -> None:
    for labels in (("1",), ()):
        part = PartBox("X1", (), tuple(End(label) for label in labels), Form.RESISTOR)
        things = drawn_panel(Panel((part,)), 509).things
        assert len([x for x in things if isinstance(x, Disc)]) == len(labels)
        assert [x.text for x in things if isinstance(x, Words)] == [*labels, "X1"]


@pytest.mark.parametrize(("mark", "weight", "dashed"), [(Mark.ON, 2.0, True), (Mark.OFF, 4.0, False)])
@pytest.mark.parametrize("form", [Form.COIL, Form.RESISTOR, Form.WINDINGS])
def test_what_is_to_be_put_in_is_dashed_and_what_is_to_come_out_heavy(
    form: Form, mark: Mark, weight: float, *, dashed: bool
) -> None:
    windings = (Winding("w", "", ("1", "2")),) if form is Form.WINDINGS else ()
    things = lying(form, "1", "2", mark=mark, windings=windings)
    assert (weight, dashed) in {(x.weight, x.dashed) for x in things if isinstance(x, Box | Stroke)}
    plain = lying(form, "1", "2", windings=windings)
    assert not [x for x in plain if isinstance(x, Box | Stroke) and (x.dashed or x.weight > 2)]


@pytest.mark.parametrize("label", ["1", "outer-foil-end"])
@pytest.mark.parametrize("at_left", [True, False])
def test_a_lead_that_stays_says_its_net_beyond_its_end_and_a_long_label_too(label: str, *, at_left: bool) -> None:
    """The other lead has something to do, so its own net is not said again beside the line."""
    stays, goes = End(label, "B+1"), End("z", "plate")
    part = PartBox("R1", ("1k",), (stays, goes) if at_left else (goes, stays), Form.RESISTOR)
    line = Line((1, "z"), (0, "1"), Mark.ON)
    things = drawn_panel(Panel((Strip("SP1", (Lug("1"), Lug("2"))), part), (line,)), 509).things
    texts = {x.text: x for x in things if isinstance(x, Words)}
    said = "B+1" if label == "1" else f"{label}: B+1"
    body = body_of(tuple(x for x in things if isinstance(x, Box) and x.height == 27))
    left, _, right, _ = frame(texts[said])
    assert (right < body.x) if at_left else (left > body.x + body.width)
    assert texts[said].anchor == ("end" if at_left else "start")
    assert "plate" not in texts


def test_a_winding_is_drawn_in_turns_from_its_first_lead_to_its_last_and_named() -> None:
    """Two windings of a transformer and a lead of none: nothing is joined that is not one winding."""
    ends = tuple(End(label) for label in ("a", "tap", "b", "c", "d", "shield"))
    windings = (Winding("high", "300-0-300 V", ("a", "tap", "b")), Winding("heater", "", ("c", "d")))
    things = drawn_panel(Panel((PartBox("T1", ("power",), ends, Form.WINDINGS, windings=windings),)), 509).things
    names = {x.text: x for x in things if isinstance(x, Words)}
    assert {"high 300-0-300 V", "heater", "T1", "power"} <= {*names}
    turns = sorted((x for x in things if isinstance(x, Stroke) and len(x.points) > 4), key=lambda x: x.points[0][0])
    spans = [(x.points[0][0], x.points[-1][0]) for x in turns]
    at = {label: names[label].x for label in ("a", "tap", "b", "c", "d", "shield")}
    assert [x for span in spans for x in span] == pytest.approx([at[label] for label in ("a", "b", "c", "d")])
    assert at["a"] < at["tap"] < at["b"] < at["c"] < at["d"] < at["shield"]
    body = body_of(things)
    assert all(inside(one, body) for one in turns)
    assert all(inside(names[text], body) for text in ("T1", "high 300-0-300 V", "heater", "a", "shield"))
