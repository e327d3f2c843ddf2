"""The picture of a mend: its marks, read back from the SVG, are the acts of the mend at the places that they name."""

from collections.abc import Iterable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.compare.pair import Pair, compared
from netcheck.compare.words.panels import panel_of, pictured
from netcheck.core.circuit import How
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire, lines
from netcheck.core.panel import Can, Chassis, NetCard, Panel, PartBox, Socket, Strip, Value
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
            assert isinstance(card, Chassis | NetCard)
    names = [card.name for card in cards if not isinstance(card, NetCard)]
    assert len(names) == len(set(names))


HARD: list[Mend] = [
    *MENDS.values(),
    (Put("R3.1", "G1"),),
    (Wire("V2.1", "V2.3"),),
    (Cut("C30.A", "C51+"), Bond("C30")),
    (Wire("SP2.4", "SP3.2", "red"), Put("C1.1", "SP2.5")),
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
@given(mends, st.sampled_from([303.0, 509.0, 246.0]))
def test_a_picture_of_any_mend_is_legible(mend: Mend, room: float) -> None:
    drawn = drawn_panel(panel_of(PAIR, mend), room)
    assert words_on_words(drawn.things) == []
    assert discs_crossed(drawn.things) == 0


def lug_net(panel: Panel, card: str, label: str) -> str:
    (place,) = [c for c in panel.cards if c.name == card and isinstance(c, Strip | Can | Socket)]
    return next(lug.net for lug in place.lugs if lug.label == label)


def test_over_a_lug_stands_its_net_in_the_original() -> None:
    # The half-moon is B+1 in the original, whatever C53 did there.
    panel = panel_of(PAIR, (Put("C53+", "C30.A"), Put("C51+", "SP3.4")))
    assert lug_net(panel, "C30", "half-moon") == "B+1"
    assert lug_net(panel, "C30", "triangle") == "B+3"
    # A lug that the original does not use has the net of what is put on it.
    assert lug_net(panel, "SP3", "4") == "B+1"


@pytest.mark.parametrize(
    "mend",
    [
        (Cut("SP3.9", "R4.1"), Solder("R4.1", "SP2.4")),
        (Put("R4.1", "SP2.4"),),
        (Remove("R4", "not in the drawing"),),
    ],
    ids=["cut", "put", "removed"],
)
def test_what_a_mend_takes_off_a_lug_does_not_name_it(mend: Mend) -> None:
    state = pair(SOLDERED.replace("C1.2, R4.1", "C1.2\nat SP3.9: R4.1"))
    assert lug_net(panel_of(state, mend), "SP3", "9") == "alone"


def test_a_lead_that_the_original_does_not_have_names_no_lug() -> None:
    state = pair(f'{SOLDERED}resistor R9 1k added "to try"\nat SP1.1: R9.1\nat SP1.2: R9.2\n')
    assert lug_net(panel_of(state, (Put("R9.1", "SP3.4"),)), "SP3", "4") == "alone"


def test_a_lead_that_a_net_and_a_lug_hold_is_taken_off_the_lug() -> None:
    panel = panel_of(PAIR, (Lift("C54+"),))
    assert [card.name for card in panel.cards] == ["C54", "V2"]
    assert sites("C54+") == {"V2.3"}


def test_an_end_that_stays_has_its_net_in_the_original() -> None:
    (part,) = [card for card in panel_of(PAIR, (Put("C1.2", "SP2.5"),)).cards if isinstance(card, PartBox)]
    assert [(end.label, end.net) for end in part.ends] == [("1", "plate-2"), ("2", "")]


def test_a_wire_between_two_lugs_of_one_place_shows_the_place_once() -> None:
    panel = panel_of(PAIR, (Wire("SP2.1", "SP2.2", "red"),))
    assert [card.name for card in panel.cards] == ["SP2"]
    (line,) = panel.lines
    assert (line.a, line.b, line.label, line.colour) == ((0, "1"), (0, "2"), "red wire", "red")


def test_of_a_transformer_the_winding_of_the_leads_is_shown() -> None:
    panel = panel_of(PAIR, MENDS["a transformer's leads at the rectifier"])
    (part,) = [card for card in panel.cards if isinstance(card, PartBox)]
    (winding,) = part.windings
    assert (part.name, winding.name, winding.values) == ("T1", "high", "300-0-300 V 200 ohm")
    assert [end.label for end in part.ends] == ["red-a", "red-yellow", "red-b"]


def test_a_net_of_the_chassis_is_drawn_as_the_chassis() -> None:
    assert {card.name: type(card) for card in panel_of(PAIR, (Lift("C2.2"),)).cards}["chassis"] is Chassis


def test_a_section_is_soldered_to_its_cans_lug() -> None:
    panel = panel_of(PAIR, (Put("C51+", "C30B+"),))
    assert {card.name for card in panel.cards} == {"C51", "C30"}
    assert {line.b[1] for line in panel.lines} == {"half-moon", "square"}


def test_a_finding_with_a_mend_has_the_picture_of_its_first_one() -> None:
    place = Label(Source("x", "x").whole)
    known = Panel(values=(Value("C1", "1 mfd", "2 mfd"),))
    with_one = Diagnostic("r", Grade.STOP, "a", (place,), panel=known, mends=((Put("C1.2", "SP2.5"),), (Lift("C1.2"),)))
    without = Diagnostic("r", Grade.STOP, "b", (place,), panel=known)
    first, second = pictured(PAIR, (with_one, without))
    assert first.panel is not None
    assert first.panel == replace(panel_of(PAIR, (Put("C1.2", "SP2.5"),)), values=known.values)
    assert second == without


def test_many_leads_are_told_in_rows_and_values_in_a_table() -> None:
    panel = panel_of(PAIR, MENDS["many"])
    assert not panel.cards
    assert [row.lead for row in panel.rows][:4] == ["C51-", "C52-", "C53-", "R1.1"]
    (value,) = panel_of(PAIR, MENDS["another value"]).values
    assert (value.part, value.now, value.was, value.fit) == ("C53", "10 mfd 500 V", "10 mfd 500 V", "22 mfd 450 V")
