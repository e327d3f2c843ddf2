"""What the sheets of the bench say, from records made by hand: at both sides of limits, and where nothing is known."""

import math

import pytest
from msgspec.structs import replace

from netcheck.bench.buy import Need, OrderGroup
from netcheck.bench.buy_sheet import buy_sheet
from netcheck.bench.job import Job, LugWork, Off, Refit
from netcheck.bench.job_sheet import job_sheet
from netcheck.bench.power import LinePower
from netcheck.bench.power_sheet import full_words, half_words, power_tables
from netcheck.bench.power_up import PowerUp, Volts
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_read import VoltsRead, wrong_volts
from netcheck.core.caution import Dangers
from netcheck.core.mend import Bond, Cut, Solder, Wire
from netcheck.core.sheet import Table
from netcheck.electrical.table.rows import ChargeRow, Emptying
from tests.paper import circuit

CIRCUIT = circuit('title "Cove 2"\nstate rewired\nresistor R1 1k 2 W\nnet a: R1.1, chassis\nnet b: R1.2\n')


def ordered(*needs: Need) -> dict[str, str]:
    """The first line of an order by its columns."""
    (table,) = buy_sheet(needs, CIRCUIT, ("rewired.netck",), ()).tables
    return dict(zip([column.name for column in table.columns], table.rows[0].cells, strict=True))


def need(group: OrderGroup, part: str = "X1", **more: object) -> Need:
    return replace(Need(part, group, "22 mfd"), **more)


FILTER, LINE, FILM = OrderGroup.ELECTROLYTIC, OrderGroup.LINE, OrderGroup.CAPACITOR
RESISTOR, RECTIFIER, FUSE = OrderGroup.RESISTOR, OrderGroup.RECTIFIER, OrderGroup.FUSE


@pytest.mark.parametrize(
    ("one", "column", "said"),
    [
        (need(FILTER, computed=474.0, was=450.0, size=500.0), "computed", "474 V"),
        (need(FILTER, computed=474.0, was=450.0, size=500.0), "was", "450 V"),
        (need(FILTER, computed=474.0, was=450.0, size=500.0), "order", "500 V"),
        (need(FILTER), "computed", "not known"),
        (need(FILTER), "was", ""),
        (need(FILTER), "order", "not known"),
        (need(FILTER, rated="450 V"), "order", "450 V, as in the file"),
        (need(FILTER, computed=700.0), "order", "more than is made: two in series"),
        (need(FILTER, computed=182.0, bound=True), "computed", "182 V or more"),
        (need(FILTER, amperes=0.0004), "ripple", "little"),
        (need(FILTER, amperes=0.0006), "ripple", "1 mA"),
        (need(FILTER, amperes=0.115), "ripple", "115 mA"),
        (need(FILTER), "ripple", "not known"),
        (need(FILTER, others=("20 mfd", "25 mfd")), "serves as well", "20 mfd, 25 mfd"),
        (need(LINE, kind="Y2 or Y1"), "class", "Y2 or Y1"),
        (need(FILM, kind="film"), "kind", "film"),
        (need(RESISTOR, computed=1.76), "twice its heat", "1.8 W"),
        (need(RESISTOR, computed=0.009), "twice its heat", "little"),
        (need(RESISTOR, computed=0.02), "twice its heat", "0.02 W"),
        (need(RESISTOR, was=0.5), "was", "0.5 W"),
        (need(RESISTOR, size=5.0), "order", "5 W"),
        (need(RECTIFIER, computed=947.0), "backwards", "947 V"),
        (need(RECTIFIER, amperes=0.047), "mean", "47 mA"),
        (need(RECTIFIER, amperes=0.047), "amperes", "1 A"),
        (need(RECTIFIER, amperes=0.62), "amperes", "1.2 A"),
        (need(RECTIFIER), "amperes", "not known"),
        (need(FUSE, amperes=0.55, sizes=(1.0, 1.0)), "order", "1 A slow"),
        (need(FUSE, amperes=0.65, sizes=(1.0, 1.25)), "order", "1 to 1.25 A slow"),
        (need(FUSE, amperes=0.65, sizes=(1.0, 1.25)), "set takes", "0.65 A"),
        (need(FUSE), "order", "not known: as the maker of the set says"),
        (need(FILTER), "for", "X1"),
        (need(FILTER, fitted="20 mfd"), "for", "X1 (20 mfd)"),
        (need(FILTER, fitted="22 mfd"), "for", "X1"),
        (need(FILTER), "how many", "1"),
        (need(FILTER, note="V7: 20 mfd at most"), "note", "V7: 20 mfd at most"),
    ],
)  # fmt: skip
def test_a_line_of_an_order(one: Need, column: str, said: str) -> None:
    assert ordered(one)[column] == said


def test_one_line_serves_several_and_says_what_not_all_of_them_have() -> None:
    one = need(FILTER, "C1", computed=400.0, was=450.0, size=450.0, others=("20 mfd", "25 mfd"), note="near V7")
    other = need(FILTER, "C2", was=350.0, size=450.0, amperes=0.1, others=("25 mfd",))
    line = ordered(one, other)
    assert (line["how many"], line["for"], line["note"]) == ("2", "C1, C2", "near V7")
    assert line["computed"] == "400 V or more"
    assert line["ripple"] == "100 mA or more"
    assert line["was"] == "450 V"
    assert line["serves as well"] == "25 mfd"
    assert ordered(need(FILTER, "C1", computed=182.0, bound=True), need(FILTER, "C2"))["computed"] == "182 V or more"


def test_an_order_has_a_table_for_each_group_that_something_is_bought_of() -> None:
    made = buy_sheet((need(FUSE, "F1"), need(FILTER, "C1"), need(FILTER, "C2")), CIRCUIT, ("rewired.netck",), ("hot",))
    assert [table.heading for table in made.tables] == ["Electrolytics", "Fuses"]
    assert made.closing == ("3 parts, 2 lines to order.",)
    assert (made.command, made.title, made.state, made.cautions) == ("buy", "Cove 2", "rewired", ("hot",))
    assert all(table.columns[-1].name == "spare" and table.columns[-1].blank for table in made.tables)
    assert all(table.columns[-2].wide for table in made.tables)


POINT = Volts("B+1", "SP1.1", 250.0, (100.0, 130.0), most=331.0, within=0.2)


@pytest.mark.parametrize(
    ("one", "full", "half", "off"),
    [
        (POINT, "250 V \N{PLUS-MINUS SIGN}20 %", "100 to 130 V", "325 V"),
        (replace(POINT, chart=240.0, within=0.3), "240 V \N{PLUS-MINUS SIGN}30 %", "100 to 130 V", "312 V"),
        (replace(POINT, most=300.0), "250 V \N{PLUS-MINUS SIGN}20 %", "100 to 130 V", "300 V"),
        (replace(POINT, most=240.0), "250 V \N{PLUS-MINUS SIGN}20 %", "100 to 130 V", "325 V"),
        (replace(POINT, most=None), "250 V \N{PLUS-MINUS SIGN}20 %", "100 to 130 V", ""),
        (replace(POINT, half=(0.0, 130.0)), "250 V \N{PLUS-MINUS SIGN}20 %", "up to 130 V", "325 V"),
        (replace(POINT, half=(0.6, 130.0)), "250 V \N{PLUS-MINUS SIGN}20 %", "1 to 130 V", "325 V"),
        (replace(POINT, full=None, half=None), "not known", "", ""),
        (replace(POINT, full=None, below=331.0), "below 331 V", "100 to 130 V", ""),
        (replace(POINT, full=0.2), "below 0.5 V", "100 to 130 V", ""),
        (replace(POINT, full=0.2, little=1.25), "below 1.2 V", "100 to 130 V", ""),
        (replace(POINT, full=-18.9, most=-30.0), "-19 V \N{PLUS-MINUS SIGN}20 %", "100 to 130 V", "-25 V"),
    ],
)  # fmt: skip
def test_volts_to_expect(one: Volts, full: str, half: str, off: str) -> None:
    """Off at a third more, by hand: 1.3 times 250, 240 and 18.9; no more than the line gives without a load."""
    assert full_words(one) == full
    assert half_words(one) == half
    found = replace(UP, lines=(one,))
    row = tables(found)["volts"].rows[0].cells
    assert row[7] == off
    assert row[:3] == ("B+1", "SP1.1", "SP1.3")
    assert (row[3], row[5]) == (half, full)
    assert row[8] == ("" if one.chart is None else "240 V")


UP = PowerUp("chassis", "SP1.3", 117.0, LinePower(51.0, 0.55, ()), (POINT,), (), (), (), ("F1 1 A",))


def tables(found: PowerUp, dangers: Dangers | None = None) -> dict[str, Table]:
    return {table.key or table.heading: table for table in power_tables(found, dangers or Dangers())}


def test_lamp_and_fuse_are_for_what_the_set_takes() -> None:
    """51 W: lamps from once to twice that; 0.55 A: 0.83 to 1.1 A."""
    said = [row.cells[0] for row in tables(UP)["first"].rows]
    assert said[0] == "Filament lamp in series with the line: 60 to 100 W. The set takes about 51 W."
    assert said[2] == "Fuse: 1 A slow, 1.5 to 2 times the running 0.55 A (about). In the file: F1 1 A."
    more = replace(UP, taken=LinePower(10.0, 0.65, ("V1", "V2")), fuses=())
    said = [row.cells[0] for row in tables(more)["first"].rows]
    assert said[0] == "Filament lamp in series with the line: 25 W. The set takes at least 10 W (V1, V2 not known)."
    assert said[2] == "Fuse: 1 to 1.25 A slow, 1.5 to 2 times the running 0.65 A (at least). The file has no fuse."
    said = [row.cells[0] for row in tables(replace(UP, taken=None))["first"].rows]
    assert said[0].endswith("the file does not say what the set takes; begin with 60 W.")
    assert said[2] == "Fuse: not known, as what the set takes is not. In the file: F1 1 A."


def test_what_goes_before_the_volts_is_said_where_it_applies() -> None:
    assert tables(UP)["volts"].before == ()
    waits = tables(replace(UP, waits=("V7", "V8")))["volts"].before
    assert [text.split(":")[0] for text in waits] == ["V7 and V8"]
    charted = replace(POINT, chart=240.0)
    assert [text[:9] for text in tables(replace(UP, lines=(charted,)))["volts"].before] == ["Where the"]
    assert [text[:9] for text in tables(replace(UP, electrodes=(charted,)))["volts"].before] == ["Where the"]
    of = replace(POINT, name="V5 grid-2", chart=240.0, chart_of="B+2")
    told = tables(replace(UP, electrodes=(of, replace(of, name="V6 grid-2"))))["volts"]
    assert told.before[1:] == ("* The chart's reading of B+2; the same volts belong at V5 grid-2, V6 grid-2.",)
    assert [row.cells[8] for row in told.rows] == ["", "240 V*", "240 V*"]
    assert told.heading == "Volts to chassis, in this order"
    unknown = tables(replace(UP, unknown="the file has no `mains` line"))
    assert unknown["Volts: not known"].before == ("No volts can be computed: the file has no `mains` line.",)


@pytest.mark.parametrize(
    ("seconds", "said"),
    [(None, "never by itself: by hand"), (0.0, "at once"), (0.3, "1 s"), (1.0, "1 s"), (38.7, "39 s")],
)
def test_how_long_a_capacitor_stays_charged(seconds: float | None, said: str) -> None:
    charged = replace(UP, charges=(ChargeRow("C1", Emptying(474.0, (seconds, 50.0))),))
    table = tables(charged)["discharge"]
    assert table.rows[0].cells == ("C1", "474 V", said, "")
    assert table.columns[-1].blank
    assert tables(UP)["Afterwards, plug out"].before[0] == "Discharge every filter capacitor."


def read(low: float, high: float | None = None, *, at_half: bool = False, point: str = "SP1.1") -> VoltsRead:
    return VoltsRead(point, Reading(f"{low} V", low, low if high is None else high, Unit.VOLTS), at_half)


@pytest.mark.parametrize(
    ("one", "volts", "at_half", "is_off"),
    [
        (POINT, 200.1, False, False), (POINT, 199.0, False, True), (POINT, 299.9, False, False),
        (POINT, 301.0, False, True),
        # At half line the ends have a tenth more either way.
        (POINT, 91.0, True, False), (POINT, 90.0, True, True), (POINT, 142.9, True, False), (POINT, 144.0, True, True),
        (replace(POINT, full=-20.0), -16.1, False, False), (replace(POINT, full=-20.0), -15.9, False, True),
        (replace(POINT, full=-20.0), -23.9, False, False), (replace(POINT, full=-20.0), -24.1, False, True),
        (replace(POINT, half=(-130.0, 0.0)), -142.0, True, False),
        (replace(POINT, half=(-130.0, 0.0)), -144.0, True, True),
        (replace(POINT, half=(-130.0, 0.0)), 1.0, True, True),
        (replace(POINT, full=0.1), 0.4, False, False), (replace(POINT, full=0.1), 0.6, False, True),
        (replace(POINT, full=0.1), -0.6, False, True), (replace(POINT, full=0.1, little=2.0), 1.9, False, False),
        (replace(POINT, full=None, below=331.0), 330.0, False, False),
        (replace(POINT, full=None, below=331.0), 332.0, False, True),
        (replace(POINT, full=None, below=331.0), -0.6, False, True),
    ],
)  # fmt: skip
def test_whether_volts_are_off(one: Volts, volts: float, at_half: bool, is_off: bool) -> None:  # noqa: FBT001 - a table
    found = wrong_volts(replace(UP, lines=(one,)), [read(volts, at_half=at_half)])
    assert [(each.name, each.expected) for each in found] == (
        [("B+1", half_words(one) if at_half else full_words(one))] if is_off else []
    )


def test_of_a_point_that_nothing_is_known_of_volts_are_told_without_a_figure() -> None:
    unknown = replace(POINT, full=None, half=None)
    for each, known in ((read(5.0, point="SP9.9"), POINT), (read(5.0), unknown), (read(5.0, at_half=True), unknown)):
        (told,) = wrong_volts(replace(UP, lines=(known,)), [each])
        assert (told.read, told.expected) == (each, "")
    plate = replace(POINT, name="V1 plate", point="V1.5")
    assert wrong_volts(replace(UP, electrodes=(plate,)), [read(250.0, point="V1.5")]) == ()


def test_a_reading_with_one_bound_is_off_only_where_all_that_it_may_be_is() -> None:
    assert wrong_volts(UP, [read(250.0, math.inf)]) == ()
    assert len(wrong_volts(UP, [read(301.0, math.inf)])) == 1
    assert len(wrong_volts(UP, [read(-math.inf, 199.0)])) == 1


WORK = Job(
    (
        Off(Cut("R1.1", "SP1.1"), "SP1.1", "R1.1", None, by_name=False),
        Off(Cut("SP1.1", "SP1.2"), "SP1.1", "SP1.2", "red 20 AWG", by_name=False),
        Off(Cut("C1+", "B+1"), "B+1", "C1+", None, by_name=True),
    ),
    (CIRCUIT.parts["R1"],), (), (CIRCUIT.parts["R1"],),
    (Refit(Bond("C9"), "insulated", "grounded"),),
    (
        LugWork("SP1.1", "B+1", (Solder("R2.1", "SP1.1"), Wire("SP1.1", "SP2.1", "red 20 AWG")), ("C1+",)),
        LugWork("SP2.1", "SP2.1", (Wire("SP1.1", "SP2.1", "red 20 AWG"),), ()),
        LugWork("SP2.2", "", (Solder("R2.2", "SP2.2"), Wire("SP2.2", "SP2.3", "")), ()),
    ),
    ("V7: the socket",), {},
)  # fmt: skip


def work(job: Job = WORK, *, leads_there: bool = True) -> dict[str, Table]:
    return {t.key: t for t in job_sheet(job, CIRCUIT, ("a", "b"), (), leads_there=leads_there).tables}


def test_joints_come_off_by_their_lugs_a_wire_by_its_colour_and_what_has_no_lug_by_its_net() -> None:
    off = work()["off"]
    assert [row.cells[0] for row in off.rows] == [
        "R1.1 from SP1.1", "the wire red 20 AWG from SP1.1 to SP1.2", "C1+ from B+1 *"
    ]  # fmt: skip
    assert off.before == ("* from the net of that name; the file does not say which lug it is on.",)
    assert work(replace(WORK, off=WORK.off[:2]))["off"].before == ()


def test_a_lug_is_headed_by_its_net_and_what_stays_and_soldered_at_its_last_lead() -> None:
    rows = [(row.lead, row.cells[0]) for row in work()["on"].rows]
    assert rows == [
        ("SP1.1 (B+1); stays: C1+", "R2.1"),
        ("", "wire red 20 AWG to SP2.1: all 3 on, solder now"),
        ("SP2.1", "wire red 20 AWG to SP1.1: solder now"),
        ("SP2.2", "R2.2"),
        ("", "wire to SP2.3: both on, solder now"),
    ]


def test_steps_are_numbered_and_wires_are_cut_once() -> None:
    made = work()
    assert [table.heading[:2] for key, table in made.items() if key != "dead"] == [
        "1.", "2.", "3.", "4.", "5.", "6."
    ]  # fmt: skip
    assert [row.cells for row in made["wires"].rows] == [
        ("colour not said", "SP2.2", "SP2.3"), ("red 20 AWG", "SP1.1", "SP2.1")
    ]  # fmt: skip
    assert made["out"].rows[0].cells == ("R1: resistor 1k 2 W",)
    assert made["change"].rows[0].cells == ("C9", "insulated", "grounded")
    assert not made["dead"].boxes
    assert all(table.boxes for key, table in made.items() if key != "dead")


def test_a_job_says_how_much_there_is_and_whether_it_leads_there() -> None:
    sheet = job_sheet(WORK, CIRCUIT, ("a", "b"), (), leads_there=True)
    assert sheet.closing[0] == "3 joints off, 1 part out, 1 part changed in place, 1 part in, 5 lead ends on."
    assert sheet.closing[1].startswith("Done on paper, these steps give what the second file says")
    assert not sheet.failed
    one_lead = Job((), (), (), (), (), (LugWork("SP2.2", "", (Solder("R2.2", "SP2.2"),), ()),), (), {})
    assert job_sheet(one_lead, CIRCUIT, ("a", "b"), (), leads_there=True).closing[0] == "1 lead end on."
    none = Job((), (), (), (), (), (), (), {})
    assert job_sheet(none, CIRCUIT, ("a", "b"), (), leads_there=True).closing[0] == "Nothing to do."
    astray = job_sheet(WORK, CIRCUIT, ("a", "b"), (), leads_there=False)
    assert astray.failed
    assert astray.before[0].startswith("No steps are given: done on paper, those that were found do not give")
    assert (astray.tables, astray.closing, len(astray.before)) == ((), (), 1)
