"""Limits of what is printed and drawn, at both sides: names on a lug, watts to order, a straight line, one section."""

import pytest

from netcheck import api
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.panel import Done, End, Form, Line, Lug, Mark, Panel, PartBox, Strip, Value
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.electrical.table.supply import supply
from netcheck.electrical.table.swap import Preferred, SiliconSwap
from netcheck.model.graph import CircuitGraph
from netcheck.model.places import HeldBy, Item, Spot
from netcheck.reports.drawing import A4, NARROW, drawn_panel, sheet, sheet_svg, whole_sheet
from netcheck.reports.drawing.scene import Box, Stroke, Words, straight
from netcheck.reports.renderer import Style
from netcheck.reports.soldered import said
from netcheck.reports.supply_table import supply_table
from netcheck.system.graphviz import find_engine
from tests.geometry import spots
from tests.paper import circuit, reader

PLACE = Label(Source("set.netck", "x").whole)


@pytest.mark.parametrize(("count", "told"), [(1, 1), (8, 8), (9, 9), (10, 8), (40, 8)])
def test_of_a_net_as_drawn_nine_leads_are_named_and_of_more_eight(count: int, told: int) -> None:
    """Of nine the last is named where else one would be counted: `and 1 more` is no shorter than its name."""
    names = [f"R{n}.1" for n in range(count)]
    (text,) = said(Spot("SP1.1", "1", "", "B+", tuple(Item(HeldBy.DRAWN, name) for name in names)))
    more = [f"and {count - told} more"] if told < count else []
    assert text == f"({', '.join([*names[:told], *more])})"


@pytest.mark.parametrize(
    ("watts", "size"), [(0.4, 1), (0.5, 1), (0.51, 2), (1.0, 2), (1.01, 3), (5.0, 10), (50.0, 100), (80.0, 100)]
)
def test_a_series_resistor_is_ordered_for_twice_its_heat_at_least(watts: float, size: int) -> None:
    set_ = circuit("state drawn\nresistor R1 1k\nnet a: R1.1, chassis\nnet b: R1.2\n")
    swap = SiliconSwap(("CR1",), (), "C1", 182.0, "beside CR1", 47.0, watts, (Preferred("E12", 47.0, 126.0, watts),))
    found = supply(CircuitGraph(set_))
    made = type(found)(**{name: getattr(found, name) for name in found.__struct_fields__} | {"swap": swap})
    text = supply_table(Report("supply", "t", ("f",), ()), made, Style(width=200))
    assert f"; fit {size} W or more, wirewound or flameproof" in text


def test_a_straight_line_is_run_evenly_from_corner_to_corner() -> None:
    """A curve of the third degree is even where its inner points are at the thirds."""
    for at, (x, y) in enumerate(spots(Stroke(straight((0, 0), (24, 48))), steps=24)):
        assert (x, y) == pytest.approx((at, 2 * at))
    corners = straight((0, 0), (3, 0), (3, 9))
    assert corners[::3] == ((0, 0), (3, 0), (3, 9))


@pytest.mark.parametrize("is_above", [True, False])
def test_a_name_that_is_raised_past_another_is_led_to_its_lug(*, is_above: bool) -> None:
    """Two lugs beside each other with long names: one stands over the other, and a thin line goes to its lug."""
    strip = Strip("SP1", (Lug("1"), Lug("2", net="V4 plate with a long name"), Lug("3", net="V5 grid with a long one")))
    part = PartBox("R1", ("1k",), (End("1"), End("2", "B+")), Form.RESISTOR)
    cards = (strip, part) if is_above else (part, strip)
    a, b = (1, 0) if is_above else (0, 1)
    lines = (Line((a, "1"), (b, "2"), Mark.OFF), Line((a, "1"), (b, "3"), Mark.ON))
    things = drawn_panel(Panel(cards, lines), 303).things
    names = sorted((x for x in things if isinstance(x, Words) and "long" in x.text), key=lambda x: x.y)
    raised, near = names
    cell = next(x for x in things if isinstance(x, Box) and x.x < raised.x < x.x + x.width and x.height == 27)
    assert raised.y < near.y
    far = raised if near.y < cell.y else near
    led = [x for x in things if isinstance(x, Stroke) and x.weight < 1 and x.points[0][0] == pytest.approx(far.x)]
    assert len(led) == 1
    ys = sorted(y for _, y in (led[0].points[0], led[0].points[-1]))
    assert ys[0] - 9 <= far.y <= ys[1] + 9
    assert ys[1] - ys[0] > 5


def test_an_order_in_the_table_of_values_carries_its_act_once_however_many_lines_it_takes() -> None:
    done = Done("change C9 .1 mfd", ("C9",))
    order = 'fit .05 mfd (today 0.047 mfd or 0.056 mfd), or accept it: `accept value-changed C9 "why"`'
    panel = Panel(values=(Value("C9", ".01 mfd", ".1 mfd", order, done),))
    found = Diagnostic("rule", Grade.NOTE, "C9 is .01 mfd", (PLACE,), panel=panel)
    report = Report("draw", "Cove 2", ("a", "b"), (found,))
    svg = sheet_svg(sheet(report, NARROW), report)
    assert svg.count('data-act="change C9 .1 mfd"') == 1


def test_a_small_circuit_is_one_section() -> None:
    text = "state drawn\nresistor R1 1k\nresistor R2 2k\nresistor R3 3k\nnet a: R1.1, R2.1\nnet b: R2.2, R3.1\n"
    source = Source("a.netck", text + "net c: R3.2, R1.2\n")
    report, graph = api.check(source, reader({})), api.circuit_of(source, reader({}))
    assert graph is not None
    made = whole_sheet(report, graph, find_engine(None, {}).layout, A4)
    said_ = [x.text for group in made.groups for x in group.things if isinstance(x, Words)]
    assert [one for one in said_ if one.startswith("Section")] == ["Section 1 of 1"]
