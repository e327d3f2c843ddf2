"""One state from below: nothing that is soldered is missing, nothing lies on anything else, no page cuts a place."""

import html
import re
from pathlib import Path

import pytest

from netcheck import api
from netcheck.cli import main
from netcheck.core.mend import Cut, Put
from netcheck.core.source import Source
from netcheck.model import places as soldered
from netcheck.reports.drawing import A4, LETTER, NARROW, DrawnPages, Paper, sheet_svg, underside
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words
from netcheck.reports.soldered import said
from netcheck.system.files import read, reader
from tests.geometry import frame, words_on_words
from tests.paper import reader as paper_reader

SAMPLES = Path(__file__).parent.parent / "samples"
PAPERS = {"A4": A4, "Letter": LETTER, "narrow": NARROW}
STATES = [f"{name}/{state}" for name in ("skerry", "sallow-street", "one-can") for state in ("original", "rewired")]
STAPLE = """
title "Cove 2"
state rewired
can C1 grounded
section C1A 40 mfd 450 V half-moon
section C1B 20 mfd 450 V square
strip SP1 4 lugs foot 3
resistor R1 1k 2 W from SP1.1 to C1.A
wire SP1.1 to C1.B red
at SP1.2: R1.2
"""


def drawn(name: str, paper: Paper) -> tuple[DrawnPages, str, list[str]]:
    """The sheet of a sample's state, as SVG, and what it has to say of each lug."""
    source = read(str(SAMPLES / f"{name}.netck"))
    report, places = api.lugs(source, reader(source))
    made = underside(report, places, paper)
    return made, sheet_svg(made, report), [piece for p in places for spot in p.spots for piece in said(spot)]


def words(svg: str) -> str:
    return "".join(html.unescape(text) for text in re.findall(r"<text[^>]*>([^<]*)</text>", svg)).replace(" ", "")


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
@pytest.mark.parametrize("name", STATES)
def test_all_that_is_soldered_is_on_the_sheet(name: str, paper: Paper) -> None:
    _, svg, pieces = drawn(name, paper)
    text = words(svg)
    assert pieces
    assert [piece for piece in pieces if piece.replace(" ", "") not in text] == []


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
@pytest.mark.parametrize("name", STATES)
def test_no_words_lie_on_others_or_beyond_the_paper_and_none_are_small(name: str, paper: Paper) -> None:
    made, _, _ = drawn(name, paper)
    things = [thing for group in made.groups for thing in group.things]
    assert words_on_words(things) == []
    assert max(frame(thing)[2] for thing in things if isinstance(thing, Words)) <= paper.width
    assert min(thing.size for thing in things if isinstance(thing, Words)) >= 9


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_no_page_cuts_a_place(paper: Paper) -> None:
    made, _, _ = drawn("skerry/rewired", paper)
    assert made.pages > 1
    assert paper.height is not None
    for group in made.groups:
        tops = [frame(thing)[1] for thing in group.things]
        ends = [frame(thing)[3] for thing in group.things]
        assert min(tops) // paper.height == (max(ends) - 0.6) // paper.height


def test_a_can_a_strip_and_what_is_on_each_lug_by_its_number() -> None:
    source = Source("cove.netck", STAPLE)
    report, places = api.lugs(source, reader(source))
    made = underside(report, places, A4)
    text = [thing.text for group in made.groups for thing in group.things if isinstance(thing, Words)]
    assert "Cove 2 (rewired), from below" in text
    assert "R1.1, wire red to C1.B" in text
    assert "half-moon: R1.2" in text
    assert text.count("empty") == 1
    items = [item.put for place in places for spot in place.spots for item in spot.items]
    assert soldered.HeldBy.WIRE in items


def test_a_state_is_drawn_into_the_files_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    state = tmp_path / "cove.netck"
    state.write_text(STAPLE)
    picture, graph = tmp_path / "cove.svg", tmp_path / "cove.dot"
    assert main(["draw", str(state), "-o", str(picture), "-o", str(graph)]) == 0
    assert capsys.readouterr().out == f"{picture} written\n{graph} written\n"
    assert picture.read_text().rstrip().endswith("</svg>")
    assert "graph" in graph.read_text()


def test_a_state_with_mistakes_is_not_drawn(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    state, picture = tmp_path / "cove.netck", tmp_path / "cove.svg"
    state.write_text("resister R1 1k\n")
    assert main(["draw", str(state), "-o", str(picture)]) == 2
    assert "resister" in capsys.readouterr().err
    assert not picture.exists()


@pytest.mark.parametrize("name", ["harrow-point", "marram", "skerry", "sallow-street"])
def test_of_a_comparison_every_act_stands_at_the_lugs_that_it_touches(name: str) -> None:
    original, faulty = (read(str(SAMPLES / name / f"{state}.netck")) for state in ("original", "faulty"))
    report = api.compare(original, faulty, reader(original, faulty))
    _, places = api.lugs(faulty, reader(faulty))
    text = words(sheet_svg(underside(report, places, A4), report))
    acts = [
        (number, mark, act.line)
        for number, found in report.numbered
        for act in (found.mends[0] if found.mends else ())
        for mark in (["take off", "put on"] if isinstance(act, Put) else ["take off"] if isinstance(act, Cut) else [])
    ]
    assert acts
    assert [one for one in acts if f"{one[0]} {one[1]}: {one[2]}".replace(" ", "") not in text] == []
    marked = {place.name for place in places if f"{place.name}{place.about}".replace(" ", "") in text}
    assert 0 < len(marked) < len(places)


def test_of_a_part_that_is_turned_round_each_lead_comes_off_before_the_other_goes_on() -> None:
    first = "strip SP1 5 lugs foot 3\nelectrolytic C1 22 mfd 50 V\nresistor R1 1k\nresistor R2 1k\n"
    drawn_ = Source("a.netck", f"{first}at SP1.1: C1+, R1.1, R2.1\nat SP1.3: C1-, R1.2, R2.2\n")
    done = Source("b.netck", f"covers C1, R1\n{first}at SP1.1: C1-, R1.1, R2.1\nat SP1.3: C1+, R1.2, R2.2\n")
    report = api.compare(drawn_, done, reader(drawn_, done))
    _, places = api.lugs(done, reader(done))
    things = [thing for group in underside(report, places, A4).groups for thing in group.things]
    tasks = [thing.text for thing in things if isinstance(thing, Words) and thing.text.startswith(("1 take", "1 put"))]
    assert [task.partition(":")[0] for task in tasks] == ["1 take off", "1 put on"] * 2
    unchecked = [thing for thing in things if isinstance(thing, Words) and thing.text.startswith("NOT CHECKED")]
    assert unchecked
    assert all(thing.bold for thing in unchecked)


def test_a_comparisons_underside_says_what_was_found(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    picture = tmp_path / "work.svg"
    files = [str(SAMPLES / "one-can" / f"{state}.netck") for state in ("original", "faulty")]
    assert main(["draw", *files, "--underside", "-o", str(picture)]) == 1
    assert capsys.readouterr().out == f"{picture} written: 2 STOP, 1 NOTE\n"
    assert "take this off" in picture.read_text()


def test_a_bus_is_read_whole() -> None:
    """Ninety leads on one lug are more than eight lines of a card."""
    names = [f"R{at}" for at in range(100, 190)]
    parts = "\n".join(f"resistor {name} 1k\nat SP1.2: {name}.1" for name in names)
    source = Source("cove.netck", f"state rewired\nstrip SP1 4 lugs foot 3\n{parts}\n")
    report, places = api.lugs(source, reader(source))
    text = words(sheet_svg(underside(report, places, A4), report))
    assert [name for name in names if f"{name}.1" not in text] == []


PLACED = """
state rewired
strip SP1 4 lugs foot 3
strip SP2 3 lugs insulated
tube V1 6V6GT
tube V2 6AU6
can C1 grounded
section C1A 40 mfd 450 V half-moon
transformer T1
winding T1 primary black-a black-b 117 V
resistor R1 1k from SP1.1 to V1.5
at SP1.3: V1.1
place chassis 300 200
place SP1 100 50
place SP2 200 50 turned
place V1 60 120
place V2 150 150
place C1 250 150
place T1 100 150
"""


def map_of(text: str, paper: Paper = A4) -> list[Thing]:
    """What is drawn of the chassis: the second group, after the heading."""
    source = Source("cove.netck", text)
    report, places = api.lugs(source, reader(source))
    return list(underside(report, places, paper).groups[1].things)


def at(things: list[Thing], name: str) -> tuple[float, float]:
    """The middle of a word on the map."""
    left, top, right, bottom = next(frame(t) for t in things if isinstance(t, Words) and t.text == name)
    return (left + right) / 2, (top + bottom) / 2


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_a_chassis_to_scale(paper: Paper) -> None:
    things = map_of(PLACED, paper)
    outline = max((t for t in things if isinstance(t, Box)), key=lambda t: t.width * t.height)
    scale = outline.width / 300
    assert outline.height == pytest.approx(200 * scale)
    rings = [t for t in things if isinstance(t, Disc) and t.radius > 15]
    middles = {(round((t.x - outline.x) / scale), round((t.y - outline.y) / scale)) for t in rings}
    assert middles == {(60, 120), (150, 150), (250, 150)}
    row = [t for t in things if isinstance(t, Box) and 14 < t.width < 20]
    assert sum(t.x + t.width / 2 - outline.x for t in row[:4]) / 4 / scale == pytest.approx(100)
    column = row[4:7]
    assert {round((t.x + t.width / 2 - outline.x) / scale) for t in column} == {200}
    assert column[0].y < column[1].y < column[2].y
    assert words_on_words(things) == []
    assert min(thing.size for thing in things if isinstance(thing, Words)) >= 9
    names = {"SP1", "SP2", "V1", "V2", "C1", "T1", "back edge"}
    assert names <= {t.text for t in things if isinstance(t, Words)}


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_what_has_no_room_is_named_and_not_drawn_over_another(paper: Paper) -> None:
    things = map_of(PLACED.replace("place V2 150 150", "place V2 62 121"), paper)
    words = [t.text for t in things if isinstance(t, Words)]
    assert "Not drawn, as something else is drawn there already: V2" in " ".join(words)
    assert "V2" not in words
    assert words_on_words(things) == []
    assert max(frame(thing)[2] for thing in things if isinstance(thing, Words)) <= paper.width


def test_the_socket_of_a_tube_that_is_out_is_drawn_as_a_socket() -> None:
    later = Source("later.netck", 'state rewired\nstart from "cove.netck"\nremove V1 "weak"\n')
    report, listing = api.lugs(later, paper_reader({"cove.netck": PLACED.replace("state rewired", "state found")}))
    things = underside(report, listing).groups[1].things
    rings = [t.radius for t in things if isinstance(t, Disc) and t.radius > 15]
    assert rings == [t.radius for t in map_of(PLACED) if isinstance(t, Disc) and t.radius > 15]


def test_what_has_no_place_is_named() -> None:
    words = [t.text for t in map_of(PLACED.replace("place V2 150 150", "")) if isinstance(t, Words)]
    assert "No place given: V2." in words


def test_below_a_map_only_what_is_not_drawn_is_in_bold() -> None:
    crowded = PLACED.replace("place V2 150 150", "place V2 62 121").replace("place T1 100 150", "")
    bold = {t.text.split()[0]: t.bold for t in map_of(crowded) if isinstance(t, Words)}
    assert [bold[word] for word in ("Not", "By", "No")] == [True, False, False]


def test_a_chassis_whose_size_is_not_given_is_open_to_the_right_and_the_front() -> None:
    """Two edges, drawn from the left front over the left back to the right; nothing lies beyond them."""
    things = map_of(PLACED.replace("place chassis 300 200\n", ""))
    (edges,) = [t for t in things if isinstance(t, Stroke) and len(t.points) == 7]
    (left, front), (_, back), (right, _) = edges.points[0], edges.points[3], edges.points[6]
    assert edges.points[3][0] == left
    assert edges.points[6][1] == back
    assert back < front
    for t in things:
        if isinstance(t, Disc) and t.radius > 15:
            box = frame(t)
            assert left <= box[0] < box[2] <= right
            assert back <= box[1] < box[3] <= front


def test_without_places_there_is_no_map() -> None:
    text = "".join(f"{line}\n" for line in PLACED.splitlines() if not line.startswith("place"))
    assert "back edge" not in {t.text for t in map_of(text) if isinstance(t, Words)}


def test_on_a_narrow_map_what_is_to_do_is_drawn_first() -> None:
    original, faulty = (read(str(SAMPLES / "harrow-point" / f"{state}.netck")) for state in ("original", "faulty"))
    report = api.compare(original, faulty, reader(original, faulty))
    _, listing = api.lugs(faulty, reader(faulty))
    things = list(underside(report, listing, NARROW).groups[1].things)
    words = [t.text for t in things if isinstance(t, Words)]
    assert {"C30", "SP1", "SP2", "SP3", "SP4", "L1"} <= set(words)
    assert any(text.startswith("Not drawn") for text in words)
    edge = next(t for t in things if isinstance(t, Box) and t.width > 200)
    names = [frame(t) for t in things if isinstance(t, Words) and t.text in {p.name for p in listing}]
    assert all(top > edge.y and bottom < edge.y + edge.height for _, top, _, bottom in names)


def test_of_a_comparison_a_finding_has_its_number_on_the_map() -> None:
    original, faulty = (read(str(SAMPLES / "harrow-point" / f"{state}.netck")) for state in ("original", "faulty"))
    report = api.compare(original, faulty, reader(original, faulty))
    _, places = api.lugs(faulty, reader(faulty))
    things = list(underside(report, places).groups[1].things)
    numbered = [t for t in things if isinstance(t, Words) and t.colour == "white"]
    shown = [d for _, d in report.numbered if any(isinstance(act, Put | Cut) for mend in d.mends for act in mend)]
    assert shown
    assert {str(number) for number, d in report.numbered if d in shown} <= {t.text for t in numbered}
    (heavy,) = [t for t in things if isinstance(t, Box) and t.weight > 2 and abs(t.x - at(things, "SP2")[0]) < 60]
    assert heavy.stroke == "black"
    assert words_on_words(things) == []


def test_the_list_of_lugs_says_where_a_thing_sits(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    state = tmp_path / "cove.netck"
    state.write_text(PLACED)
    assert main(["lugs", str(state)]) == 0
    told = capsys.readouterr().out
    assert "200 mm from the left, 50 mm from the back, turned" in told.replace("\n    ", " ")
    assert "chassis: 300 by 200 mm" in told
