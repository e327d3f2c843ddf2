"""Panels of any shape and with any words in them: everything is drawn, well-formed, and nobody's word is markup."""

import re
import xml.dom.minidom

from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import (
    BareChassis,
    Can,
    Card,
    Done,
    End,
    Form,
    LeadRow,
    Line,
    Lug,
    Mark,
    NetCard,
    Panel,
    PartBox,
    PlaceCard,
    Socket,
    Strip,
    Value,
    Winding,
)  # fmt: skip
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import A4, NARROW, drawing_svg, drawn_panel, panel_told, sheet, sheet_dot, sheet_svg
from netcheck.system.graphviz import find_engine

ENGINE = find_engine(None, {})
QUICK = settings(max_examples=30)

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
dones = st.none() | st.builds(Done, words, st.lists(words, max_size=2).map(tuple))
acts = st.lists(st.builds(Done, words), max_size=2).map(tuple)


@st.composite
def lugs(draw: st.DrawFn) -> tuple[Lug, ...]:
    turned = draw(st.sampled_from([False, False, False, True]))
    if turned:
        return tuple(
            Lug(label, draw(words), draw(words), draw(words), draw(acts), draw(acts)) for label in draw(labels)
        )
    return tuple(Lug(label, draw(words), draw(words)) for label in draw(labels))


nets = st.builds(NetCard, words, st.lists(words, max_size=8).map(tuple), st.integers(0, 60))
sockets = st.builds(Socket, words, words, st.sampled_from(["key", "gap", "", "<key>"]), lugs())
places: st.SearchStrategy[PlaceCard] = st.one_of(
    st.builds(Strip, words, lugs()), sockets, st.builds(Can, words, lugs()), nets, st.just(BareChassis())
)


@st.composite
def parts(draw: st.DrawFn) -> PartBox:
    names = draw(st.lists(words, max_size=5, unique=True))
    ends = tuple(End(name, draw(words)) for name in names)
    wound = draw(st.lists(st.sampled_from(names), unique=True)) if names else []
    windings = (Winding(draw(words), draw(words), tuple(wound)),) if wound else ()
    values = tuple(draw(st.lists(words, max_size=2)))
    return PartBox(draw(words), values, ends, draw(st.sampled_from(Form)), draw(marks), windings, draw(dones))


def cells(card: Card) -> tuple[str, ...]:
    match card:
        case NetCard() | BareChassis():
            return ("",)
        case PartBox():
            return tuple(end.label for end in card.ends)
        case _:
            return (
                () if any(lug.now or lug.off or lug.on for lug in card.lugs) else tuple(lug.label for lug in card.lugs)
            )


@st.composite
def panels(draw: st.DrawFn) -> Panel:
    cards = tuple(draw(st.lists(st.one_of(places, parts()), max_size=5)))
    spots = [(i, cell) for i, card in enumerate(cards) for cell in cells(card)]
    lines = tuple(
        Line(
            draw(st.sampled_from(spots)),
            draw(st.sampled_from(spots)),
            draw(marks),
            draw(words),
            draw(words),
            draw(dones),
        )
        for _ in range(draw(st.integers(0, 6)) if spots else 0)
    )
    rows = tuple(draw(st.lists(st.builds(LeadRow, words, words, words, acts, acts), max_size=2))) if not cards else ()
    return Panel(
        cards, lines, rows, tuple(draw(st.lists(st.builds(Value, words, words, words, words, dones), max_size=2)))
    )


def report(text: str, *drawn: Panel) -> Report:
    place = Label(Source("set.netck", "x").whole)
    found = tuple(Diagnostic("rule", Grade.STOP, text, (place,), do=text, panel=panel) for panel in drawn)
    return Report("draw", text, ("a", "b"), found, closing=(text,))


def root_of(svg: str) -> xml.dom.minidom.Element:
    root = xml.dom.minidom.parseString(svg.encode()).documentElement  # noqa: S318 - our own picture
    assert root is not None
    return root


def kinds(svg: str) -> set[str]:
    return {node.nodeName for node in root_of(svg).getElementsByTagName("*")}


OURS = {"g", "rect", "circle", "path", "text", "title", "desc", "style"}


@QUICK
@given(panels(), panels(), words)
def test_any_two_panels_make_a_sheet_of_our_own_elements(one: Panel, other: Panel, text: str) -> None:
    made = report(text, one, other)
    for paper in (A4, NARROW):
        svg = sheet_svg(sheet(made, paper), made)
        assert kinds(svg) <= OURS
        ids = re.findall(r' id="([^"]*)"', svg)
        assert len(ids) == len(set(ids))


@QUICK
@given(panels())
def test_every_line_of_any_panel_is_drawn_or_told_in_a_row(panel: Panel) -> None:
    drawn = drawn_panel(panel, 500)
    svg = drawing_svg(drawn.things, (drawn.width, drawn.height), panel, "f3")
    joints = [node for node in root_of(svg).getElementsByTagName("path") if node.getElementsByTagName("title")]
    assert drawn.is_table or len(joints) == len(panel.lines)
    assert len(panel_told(panel)) <= len(panel.lines) + sum(len(cells(c)) + 15 for c in panel.cards) + 4


def asked(panel: Panel) -> set[Done]:
    """Every act that a panel stands for, but those of its values."""
    found = [line.done for line in panel.lines]
    for card in panel.cards:
        if isinstance(card, PartBox) and card.mark is not Mark.PLAIN:
            found.append(card.done)
        found += [done for lug in getattr(card, "lugs", ()) for done in (*lug.off, *lug.on)]
    found += [done for row in panel.rows for done in (*row.taken, *row.put)]
    return {done for done in found if done is not None}


@settings(max_examples=60)
@given(panels(), st.sampled_from([509.0, 246.0]))
def test_no_act_of_any_panel_is_lost(panel: Panel, room: float) -> None:
    drawn = {tag.done for thing in drawn_panel(panel, room).things for tag in thing.tags}
    assert asked(panel) <= drawn


@settings(max_examples=12)
@given(panels(), words)
def test_an_engine_draws_any_sheet_and_complains_of_nothing(panel: Panel, text: str) -> None:
    ENGINE.svg(sheet_dot(sheet(report(text, panel))))
