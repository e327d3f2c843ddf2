"""The picture of a mend: its marks, read back from the SVG, are the acts of the mend at the places that they name."""

from collections.abc import Iterable

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from netcheck.compare.pair import Pair, compared
from netcheck.compare.words.cards import written
from netcheck.compare.words.panels import panel_of
from netcheck.core.circuit import How
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire, lines
from netcheck.core.panel import BareChassis, Can, NetCard, PartBox, Socket, Strip
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports.drawing import A4, NARROW, Paper, drawn_panel, sheet, sheet_svg
from netcheck.reports.drawing.scene import Stroke
from tests.chassis import MENDS, SOLDERED, WIRED
from tests.geometry import bodies_crossed, discs_crossed, words_crossed, words_on_words
from tests.paper import circuit
from tests.test_reports_drawing_properties import root_of

TURNED = {"a socket mirrored": "V2", "a strip gone one on": "SP1"}
Read = set[tuple[str, str, str]]
"""What a mark says: off or on, the act, a point."""


def pair(soldered: str = SOLDERED) -> Pair:
    """The chassis as drawn, and as soldered."""
    return compared(circuit(WIRED), circuit(soldered, original=WIRED))


PAIR = pair()
CIRCUIT = PAIR.real.circuit


def sites(point: str) -> set[str]:
    """The points that hands find a lead soldered to; a net's name counts where nothing else is known."""
    at = CIRCUIT.index[point]
    ends = [(j.how, j.b if j.a == at else j.a) for j in CIRCUIT.joins if at in (j.a, j.b)]
    held = [(how, end) for how, end in ends if how not in (How.INSIDE, How.BOND)]
    known = [end for how, end in held if how is not How.NET] or [end for _, end in held]
    return {CIRCUIT.points[end].name for end in known}


def expected(act: Act) -> Read:
    """What the acts ask of a picture, by the meaning that a work log gives them."""
    off, on = taken_off(act), put_on(act)
    return {("take off", act.line, at) for at in off} | {("put on", act.line, at) for at in on}


def taken_off(act: Act) -> set[str]:
    match act:
        case Lift(point) | Put(point):
            return {point, *sites(point)} if sites(point) else set()
        case Cut(a, b):
            return {a, b}
        case Insulate(part):
            return {seat(part), "chassis"}
        case Remove(part):
            leads = [p.name for p in CIRCUIT.points if p.part == part and p.is_lead]
            return {part, *(x for lead in leads for x in (lead, *sites(lead)) if sites(lead))}
        case _:
            return set()


def put_on(act: Act) -> set[str]:
    match act:
        case Put(point, to) | Solder(point, to):
            return {point, to}
        case Wire(a, b):
            return {a, b}
        case Bond(part):
            return {seat(part), "chassis"}
        case Change(part):
            return {part}
        case _:
            return set()


def seat(part: str) -> str:
    return {"C30": "C30.can", "SP1": "SP1.4", "SP2": "SP2.3", "SP3": "SP3.6", "G1": "G1", "T1": "T1.frame"}[part]


def sheet_of(mend: Mend, paper: Paper) -> str:
    place = Label(Source("x", "x").whole)
    found = Diagnostic("rule", Grade.STOP, "It is so", (place,), do="do it", panel=panel_of(PAIR, mend))
    made = Report("compare", "A set", ("a", "b"), (found,))
    return sheet_svg(sheet(made, paper), made)


def read_back(svg: str) -> Read:
    found: Read = set()
    for group in root_of(svg).getElementsByTagName("g"):
        if group.hasAttribute("data-act"):
            for at in group.getAttribute("data-at").split():
                found.add((group.getAttribute("data-mark"), group.getAttribute("data-act"), at))
    return found


def asked(mend: Iterable[Act]) -> Read:
    return {mark for act in mend for mark in expected(act)}


@pytest.mark.parametrize("paper", [A4, NARROW], ids=["A4", "narrow"])
@pytest.mark.parametrize("name", [name for name in MENDS if name not in TURNED])
def test_the_marks_of_a_picture_are_the_acts_of_its_mend(name: str, paper: Paper) -> None:
    assert read_back(sheet_of(MENDS[name], paper)) == asked(MENDS[name])


@pytest.mark.parametrize("paper", [A4, NARROW], ids=["A4", "narrow"])
@pytest.mark.parametrize(("name", "place"), TURNED.items())
def test_a_turned_place_has_every_act_at_its_own_pin_or_lug(name: str, place: str, paper: Paper) -> None:
    mend = MENDS[name]
    there = {mark for mark in asked(mend) if mark[2].startswith(f"{place}.")}
    assert read_back(sheet_of(mend, paper)) == there
    assert {act for _, act, _ in there} == {act.line for act in mend}


def test_a_turned_place_says_what_belongs_on_a_lug_and_what_is_there() -> None:
    (strip,) = panel_of(PAIR, MENDS["a strip gone one on"]).cards
    assert isinstance(strip, Strip)
    said = {lug.label: (lug.net, lug.now) for lug in strip.lugs}
    assert said["5"] == ("minus", "minus")
    assert said["6"] == ("bias", "")
    (ring,) = panel_of(PAIR, MENDS["a socket mirrored"]).cards
    assert isinstance(ring, Socket)
    assert {lug.label: (lug.net, lug.now) for lug in ring.lugs}["3"] == ("cath-2", "cath-2")
    assert {lug.label: (lug.net, lug.now) for lug in ring.lugs}["9"] == ("chassis", "")


def test_few_things_that_change_their_lug_keep_their_lines() -> None:
    few = MENDS["a strip gone one on"][:3]
    assert len(panel_of(PAIR, few).lines) == 6
    assert panel_of(PAIR, (*few, Put("R1.1", "SP2.1"), Put("R2.1", "SP2.2"))).lines


LEADS = [f"{part}.{end}" for part in ("R1", "R2", "R3", "R4", "R6", "C1", "C2") for end in (1, 2)]
LEADS += [f"C5{i}{sign}" for i in (1, 2, 3, 4) for sign in "+-"]
PLACES = ["chassis", "G1", "C30.A", "C30.B", "C30.C", "C30.can", *(f"SP1.{i}" for i in range(1, 8))]
PLACES += [*(f"SP2.{i}" for i in range(1, 6)), *(f"V2.{i}" for i in range(1, 10)), *(f"V1.{i}" for i in range(1, 9))]
JOINTS = sorted(
    {(CIRCUIT.points[j.a].name, CIRCUIT.points[j.b].name) for j in CIRCUIT.joins if j.how in (How.WIRE, How.SOLDERED)}
)
wordings = st.sampled_from(["", "red", "green 22 AWG", "white/blue", "bare"])
leads, places = st.sampled_from(LEADS), st.sampled_from(PLACES)
acts: st.SearchStrategy[Act] = st.one_of(
    st.builds(Lift, leads),
    st.builds(Put, leads, places),
    st.builds(Put, leads, st.sampled_from(LEADS)),
    st.builds(Solder, leads, places),
    st.sampled_from(JOINTS).map(lambda ends: Cut(*ends)),
    st.builds(Wire, places, places, wordings),
    st.builds(Bond, st.sampled_from(["C30", "SP1", "G1"])),
    st.builds(Insulate, st.sampled_from(["C30", "SP1", "T1"])),
    st.builds(Change, st.sampled_from(["R1", "C53"]), st.just("1k")),
    st.builds(Remove, st.sampled_from(["C2", "R5"]), st.sampled_from(["", "not in the drawing"])),
)


def subject(act: Act) -> str:
    """What an act is about: two acts of one mend are not about the same lead or part."""
    match act:
        case Lift(point) | Put(point):
            return point
        case Bond(part) | Insulate(part) | Change(part) | Remove(part):
            return part
        case _:
            return act.line


mends = st.lists(acts, min_size=1, max_size=5, unique_by=subject).map(tuple)


@settings(max_examples=120)
@given(mends)
def test_the_marks_of_any_picture_are_the_acts_of_its_mend(mend: Mend) -> None:
    panel = panel_of(PAIR, mend)
    turned = any(
        lug.off or lug.on for card in panel.cards if isinstance(card, Socket | Strip | Can) for lug in card.lugs
    )
    found, wanted = read_back(sheet_of(mend, A4)), asked(mend)
    if turned:
        assert found <= wanted
        assert {act for _, act, _ in found} == {act for _, act, _ in wanted}
    else:
        assert found == wanted


@settings(max_examples=120)
@given(mends)
def test_a_place_is_a_lug_a_pin_or_the_chassis_and_a_part_is_drawn_once(mend: Mend) -> None:
    cards = panel_of(PAIR, mend).cards
    for card in cards:
        kind = CIRCUIT.parts[card.name].kind if card.name in CIRCUIT.parts else None
        if isinstance(card, PartBox):
            assert kind is not None
            assert not kind.place
        elif isinstance(card, Strip | Can | Socket):
            assert kind is not None
            assert kind.place or kind.word == "tube"
        else:
            assert isinstance(card, BareChassis | NetCard)
    names = [card.name for card in cards if not isinstance(card, NetCard)]
    assert len(names) == len(set(names))


HARD: list[Mend] = [
    *MENDS.values(),
    (Put("R3.1", "G1"),),
    (Wire("V2.1", "V2.3"),),
    (Cut("C30.A", "C51+"), Bond("C30")),
    (Wire("SP2.4", "SP3.2", "red"), Put("C1.1", "SP2.5")),
    (Put("T1.black-a", "V1.6"), Put("T1.black-b", "F1.2"), Put("T1.red-a", "SP3.5")),
    (Put("T1.red-a", "SP3.5"), Put("T1.green-b", "V3.5"), Put("R6.2", "G1")),
    (Put("C54+", "G1"), Put("C54-", "V2.6")),
]


@pytest.mark.parametrize("room", [303.0, 509.0, 246.0])
@pytest.mark.parametrize("mend", HARD, ids=lambda mend: " ".join(map(str, lines(mend)))[:50])
def test_nothing_lies_on_anything_else(mend: Mend, room: float) -> None:
    things = drawn_panel(panel_of(PAIR, mend), room).things
    assert words_on_words(things) == []
    assert words_crossed(things) == []
    assert discs_crossed(things) == 0
    assert bodies_crossed(things) == 0


def test_two_lines_do_not_leave_a_ring_between_the_same_pins() -> None:
    things = drawn_panel(panel_of(PAIR, (Put("R4.1", "V2.5"), Put("C52+", "V2.6"))), 509).things
    corners = [set(x.points[3:-1:3]) for x in things if isinstance(x, Stroke) and x.title and x.dashed]
    assert all(corners)
    assert corners[0].isdisjoint(corners[1])


@settings(max_examples=80)
@example((Lift("R2.2"), Lift("C51-"), Lift("R6.1"), Remove("C2")), 509.0)  # past a pin of the ring it comes out of
@given(mends, st.sampled_from([303.0, 509.0, 246.0]))
def test_a_picture_of_any_mend_is_legible(mend: Mend, room: float) -> None:
    drawn = drawn_panel(panel_of(PAIR, mend), room)
    assert words_on_words(drawn.things) == []
    assert discs_crossed(drawn.things) == 0


def test_a_tapped_resistor_is_written_with_each_of_its_sections() -> None:
    resistors = "candohm R20 1k 2.2k 8.2k insulated\nresistor R1 1k 2 W 10%\n"
    parts = circuit(f"{resistors}electrolytic C1 22 mfd 500 V 180 mA\ncan C2 insulated\n").parts
    assert [written(parts[name]) for name in ("R20", "R1", "C1")] == ["1k 2.2k 8.2k", "1k 2 W", "22 mfd 500 V"]
    assert written(parts["C2"]) == parts["C2"].features.description
