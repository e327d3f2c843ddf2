"""A sheet as text, as a page to print and as a file for a spreadsheet."""

import csv
import io
import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.reports import SHEETS
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style
from netcheck.system.signature import is_signed

COLUMNS = (Column("step"), Column("point"), Column("reading", blank=True), Column("why", wide=True))
ROWS = (Row(("1", "C41+", "", "wire"), "SP1.1"), Row(("2", "-x", "0.3", "so " * 40)))
SHEET = Sheet(
    "bench", "Lock Cottage <2> & \N{RIGHT-TO-LEFT OVERRIDE}set", "rewired", ("set.netck",),
    (
        Table("Joined", COLUMNS, ROWS, key="joined"),
        Table("By eye", before=("No lug bent.",), key="eye"),
        Table("Off if", (Column("", wide=True),), (Row(("smoke",)),), boxes=False, key="off"),
    ),
    ("Unplug.",), ("Tubes out.",), ("End.",),
)  # fmt: skip

PRINTED = """\
netcheck bench: set.netck

Lock Cottage <2> & <U+202E>set (rewired)
date ____________  by ____________

! Unplug.

Tubes out.

Joined
    step  point  reading     why
SP1.1
[ ] 1     C41+   __________  wire
[ ] 2     -x     0.3         so so so so so so so so so so
                             so so so so so so so so so so
                             so so so so so so so so so so
                             so so so so so so so so so so

By eye
No lug bent.

Off if
smoke

End.
"""


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.boxes, self.text = 0, ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag not in ("script", "img", "link", "iframe")
        self.boxes += dict(attrs).get("class") == "box" and tag == "td"
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag
        self.text += " "

    def handle_data(self, data: str) -> None:
        self.text += data


def test_the_page_is_whole_safe_and_has_a_box_a_row() -> None:
    page = SHEETS[".html"](SHEET, Style())
    read = _Page()
    read.feed(page)
    assert read.open == []
    assert read.boxes == 2
    assert "Lock Cottage <2> & <U+202E>set (rewired)" in read.text
    assert "default-src 'none'" in page
    assert is_signed(page.encode())


@pytest.mark.parametrize("width", [40, 80, 100, 160])
def test_no_line_of_the_text_is_wider_than_asked(width: int) -> None:
    text = SHEETS[".txt"](SHEET, Style(width=width))
    assert max(cells(line) for line in text.splitlines()) <= min(width, 100)
    assert text.count("[ ] ") == 2
    assert "date ____" in text
    assert is_signed(text.encode())


def _all_words(sheet: Sheet) -> Iterator[str]:
    """Every word that a sheet holds, but for those of the title, which has a sign that is not shown as it is."""
    yield from (*sheet.files, *sheet.cautions, *sheet.before, *sheet.closing, f"({sheet.state})")
    for table in sheet.tables:
        yield from (table.heading, *table.before)
        yield from (column.name for column in table.columns if table.rows)
        for row in table.rows:
            yield from (row.lead, *row.cells)


@pytest.mark.parametrize("width", [40, 60, 80, 160])
def test_nothing_that_a_sheet_says_is_left_out_of_the_text_or_the_page(width: int) -> None:
    wanted = Counter(word for text in _all_words(SHEET) for word in text.split())
    page = _Page()
    page.feed(SHEETS[".html"](SHEET, Style()))
    for printed in (SHEETS[".txt"](SHEET, Style(width=width)), page.text):
        assert wanted - Counter(printed.split()) == Counter()


def test_the_text_of_a_sheet_word_for_word() -> None:
    assert SHEETS[".txt"](SHEET, Style(width=60)) == PRINTED


def test_a_blank_cell_has_a_line_to_write_on_and_a_filled_one_its_reading() -> None:
    rows = [line for line in SHEETS[".txt"](SHEET, Style()).splitlines() if line.startswith("[ ]")]
    assert "__________" in rows[0]
    assert "0.3" in rows[1]
    assert "__________" not in rows[1]


@pytest.mark.parametrize(("width", "line", "rows"), [(49, 10, 1), (48, 9, 1), (47, 8, 1), (46, 10, 2)])
def test_a_line_to_write_on_is_shorter_where_every_row_then_stays_on_one_line(width: int, line: int, rows: int) -> None:
    """Ten columns for a reading by hand; eight will do, but only for that."""
    table = Table("Joined", COLUMNS, (Row(("1", "C41+", "", "a wire under a clamp")),))
    text = SHEETS[".txt"](Sheet("bench", "set", "", (), (table,), (), (), ()), Style(width=width))
    told = [each for each in text.partition("why")[2].splitlines() if each]
    assert told[0].count("_") == line
    assert len(told) == rows


def test_no_column_gets_narrower_than_six_however_narrow_the_screen() -> None:
    names = ("first", "second", "third")
    table = Table("Cold", tuple(Column(name, wide=True) for name in names), (Row(("abc def ghi",) * 3),), boxes=False)
    text = SHEETS[".txt"](Sheet("bench", "set", "", (), (table,)), Style(width=10))
    rows = text.partition("Cold\n")[2].splitlines()
    assert rows == ["first   second  third", *(f"{word}     {word}     {word}" for word in ("abc", "def", "ghi"))]


def test_the_spreadsheet_has_every_row_and_computes_nothing() -> None:
    text = SHEETS[".csv"](SHEET, Style())
    rows = list(csv.DictReader(io.StringIO(text)))
    cautioned, *rows = rows
    assert [cautioned[name] for name in next(csv.reader(io.StringIO(text)))] == [
        SHEET.cautions[0],
        *[""] * 4,
        "caution",
    ]
    assert [row["point"] for row in rows[:2]] == ["C41+", " -x"]
    assert [row["table"] for row in rows] == ["joined", "joined", "off"]
    assert not is_signed(text.encode())  # somebody may have filled it in


def test_plain_ascii_where_nothing_else_can_be_shown() -> None:
    sheet = Sheet("bench", "a", "", (), (Table("t", (Column("x"),), (Row(("1 k \N{PLUS-MINUS SIGN}5 %",)),)),))
    assert "1 k +/-5 %" in SHEETS[".txt"](sheet, Style(unicode=False))


def test_nothing_is_printed_below_nine_points_and_only_black_on_white() -> None:
    page = SHEETS[".html"](SHEET, Style())
    sizes = [
        float(size)
        for size in re.findall(r"([0-9.]+)pt(?:/[0-9.]+)? Arial|font-size: ([0-9.]+)pt", page)
        for size in size
        if size
    ]
    assert len(sizes) >= 8
    assert min(sizes) == 9
    assert not re.search(r"font(-size)?:[^;]*[0-9](px|em|mm|%)", page)
    assert set(re.findall(r"(?<!-)color: (#\w+)|background: (#\w+)", page)) == {("#000", ""), ("", "#fff")}


HOSTILE = """</style><script>alert(1)</script>"'}\\ *{display:none}"""


def test_no_name_of_a_file_leaves_its_place() -> None:
    """Neither the running head's style sheet, nor an attribute, nor the text takes a name for more than words."""
    cell = Table(HOSTILE, (Column(HOSTILE, blank=True),), (Row((HOSTILE,), HOSTILE),), (f"`{HOSTILE}`",))
    sheet = Sheet(HOSTILE, HOSTILE, HOSTILE, (HOSTILE,), (cell,), (HOSTILE,), (HOSTILE,), (HOSTILE,))
    page = SHEETS[".html"](sheet, Style())
    read = _Page()
    read.feed(page)
    assert read.open == []
    assert page.count("<style>") == page.count("</style>") == 1
    style = page[page.index("<style>") : page.index("</style>")]
    assert "alert" not in style
    assert "".join(chr(int(sign, 16)) for sign in re.findall(r"\\([0-9a-f]{6})", style)).count(HOSTILE) == 3
    assert read.text.count(HOSTILE) >= 9


def test_on_a_narrow_screen_each_figure_keeps_its_columns_name() -> None:
    page = SHEETS[".html"](SHEET, Style())
    assert '<td class="blank" data-name="reading"></td>' in page
    assert '<td class="tight" data-name="point">C41+</td>' in page
    narrow = page[page.index("@media screen and (max-width: 600px)") :]
    assert "thead { display: none; }" in narrow
    assert "content: attr(data-name)" in narrow


def test_a_short_table_stays_on_one_page_and_a_long_one_repeats_its_heading() -> None:
    def page(rows: int) -> str:
        table = Table("Joined", COLUMNS, (ROWS[0],) * rows)
        return SHEETS[".html"](Sheet("bench", "a", "", (), (table,)), Style())

    assert '<section class="whole">' in page(10)
    assert '<section class="whole">' not in page(11)
    assert "<thead><tr><th" in page(11)


def test_what_stands_under_one_lug_is_not_parted_over_two_pages() -> None:
    rows = [Row(("none",)), Row(("a",), "SP1.1"), Row(("b",)), Row(("c",), "SP1.2")]
    page = SHEETS[".html"](Sheet("job", "set", "", (), (Table("On", (Column("", wide=True),), tuple(rows)),)), Style())
    bodies = re.findall(r"<tbody( class=\"whole\")?>(.*?)</tbody>", page, re.DOTALL)
    told = [(bool(whole), re.findall(r">([^<>\s]+)</td>", body)) for whole, body in bodies]
    assert told == [(False, ["none"]), (True, ["SP1.1", "a", "b"]), (True, ["SP1.2", "c"])]
    crowded = (Row(("0",), "SP1.1"), *(Row((str(n),)) for n in range(10)))
    page = SHEETS[".html"](Sheet("job", "set", "", (), (Table("On", (Column("", wide=True),), crowded),)), Style())
    assert page.count("<tbody>") == 1
    assert ".whole { break-inside: avoid; }" in page
