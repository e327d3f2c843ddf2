"""What a mark looks like round a cell and on a line, and in words at the lugs of a sheet from below."""

import pytest

from netcheck import api
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import Done, End, Form, LeadRow, Line, Lug, Mark, NetCard, Panel, PartBox, Strip, Winding
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import drawn_panel
from netcheck.reports.drawing.marks import FAINT, ON, cell_look, drawn_line
from netcheck.reports.drawing.scene import Stroke, Words
from netcheck.reports.drawing.underside import underside
from tests.paper import reader

LOOKS = [
    # What is at a cell | its border's colour, points, dashed.
    ({Mark.OFF}, "black", 2.5, False),
    ({Mark.ON}, ON, 2.0, True),
    ({Mark.PLAIN}, "black", 1.2, False),
    (set[Mark](), FAINT, 1.0, False),
    ({Mark.OFF, Mark.ON, Mark.PLAIN}, "black", 2.5, False),  # it is cleared first
    ({Mark.ON, Mark.PLAIN}, ON, 2.0, True),
]


@pytest.mark.parametrize(("marks", "colour", "weight", "dashed"), LOOKS)
def test_only_what_goes_on_is_dashed_and_what_comes_off_is_heaviest(
    marks: set[Mark], colour: str, weight: float, *, dashed: bool
) -> None:
    assert cell_look(marks) == (colour, weight, dashed)


LINES = [
    # The mark, a wire's words or none | the ink round it, how thick, the core, dashed.
    (Mark.OFF, "", "black", 5.5, "#FFFFFF", False),
    (Mark.OFF, "red 20 AWG", "black", 5.5, "#CC2222", False),
    (Mark.ON, "", ON, 2.5, "", True),
    (Mark.ON, "red 20 AWG", "black", 4.0, "#CC2222", True),
    (Mark.PLAIN, "red 20 AWG", "#8A8A8A", 1.2, "", False),
]


@pytest.mark.parametrize(("mark", "colour", "look"), [(mark, colour, look) for mark, colour, *look in LINES])
def test_a_wire_shows_its_colour_where_hands_are_to_find_it(mark: Mark, colour: str, look: list[object]) -> None:
    made = drawn_line(((0.0, 0.0), (9.0, 0.0)), Line((0, "1"), (1, "1"), mark, "wire" if colour else "", colour))
    assert [made.colour, made.weight, made.core, made.dashed] == look


def test_a_winding_of_which_one_lead_is_shown_has_no_turns() -> None:
    windings = (Winding("high", "300-0-300 V", ("a", "tap", "b")),)
    shown = PartBox("T1", ("power",), (End("a"),), Form.WINDINGS, windings=windings)
    things = drawn_panel(Panel((shown, Strip("SP1", (Lug("1"),))), (Line((0, "a"), (1, "1"), Mark.OFF),)), 303).things
    assert "high 300-0-300 V" in {x.text for x in things if isinstance(x, Words)}
    assert [x for x in things if isinstance(x, Stroke) and len(x.points) > 4 and not x.title] == []


NETLIST = """state rewired
strip SP1 3 lugs
electrolytic C1 22 mfd 50 V
at SP1.1: C1+
at SP1.3: C1-
"""


def test_what_a_finding_tells_in_rows_stands_at_the_lugs_too() -> None:
    source = Source("a.netck", NETLIST)
    act = "move C1+ to SP1.2"
    rows = (LeadRow("C1+", "SP1.1", "SP1.2", (Done(act, ("SP1.1", "C1+")),), (Done(act, ("SP1.2", "C1+")),)),)
    place = (Label(source.whole),)
    found = Diagnostic("lead-on-wrong-net", Grade.STOP, "C1+ is on SP1.1", place, panel=Panel(rows=rows))
    _, places = api.lugs(source, reader({"a.netck": NETLIST}))
    made = underside(Report("compare", "t", ("a.netck",), (found,)), places)
    told = [x for group in made.groups for x in group.things if isinstance(x, Words) and x.bold and x.size == 9.0]
    lugs = [x.text for x in sorted(told, key=lambda x: x.y) if x.text in "123" or act in x.text]
    assert lugs == ["1", f"1 take off: {act}", "2", f"1 put on: {act}", "3"]


LEADS = tuple(f"R{n}.1" for n in range(1, 7))
NET_CARDS: list[tuple[tuple[str, ...], int, list[str]]] = [
    # The first leads, how many there are | what is said under the net's name.
    ((), 0, []),
    ((), 1, ["1 lead"]),
    ((), 2, ["2 leads"]),
    (LEADS[:3], 3, ["R1.1, R2.1, R3.1"]),
    (LEADS[:4], 4, ["R1.1, R2.1, R3.1", "R4.1"]),
    (LEADS, 7, ["R1.1, R2.1, R3.1", "R4.1, R5.1, R6.1", "and 1 more"]),
    (("x" * 60, "T1.y\x1b"), 2, ["xxxxxxxxxxxx…xxxxxxxxxxxxx, T1.y<U+001B>"]),
]


@pytest.mark.parametrize(("leads", "count", "said"), NET_CARDS)
def test_a_net_says_its_first_leads_or_how_many_it_has(leads: tuple[str, ...], count: int, said: list[str]) -> None:
    part = PartBox("R9", (), (End("1"), End("2")), Form.RESISTOR)
    panel = Panel((NetCard("AVC", leads, count), part), (Line((1, "1"), (0, ""), Mark.OFF),))
    words = sorted((x for x in drawn_panel(panel, 303).things if isinstance(x, Words)), key=lambda x: x.y)
    texts = [x.text for x in words if x.text not in {"R9", "1", "2"}]
    assert texts == ["AVC", *said]
