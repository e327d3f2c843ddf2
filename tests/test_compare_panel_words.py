"""What stands beside the marks of a mend's picture: the original's nets, windings, rows, values."""

import pytest
from msgspec.structs import replace

from netcheck.compare.words.panels import panel_of
from netcheck.compare.words.pictures import pictured
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Cut, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.core.panel import BareChassis, Can, Panel, PartBox, Socket, Strip, Value
from netcheck.core.source import Source
from tests.chassis import MENDS, SOLDERED
from tests.paper import compared
from tests.test_compare_panels import PAIR, pair, sites


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
    assert {card.name: type(card) for card in panel_of(PAIR, (Lift("C2.2"),)).cards}["chassis"] is BareChassis


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


@pytest.mark.parametrize(
    ("log", "was"),
    [("change R1 47k", "470k"), ("remove R1\nresistor R9 47k from R2.1 to R2.2 replaces R1", "470k (R1)")],
)
def test_an_old_value_has_its_parts_name_where_that_is_another(log: str, was: str) -> None:
    original = "resistor R1 470k\nresistor R2 10k\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2\n"
    (found,) = (d for d in compared(original, f'start from "original.netck"\n{log}\n').diagnostics if d.panel)
    assert found.panel is not None
    assert [value.was for value in found.panel.values] == [was]


def test_a_dozen_lines_are_drawn_and_one_more_makes_rows() -> None:
    wires = [Wire(f"SP1.{i}", f"SP3.{j}") for i in (1, 2, 3, 5) for j in (1, 2, 3, 4)]
    assert len(panel_of(PAIR, tuple(wires[:12])).lines) == 12
    assert len(panel_of(PAIR, tuple(wires[:13])).rows) == 13
