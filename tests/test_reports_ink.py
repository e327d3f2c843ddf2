"""What a picture is drawn with: values that every viewer knows, words that can be read, wires that look as they are."""

import colorsys
import re
import xml.dom.minidom
from functools import cache
from itertools import combinations

import pytest

from netcheck import api
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import Done, Line, Lug, Mark, Panel, Strip
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import A4, drawing_svg, drawn_panel, sheet, sheet_svg, underside
from netcheck.reports.drawing.marks import wire_colour
from tests.panels import PANELS

# By hand: red, green and blue of the keywords in use (CSS Color Module Level 4, section 6.1).
KEYWORDS = {"black": "#000000", "white": "#FFFFFF"}
NUMBERS = ("x", "y", "width", "height", "rx", "cx", "cy", "r", "stroke-width", "font-size", "textLength")
COLOURS = ("fill", "stroke")
CLOSED = {
    "text-anchor": {"start", "middle", "end"},
    "font-weight": {"bold"},
    "stroke-linejoin": {"miter", "round", "bevel"},
    "lengthAdjust": {"spacing", "spacingAndGlyphs"},
    "role": {"img"},
    "data-mark": {mark.value for mark in Mark},
}
"""The values that SVG 1.1 has for an attribute (sections 10.9, 11.4, 11.5), and our own marks."""

DASHES = re.compile(r"\d+(\.\d+)?( \d+(\.\d+)?)*")
PATH = re.compile(r"M-?[\d.]+ -?[\d.]+C(-?[\d.]+ ?)+")

PLACED = """
title "Cove 2"
state rewired
place chassis 300 200
can C1 grounded
section C1A 40 mfd 450 V half-moon
section C1B 20 mfd 450 V square
section C1C 20 mfd 450 V triangle
section C1D 20 mfd 25 V plain
strip SP1 4 lugs foot 3
strip SP2 3 lugs
tube V1 6J5
tube V2 12AX7
transformer T1 "power"
winding T1 primary black-a black-b 117 V
winding T1 heater green-a green-b 6.3 V 2 A
place SP1 100 50
place SP2 200 50 turned
place V1 60 120
place V2 150 150
place C1 250 150
place T1 100 170
resistor R1 1k 2 W from SP1.1 to C1.A
wire SP1.1 to C1.B red
"""


@cache
def page() -> str:
    """All panels on one sheet."""
    place = Label(Source("set.netck", "x").whole)
    found = tuple(Diagnostic("rule", Grade.STOP, name, (place,), panel=panel) for name, panel in PANELS.items())
    made = Report("draw", "Cove 2", ("a", "b"), found, closing=("compared: 3 leads",), cautions=("one", "two"))
    return sheet_svg(sheet(made, A4), made)


@cache
def from_below() -> str:
    """A state with its map."""
    source = Source("cove.netck", PLACED)
    report, places = api.lugs(source, lambda _asking, _written: source)
    assert report.built
    return sheet_svg(underside(report, places, A4), report)


PICTURES = {"the sheet": page, "a state from below": from_below}


def elements(svg: str) -> list[xml.dom.minidom.Element]:
    return list(xml.dom.minidom.parseString(svg.encode()).getElementsByTagName("*"))  # noqa: S318 - our own picture


def rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue from 0 to 1."""
    said = re.fullmatch("#([0-9A-F]{2})([0-9A-F]{2})([0-9A-F]{2})", KEYWORDS.get(colour, colour))
    assert said, colour
    red, green, blue = (int(pair, 16) / 255 for pair in said.groups())
    return red, green, blue


@pytest.mark.parametrize("name", PICTURES)
def test_every_value_is_one_that_the_standard_has(name: str) -> None:
    for element in elements(PICTURES[name]()):
        said = dict(element.attributes.items())
        assert all(float(said[key].removesuffix("pt")) >= 0 for key in ("r", "width", "height") if key in said)
        assert all(re.fullmatch(r"-?\d+(\.\d+)?(pt)?", said[key]) for key in NUMBERS if key in said)
        assert all(said[key] == "none" or rgb(said[key]) for key in COLOURS if key in said)
        assert all(said[key] in values for key, values in CLOSED.items() if key in said)
        assert DASHES.fullmatch(said.get("stroke-dasharray", "1"))
        assert PATH.fullmatch(said.get("d", "M0 0C1 1 1 1 1 1"))


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.2, section 1.4.3 and its glossary)."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb(colour)]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), parts, strict=True))


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("name", PICTURES)
def test_all_words_can_be_read_on_what_they_stand_on(name: str) -> None:
    """The contrast that the guideline asks of text of this size, on the topmost box, ring or paper under it."""
    grounds: list[tuple[float, float, float, float, str]] = []
    words = 0
    for element in elements(PICTURES[name]()):
        said = dict(element.attributes.items())
        if element.tagName == "rect" and said["fill"] != "none":
            left, top = float(said.get("x", 0)), float(said.get("y", 0))
            grounds.append((left, top, left + float(said["width"]), top + float(said["height"]), said["fill"]))
        if element.tagName == "text":
            words += 1
            shift = {"start": 0.5, "middle": 0.0, "end": -0.5}[said.get("text-anchor", "start")]
            x = float(said["x"]) + shift * float(said["textLength"])
            y = float(said["y"]) - 0.3 * float(said["font-size"])
            under = [one[4] for one in grounds if one[0] <= x <= one[2] and one[1] <= y <= one[3]]
            assert contrast(said.get("fill", "black"), under[-1]) >= 4.5, element.toxml()
    assert words > 20


# Hue in degrees, then saturation and brightness from 0 to 1, from and to: what goes by each name of a wire.
LOOKS: dict[str, tuple[tuple[int, int], tuple[float, float], tuple[float, float]]] = {
    "black": ((0, 360), (0, 0.1), (0, 0.15)),
    "brown": ((10, 40), (0.5, 1), (0.3, 0.6)),
    "red": ((350, 370), (0.7, 1), (0.7, 1)),
    "maroon": ((335, 360), (0.6, 1), (0.3, 0.6)),
    "orange": ((20, 40), (0.7, 1), (0.8, 1)),
    "yellow": ((48, 65), (0.7, 1), (0.8, 1)),
    "green": ((100, 160), (0.5, 1), (0.4, 0.8)),
    "blue": ((205, 240), (0.6, 1), (0.6, 1)),
    "violet": ((265, 300), (0.4, 1), (0.4, 0.9)),
    "grey": ((0, 360), (0, 0.1), (0.4, 0.75)),
    "white": ((0, 360), (0, 0.05), (0.95, 1)),
    "pink": ((320, 360), (0.2, 0.5), (0.8, 1)),
    "tan": ((25, 45), (0.3, 0.6), (0.7, 0.9)),
}
SAME = {"purple": "violet", "gray": "grey", "slate": "grey"}


@pytest.mark.parametrize("name", LOOKS)
def test_a_wire_looks_as_it_is_called(name: str) -> None:
    hue, saturation, brightness = colorsys.rgb_to_hsv(*rgb(wire_colour(name)))
    hues, saturations, brightnesses = LOOKS[name]
    assert any(hues[0] <= hue * 360 + turn <= hues[1] for turn in (0, 360))
    assert saturations[0] <= saturation <= saturations[1]
    assert brightnesses[0] <= brightness <= brightnesses[1]


def test_wires_of_two_colours_are_told_apart_and_names_of_one_are_one() -> None:
    apart = [sum((x - y) ** 2 for x, y in zip(rgb(wire_colour(a)), rgb(wire_colour(b)), strict=True)) ** 0.5
             for a, b in combinations((*LOOKS, "unknown"), 2)]  # fmt: skip
    assert min(apart) > 0.15
    assert all(wire_colour(other) == wire_colour(name) for other, name in SAME.items())
    assert wire_colour("cloth-covered Red/black 20 AWG") == wire_colour("red")


@pytest.mark.parametrize(("mark", "colour"), [(Mark.OFF, "blue"), (Mark.ON, "green"), (Mark.OFF, ""), (Mark.ON, "")])
def test_a_joint_is_drawn_with_its_wires_colour_inside_and_none_without(mark: Mark, colour: str) -> None:
    strips = tuple(Strip(f"SP{n}", (Lug("1"), Lug("2"))) for n in (1, 2))
    panel = Panel(strips, (Line((0, "1"), (1, "2"), mark, f"{colour} wire", colour, Done("cut SP1.1", ("SP1.1",))),))
    drawn = drawn_panel(panel, 303)
    svg = drawing_svg(drawn.things, (drawn.width, drawn.height), panel, "f1")
    (joint,) = [e for e in elements(svg) if e.tagName == "path" and e.getElementsByTagName("title")]
    inks = {e.getAttribute("stroke") for e in elements(svg) if e.getAttribute("d") == joint.getAttribute("d")}
    assert (wire_colour(colour) in inks) == (bool(colour) or mark is Mark.OFF)
    assert (joint.getAttribute("stroke-dasharray") != "") == (mark is Mark.ON)
