"""The sheet: numbers, order, pages that cut nothing, the head that explains only what occurs, the end."""

import html
import json
import re
import xml.dom.minidom

import pytest
from msgspec.structs import replace

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import LeadRow, Panel
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import A4, LETTER, NARROW, Paper, sheet, sheet_dot, sheet_svg
from netcheck.reports.drawing.block import Block
from netcheck.reports.drawing.lettering import natural
from netcheck.reports.drawing.scene import Words
from netcheck.reports.drawing.sheet import paged
from netcheck.system.graphviz import find_engine
from tests.geometry import frame, words_on_words
from tests.panels import BACKWARDS, HANGING, MIRRORED, PANELS, STRAP, VALUE, WRONG_LUG

ENGINE = find_engine(None, {})
PLACE = Label(Source("set.netck", "x").whole)
STOP, LOOK, NOTE = Grade.STOP, Grade.LOOK, Grade.NOTE
PAPERS = {"A4": A4, "Letter": LETTER, "narrow": NARROW}
TEXT = re.compile(r"<text([^>]*)>([^<]*)</text>")


def finding(panel: Panel | None, grade: Grade = STOP, headline: str = "`C22.2` is elsewhere") -> Diagnostic:
    return Diagnostic("rule", grade, headline, (PLACE,), do="move it", panel=panel)


def report(
    *diagnostics: Diagnostic,
    closing: tuple[str, ...] = (),
    built: bool = True,
    unchecked: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
) -> Report:
    return Report(
        "draw",
        "Harrow Point 7",
        ("a", "b"),
        diagnostics,
        closing=closing,
        built=built,
        unchecked=unchecked,
        cautions=cautions,
    )


def svg(made: Report, paper: Paper = A4) -> str:
    return sheet_svg(sheet(made, paper), made)


def words(text: str) -> list[str]:
    return [said for _, said in TEXT.findall(text)]


EVERYTHING = report(
    *map(finding, PANELS.values()),
    finding(Panel(rows=PANELS["rows"].rows * 4)),
    finding(None, NOTE),
    closing=("compared: 3 leads",),
)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_no_page_cuts_a_finding(paper: Paper) -> None:
    made = sheet(EVERYTHING, paper)
    height = paper.height or made.height
    for group in made.groups:
        pages = {int(frame(thing)[edge] // height) for thing in group.things for edge in (1, 3)}
        if group.number:
            assert len(pages) == 1, group.number
            for thing in group.things:
                left, top, right, bottom = frame(thing)
                page = pages.copy().pop() * height
                assert top >= page + paper.margin - 1
                assert bottom <= page + height - paper.margin + 1
                assert left >= paper.margin - 1
                assert right <= paper.width - paper.margin + 1


def test_a_table_longer_than_a_page_goes_on_in_the_next_frame() -> None:
    rows = tuple(LeadRow(f"C{i}-", "SP3.5", "SP1.3") for i in range(70))
    made = svg(report(finding(Panel(rows=rows))))
    said = words(made)
    assert [text for text in said if re.fullmatch(r"C\d+-", text)] == [f"C{i}-" for i in range(70)]
    assert len([text for text in said if "(continued)" in text]) == 2
    assert set(re.findall(r'<g id="f(\d+)-', made)) == {"1"}


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_nothing_is_smaller_than_nine_points_and_every_run_has_its_length(paper: Paper) -> None:
    runs = TEXT.findall(svg(EVERYTHING, paper))
    assert len(runs) > 100
    for attributes, said in runs:
        size, wide = (float(re.findall(rf'{name}="([\d.]+)"', attributes)[0]) for name in ("font-size", "textLength"))
        assert size >= 9
        assert wide == pytest.approx(natural(html.unescape(said), size, bold="bold" in attributes), abs=0.01)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_no_words_lie_on_others_anywhere_on_a_sheet(paper: Paper) -> None:
    assert words_on_words([thing for group in sheet(EVERYTHING, paper).groups for thing in group.things]) == []


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_a_page_is_filled_to_its_margin_before_there_is_another_and_only_then_has_it_a_foot(paper: Paper) -> None:
    assert paper.height is not None
    room = paper.height - 2 * paper.margin
    line = Words(0, 10, "x", 10)
    for over, pages in ((0.0, 1), (0.5, 2)):
        blocks = [Block(room / 2 - 4, (line,), 8.0), Block(room / 2 - 4 + over, (line,), 6.0)]
        made = paged(blocks, paper, "Cove 2")
        said = [thing.text for group in made.groups for thing in group.things if isinstance(thing, Words)]
        assert (made.pages, "page 1 of 2" in said, said.count("Cove 2")) == (pages, pages == 2, 2 * (pages - 1))


def test_a_narrow_sheet_is_360_pixels_wide_and_has_one_page() -> None:
    made = svg(EVERYTHING, NARROW)
    assert 'width="270pt"' in made  # 360 px of 1/96 inch
    assert "page 1" not in made


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_what_to_fit_is_read_whole_on_any_paper(paper: Paper) -> None:
    order = 'fit .05 mfd (today 0.047 mfd or 0.056 mfd), or accept it: `accept value-changed C8 "why"`'
    value = replace(VALUE.values[0], was="450 V (C42B)", fit=order)
    said = html.unescape("".join(words(svg(report(finding(Panel(values=(value,)))), paper)))).replace(" ", "")
    assert order.replace(" ", "") in said


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_a_printed_page_is_the_papers(paper: Paper) -> None:
    made = svg(EVERYTHING, paper)
    assert f"@page {{ size: {paper.width}pt {paper.height}pt; margin: 0 }}" in made
    count = sheet(EVERYTHING, paper).pages
    assert [f"page {n} of {count}" for n in range(1, count + 1)] == [
        said for said in words(made) if said.startswith("page")
    ]


def test_numbers_are_those_of_the_report_in_pictures_rows_and_the_table() -> None:
    made = svg(report(finding(None), finding(HANGING), finding(VALUE, NOTE), finding(STRAP, LOOK)))
    assert set(re.findall(r'<g id="f(\d+)-', made)) == {"1", "2", "3", "4"}
    said = words(made)
    assert said.index("Values") > said.index("STOP")
    row = said.index("Values")
    assert said[row + 1 : row + 5] == ["part", "now", "was", "fit"]
    assert said[row + 5 : row + 11] == ["C9", ".01 mfd", ".1 mfd", "fit .1 mfd", "4", "NOTE"]


def test_a_finding_without_a_picture_is_a_row_of_words() -> None:
    said = words(svg(report(finding(None, NOTE, "the chassis is joined to the line"))))
    assert said[said.index("NOTE") + 1 : said.index("NOTE") + 3] == ["The chassis is joined to the line", "Move it"]


@pytest.mark.parametrize(
    ("panel", "marks"),
    [
        (HANGING, {"put this on"}),
        (STRAP, {"take this off"}),
        (WRONG_LUG, {"take this off", "put this on"}),
        (MIRRORED, {"take this off", "put this on"}),
        (VALUE, set()),
        (None, set()),
    ],
)
def test_the_head_explains_only_the_marks_that_occur(panel: Panel | None, marks: set[str]) -> None:
    said = set(words(svg(report(finding(panel)))))
    assert said & {"take this off", "put this on", "leave this"} == marks
    assert any("pull the plug" in line for line in said) is bool(marks)


def test_a_hot_chassis_is_said_in_bold_in_the_head_and_not_again_at_the_end() -> None:
    hot = "Metal of this set can be at line voltage."
    cautions = (hot, "This is a check of paper.")
    made = svg(report(finding(STRAP), closing=("compared: 3 leads", *cautions), cautions=cautions))
    attributes = [attributes for attributes, said in TEXT.findall(made) if said == hot]
    assert len(attributes) == 1
    assert "bold" in attributes[0]
    said = words(made)
    assert said.index(hot) < said.index("STOP") < said.index("This is a check of paper.")
    assert said.count("This is a check of paper.") == 1


def test_a_clean_sheet_ends_with_what_was_proved_what_was_not_checked_and_what_to_measure() -> None:
    closing = ("compared: 189 leads of 67 parts", "179 of 212 joints are copied")
    made = svg(report(closing=closing, unchecked=closing[1:]))
    runs = {said: "bold" in attributes for attributes, said in TEXT.findall(made)}
    assert runs["No difference between the two that was not declared."]
    assert runs["179 of 212 joints are copied."]
    assert not runs["Compared: 189 leads of 67 parts."]
    assert any(said.startswith("Measure next, plug out") for said in runs)
    said = words(svg(report(finding(HANGING))))
    assert not any("No difference" in line or "Measure next" in line for line in said)


def test_files_that_could_not_be_built_are_never_called_equal() -> None:
    said = words(svg(report(finding(None), built=False)))
    assert not any("No difference" in line for line in said)
    assert any("elsewhere" in line for line in said)


def test_a_sheets_svg_is_described_and_the_same_twice() -> None:
    made = report(finding(WRONG_LUG))
    text = svg(made)
    root = xml.dom.minidom.parseString(text.encode()).documentElement  # noqa: S318 - our own picture
    assert root is not None
    assert root.getAttribute("role") == "img"
    names = [node.getAttribute("id") for kind in ("title", "desc") for node in root.getElementsByTagName(kind)]
    assert root.getAttribute("aria-labelledby").split() == [name for name in names if name]
    assert "C22.2 belongs on lug 7 of strip SP2 (V5 grid): put it on." in text
    assert text == svg(made)


def test_marks_carry_their_act_and_their_place() -> None:
    text = svg(report(finding(WRONG_LUG)))
    marks = re.findall(r'<g data-mark="([^"]*)" data-act="([^"]*)" data-at="([^"]*)">', text)
    assert sorted(marks) == [
        ("put on", "move C22.2 to SP2.7", "C22.2 SP2.7"),
        ("take off", "move C22.2 to SP2.7", "C22.2 SP2.6"),
    ]


def test_an_engine_draws_the_sheets_graph_with_every_line() -> None:
    made = sheet(report(finding(BACKWARDS), finding(MIRRORED)))
    picture = ENGINE.svg(sheet_dot(made))
    assert {"C54", "V5 cathode", "net-3"} <= set(map(html.unescape, words(picture)))
    laid = json.loads(ENGINE.layout(sheet_dot(made)))
    left, bottom, right, top = (float(number) for number in laid["bb"].split(","))
    assert right - left == pytest.approx(made.width, rel=0.02)
    assert top - bottom == pytest.approx(made.height, rel=0.02)


@pytest.mark.parametrize("weight", ["plain", "bold"])
def test_the_table_of_widths_agrees_with_the_engines_arial(weight: str) -> None:
    bold = weight == "bold"
    signs = [chr(code) for code in range(0x21, 0x7F)]
    table = '<TABLE BORDER="0" CELLPADDING="0" CELLSPACING="0"><TR><TD>'
    escapes = {"&": "&amp;", "<": "&lt;", ">": "&gt;", "\\": "\\\\", "]": "&#93;", '"': "&quot;"}
    runs = [escapes.get(sign, sign) * 50 for sign in signs]
    runs = [f"<B>{run}</B>" if bold else run for run in runs]
    nodes = "".join(
        f'n{i} [label=<{table}<FONT POINT-SIZE="10">{run}</FONT></TD></TR></TABLE>>]' for i, run in enumerate(runs)
    )
    answer = json.loads(ENGINE.layout(f"graph {{ node [shape=plain fontname=Arial] {nodes} }}"))
    for sign, node in zip(signs, answer["objects"], strict=True):
        assert natural(sign, 10, bold=bold) == pytest.approx(float(node["width"]) * 72 / 50, rel=0.01), sign
