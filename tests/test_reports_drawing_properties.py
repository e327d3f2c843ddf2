"""Panels of any shape and with any words in them: the engine draws every line and complains of nothing."""

import re
import xml.dom.minidom

from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import Can, End, Line, Lug, Mark, NetCard, Panel, PartBox, PlaceCard, Socket, Strip
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import panel_svg, placed_panel, sheet, sheet_svg, unplaced_sheet
from netcheck.system.graphviz import find_engine

ENGINE = find_engine(None, {})
QUICK = settings(max_examples=25)

HOSTILE = (
    *("", " ", "\u00a0", "\\N\\G\\L", "\\", 'a"b', '" -- "', "<b>", "</TD></TR>", "<!-- x -->", "--> <script>alert(1)"),
    *(
        "&lt;",
        "&#92;N",
        "]]>",
        "]",
        'class="edge',
        "style=invis",
        "\x1b[31m",
        "\u202egnd",
        "a\nb -- c",
        "\tf1t0 -- f1m0",
    ),
    *("\ud800", "\ufffe", "{x|y}", "%s", "漢字", "é" * 40, "x" * 300, "f1t0:c0", "graph", "\u2212"),
)
words = st.one_of(st.sampled_from(HOSTILE), st.text(max_size=12), st.sampled_from(["SP1", "V5", "B+", "C30A+"]))
marks = st.sampled_from(Mark)
labels = st.lists(words, min_size=1, max_size=14, unique=True)


@st.composite
def lugs(draw: st.DrawFn) -> tuple[Lug, ...]:
    return tuple(Lug(label, draw(marks), draw(words), draw(words)) for label in draw(labels))


nets = st.builds(NetCard, words, st.lists(words, max_size=8).map(tuple), st.integers(0, 60), marks)
sockets = st.builds(Socket, words, words, st.sampled_from(["key", "gap", "", "<key>"]), lugs())
places: st.SearchStrategy[PlaceCard] = st.one_of(
    st.builds(Strip, words, lugs()), sockets, st.builds(Can, words, lugs()), nets
)
ends = st.lists(words, max_size=5, unique=True).flatmap(
    lambda names: st.tuples(*(st.builds(End, st.just(name), words) for name in names))
)
parts = st.builds(PartBox, words, st.lists(words, max_size=2).map(tuple), ends, marks, st.booleans())


def cells(place: PlaceCard) -> tuple[str, ...]:
    if isinstance(place, NetCard):
        return ("",)
    return tuple(lug.label for lug in (place.pins if isinstance(place, Socket) else place.lugs))


@st.composite
def panels(draw: st.DrawFn) -> Panel:
    tops = draw(st.lists(places, min_size=1, max_size=3))
    boxes = draw(st.lists(parts, max_size=4))
    bottoms = draw(st.lists(places, max_size=2))
    upper = [(i, cell) for i, place in enumerate(tops) for cell in cells(place)]
    lower = [((i, end.label), False) for i, box in enumerate(boxes) for end in box.ends]
    lower += [((i, cell), True) for i, place in enumerate(bottoms) for cell in cells(place)]
    lines = []
    for _ in range(draw(st.integers(0, 6)) if lower else 0):
        end, to_bottom = draw(st.sampled_from(lower))
        lines.append(Line(draw(st.sampled_from(upper)), end, draw(marks), draw(words), to_bottom))
    return Panel(tuple(tops), tuple(boxes), tuple(bottoms), tuple(lines))


def report(text: str, *drawn: Panel) -> Report:
    place = Label(Source("set.netck", "x").whole)
    found = tuple(Diagnostic("rule", Grade.STOP, text, (place,), do=text, panel=panel) for panel in drawn)
    return Report("draw", text, ("a", "b"), found, closing=(text,))


def own_names(svg: str) -> bool:
    """Whether ids and classes are ours alone."""
    ids = re.findall(r' id="([^"]*)"', svg)
    classes = re.findall(r' class="([^"]*)"', svg)
    ours = re.compile(r"[a-z0-9_-]+")
    kinds = re.compile(r"(graph|node|edge|cluster)( f\d+)?( (was|is|added|value|same))?")
    return all(map(ours.fullmatch, ids)) and all(map(kinds.fullmatch, classes)) and len(ids) == len(set(ids))


def well_formed(svg: str) -> bool:
    return xml.dom.minidom.parseString(svg.encode()).hasChildNodes()  # noqa: S318 - our own picture


@QUICK
@given(panels(), panels(), words)
def test_every_line_of_any_two_panels_is_drawn(one: Panel, other: Panel, text: str) -> None:
    made = report(text, one, other)
    svg = sheet_svg(ENGINE.svg(sheet(made, ENGINE.layout)), made)
    for number, panel in enumerate((one, other), 1):
        assert all(f'id="f{number}e{index}"' in svg for index in range(len(panel.lines)))
    assert well_formed(svg)
    assert own_names(svg)


@QUICK
@given(panels())
def test_any_panel_alone_gives_a_picture_for_a_page(panel: Panel) -> None:
    finding = report("x", panel).diagnostics[0]
    svg = panel_svg(ENGINE.svg(placed_panel(panel, 3, ENGINE.layout)), finding, 3)
    assert svg.count('class="edge') == len(panel.lines)
    assert well_formed(svg)
    assert own_names(svg)


@QUICK
@given(panels(), words)
def test_any_panel_can_be_written_without_an_engine(panel: Panel, text: str) -> None:
    ENGINE.svg(unplaced_sheet(report(text, panel, panel)))
