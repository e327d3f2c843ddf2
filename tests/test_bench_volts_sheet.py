"""What the sheet says of voltages: what fits, what is a tie, what comes near, what to read next."""

from netcheck.bench.power_up import Volts
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_explain import VoltsCause, VoltsNext, VoltsTold
from netcheck.bench.volts_read import VoltsRead, WrongVolts
from netcheck.bench.volts_sheet import volts_tables
from netcheck.bench.volts_slips import Failure
from netcheck.core.sheet import Table


def cause(subject: str, misfit: float, *, fits: bool) -> VoltsCause:
    failure = Failure(subject, f"{subject} is open", f"measure {subject}", 0.0, ())
    return VoltsCause(failure, misfit, fits, {})


def causes(told: VoltsTold) -> Table:
    return next(table for table in volts_tables((), told) if table.key == "causes")


FITS, OTHER, FAR = cause("R1", 1.0, fits=True), cause("R2", 2.0, fits=True), cause("R3", 30.0, fits=False)


def test_a_tie_is_a_tie() -> None:
    table = causes(VoltsTold((FITS, OTHER, FAR), alone=False, next=None))
    assert table.before == ("These voltages do not tell the first 2 apart.",)
    assert [row.lead for row in table.rows] == [
        "fits every voltage that was read", "", "leaves voltages unexplained"
    ]  # fmt: skip
    assert [column.name for column in table.columns] == ["what it may be", "how to make sure"]
    assert table.rows[0].cells == ("R1 is open", "measure R1")


def test_what_stands_alone_is_to_be_made_sure_of() -> None:
    (text,) = causes(VoltsTold((FITS, FAR), alone=True, next=None)).before
    assert text.startswith("Of the single failures that are looked at only the first fits every voltage.")
    (text,) = causes(VoltsTold((FITS, FAR), alone=False, next=None)).before
    assert text.startswith("Only the first fits every voltage, but others come near")


def test_two_failures_together_are_said_to_be_two() -> None:
    failure = Failure("R1 and R2", "R1 is open; and R2 is open", "measure both", 0.0, (), two=True)
    both = VoltsCause(failure, 1.0, True, {})  # noqa: FBT003 - it fits
    for told in ((both, FAR), (both, FITS)):
        (text,) = causes(VoltsTold(told, alone=False, next=None)).before
        assert text == "No single failure that is looked at fits every voltage; two together may. Make sure of each."


def test_nothing_that_fits_is_said() -> None:
    (text,) = causes(VoltsTold((FAR,), alone=False, next=None)).before
    assert text == "No failure that is looked at, and no two, explain all of them; below is what comes nearest."
    (text,) = causes(VoltsTold((), alone=False, next=None)).before
    assert text == "No failure that is looked at, and no two, come near these voltages."


def test_the_next_reading_says_what_each_figure_would_mean() -> None:
    after = VoltsNext("V3 plate", "V3.6", ((0.2, (0,)), (120.0, (1,))))
    table = next(
        t for t in volts_tables((), VoltsTold((FITS, OTHER), alone=False, next=after)) if t.key == "next-volts"
    )
    assert table.before == ("red on V3.6 (V3 plate), at full line",)
    assert [row.cells for row in table.rows] == [("about 0.2 V", "R1 is open"), ("about 120 V", "R2 is open")]


def wrong(name: str, expected: str, *, at_half: bool) -> WrongVolts:
    return WrongVolts(VoltsRead(name, Reading("3 V", 3, 3, Unit.VOLTS), at_half), name, expected)


def test_off_at_half_line_nobody_goes_on_to_full_line() -> None:
    (table,) = volts_tables((wrong("B+1", "60 to 80 V", at_half=True),), None)
    assert [column.name for column in table.columns] == ["point", "line", "expected", "read"]
    assert table.rows[0].cells == ("B+1", "half", "60 to 80 V", "3 V")
    assert any("do not go on to full line" in text for text in table.before)
    (table,) = volts_tables((wrong("B+1", "150 V", at_half=False), wrong("x", "", at_half=True)), None)
    assert not any("half line" in text for text in table.before)
    assert table.rows[1].cells == ("x", "half", "not known", "3 V")
    assert list(volts_tables((), None)) == []


def test_a_point_has_no_figure_where_none_is_known() -> None:
    assert Volts("B+1", "SP1.1", None, None).within == 0.5
