"""One panel drawn: nothing lies on anything else, every mark can be read back, everything is told in words too."""

import re
from collections import Counter
from itertools import combinations, pairwise
from math import hypot

import pytest
from msgspec.structs import replace

from netcheck.core.panel import Done, End, Form, Line, Lug, Mark, Panel, PartBox, Socket, Strip
from netcheck.reports.drawing import drawing_svg, drawn_panel, panel_told
from netcheck.reports.drawing.lettering import advance, brief, natural, wrapped
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Words
from tests.geometry import bodies_crossed, discs_crossed, frame, spots, words_crossed, words_on_words
from tests.panels import BACKWARDS, BRIDGE, CAN, LONG_STRIP, MIRRORED, PANELS, RECTIFIER, STRAP, WRONG_PIN
from tests.pictures.more import MORE

ROOMS = [303.0, 509.0, 246.0]
"""Beside the words on A4, below them, and on a telephone."""


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("name", PANELS)
def test_nothing_lies_on_anything_else(name: str, room: float) -> None:
    drawn = drawn_panel(PANELS[name], room)
    assert words_on_words(drawn.things) == []
    assert words_crossed(drawn.things) == []
    assert discs_crossed(drawn.things) == 0
    assert bodies_crossed(drawn.things) == 0


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("name", PANELS)
def test_a_picture_is_as_large_as_it_says_and_not_wider_than_its_room(name: str, room: float) -> None:
    drawn = drawn_panel(PANELS[name], room)
    assert drawn.width <= room
    for thing in drawn.things:
        left, top, right, bottom = frame(thing)
        assert left >= -0.1
        assert top >= -0.1
        assert right <= drawn.width + 0.1
        assert bottom <= drawn.height + 0.1


@pytest.mark.parametrize("name", [name for name, panel in PANELS.items() if panel.lines])
def test_every_line_is_drawn_in_the_style_of_its_mark(name: str) -> None:
    panel = PANELS[name]
    joints = [x for x in drawn_panel(panel, 509).things if isinstance(x, Stroke) and x.title]
    styles = Counter(Mark.ON if x.dashed else Mark.OFF if x.weight > 5 else Mark.PLAIN for x in joints)
    assert styles == Counter(line.mark for line in panel.lines)


def test_a_wire_is_drawn_in_its_colour_and_said_once() -> None:
    things = drawn_panel(WRONG_PIN, 303).things
    assert {x.core for x in things if isinstance(x, Stroke) and x.title} == {"#2E8B3D"}
    assert [x.text for x in things if isinstance(x, Words)].count("green wire") == 1
    (yellow,) = [x for x in drawn_panel(BRIDGE, 303).things if isinstance(x, Stroke) and x.title]
    assert (yellow.core, yellow.dashed) == ("#E8CC22", False)


def test_a_lead_is_white_inside_where_it_comes_off() -> None:
    off = [x for x in drawn_panel(BACKWARDS, 509).things if isinstance(x, Stroke) and x.title and not x.dashed]
    assert [x.core for x in off] == ["#FFFFFF", "#FFFFFF"]


def test_only_the_dashed_lines_of_a_reversal_cross() -> None:
    ends = {True: [], False: []}  # type: dict[bool, list[tuple[float, float]]]
    for x in drawn_panel(BACKWARDS, 509).things:
        if isinstance(x, Stroke) and x.title:
            first, last = sorted((x.points[0], x.points[-1]), key=lambda p: p[1])
            ends[x.dashed].append((first[0], last[0]))
    crossed = {dashed: (a[0] - b[0]) * (a[1] - b[1]) < 0 for dashed, (a, b) in ends.items()}
    assert crossed == {True: True, False: False}


def test_a_part_stands_below_the_place_that_it_belongs_to() -> None:
    base = {x.text: x.y for x in drawn_panel(PANELS["wrong-lug"], 303).things if isinstance(x, Words)}
    assert base["C22"] > base["SP2"]


def test_a_long_strip_shows_its_ends_and_the_marked_lugs_and_says_where_lugs_are_left_out() -> None:
    texts = [x.text for x in drawn_panel(LONG_STRIP, 303).things if isinstance(x, Words)]
    assert {"1", "10", "11", "12", "13", "14", "15", "24"} <= set(texts)
    assert texts.count("…") == 2
    assert "16" not in texts


def test_a_can_shows_its_cut_marks_as_shapes() -> None:
    texts = [x.text for x in drawn_panel(CAN, 509).things if isinstance(x, Words)]
    assert "can" in texts
    filled = [x for x in drawn_panel(CAN, 509).things if isinstance(x, Stroke | Box) and x.fill == "#444444"]
    corners = sorted((len(x.points) - 1) // 3 if isinstance(x, Stroke) else 4 for x in filled)
    assert corners == [3, 3, 4]  # triangle; half-moon, two quarters and its straight side; square


def test_pins_run_clockwise_from_the_gap_seen_from_below() -> None:
    pins = [x for x in drawn_panel(MIRRORED, 303).things if isinstance(x, Disc) and 9 < x.radius < 12]
    middle = (sum(x.x for x in pins[1:6]) / 5, (max(x.y for x in pins) + min(x.y for x in pins)) / 2)
    turned = [(a.x - middle[0]) * (b.y - middle[1]) - (a.y - middle[1]) * (b.x - middle[0]) for a, b in pairwise(pins)]
    assert all(turn > 0 for turn in turned)  # the picture's y grows downwards: clockwise is positive
    assert pins[0].x < middle[0] < pins[-1].x
    assert pins[0].y > middle[1]


def test_a_turned_socket_says_inside_what_belongs_and_outside_what_is_there() -> None:
    things = drawn_panel(MIRRORED, 303).things
    words = {x.text: x for x in things if isinstance(x, Words) and x.text.startswith("net-") and not x.bold}
    now = {x.text: x for x in things if isinstance(x, Words) and x.text.startswith("net-") and x.bold}
    pins = {x.text: x for x in things if isinstance(x, Words) and x.text in "1234567"}
    middle = sum(x.x for x in pins.values()) / 7
    assert abs(words["net-2"].x - middle) < abs(pins["2"].x - middle) < abs(now["net-6"].x - middle)
    assert now["net-6"].y == pytest.approx(words["net-2"].y, abs=12)


def test_the_winding_that_the_leads_belong_to_is_named() -> None:
    texts = [x.text for x in drawn_panel(RECTIFIER, 303).things if isinstance(x, Words)]
    assert "high 290-0-290 V 180 ohm" in texts


def test_what_does_not_fit_is_told_as_a_table_with_a_row_for_each_lead() -> None:
    drawn = drawn_panel(PANELS["rows"], 303)
    assert drawn.is_table
    texts = [x.text for x in drawn.things if isinstance(x, Words)]
    assert [f"C{i}-" for i in range(20)] == [text for text in texts if re.fullmatch(r"C\d+-", text)]
    narrow = drawn_panel(PANELS["rectifier"], 120)
    assert narrow.is_table
    assert {"T1.red-a", "T1.red-b"} <= {x.text for x in narrow.things if isinstance(x, Words)}


@pytest.mark.parametrize("name", PANELS)
def test_a_picture_alone_stands_in_a_page_under_names_of_its_own(name: str) -> None:
    drawn = drawn_panel(PANELS[name], 303)
    svg = drawing_svg(drawn.things, (drawn.width, drawn.height), PANELS[name], "f4")
    assert svg.startswith('<svg role="img" aria-labelledby="f4-title f4-desc" width="')
    assert set(re.findall(r' id="([^"]*)"', svg)) == {"f4-title", "f4-desc"}
    assert "<?xml" not in svg


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("bridge", "Lug 2 of strip SP1 (B+2) is joined to lug 5 of strip SP2 (V5 plate) (yellow wire): take that off."),
        ("backwards", "C54+ is on lug 4 of strip SP2 (chassis): take it off."),
        ("backwards", "C54+ belongs on pin 8 of socket V5 (V5 cathode): put it on."),
        ("hanging", "R17.1 belongs on lug 3 of strip SP2 (B+3): put it on."),
        ("value", "C9: .01 mfd now, .1 mfd in the original."),
        ("mirrored", "Pin 7 of V2: net-7 belongs there, net-1 is there now."),
        ("can", "C51+ is on lug half-moon of can C30 (B+1): take it off."),
        ("bonded", "Can C30 (minus) is joined to the chassis (bond): take that off."),
        ("split", "R4.1 is on the net B+1: take it off."),
        ("removed", "R99.2 is on lug G1 (chassis): take it off."),
        ("removed", "R99: take it out."),
        ("missing", "L3 is missing."),
        ("rows", "C3-: off SP3.5 (alone), onto SP1.3 (chassis)."),
    ],
)  # fmt: skip
def test_a_panel_can_be_told_in_words(name: str, said: str) -> None:
    assert said in panel_told(PANELS[name])


def test_a_part_that_is_missing_is_dashed_and_one_too_many_heavy() -> None:
    for name, dashed in (("removed", False), ("missing", True)):
        (part,) = [card for card in PANELS[name].cards if isinstance(card, PartBox)]
        drawn = drawn_panel(Panel((part,)), 303)
        outline = next(
            x for x in drawn.things if isinstance(x, Box | Stroke) and (x.dashed if dashed else x.weight == 4)
        )
        assert outline.tags == (() if part.done is None else outline.tags)


def test_long_names_are_shortened_in_the_middle_and_texts_wrapped() -> None:
    assert brief("x" * 13 + "y" * 14) == "x" * 12 + "…" + "y" * 13
    assert brief("x" * 26) == "x" * 26
    lines = wrapped("the quick brown fox " + "w" * 80, 100, 12, most=4)
    assert len(lines) == 4
    assert lines[-1].endswith("…")
    assert all(advance(line[:-1], 12) <= 100 for line in lines)
    assert advance("mfd", 9) == pytest.approx(1.06 * natural("mfd", 9))


def _wire(label: str, mark: Mark) -> Panel:
    """One wire between two strips."""
    lugs = tuple(Lug(str(n)) for n in range(1, 4))
    return Panel((Strip("SP1", lugs), Strip("SP2", lugs)), (Line((0, "2"), (1, "2"), mark, label, ""),))


@pytest.mark.parametrize("mark", Mark)
def test_the_words_of_a_wire_stand_beside_it_whatever_is_to_do_and_none_where_it_has_none(mark: Mark) -> None:
    said, silent = (
        [x.text for x in drawn_panel(_wire(label, mark), 303).things if isinstance(x, Words)]
        for label in ("lamp cord", "  ")
    )
    assert Counter(said) - Counter(silent) == Counter(["lamp cord"])
    assert [text for text in silent if not text.strip()] == []


@pytest.mark.parametrize("room", ROOMS)
def test_a_wire_between_two_lugs_of_a_strip_hangs_off_it(room: float) -> None:
    things = drawn_panel(STRAP, room).things
    (joint,) = [x for x in things if isinstance(x, Stroke) and x.title]
    first, last = joint.points[0], joint.points[-1]
    lowest = max(y for _, y in spots(joint))
    assert first[1] == pytest.approx(last[1])
    assert lowest - first[1] > 10
    assert lowest > max(x.y + x.height for x in things if isinstance(x, Box) and x.y < first[1])


@pytest.mark.parametrize("count", range(3, 15))
@pytest.mark.parametrize("key", ["key", "gap"])
def test_no_pins_of_a_socket_lie_on_each_other_and_all_are_within_it(count: int, key: str) -> None:
    lugs = tuple(Lug(str(n)) for n in range(1, count + 1))
    things = drawn_panel(Panel((Socket("V1", "X99", key, lugs),)), 509).things
    assert [x.text for x in things if isinstance(x, Words) and x.text in ("key", "gap")] == [key]
    discs = [x for x in things if isinstance(x, Disc)]
    body = max(discs, key=lambda disc: disc.radius)
    pins = [disc for disc in discs if 9 < disc.radius <= 12]
    assert len(pins) == count
    assert all(hypot(a.x - b.x, a.y - b.y) >= a.radius + b.radius for a, b in combinations(pins, 2))
    assert all(hypot(pin.x - body.x, pin.y - body.y) + pin.radius <= body.radius + 2 for pin in pins)


def test_a_turned_place_without_orders_says_in_a_table_what_is_there_and_what_belongs_there() -> None:
    """One socket with and without orders, where it has no room to be drawn: each pin that is wrong has its row."""
    (socket,) = [card for card in MIRRORED.cards if isinstance(card, Socket)]
    bare = replace(socket, lugs=tuple(replace(lug, off=(), on=()) for lug in socket.lugs))
    texts = [x.text for x in drawn_panel(Panel((bare,)), 120).things if isinstance(x, Words)]
    wanted = [text for lug in bare.lugs if lug.now for text in (f"V2.{lug.label}", lug.now, lug.net)]
    assert len(wanted) >= 15
    assert texts == ["lead or wire", "take off", "put on", *wanted]


def test_what_belongs_on_a_tubes_cap_is_told_beside_its_socket_and_not_on_its_pins() -> None:
    things = drawn_panel(MORE["cap"], 303).things
    body = max((x for x in things if isinstance(x, Disc)), key=lambda disc: disc.radius)
    (said,) = [x for x in things if isinstance(x, Words) and x.text == "first IF"]
    assert frame(said)[0] > body.x + body.radius


SWEPT = [(5, "gap"), (6, "gap"), (7, "gap"), (8, "key"), (9, "gap"), (12, "gap")]


@pytest.mark.parametrize(("count", "key"), SWEPT)
@pytest.mark.parametrize("far", ["part", "strip"])
def test_to_whatever_pin_of_a_socket_a_line_runs_it_crosses_nothing(count: int, key: str, far: str) -> None:
    part = PartBox("C3", ("10 mmfd",), (End("1"), End("2", "chassis")), Form.CAPACITOR)
    other = Strip("SP1", tuple(Lug(str(n)) for n in range(1, 6))) if far == "strip" else part
    for pin in range(1, count + 1):
        right = pin % count + 1
        lugs = tuple(Lug(str(n), net=f"net-{n}" if n in (pin, right) else "") for n in range(1, count + 1))
        lines = tuple(Line((1, "1"), (0, str(n)), mark) for n, mark in ((pin, Mark.OFF), (right, Mark.ON)))
        drawn = drawn_panel(Panel((Socket("V3", "12AX7", key, lugs), other), lines), 509)
        assert not drawn.is_table
        assert words_on_words(drawn.things) == []
        assert words_crossed(drawn.things) == []
        assert (discs_crossed(drawn.things), bodies_crossed(drawn.things)) == (0, 0)


@pytest.mark.parametrize("count", [2, 5, 9])
def test_long_names_along_a_turned_strip_stand_above_each_other_and_are_led_to_their_lugs(count: int) -> None:
    acts = (Done("turn SP4", ("SP4",)),)
    lugs = tuple(Lug(str(n), net=f"first IF grid {n}", now=f"output plate {n}", off=acts) for n in range(1, count + 1))
    things = drawn_panel(Panel((Strip("SP4", lugs),)), 509).things
    said = {x.text: x for x in things if isinstance(x, Words)}
    assert {f"first IF grid {n}" for n in range(1, count + 1)} <= {*said}
    assert words_on_words(things) == []
    cells = sorted((x for x in things if isinstance(x, Box) and x.height == 27), key=lambda x: x.x)
    ticks = [x for x in things if isinstance(x, Stroke) and x.weight < 1]
    for lug, cell in zip(lugs, cells, strict=True):
        now, net = said[lug.now], said[lug.net]
        assert now.y < cell.y < cell.y + cell.height < net.y
        for words in (now, net):
            left, _, right, _ = frame(words)
            middle = cell.x + cell.width / 2
            led = [x for x in ticks if x.points[0][0] == pytest.approx(middle)]
            assert left < middle < right or led
