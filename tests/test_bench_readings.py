"""What people write down is read; what can be read two ways is not."""

import math
from pathlib import Path

import pytest

from netcheck.bench.expected import MOST, Expected, Want
from netcheck.bench.filled_in import filled_in
from netcheck.bench.plan import plan_of
from netcheck.bench.readings import Reading, Unit, agrees, reading_of
from netcheck.core.diagnostic import Flaw
from netcheck.core.errors import UsageFault
from netcheck.core.source import Source
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

OHMS = {
    "0.3": (0.3, 0.3), ".3": (0.3, 0.3), "0,3": (0.3, 0.3), "<1": (0, 1), "< 1 ohm": (0, 1), "below 2": (0, 2),
    "2k2": (2200, 2200), "2.2 k": (2200, 2200), "2.2k": (2200, 2200), "2,2 K": (2200, 2200), "4R7": (4.7, 4.7),
    "470R": (470, 470), "470 ohm": (470, 470), "1M5": (1.5e6, 1.5e6), "1.5 meg": (1.5e6, 1.5e6), "22": (22, 22),
    "1.5 M": (1.5e6, 1.5e6), ">50 k": (50e3, math.inf), "above 20 meg": (20e6, math.inf), "~ 330": (330, 330),
    "about 3.3k": (3300, 3300), "beep": (0, 100), "Beep": (0, 100), "b": (0, 100), "OL": (MOST, math.inf),
    "open": (MOST, math.inf), "O.L": (MOST, math.inf), "inf": (MOST, math.inf), "no": (MOST, math.inf),
    "no beep": (MOST, math.inf), "\N{INFINITY}": (MOST, math.inf), "22 \N{GREEK CAPITAL LETTER OMEGA}": (22, 22),
}  # fmt: skip
VOLTS = {"0.6 V": 0.6, "560 mV": 0.56, "-19 V": -19.0, "280V": 280.0, "1.2 kV": 1200.0}
UNREADABLE = ("2k2k", "ok?", "R15", "1.2.3", "-22", "k", "2.2m", "12 A", "0x10", "1e3")


@pytest.mark.parametrize("text", OHMS)
def test_ohms_as_people_write_them(text: str) -> None:
    found = reading_of(text)
    assert isinstance(found, Reading)
    assert (found.low, found.high) == pytest.approx(OHMS[text])
    assert found.unit is Unit.OHMS


@pytest.mark.parametrize("text", VOLTS)
def test_volts_as_people_write_them(text: str) -> None:
    found = reading_of(text)
    assert isinstance(found, Reading)
    assert found.low == pytest.approx(VOLTS[text])
    assert found.unit is Unit.VOLTS


@pytest.mark.parametrize("text", ["", "  ", "-", "?", "--"])
def test_a_blank_is_no_reading(text: str) -> None:
    assert reading_of(text) is None


@pytest.mark.parametrize("text", UNREADABLE)
def test_what_is_no_reading_is_refused_with_a_way_to_write_it(text: str) -> None:
    found = reading_of(text)
    assert isinstance(found, Flaw)
    assert "write" in found.help


def said(text: str) -> Reading:
    found = reading_of(text)
    assert isinstance(found, Reading)
    return found


BEEP, SILENT, CONDUCTS = Expected(Want.BEEP), Expected(Want.SILENT), Expected(Want.CONDUCTS)
PART = Expected(Want.OHMS, 900.0, 1100.0, 1000.0)


@pytest.mark.parametrize(
    ("text", "expected", "good"),
    [
        ("beep", BEEP, True), ("0.3", BEEP, True), ("2", BEEP, True), ("2.1", BEEP, False), ("OL", BEEP, False),
        ("<1", BEEP, True), ("no beep", SILENT, True), ("beep", SILENT, False), ("99", SILENT, False),
        ("101", SILENT, True), ("0.2", SILENT, False), ("1k", PART, True), ("900", PART, True), ("899", PART, False),
        ("1.1 k", PART, True), ("1.11 k", PART, False), ("<1k", PART, True), (">1k", PART, True), ("<500", PART, False),
        ("beep", PART, False), ("OL", Expected(Want.OHMS, 18e3), True), ("17k", Expected(Want.OHMS, 18e3), False),
        ("OL", Expected(Want.OHMS, math.inf), True), ("19 meg", Expected(Want.OHMS, math.inf), False),
        ("450", CONDUCTS, True), ("OL", CONDUCTS, False), ("0.6 V", CONDUCTS, True), ("2 V", CONDUCTS, False),
        ("0 V", CONDUCTS, False),
    ],
)  # fmt: skip
def test_whether_a_reading_is_as_expected(text: str, expected: Expected, good: bool) -> None:  # noqa: FBT001
    assert agrees(said(text), expected) is good


CHASSIS = (
    "state rewired\nstrip SP1 3 lugs foot 3\nresistor R1 1k from SP1.1 to SP1.3\nresistor R2 2k from SP1.2 to SP1.3\n"
)


def filled(text: str) -> tuple[list[str], int]:
    plan = plan_of(CircuitGraph(circuit(CHASSIS)))
    found = filled_in(plan, Source("r.csv", text))
    names = plan.chassis.names
    steps = [f"{names[s.red]} {names[s.black]} {r.text}" for s, r in zip(found.steps, found.readings, strict=True)]
    return steps, found.open_steps


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_a_file_of_any_spreadsheet_is_read(mark: str) -> None:
    text = mark.join(("Reading", "note", "Red", "Black")) + "\n" + mark.join(("1 k", "x", "SP1.1", "chassis")) + "\n"
    steps, left = filled(text)
    assert steps == ["SP1.1 chassis 1 k"]
    assert left == len(plan_of(CircuitGraph(circuit(CHASSIS))).steps) - 1


def test_points_are_called_as_the_sheet_says_them_and_a_short_line_has_blanks_at_its_end() -> None:
    steps, _ = filled("red,black,note,reading\nSP1.1 (B+),chassis,by hand,1k\nSP1.2,chassis\n")
    assert steps == ["SP1.1 chassis 1k"]


@pytest.mark.parametrize(("text", "good"), [("0.3", True), ("1.9", True), ("2.1", False), ("OL", False)])
def test_two_points_of_one_net_that_somebody_measured_besides_are_to_be_joined(text: str, *, good: bool) -> None:
    plan = plan_of(CircuitGraph(circuit(CHASSIS)))
    found = filled_in(plan, Source("r.csv", f"red,black,reading\nR1.2,R2.2,{text}\n"))
    (step,), (reading,) = found.steps, found.readings
    assert step.number == 0
    assert agrees(reading, step.expected) is good


def test_volts_say_nothing_of_ohms() -> None:
    reading = reading_of("0.6 V")
    assert isinstance(reading, Reading)
    for want in (Want.OHMS, Want.BEEP, Want.SILENT):
        assert agrees(reading, Expected(want, 1e3, 2e3, 1.5e3))


def test_blank_lines_and_pairs_of_ones_own_are_taken() -> None:
    steps, _ = filled("red,black,reading\nSP1.1,chassis,\n\nR1.1,R2.1,3k\n")
    assert steps in (["R1.1 R2.1 3k"], ["R2.1 R1.1 3k"])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("red,black\n", "no column `reading`"),
        ("red,black,reading\nSP1.1,chassis,2k2k\n", "r.csv:2: `2k2k` is no reading"),
        ("red,black,reading\nSP9.1,chassis,2k\n", "no point `SP9.1`"),
        ("", "no column `red`"),
    ],
)
def test_what_can_not_be_read_is_said_by_its_line(text: str, words: str) -> None:
    with pytest.raises(UsageFault, match=words.replace("(", "\\(")):
        filled(text)


def test_every_unreadable_line_is_told_in_one_run() -> None:
    with pytest.raises(UsageFault) as fault:
        filled("red,black,reading\nSP1.1,chassis,2k2k\nSP1.2,chassis,x1\n")
    assert "r.csv:2" in str(fault.value)
    assert "r.csv:3" in str(fault.value)


def test_the_sheet_as_csv_reads_back(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from netcheck.cli import main

    chassis, sheet = tmp_path / "set.netck", tmp_path / "plan.csv"
    chassis.write_text(CHASSIS, encoding="utf-8")
    assert main(["bench", str(chassis), "-o", str(sheet)]) == 0
    assert main(["bench", str(chassis), "--readings", str(sheet)]) == 0  # nothing was filled in
    text = sheet.read_text(encoding="utf-8")
    assert main(["bench", str(chassis), "-o", str(sheet)]) == 2  # a file that may be filled in is not replaced
    wrong = text.replace("beep,,", "beep,OL,", 1)
    assert wrong != text
    sheet.write_text(wrong, encoding="utf-8")
    assert main(["bench", str(chassis), "--readings", str(sheet)]) == 1
    assert main(["bench", str(chassis), "--readings", str(sheet), "-o", str(tmp_path / "r.txt")]) == 1
    said = capsys.readouterr().out
    assert "r.txt written: 1 reading is not as expected." in said
    assert "no findings" not in said
