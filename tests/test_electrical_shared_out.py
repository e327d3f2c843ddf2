"""A current that is stated of a line covers the tubes that it feeds: how it divides among them is nobody's figure.

With each tube's own current stated the volts are Ohm's law: 2 mA through 1 kilohm of cathode and 47 kilohm of plate.
"""

import json
from math import isnan
from pathlib import Path

import pytest

from netcheck.bench.power_up import power_up
from netcheck.cli import main
from netcheck.electrical.duties import duties
from netcheck.electrical.proof.judgement import Surety, WayRound
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.stress import stresses
from netcheck.electrical.study import judged
from netcheck.electrical.table.supply import SupplyTable, supply
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SET = """state rewired
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 200 V 60 ohm
diode D1 1N4007
tube V1 12SN7GT
resistor R1 47k 1/2 W
resistor R2 1k 1/2 W
resistor R3 100 ohm 1/2 W
resistor R4 470 ohm 1/2 W
electrolytic C1 47 mfd 400 V
electrolytic C2 25 mfd 25 V
capacitor C3 .1 mfd 630 V
resistor R5 10k 20 W
net a: P1.1, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net B+: D1.cathode, C1+, R1.1, R3.1, R5.1
net plate-a: V1.5, R1.2, C3.1
net cathode-a: V1.6, R2.1, C2+
net plate-b: V1.2, R3.2
net cathode-b: V1.3, R4.1
net ground: chassis, T1.red-b, C1-, C2-, C3.2, R2.2, R4.2, R5.2
"""
LINE = "draws B+ 12 mA\n"
EACH = "draws B+ 8 mA\ndraws plate-a 2 mA\ndraws plate-b 2 mA\n"


def graph_of(draws: str, text: str = SET) -> CircuitGraph:
    return CircuitGraph(circuit(text + draws))


def running_of(table: SupplyTable) -> dict[str, float]:
    return {row.name: row.running for row in table.lines}


def test_what_hangs_on_how_a_stated_current_divides_has_no_figure() -> None:
    table = supply(graph_of(LINE))
    volts = running_of(table)
    assert {name for name, seen in volts.items() if isnan(seen)} == {"plate-a", "cathode-a", "cathode-b"}
    assert {row.name for row in table.resistors if isnan(row.watts)} == {"R1", "R2", "R4"}
    (bypass,) = [row for row in table.capacitors if row.name == "C2"]
    assert all(map(isnan, (bypass.running, bypass.ripple, bypass.peak, bypass.amperes)))
    assert (bypass.cold, bypass.cold_high) == pytest.approx((0.0, 0.0), abs=1e-6)
    assert bypass.over == ""


def test_what_the_line_gets_and_what_is_cold_are_known() -> None:
    """12 mA more of it go through the other branch or not: the rectifier gives the same."""
    shared, each = (supply(graph_of(draws)) for draws in (LINE, EACH))
    assert running_of(shared)["B+"] == pytest.approx(running_of(each)["B+"], rel=1e-3)
    assert {row.name: row.cold for row in shared.lines} == pytest.approx(
        {row.name: row.cold for row in each.lines}, abs=1e-6
    )


def test_a_load_across_which_all_of_it_drops_next_to_nothing_has_its_figure() -> None:
    """12 mA through 100 ohm are 1.2 V: less than a hundredth of the line. Through 1 kilohm they are more."""
    assert running_of(supply(graph_of(LINE)))["plate-b"] == pytest.approx(running_of(supply(graph_of(LINE)))["B+"])
    assert isnan(running_of(supply(graph_of(LINE, SET.replace("R3 100 ohm", "R3 1k"))))["plate-b"])


def test_between_two_resistors_of_a_plate_it_is_as_little_known_as_on_it() -> None:
    split = SET.replace("resistor R1 47k 1/2 W", "resistor R1 22k 1/2 W\nresistor R6 25k 1/2 W\nnet middle: R1.2, R6.1")
    volts = running_of(supply(graph_of(LINE, split.replace("V1.5, R1.2", "V1.5, R6.2"))))
    assert isnan(volts["middle"])
    assert isnan(volts["plate-a"])


def test_a_line_of_its_own_rectifier_below_the_common_is_known_whatever_cathode_returns_to_it() -> None:
    bias = "diode D2 1N4007\nelectrolytic C4 47 mfd 400 V\nresistor R6 10k 20 W\nat high: D2.cathode\n"
    bias += "net C-: D2.anode, C4-, R6.1, R4.2\nat ground: C4+, R6.2\n"
    volts = running_of(supply(graph_of(LINE, SET.replace("R4.2, ", "") + bias)))
    assert volts["C-"] == pytest.approx(-volts["B+"], rel=0.1)
    assert isnan(volts["cathode-b"])


def test_behind_a_resistor_of_such_a_line_it_is_not_though_a_filter_capacitor_holds_it() -> None:
    """12 mA of the one cathode through 4.7 kilohm are 56 V, and none is nothing: both fit what is stated."""
    bias = "diode D2 1N4007\nelectrolytic C4 47 mfd 400 V\nelectrolytic C5 47 mfd 400 V\nresistor R6 4.7k 20 W\n"
    bias += "resistor R7 47k 2 W\nat high: D2.cathode\nnet raw-: D2.anode, C4-, R6.1\nat ground: C4+, C5+, R7.2\n"
    bias += "net C-: R6.2, C5-, R7.1, R4.2\n"
    volts = running_of(supply(graph_of(LINE, SET.replace("R4.2, ", "") + bias)))
    assert volts["raw-"] == pytest.approx(-volts["B+"], rel=0.1)
    assert isnan(volts["C-"])


def test_a_capacitor_may_be_off_by_what_all_of_it_drops_on_the_way_to_its_ends() -> None:
    across = "capacitor C7 .1 mfd 630 V\nat B+: C7.1\nat plate-a: C7.2\n"
    most = shared_out(graph_of(LINE, SET + across)).most
    assert most == pytest.approx({"C2": 0.012 * 1e3, "C3": 0.012 * 47e3, "C7": 0.012 * 47e3})


def test_with_each_ones_own_stated_it_is_ohms_law() -> None:
    table = supply(graph_of(EACH))
    volts = running_of(table)
    assert table.shared == ""
    assert volts["cathode-a"] == pytest.approx(2.0, abs=1e-3)
    assert volts["cathode-b"] == pytest.approx(0.94, abs=1e-3)
    assert volts["B+"] - volts["plate-a"] == pytest.approx(94.0, abs=0.05)


def test_without_a_stated_current_tubes_draw_what_they_usually_do() -> None:
    table = supply(graph_of(""))
    assert table.shared == ""
    assert not any(isnan(seen) for seen in running_of(table).values())
    assert running_of(table)["cathode-a"] > 1.0


def test_no_rating_is_held_against_what_is_not_known() -> None:
    shared, each = graph_of(LINE), graph_of(EACH)
    assert {one.name: one.mean is None for one in stresses(shared).capacitors} == {"C1": False, "C2": True, "C3": True}
    assert not any(one.mean is None for one in stresses(each).capacitors)
    left_out = {one.part for one in duties(each)} - {one.part for one in duties(shared)}
    assert left_out == {"R1", "R2", "R4"}


def test_no_polarity_is_calculated_from_a_plate_that_is_taken_to_draw_nothing() -> None:
    """On 80 V of a divider, its minus on the plate: the 12 mA may bring that from the line down to next to nothing."""
    text = SET + (
        "electrolytic C9 4 mfd 450 V\nresistor R8 100k 1 W\nresistor R9 47k 1 W\nat plate-a: C9-\n"
        "net div: C9+, R8.1, R9.1\nat B+: R8.2\nat ground: R9.2\n"
    )
    shared, none = (judged(graph_of(draws, text))["C9"] for draws in (LINE, "draws B+ 8 mA\ndraws plate-a 0.1 mA\n"))
    assert (shared.surety, shared.way) == (Surety.UNPROVEN, WayRound.UNKNOWN)
    assert (none.surety, none.way) == (Surety.COMPUTED, WayRound.REVERSED)


def test_the_bench_expects_no_volts_there() -> None:
    found = power_up(graph_of(LINE))
    full = {one.name: one.full for one in (*found.lines, *found.electrodes)}
    assert full["V1 plate-a"] is None
    assert full["B+"] is not None
    said = {one.name: one.full for one in power_up(graph_of(EACH)).electrodes}
    assert said["V1 cathode-a"] == pytest.approx(2.0, abs=1e-3)


def test_the_bench_expects_the_middle_of_what_little_may_drop() -> None:
    """12 mA at most through 1 kilohm: 12 V, of which half is the middle, and half is how much farther it may be off."""
    text = SET.replace("R3 100 ohm", "R3 1k")
    found = power_up(graph_of(LINE, text))
    (plate,) = [one for one in found.electrodes if one.name == "V1 plate-b"]
    (line,) = [one for one in found.lines if one.name == "B+"]
    assert line.full is not None
    assert plate.full == pytest.approx(line.full - 6.0, rel=1e-3)
    assert plate.full is not None
    assert plate.full * (plate.within - 0.2) == pytest.approx(6.0)
    assert line.half is not None
    assert plate.half is not None
    assert plate.half[0] == pytest.approx(line.half[0] - 12.0, rel=1e-3)


def test_the_text_and_the_document_say_why_and_what_to_state(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "set.netck"
    path.write_text(SET + LINE)
    assert main(["supply", str(path)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    why = (
        "`draws B+ 12 mA` covers V1-a and V1-b and does not say how much goes through each: running figures that "
        "depend on it are left out (?). To have them, state each tube's own, `draws plate-a ... mA`, and take it off "
        "the line's"
    )
    assert f"{why}." in said
    assert "plate-a ? ?" in said
    assert main(["supply", str(path), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["shared"] == why
    (plate,) = [row for row in document["lines"] if row["name"] == "plate-a"]
    assert plate["running"] is plate["ripple"] is None
    assert plate["cold"] > 200


def test_a_current_stated_at_a_plate_goes_through_the_cathode() -> None:
    """Not where a filter capacitor holds the net, or a lead to another chassis leaves it: more is fed from there."""
    held = SET + "electrolytic C4 10 mfd 400 V\nat plate-b: C4+\nat ground: C4-\n"
    led_away = SET + "plug J1 1 pins\nat plate-b: J1.1\n"
    stated = "draws plate-b 2 mA\n"
    assert running_of(supply(graph_of(stated)))["cathode-b"] == pytest.approx(0.94, abs=1e-3)
    for text in (held, led_away):
        assert isnan(running_of(supply(graph_of(stated, text)))["cathode-b"])


def test_tubes_that_are_said_to_share_are_not_counted_once_more() -> None:
    """Behind a load of 47 kilohm the volts are open, which says what is covered; on the line itself they are known."""
    assert not [said for said in supply(graph_of(LINE)).defaults if said.startswith("counted in")]
    direct = SET.replace("resistor R4 470 ohm 1/2 W\n", "").replace("net cathode-b: V1.3, R4.1\n", "")
    direct = direct.replace("R4.2, ", "V1.3, ").replace("resistor R3 100 ohm 1/2 W\n", "").replace(", R3.1", ", V1.2")
    direct = direct.replace("net plate-b: V1.2, R3.2\n", "")
    (counted,) = [said for said in supply(graph_of(LINE, direct)).defaults if said.startswith("counted in")]
    assert counted == "counted in `draws B+`, and not added to it: V1-b plate current"
    assert "covers V1-a and" in supply(graph_of(LINE, direct)).shared


# 12 mA through 4.7 kilohm are 56 V, through 10 kilohm more than is safe to touch.
@pytest.mark.parametrize(("ohms", "said"), [("4.7k", False), ("10k", True)])
def test_a_cathodes_capacitor_that_may_be_charged_is_said_to_have_no_row(ohms: str, *, said: bool) -> None:
    table = supply(graph_of(LINE, SET.replace("R2 1k", f"R2 {ohms}")))
    assert [row.name for row in table.charges] == ["C1", "C3"]
    told = ". C2 is charged while the set runs, nobody knows how far: it has no row below"
    assert table.shared.endswith(told) is said
    assert supply(graph_of(EACH, SET.replace("R2 1k", f"R2 {ohms}"))).shared == ""
