"""The lug list as it is printed, word for word, and as a document."""

import json
from collections import Counter
from pathlib import Path

import pytest

from netcheck.api import lugs
from netcheck.cli import main
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.places import PlaceListing, Spot
from netcheck.reports.excerpt import cells
from netcheck.reports.lug_list import lug_document, lug_list
from netcheck.reports.renderer import Style
from netcheck.reports.soldered import said
from netcheck.system.files import read, reader
from tests.paper import reader as paper_reader

ROOT = Path(__file__).parents[1]
SAMPLES = sorted((ROOT / "samples").glob("*/*.netck"))

BASE = """title "Skerry 5 table receiver"
state found
tube V5 50C5
resistor R14 470k
resistor R15 150 ohm
capacitor C17 .01 mfd
strip SP3 4 lugs foot 3 "by V5"
net B+: SP3.4, V5.screen
wire SP3.1 to V5.5 green
at SP3.1: C17.1, R14.1
at SP3.2: C17.2
at SP3.3: R14.2, R15.1
at V5.cathode: R15.2
net heater: V5.heater-1
"""
REWIRED = """title "Skerry 5 table receiver"
state rewired
start from "base.netck"
note SP3 "lug 2 is loose in its rivet"
move C17.2 to SP3.4
wire SP3.4 to SP3.1 red 22 AWG past SP3.2
"""
EXPECTED = """\
netcheck lugs: rewired.netck
Skerry 5 table receiver (rewired)
* copied from the file that this one starts from; nobody has looked at it on
  the chassis since
(in brackets): connected here by the drawing; which lug it is soldered to is
  not written down

V5: tube 50C5, 7-pin miniature, basing from memory, clockwise seen from
    below
[ ] 1  cathode   R15.2*
[ ] 2  grid      empty, one point with V5.5                              B+
[ ] 3  heater-1  empty                                                   heater
[ ] 4  heater-2  empty
[ ] 5  grid      wire green to SP3.1*, one point with V5.2               B+
[ ] 6  screen    (SP3.4)                                                 B+
[ ] 7  plate     empty

SP3: strip, 4 lugs, left to right seen from below, "by V5"
    note: lug 2 is loose in its rivet
[ ] 1        C17.1*, R14.1*, wire green to V5.5*,                        B+
             wire red 22 AWG to SP3.4 that passes SP3.2
[ ] 2        empty, wire red 22 AWG from SP3.4 to SP3.1 only passes
[ ] 3  foot  R14.2*, R15.1*, bolted to the chassis                       chassis
[ ] 4        C17.2, wire red 22 AWG to SP3.1 that passes SP3.2, (V5.6)   B+
"""


def listing(text: str, style: Style, name: str = "rewired.netck") -> str:
    report, places = lugs(Source(name, text), paper_reader({"base.netck": BASE}))
    assert report.built, [d.headline for d in report.diagnostics]
    return lug_list(report, places, style)


def test_the_list_reads_like_this() -> None:
    assert listing(REWIRED, Style()).partition("\nlisted: ")[0] == EXPECTED


def test_it_ends_with_the_count_the_inherited_joints_and_the_caution() -> None:
    closing = " ".join(listing(REWIRED, Style()).partition("\nlisted: ")[2].split())
    assert closing.startswith("2 places, 11 lugs, pins and leads, 5 of them empty copied from base.netck")
    assert "Pull the plug, discharge every filter capacitor" in closing


def test_a_file_that_starts_from_none_has_no_mark_to_explain() -> None:
    text = listing(BASE, Style(), "base.netck")
    assert "*" not in text
    assert "copied from" not in text


def test_a_spare_lug_is_empty_on_purpose() -> None:
    text = listing('strip SP1 2 lugs\nresistor R1 1k\nat SP1.1: R1.1\nnet a: R1.2\nspare SP1.2 "test point"', Style())
    assert '[ ] 2  empty on purpose "test point"\n' in text


def test_a_long_net_is_counted_not_listed() -> None:
    leads = ", ".join(f"R{n}.1" for n in range(1, 20))
    parts = "".join(f"resistor R{n} 1k\n" for n in range(1, 20))
    text = listing(f"tube V1 6J5\n{parts}net many: V1.plate, {leads}\n", Style())
    assert "and 11 more)" in text


@pytest.mark.parametrize("width", [40, 60, 80, 132])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_it_fits_the_screen_and_the_paper(path: Path, width: int) -> None:
    source = read(str(path))
    report, places = lugs(source, reader(source))
    lines = lug_list(report, places, Style(width=width, unicode=False)).splitlines()
    assert max(map(cells, lines)) <= min(width, 80)
    assert not [line for line in lines if not line.isascii() or line != line.rstrip()]
    assert sum(line.startswith("[ ] ") for line in lines) == sum(len(place.spots) for place in places)
    said_of_lugs = Counter(
        word for place in places for spot in place.spots for one in said(spot) for word in one.split()
    )
    printed = Counter(word.rstrip(",") for line in lines for word in line.split())
    assert {word for word, count in said_of_lugs.items() if count > printed[word.rstrip(",")]} == set()


def test_a_name_from_a_file_can_not_command_the_terminal() -> None:
    """No file can bring such a sign in, but the list does not lean on that."""
    place = PlaceListing("S\x1b[31m", "strip", "\x9b31m", (Spot("p", "\x1b", "\x07", "\x1b", ()),), ("\x1b]0;x",))
    text = lug_list(Report("lugs", "\x1b", ("\x1b",), ()), (place,), Style())
    assert not set(text) & {"\x1b", "\x9b", "\x07"}
    assert "\\u001b" not in lug_document(Report("lugs", "\x1b", ("\x1b",), ()), (place,), Style())


NOTED = """strip SP1 2 lugs
resistor R1 1k
note "from the attic"
note SP1 "rivet loose"
note SP1.2 "burnt"
note R1 "drifted"
note R1.2 "cut short"
note earth "thick wire"
net earth: R1.2, chassis
at SP1.1: R1.1
"""


def test_every_note_is_shown_at_its_place_or_below() -> None:
    report, places = lugs(Source("noted.netck", NOTED), paper_reader({}))
    assert [place.notes for place in places] == [("rivet loose", "SP1.2: burnt")]
    said = ["note: from the attic", "note on R1: drifted", "note on R1.2: cut short", "note on earth: thick wire"]
    assert [line for line in report.closing if line.startswith("note")] == said
    text = lug_list(report, places, Style())
    assert [text.count(word) for word in ("attic", "rivet", "burnt", "drifted", "short", "thick")] == [1] * 6


def test_the_document_says_the_same() -> None:
    report, places = lugs(Source("rewired.netck", REWIRED), paper_reader({"base.netck": BASE}))
    document = json.loads(lug_document(report, places, Style()))
    assert (document["generator"], document["command"], document["files"]) == ("netcheck", "lugs", ["rewired.netck"])
    strip = next(place for place in document["places"] if place["name"] == "SP3")
    assert strip["notes"] == ["lug 2 is loose in its rivet"]
    assert [spot["empty"] for spot in strip["spots"]] == [False, True, False, False]
    assert strip["spots"][0]["items"][-1] == {
        "put": "wire",
        "name": "SP3.4",
        "words": "red 22 AWG",
        "inherited": False,
        "past": ["SP3.2"],
    }
    assert [item["put"] for item in strip["spots"][1]["items"]] == ["past"]


def test_the_command_prints_and_writes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sample = str(ROOT / "samples/skerry/traced.netck")
    assert main(["lugs", sample]) == 0
    printed = capsys.readouterr().out
    assert "SP7: strip, 4 lugs" in printed
    target = tmp_path / "lugs.txt"
    for _ in range(2):  # the second time over its own file
        assert main(["lugs", sample, "-o", str(target)]) == 0
    assert target.read_text(encoding="utf-8") == printed
    assert main(["lugs", sample, "--json"]) == 0


def test_a_file_that_can_not_be_built_is_refused_with_its_mistakes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = tmp_path / "broken.netck"
    broken.write_text("resister R1 1k\n", encoding="utf-8")
    assert main(["lugs", str(broken)]) == 2
    assert "resistor" in capsys.readouterr().err
