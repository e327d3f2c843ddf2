import json
import re
import xml.dom.minidom
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.errors import EnvironmentFault
from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import panel_dot, panel_svg, placed_panel, sheet, sheet_svg, told, unplaced_sheet
from netcheck.reports.drawing.lettering import advance, brief, lettered, wrapped
from netcheck.system.graphviz import find_engine
from tests.panels import BACKWARDS, BRIDGE, HANGING, PANELS, UPPER_PINS, VALUE, WRONG_LUG

GOLDEN = Path(__file__).parent / "golden" / "drawing"
ENGINE = find_engine(None, {})
PLACE = Label(Source("set.netck", "x").whole)
DASHED, DOUBLE, THICK = "make it", "move it", "take it off"


def finding(panel: Panel | None, grade: Grade = Grade.STOP) -> Diagnostic:
    return Diagnostic("rule", grade, "`C22.2` is elsewhere", (PLACE,), do="move it", panel=panel)


def report(*diagnostics: Diagnostic, closing: tuple[str, ...] = (), built: bool = True) -> Report:
    return Report("draw", "Harrow Point 7", ("a", "b"), diagnostics, closing=closing, built=built)


def words(svg: str) -> str:
    return "\n".join(re.findall(r"<text[^>]*>([^<]*)</text>", svg))


def drawn(made: Report) -> str:
    return words(ENGINE.svg(sheet(made, ENGINE.layout)))


@pytest.mark.parametrize("name", PANELS)
def test_a_panel_is_drawn_as_it_was_accepted(name: str) -> None:
    path = GOLDEN / f"{name}.dot"
    written = panel_dot(PANELS[name], 7)
    if not path.exists():
        path.write_text(written, encoding="utf-8")
        pytest.fail(f"{path.name} was not there; it is now: look at it and run again")
    assert written == path.read_text(encoding="utf-8")


def test_every_accepted_panel_has_its_case() -> None:
    assert {path.stem for path in GOLDEN.iterdir()} == set(PANELS)


@pytest.mark.parametrize("name", PANELS)
def test_a_panels_picture_depends_on_its_finding_only(name: str) -> None:
    alone, later = (panel_dot(PANELS[name], number) for number in (1, 20))
    assert alone == re.sub(r"\bf20", "f1", later)


@pytest.mark.parametrize("count", [1, 5, 24])
def test_a_sheet_has_every_panel_and_every_line(count: int) -> None:
    panels = (list(PANELS.values()) * 2)[:count]
    svg = ENGINE.svg(sheet(report(*map(finding, panels)), ENGINE.layout))
    for number, panel in enumerate(panels, 1):
        for index in range(len(panel.lines)):
            assert f'id="f{number}e{index}"' in svg
    assert f"{count} STOP. Dashed: make this joint. Double or thick line: undo" in words(svg)
    assert "unplug the set, discharge every filter capacitor, measure" in words(svg)


def test_what_there_is_no_room_for_is_counted_and_what_has_no_picture_is_named() -> None:
    text = drawn(report(*[finding(HANGING)] * 30, finding(None, Grade.NOTE)))
    assert "and 6 more findings, drawn in the report" in text
    assert "Without a picture, told in the report: 31." in text


def test_numbers_are_those_of_the_report() -> None:
    svg = ENGINE.svg(sheet(report(finding(None), finding(HANGING)), ENGINE.layout))
    assert 'id="f2e0"' in svg
    assert 'id="f1' not in svg


@pytest.mark.parametrize(
    ("panel", "legend"),
    [(HANGING, {DASHED}), (BRIDGE, {THICK}), (WRONG_LUG, {DASHED, DOUBLE}), (VALUE, {"another value"})],
)
def test_the_legend_lists_the_marks_that_occur(panel: Panel, legend: set[str]) -> None:
    last = drawn(report(finding(panel))).splitlines()[-len(legend) :]
    assert {word for line in last for word in (DASHED, DOUBLE, THICK, "another value") if line.endswith(word)} == legend
    assert len(last) == len(legend)


def test_without_a_finding_the_sheet_says_so_and_what_was_not_compared() -> None:
    text = drawn(report(closing=("Not compared: V7 and its socket.",)))
    assert text.splitlines() == ["Harrow Point 7", "No difference", "Not compared: V7 and its socket."]


def test_files_that_could_not_be_built_are_never_called_equal() -> None:
    text = drawn(report(finding(None), built=False))
    assert "No difference" not in text
    assert "1: C22.2 is elsewhere" in text


def test_lines_are_straight_with_their_inner_points_at_the_thirds() -> None:
    curves = re.findall(r'pos="([-\d.]+,[-\d.]+ [^"]*)"', placed_panel(BACKWARDS, 1, ENGINE.layout))
    assert len(curves) == len(BACKWARDS.lines)
    for curve in curves:
        points = [complex(*map(float, pair.split(","))) for pair in curve.split()]
        for step in range(4):
            assert abs(points[step] - (points[0] + (points[3] - points[0]) * step / 3)) < 0.02


def test_ends_are_ordered_so_that_only_the_dashed_lines_cross() -> None:
    # The cathode's socket stands left of the strip, so its end, the minus, does too.
    assert panel_dot(BACKWARDS, 1).index('PORT="c1" BGCOLOR') < panel_dot(BACKWARDS, 1).index('PORT="c0" BGCOLOR')


def test_a_socket_marked_away_from_its_key_stands_below() -> None:
    assert "f1m0:c0:s -- f1t0:c3:n" in panel_dot(UPPER_PINS, 1)


@pytest.mark.parametrize(
    "answer", ["", "[]", "{}", '{"bb": "0,0,1"}', '{"bb": "0,0,1,1", "objects": [{"name": "a", "pos": "?"}]}']
)
def test_an_answer_without_positions_is_a_fault(answer: str) -> None:
    with pytest.raises(EnvironmentFault, match="no positions"):
        sheet(report(finding(HANGING)), lambda _: answer)


def test_the_unplaced_sheet_is_one_ordinary_graph() -> None:
    made = report(*map(finding, PANELS.values()))
    svg = ENGINE.svg(unplaced_sheet(made))
    assert svg.count('class="cluster') == len(PANELS)
    assert "dashed: in the original, not there now: make it" in words(svg)
    assert "No difference" in words(ENGINE.svg(unplaced_sheet(report())))


def test_a_sheets_svg_is_described_and_keeps_no_node_names() -> None:
    made = report(finding(WRONG_LUG))
    svg = sheet_svg(ENGINE.svg(sheet(made, ENGINE.layout)), made)
    root = xml.dom.minidom.parseString(svg.encode()).documentElement  # noqa: S318 - our own picture
    assert root is not None
    assert root.getAttribute("role") == "img"
    names = [node.getAttribute("id") for kind in ("title", "desc") for node in root.getElementsByTagName(kind)]
    assert root.getAttribute("aria-labelledby").split() == names
    assert "Lead 2 of C22 is on lug 6 of strip SP2 (V4 plate). It belongs on lug 7 of strip SP2 (V5 grid)." in svg
    assert 'class="edge f1 was"' in svg
    assert 'font-family="Arial, Helvetica, sans-serif"' in svg
    assert svg == sheet_svg(ENGINE.svg(sheet(made, ENGINE.layout)), made)


def test_a_panels_svg_stands_in_a_page_under_ids_of_its_own() -> None:
    svg = panel_svg(ENGINE.svg(placed_panel(HANGING, 4, ENGINE.layout)), finding(HANGING), 4)
    assert svg.startswith('<svg role="img" aria-labelledby="f4-title f4-desc" width="')
    assert "<?xml" not in svg
    assert "<!" not in svg
    assert all(re.match(r"(a_)?f4", name) for name in re.findall(r'id="([^"]*)"', svg))
    with pytest.raises(EnvironmentFault, match="not as expected"):
        panel_svg("<html>", finding(HANGING), 4)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("bridge", "Lug 2 of strip SP1 (B+2) is joined to lug 5 of strip SP2 (V5 plate) (yellow wire), which is to"),
        (
            "backwards",
            "Lead + of C54 is on lug 4 of strip SP2 (chassis). It belongs on pin 8 of socket V5 (V5 cathode).",
        ),
        ("hanging", "Lead 1 of R17 belongs on lug 3 of strip SP2 (B+3)."),
        ("value", "C9: .1 mfd, is now .01 mfd."),
        ("mirrored", "Pin 7 of socket V2, as drawn, screen: to be made."),
        ("can", "Lead 1 of S2 is on lug half-moon of can C30 (B+1)."),
        ("split", "The net chassis has to be joined to the net bias (bond missing)."),
        ("added", "Lead 2 of R99 is on lug G1 (chassis), which is to be undone. R99 is not in the original."),
    ],
)
def test_a_panel_can_be_told_in_words(name: str, said: str) -> None:
    assert said in " ".join(told(PANELS[name]))


def test_a_joint_on_one_strip_is_told_once() -> None:
    assert told(PANELS["strap"]) == (
        "Lug 3 of strip SP2 (B+3) is joined to lug 4 of strip SP2 (chassis) (bridge), which is to be undone.",
    )


@pytest.mark.parametrize("weight", ["plain", "bold"])
def test_the_table_of_widths_agrees_with_the_engines_arial(weight: str) -> None:
    bold = weight == "bold"
    signs = [chr(code) for code in range(0x21, 0x7F)]
    table = '<TABLE BORDER="0" CELLPADDING="0" CELLSPACING="0"><TR><TD>'
    nodes = "".join(
        f"n{i} [label=<{table}{lettered(sign * 50, 10, bold=bold)}</TD></TR></TABLE>>]" for i, sign in enumerate(signs)
    )
    answer = json.loads(ENGINE.layout(f"graph {{ node [shape=plain fontname=Arial] {nodes} }}"))
    for sign, node in zip(signs, answer["objects"], strict=True):
        points = float(node["width"]) * 72 / 50
        assert advance(sign, 10, bold=bold) == pytest.approx(points * 1.06, rel=0.01), sign


def test_long_names_are_shortened_in_the_middle_and_texts_wrapped() -> None:
    assert brief("x" * 13 + "y" * 14) == "x" * 12 + "…" + "y" * 13
    assert brief("x" * 26) == "x" * 26
    lines = wrapped("the quick brown fox " + "w" * 80, 100, 12, most=4)
    assert len(lines) == 4
    assert lines[-1].endswith("…")
    assert all(advance(line[:-1], 12) <= 100 for line in lines)
