"""The record: one file, one policy, no word of a user's that acts; all of what the next restorer asks for is in it."""

import base64
import hashlib
import html
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from netcheck.cli import main
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Cut
from netcheck.core.record import Reason, Record
from netcheck.core.report import Report
from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.core.source import Source
from netcheck.core.visible import visible
from netcheck.reports.record import record_page
from netcheck.reports.record.page import verdict
from netcheck.system.signature import is_signed
from tests.panels import PANELS
from tests.test_reports_formats import HARM

ROOT = Path(__file__).parents[1]
VOID = {"meta", "rect", "circle", "br", "path"}


class Page(HTMLParser):
    """Tags in order, attributes, the text of each kind of tag; checks that all are closed."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: dict[str, str] = {}
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)
        if tag == "td":
            self.handle_data(" ")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in {*self.open}:
            self.text[tag] = self.text.get(tag, "") + data


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def made(*argv: str) -> Page:
    main(["record", *argv, "-o", "record.html"])
    return Page(Path("record.html").read_text(encoding="utf-8"))


def sample(name: str, state: str) -> str:
    return str(ROOT / f"samples/{name}/{state}.netck")


def test_it_says_everything_of_a_set(capsys: pytest.CaptureFixture[str]) -> None:
    page = made(sample("skerry", "original"), sample("skerry", "faulty"))
    assert re.fullmatch(r"record\.html written: \d+ STOP.*\n", capsys.readouterr().out)
    words = " ".join(page.text["body"].split())
    for part in (
        "Skerry 5 table receiver",
        "Do not plug it in: ",
        "Metal of this set can be at line voltage.",
        "F1 put in series no fuse in the original",
        "C32 the wafer is cracked at one ear",
        "NOT CHECKED: 177 of 206 joints are copied",
        "D1 is in backwards: its band is on SP6.5",
        "line 28 of ",
        "C32A: section 50 mfd 200 V half-moon",
        "While something is wrong, these figures are those of the list as it stands",
        "B+1",
        "What to measure, and what to expect:",
        "Date ______________",
    ):
        assert part in words, part
    assert [text.strip() for text in re.findall(r"<h2[^>]*>([^<]*)", Path("record.html").read_text())] == [
        "What differs on purpose, and why", "What was not looked at", "Findings", "Parts out and in",
        "The supply, as calculated", "Measured", "A slip for the inside of the cabinet",
    ]  # fmt: skip
    assert is_signed(Path("record.html").read_bytes())


def test_a_supply_that_keeps_its_charge_is_told() -> None:
    words = " ".join(made(sample("harrow-point", "original"), sample("harrow-point", "rewired")).text["body"].split())
    assert "On paper the chassis is wired as the original" in words
    assert "these figures are those of the list as it stands" not in words
    assert "never: nothing bleeds it. Discharge it by hand" in words
    assert "running figures that depend on it are left out (?)" in words  # the sample has a `draws` over two tubes
    assert "as in <code>1/2 W</code>, <code>180 mA</code>" in Path("record.html").read_text(encoding="utf-8")
    assert "as in 1/2 W, 180 mA" in words


def test_the_same_lists_give_the_same_page() -> None:
    pages = []
    for _ in range(2):
        made(sample("one-can", "original"), sample("one-can", "rewired"))
        pages.append(Path("record.html").read_bytes())
    assert pages[0] == pages[1]


def test_readings_are_told_where_they_are_given() -> None:
    pair = (sample("one-can", "original"), sample("one-can", "faulty"))
    main(["bench", pair[1], "-o", "plan.csv"])
    assert "No readings were given" in made(*pair).text["body"]
    words = " ".join(made(*pair, "--readings", "plan.csv").text["body"].split())
    assert "No readings were given" not in words
    assert "Measured" in words


def test_a_list_that_cannot_be_built_gives_no_page(capsys: pytest.CaptureFixture[str]) -> None:
    Path("bad.netck").write_text("resister R1 1k\n")
    assert main(["record", sample("one-can", "original"), "bad.netck", "-o", "record.html"]) == 2
    assert "no statement begins with `resister`" in capsys.readouterr().err
    assert not Path("record.html").exists()


@pytest.mark.parametrize(
    ("argv", "told"),
    [
        (("record", "a.netck"), "name two files"),
        (("record", "a.netck", "b.netck"), "say where the page goes: `-o record.html`"),
        (("record", "a.netck", "b.netck", "-o", "x.txt"), "there is no file `a.netck`"),
    ],
)
def test_a_call_that_cannot_work(argv: tuple[str, ...], told: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(list(argv)) == 2
    assert told in capsys.readouterr().err


def hostile(text: str) -> Record:
    source = Source(f"{text}.netck", f"# {text}\nat SP1.2: C52-\n")
    label = Label(source.between(2, 2 + len(text)), text)
    found = [
        Diagnostic(text, Grade.STOP, text, (label,), why=text, do=text, panel=panel, mends=((Cut(text, text),),))
        for panel in (*PANELS.values(), None)
    ]
    report = Report("compare", text, (source.name,), tuple(found), (), (text,), unchecked=(text,), cautions=(text,))
    table = Table(text, (Column(text), Column(text, blank=True)), (Row((text, text), text),), (text,), key="ready")
    sheet = Sheet("job", text, text, (source.name,), (table,), (text,), (text,), (text,))
    return Record(report, text, (Reason(text, text, text),), sheet, sheet, (table,), (text,), sheet)


@pytest.mark.parametrize(
    "text",
    [*HARM, '"><script>alert(1)</script>', "' onload='x", "</style>", "{{ 7*7 }}", "`<b>x</b>`", "`<x>` `"],
    ids=ascii,
)
def test_no_word_of_a_file_acts(text: str) -> None:
    written = record_page(hostile(text))
    page = Page(written)
    assert [tag for tag, _ in page.tags].count("script") == 1
    assert [tag for tag, _ in page.tags].count("style") == 1
    assert not {tag for tag, _ in page.tags} & {"img", "a", "link", "iframe", "object", "form", "base", "x", "b"}
    names = {name for _, attributes in page.tags for name in attributes}
    assert not {name for name in names if name.startswith("on") or name in ("href", "src", "style")}
    assert not {sign for sign in written if not sign.isprintable()} - {"\n"}
    assert visible(text) in page.text["h1"]
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[a-z0-9-]+", one or "") for one in ids)


def test_only_its_own_style_and_script_are_allowed_to_run() -> None:
    page = made(sample("one-can", "original"), sample("one-can", "faulty"))
    policy = next(attributes["content"] or "" for tag, attributes in page.tags if "http-equiv" in attributes)
    assert policy.startswith("default-src 'none'; ")
    for kind in ("style", "script"):
        digest = base64.b64encode(hashlib.sha256(page.text[kind].encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}';" in policy
    text = Path("record.html").read_text(encoding="utf-8")
    assert set(re.findall(r"https?://[^\"']*", text)) == {"http://www.w3.org/2000/svg"}
    assert "url(" not in text
    assert "@import" not in text


def test_sentences_lines_and_marks_are_tied_by_the_same_words() -> None:
    page = made(sample("one-can", "original"), sample("one-can", "faulty"))
    marks = [attributes for _, attributes in page.tags if "data-mark" in attributes]
    orders = {attributes["data-order"] for _, attributes in page.tags if "data-order" in attributes}
    quoted = {attributes["data-name"] for tag, attributes in page.tags if tag == "mark"}
    assert orders == {"move C42+ to SP1.2"}
    assert {mark["data-act"] for mark in marks} == orders
    assert "SP1.1" in quoted
    assert any("SP1.1" in (mark["data-at"] or "").split() for mark in marks)
    assert all(attributes.get("tabindex") == "0" for tag, attributes in page.tags if tag == "mark")


def test_a_line_with_two_marks_is_shown_once() -> None:
    made(sample("skerry", "original"), sample("skerry", "faulty"))
    text = Path("record.html").read_text(encoding="utf-8")
    line = next(row for row in re.findall(r"<pre>(.*)</pre>", text) if row.startswith("diode D1"))
    assert re.findall(r"<mark[^>]*>([^<]*)", line) == ["SP6.6", "SP6.5"]
    shown = html.unescape(re.sub(r"<[^>]*>", "", line))
    assert shown == "diode D1 1000 V 1 A            anode SP6.6 cathode SP6.5  replaces SE1"


def test_of_marks_on_one_line_each_word_is_said_once_and_what_has_none_says_none() -> None:
    source = Source("a.netck", "state found\nat SP1.2: C52-, R7.2, C53-, R8.1\n")
    words = {"C52-": "now", "R7.2": "", "C53-": "beside it", "R8.1": "now"}
    places = {name: source.text.index(name) for name in words}
    labels = tuple(Label(source.between(at, at + 4), words[name]) for name, at in places.items())
    found = Diagnostic("lead-on-wrong-net", Grade.STOP, "C52- is on SP1.2", labels)
    sheet = Sheet("job", "t", "found", ("a.netck",), ())
    page = record_page(Record(Report("compare", "t", ("a.netck",), (found,)), "", (), sheet, sheet))
    assert '<p class="faint">line 2 of a.netck: now; beside it</p>' in page


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("fit `.05 mfd` or `.047 mfd`", "fit <code>.05 mfd</code> or <code>.047 mfd</code>"),
        ("fit `.05 mfd` or `.047 mfd", "fit `.05 mfd` or `.047 mfd"),
        ("no more than 5 > 4", "no more than 5 &gt; 4"),
    ],
)
def test_what_is_typed_is_set_as_such_where_its_quotes_are_in_pairs(text: str, shown: str) -> None:
    page = record_page(hostile(text))
    assert f"<p>Do: {shown}</p>" in page
    assert f"<p>{shown}</p>" in page[page.index('<h2 id="unchecked">') : page.index('<h2 id="findings">')]


AS_DRAWN = "On paper the chassis is wired as the original, but for what was changed on purpose."


@pytest.mark.parametrize(
    ("grades", "unchecked", "sentence"),
    [
        ((Grade.STOP, Grade.LOOK), (), "Do not plug it in: 1 finding to mend first."),
        ((Grade.LOOK, Grade.LOOK), (), "Nothing to stop for; 2 findings to look at before the plug goes in."),
        ((), (), AS_DRAWN),
        ((Grade.NOTE,), ("x",), f"{AS_DRAWN} What was not looked at is said below."),
    ],
)
def test_the_verdict(grades: tuple[Grade, ...], unchecked: tuple[str, ...], sentence: str) -> None:
    found = tuple(Diagnostic("r", grade, str(n), ()) for n, grade in enumerate(grades))
    assert verdict(Report("compare", "", ("a",), found, unchecked=unchecked)) == sentence


def test_on_a_narrow_screen_each_figure_keeps_its_columns_name() -> None:
    main(["record", sample("skerry", "original"), sample("skerry", "rewired"), "-o", "narrow.html"])
    text = Path("narrow.html").read_text(encoding="utf-8")
    figures = re.findall(r'<table class="grid figures">(.*?)</table>', text, re.DOTALL)
    assert len(figures) >= 4
    for table in figures:
        names = re.findall(r"<th scope=\"col\">(.*?)</th>", table)
        rows = [re.findall(r"<td([^>]*)>", row) for row in re.findall(r"<tr>(<td.*?)</tr>", table)]
        assert rows
        assert all(cells == [f' data-name="{name}"' for name in names] for cells in rows)
    narrow = text.partition("@media screen and (max-width: 40rem) {")[2].partition("\n}")[0]
    assert ".grid thead { display: none; }" in narrow
    assert "content: attr(data-name)" in narrow
