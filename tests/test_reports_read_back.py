"""A picture read back: what an SVG file and a drawing engine show is each thing at its place, in its colours."""

import html
import re
import xml.dom.minidom
from xml.dom.minidom import Element

import pytest

from netcheck.core.panel import Done
from netcheck.core.report import Report
from netcheck.reports.drawing import A4, sheet_dot, sheet_svg
from netcheck.reports.drawing.lettering import natural
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Tag, Thing, Words, straight
from netcheck.reports.drawing.sheet import DrawnPages, Group
from netcheck.system.graphviz import find_engine

TAG = (Tag("put on", Done("move C1+ to SP1.3", ("C1+", "SP1.3"))),)
BOXES = (
    Box(100, 200, 60, 20, "#F4F2EC", "black", 4.0),
    Box(100, 240, 60, 20, "#FFFFFF", "#A8480C", 2.0, radius=3, dashed=True, tags=TAG),
    Box(100, 280.25, 60, 20, "black"),
    Box(100, 320, 60, 20, "", "#AAAAAA", 0.8),
)
DISCS = (
    Disc(300, 200, 10, "#FFFFFF", "black", 1.2),
    Disc(300, 240, 10, "", "#A8480C", 2.0, dashed=True),
    Disc(300, 280, 2.4, "#666666"),
)
STROKES = (
    Stroke(straight((20, 400), (90, 400)), "#8A8A8A", 1.2),
    Stroke(straight((20, 420), (90, 420)), "black", 5.5, "#CC2222", title="R1.1 is on SP1.2: take it off."),
    Stroke(straight((20, 440), (90, 440)), "black", 4.0, "#2E8B3D", dashed=True),
    Stroke(((20, 460), (40, 430), (60, 490), (90, 470)), "#A8480C", 2.5, dashed=True),
    Stroke(straight((20, 500), (50, 500), (50, 540)), "black", 1.4),
    Stroke(straight((20, 560), (50, 560), (35, 590), (20, 560)), "#444444", fill="#444444"),
)
WORDS = (
    Words(200, 600, "B+1 & <chassis>", 11),
    Words(200, 630, "SP2.4", 9, bold=True, anchor="middle"),
    Words(200, 660, "take this off", 10, colour="#A8480C", anchor="end"),
)
THINGS: tuple[Thing, ...] = (*BOXES, *DISCS, *STROKES, *WORDS)
MADE = DrawnPages(595.28, 800.0, (Group(3, (*THINGS, Words(5, 5, "  ", 9))),), 1, A4)
REPORT = Report("draw", "A set", ("a", "b"), ())


def _points(text: str) -> list[tuple[float, float]]:
    numbers = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", text)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _of(node: Element, name: str, usual: str = "") -> str:
    return node.getAttribute(name) or usual


def _shape(node: Element) -> Box | Disc:
    """A rect or circle of SVG 1.1; what has no stroke has no weight to tell."""
    x, y, w, h, r = (float(_of(node, name, "0")) for name in ("x", "y", "width", "height", "rx"))
    fill, stroke = _of(node, "fill").replace("none", ""), _of(node, "stroke")
    weight, dashed = float(_of(node, "stroke-width", "1")), node.hasAttribute("stroke-dasharray")
    if node.tagName == "rect":
        return Box(x, y, w, h, fill, stroke, weight, r, dashed)
    return Disc(float(_of(node, "cx")), float(_of(node, "cy")), float(_of(node, "r")), fill, stroke, weight, dashed)


def _root(svg: str) -> Element:
    root = xml.dom.minidom.parseString(svg.encode()).documentElement  # noqa: S318 - our own picture
    assert root is not None
    return root


SVG = sheet_svg(MADE, REPORT)


def test_boxes_and_discs_are_read_back_from_the_file() -> None:
    paper, *rects = _root(SVG).getElementsByTagName("rect")
    assert (_of(paper, "width"), _of(paper, "height"), _of(paper, "fill")) == ("595.28", "800", "white")
    found = [_shape(node) for node in [*rects, *_root(SVG).getElementsByTagName("circle")]]
    plain = [
        type(one)(**{f: getattr(one, f) for f in one.__struct_fields__ if f != "tags"}) for one in (*BOXES, *DISCS)
    ]
    assert found == plain


def test_strokes_are_read_back_with_the_second_colour_along_their_middle() -> None:
    paths = list(_root(SVG).getElementsByTagName("path"))
    for stroke in STROKES:
        outer = paths.pop(0)
        assert _points(_of(outer, "d")) == [pytest.approx(point, abs=0.005) for point in stroke.points]
        assert (_of(outer, "stroke"), float(_of(outer, "stroke-width"))) == (stroke.colour, stroke.weight)
        assert _of(outer, "fill") == (stroke.fill or "none")
        assert outer.hasAttribute("stroke-dasharray") == stroke.dashed
        titles = [node.firstChild.nodeValue for node in outer.getElementsByTagName("title") if node.firstChild]
        assert titles == ([stroke.title] if stroke.title else [])
        if stroke.core:
            inner = paths.pop(0)
            assert _of(inner, "d") == _of(outer, "d")
            assert _of(inner, "stroke") == stroke.core
            assert 0 < float(_of(inner, "stroke-width")) < stroke.weight
            assert inner.hasAttribute("stroke-dasharray") == stroke.dashed
    assert not paths


def test_words_are_read_back_and_blanks_are_none() -> None:
    texts = _root(SVG).getElementsByTagName("text")
    assert len(texts) == len(WORDS)
    for node, words in zip(texts, WORDS, strict=True):
        assert node.firstChild is not None
        assert node.firstChild.nodeValue == words.text
        assert (float(_of(node, "x")), float(_of(node, "y"))) == (words.x, words.y)
        assert float(_of(node, "font-size")) == words.size
        assert (_of(node, "font-weight") == "bold") == words.bold
        assert _of(node, "text-anchor", "start") == words.anchor
        assert _of(node, "fill", "black") == words.colour
        assert float(_of(node, "textLength")) == pytest.approx(
            natural(words.text, words.size, bold=words.bold), abs=0.01
        )


def test_a_thing_carries_its_act_and_the_group_its_finding() -> None:
    tagged = [node for node in _root(SVG).getElementsByTagName("g") if node.hasAttribute("data-act")]
    assert [(_of(n, "data-mark"), _of(n, "data-act"), _of(n, "data-at")) for n in tagged] == [
        ("put on", "move C1+ to SP1.3", "C1+ SP1.3")
    ]
    assert re.findall(r'<g id="([^"]*)">', SVG) == ["f3-0"]


ENGINE = _root(find_engine(None, {}).svg(sheet_dot(MADE)))


def _drawn(kind: str) -> list[Element]:
    """The engine's nodes or edges in the order in which they were written, each a group with its name."""
    return [node for node in ENGINE.getElementsByTagName("g") if _of(node, "class") == kind]


def _frame(points: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _name(node: Element) -> str:
    title = node.getElementsByTagName("title")[0].firstChild
    return "" if title is None else str(title.nodeValue)


NODES = {_name(node): node for node in _drawn("node")}
PAPER = _frame(_points(_of(NODES["paper"].getElementsByTagName("polygon")[0], "points")))


def _placed(frame: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    left, top, right, bottom = frame
    return left - PAPER[0], top - PAPER[1], right - PAPER[0], bottom - PAPER[1]


def test_the_engine_draws_a_paper_of_the_sheets_size() -> None:
    assert _placed(PAPER) == pytest.approx((0, 0, MADE.width, MADE.height), abs=0.1)


@pytest.mark.parametrize("at", range(len(BOXES)))
def test_the_engine_puts_every_box_where_it_is(at: int) -> None:
    node, box = NODES[f"f3n{at + 1}"], BOXES[at]
    shapes = [one for name in ("polygon", "path", "polyline") for one in node.getElementsByTagName(name)]
    points = [p for one in shapes for p in _points(_of(one, "points") or _of(one, "d"))]
    assert _placed(_frame(points)) == pytest.approx((box.x, box.y, box.x + box.width, box.y + box.height), abs=0.1)
    _has_ink(shapes[0], box)


@pytest.mark.parametrize("at", range(len(DISCS)))
def test_the_engine_puts_every_disc_where_it_is(at: int) -> None:
    node, disc = NODES[f"f3n{len(BOXES) + at + 1}"], DISCS[at]
    (shape,) = node.getElementsByTagName("ellipse")
    x, y, r = (float(_of(shape, name)) for name in ("cx", "cy", "rx"))
    assert (x - PAPER[0], y - PAPER[1], r) == pytest.approx((disc.x, disc.y, disc.radius), abs=0.1)
    _has_ink(shape, disc)


def _has_ink(shape: Element, thing: Box | Disc) -> None:
    assert _of(shape, "fill").lower() == (thing.fill.lower() or "none")
    shown = float(_of(shape, "stroke-width", "1")) if _of(shape, "stroke") not in ("", "none", "transparent") else 0.0
    assert shown == (thing.weight if thing.stroke else 0.0)
    if thing.stroke:
        assert _of(shape, "stroke").lower() == thing.stroke.lower()
    assert shape.hasAttribute("stroke-dasharray") == thing.dashed


@pytest.mark.parametrize("at", range(len(STROKES)))
def test_the_engine_draws_every_stroke_along_its_points(at: int) -> None:
    """A second colour is a line between two of the first; a dashed line keeps one colour, as the engine has it."""
    first, stroke = len(BOXES) + len(DISCS) + 1, STROKES[at]
    (edge,) = [one for one in _drawn("edge") if _name(one).startswith(f"f3n{first + at}a")]
    paths = edge.getElementsByTagName("path")
    colours = [_of(path, "stroke").lower() for path in paths]
    if stroke.core and not stroke.dashed:
        assert colours == [stroke.colour, stroke.core.lower(), stroke.colour]
        assert sum(float(_of(path, "stroke-width", "1")) for path in paths) == pytest.approx(stroke.weight, abs=0.1)
        points = _points(_of(paths[1], "d"))
    else:
        assert colours == [stroke.colour.lower()]
        assert float(_of(paths[0], "stroke-width", "1")) == pytest.approx(stroke.weight, abs=0.01)
        points = _points(_of(paths[0], "d"))
    assert all(path.hasAttribute("stroke-dasharray") == stroke.dashed for path in paths)
    assert [(x - PAPER[0], y - PAPER[1]) for x, y in points] == [pytest.approx(p, abs=0.1) for p in stroke.points]
    told = [_of(node, "xlink:title") for node in edge.getElementsByTagName("a")]
    assert set(told) == ({stroke.title} if stroke.title else set())


@pytest.mark.parametrize("words", WORDS, ids=lambda words: words.anchor)
def test_the_engine_writes_words_at_their_places(words: Words) -> None:
    (node,) = [one for one in ENGINE.getElementsByTagName("text") if one.firstChild is not None
               and html.unescape(str(one.firstChild.nodeValue)) == words.text]  # fmt: skip
    assert float(_of(node, "font-size")) == words.size
    assert (_of(node, "font-weight") == "bold") == words.bold
    assert _of(node, "fill", "black").lower() == words.colour.lower()
    wide = natural(words.text, words.size, bold=words.bold)
    own = {"start": 0.0, "middle": 0.5, "end": 1.0}
    left = words.x - own[words.anchor] * wide
    shown = float(_of(node, "x")) - PAPER[0] - own[_of(node, "text-anchor", "start")] * wide
    assert shown == pytest.approx(left, abs=wide * 0.06 + 0.5)  # the engine's own widths differ a little
    assert float(_of(node, "y")) - PAPER[1] == pytest.approx(words.y, abs=1.5)
