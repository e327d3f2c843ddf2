"""Values as printed on parts and drawings, against published codes and the usage of their day."""

import re
from decimal import Decimal

import eseries
import pytest
from resistors import Resistor

from netcheck.core.diagnostic import Flaw
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.core.source import Source
from netcheck.language import tree
from netcheck.language.grammar import spellings, unit_terminals
from netcheck.language.parser import parse
from netcheck.language.values import bare, quantity, unknown_unit


def read(text: str) -> Quantity:
    """The one value that a text is, through the grammar and not around it."""
    parsed, diagnostics = parse(Source("value.netck", f"resistor R1 {text}"))
    assert diagnostics == ()
    (part,) = parsed.statements
    assert isinstance(part, tree.Part)
    (item,) = part.items
    assert isinstance(item, tree.Value)
    assert item.quantity is not None
    return item.quantity


def amount(text: str) -> Decimal:
    return read(text).amount


def flaw(text: str) -> Flaw:
    found = quantity(text)
    assert isinstance(found, Flaw)
    return found


# Letters in the place of the decimal point: IEC 60062 as told in en.wikipedia.org/wiki/RKM_code (R47 to 4M7),
# probsee.com/p/RKM_code (R10, R300, 1K0, 2M2) and wikisum.wiki/wiki/RKM_code (capacitance letters).
RKM = {
    "R47": "0.47", "4R7": "4.7", "470R": "470", "4K7": "4700", "4k7": "4700", "47K": "47000", "47K3": "47300",
    "470K": "470000", "4M7": "4700000", "R10": "0.1", "R300": "0.3", "1K0": "1000", "2M2": "2200000",
    "4n7": "0.0000000047", "1µ0": "0.000001", "1u0": "0.000001", "10p": "0.00000000001",
}  # fmt: skip


@pytest.mark.parametrize(("written", "size"), RKM.items())
def test_letters_in_the_place_of_the_decimal_point(written: str, size: str) -> None:
    assert amount(written) == Decimal(size)


# Usage of the day: ham.stackexchange.com/questions/17901; justradios.com/captips.html: mf, mfd, MFD, Mfd are
# microfarads; mmf, mmfd, MMFD, µµF, uuF are picofarads; a catalogue of 1940 rates everything in Mfd.
SAME_SIZE = [
    ("500 mmfd", "0.0005 mfd"), ("250 mmf", "0.00025 mfd"), ("0.000005 Mfd", "5 MMFD"), (".05 MFD", "50 nF"),
    ("20 mfd", "20 uF"), ("20 mf", "20 µF"), ("20 ufd", "20000000 pF"), ("100 µµF", "100 uuF"), ("100 uufd", "100p"),
    ("455 kc", "455 kHz"), ("10.7 mc", "10.7 MHz"), ("60 cps", "60 Hz"), ("60 cycles", "60 Hz"),
    ("2.5 mHy", "2500 µH"), ("12 hy", "12 H"), ("2.2 meg", "2200k"), ("1 megohm", "1000 kohm"), ("470", "470 ohms"),
    ("470 Ω", "470R"), ("80 mA", ".08 A"), ("1/2 W", ".5 watt"), ("½ W", "0.50 W"), ("1½ W", "1.5 W"),
    ("1 kV", "1000 V"), ("450 WV", "450 volts"), ("500 mW", "1/2 W"), ("50 µA", ".05 mA"),
    ("20000 ohm/V", "20000 ohms/volt"),
]  # fmt: skip


@pytest.mark.parametrize(("one", "other"), SAME_SIZE)
def test_two_spellings_of_one_size_are_exactly_equal(one: str, other: str) -> None:
    first = bare(one, Dimension.RESISTANCE) if one.isdecimal() else read(one)
    second = read(other)
    assert isinstance(first, Quantity)
    assert (first.amounts, first.dimension) == (second.amounts, second.dimension)


def test_sizes_are_in_the_dimensions_unit() -> None:
    assert amount("20 mfd") == Decimal("0.00002")
    assert amount(".05 MFD") == Decimal("50e-9")
    assert amount("250 mmf") == Decimal("250e-12")
    assert [amount("12 H"), amount("-20 V"), amount("10%")] == [Decimal(12), Decimal(-20), Decimal(10)]


# The preferred values of IEC 60063 and the formula round(10 ** (i / 24)), from which eight values of E24 differ:
# twiki.owiki.org/wiki/E_series_of_preferred_numbers; the eight are computed.
FORMULA_DIFFERS = {27: 26, 30: 29, 33: 32, 36: 35, 39: 38, 43: 42, 47: 46, 82: 83}
E24 = eseries.series(eseries.E24)


def test_the_preferred_values_are_those_of_the_standard() -> None:
    formula = [round(10 ** (i / 24 + 1)) for i in range(24)]
    assert [FORMULA_DIFFERS.get(value, value) for value in E24] == formula


@pytest.mark.parametrize("value", E24)
def test_every_preferred_value_reads_the_same_in_each_spelling(value: int) -> None:
    whole, tenth = divmod(value, 10)
    spelled = (f"{whole}k{tenth}", f"{whole}.{tenth}k", f"{value}00 ohm", f".00{value} meg", f"{whole}K{tenth}")
    assert {amount(text) for text in spelled} == {Decimal(value * 100)}
    capacitor = (f"{whole}n{tenth}", f".00{value} mfd", f"{value}00 mmfd", f"{whole}.{tenth} nF")
    assert {amount(text) for text in capacitor} == {Decimal(value).scaleb(-10)}


# Colour bands decoded by the package resistors; the table is that of idea2ic.com/CheatSheet_2/RESISTOR_MARKINGS.txt.
BANDS = {
    "47k": ("yellow", "violet", "orange", "silver"),
    "2.2 meg": ("red", "red", "green", "silver"),
    "270 ohm": ("red", "violet", "brown", "gold"),
    "R47": ("yellow", "violet", "silver", "gold"),
    "10k": ("brown", "black", "black", "red", "brown"),
}


@pytest.mark.parametrize(("written", "bands"), BANDS.items())
def test_values_agree_with_colour_bands(written: str, bands: tuple[str, ...]) -> None:
    assert float(amount(written)) == pytest.approx(Resistor(*bands).get_resistance()["value"], rel=1e-12)


CURRENTS = {
    "117 V": Current.UNSAID, "450 WV": Current.UNSAID, "250 V AC": Current.AC, "250 VAC": Current.AC,
    "117 V DC": Current.DC, "250VDC": Current.DC, "600 DCWV": Current.DC, "450 WVDC": Current.DC,
    "117 v  ac": Current.AC,
}  # fmt: skip


@pytest.mark.parametrize(("written", "current"), CURRENTS.items())
def test_ac_and_dc_are_part_of_the_value(written: str, current: Current) -> None:
    assert (read(written).current, read(written).dimension) == (current, Dimension.VOLTAGE)


COUNTS = {
    "5 lugs": Dimension.LUGS, "1 lug": Dimension.LUGS, "2 pins": Dimension.PINS, "3 wires": Dimension.WIRES,
    "5 plates": Dimension.PLATES, "20 AWG": Dimension.GAUGE,
}  # fmt: skip


@pytest.mark.parametrize(("written", "dimension"), COUNTS.items())
def test_counts(written: str, dimension: Dimension) -> None:
    assert (read(written).amount, read(written).dimension) == (Decimal(written.split(maxsplit=1)[0]), dimension)


def test_a_centre_tapped_winding_has_three_amounts() -> None:
    assert read("310-0-310 V").amounts == (Decimal(310), Decimal(0), Decimal(310))


@pytest.mark.parametrize(
    ("written", "shown"), {"20 mfd": "20 mfd", "\u221220 V": "-20 V", "1\u03bc0": "1\u00b50"}.items()
)
def test_what_was_written_is_kept(written: str, shown: str) -> None:
    """But for the signs that are read as one: U+2212 as the minus key, U+03BC as the micro sign."""
    assert read(written).written == shown


@pytest.mark.parametrize("spelling", [s for terminal in unit_terminals() for s in spellings(terminal)])
def test_every_unit_of_the_grammar_has_a_meaning(spelling: tuple[str, bool]) -> None:
    word, any_case = spelling
    for text in {word, word.upper(), word.lower()} if any_case and word.isascii() else {word}:
        assert isinstance(quantity(f"1 {text}"), Quantity)
        assert read(f"1 {text}") == quantity(f"1 {text}")


def test_a_bare_number_is_ohms_and_nothing_else() -> None:
    ohms = bare("470", Dimension.RESISTANCE)
    assert isinstance(ohms, Quantity)
    assert (ohms.amount, ohms.dimension) == (Decimal(470), Dimension.RESISTANCE)
    for dimension in set(Dimension) - {Dimension.RESISTANCE, Dimension.CAPACITANCE}:
        assert bare("5", dimension) == Flaw("`5` has no unit", bare_help(dimension))


def bare_help(dimension: Dimension) -> str:
    """A proposal that reads as a value of the dimension."""
    found = bare("5", dimension)
    assert isinstance(found, Flaw)
    assert read(found.help.split("`")[1]).dimension is dimension
    return found.help


def test_a_bare_capacitance_has_two_readings() -> None:
    expected = Flaw("`.05` can mean .05 mfd or .05 mmfd", "write `.05 mfd` or `.05 mmfd`")
    assert bare(".05", Dimension.CAPACITANCE) == expected


@pytest.mark.parametrize(
    ("number", "word", "proposal"),
    [
        ("20", "mfdd", "20 mfd"),
        ("20", "MFDD", "20 mfd"),
        ("5", "wat", "5 watt"),
        ("470", "ohsm", "470 ohm"),
        ("4", "MH", "4 mH"),
    ],
)
def test_an_unknown_unit_is_named_with_the_near_one(number: str, word: str, proposal: str) -> None:
    assert unknown_unit(number, word) == Flaw(f"unknown unit `{word}`", f"did you mean `{proposal}`?")


@pytest.mark.parametrize(
    ("number", "word", "proposal"),
    [
        ("1e+06", "ohm", "write `1000000 ohm` or `1 meg`"),
        ("4.7e3", "ohm", "write `4700 ohm` or `4.7k`"),
        ("1.23456e3", "ohm", "write `1234.56 ohm`"),  # the shorter spelling would be another value
        ("1", "e+06ohm", "write `1000000 ohm` or `1 meg`"),
        ("1E-6", "F", "write `0.000001 F` or `1 mfd`"),
        (".5e3", "V", "write `500 V`"),
        ("1e6", "", "write the number in full"),
        ("1e40", "ohm", "write the number in full"),
        ("1e-20", "F", "write the number in full"),
        ("3e2", "furlongs", "write the number in full"),
    ],
)
def test_a_power_of_ten_is_written_in_full(number: str, word: str, proposal: str) -> None:
    told = unknown_unit(number, word)
    assert told.help == proposal
    assert told.headline.endswith(" has a power of ten")
    assert told.headline.startswith(f"`{number}")
    for written in re.findall("`([^`]*)`", proposal):
        assert read(written).amount == Decimal(number + word.removesuffix("ohm").strip("FV"))


def test_a_number_that_is_none_is_not_proposed() -> None:
    assert unknown_unit("1e", "k").headline == "`1e` is not a number"


def test_an_unknown_unit_with_no_near_one() -> None:
    usual = "units are written as in `20 mfd`, `470k` or `450 V`"
    assert unknown_unit("3", "furlongs") == Flaw("unknown unit `furlongs`", usual)
    after = "write the unit after it, as in `20 mfd`, `470k` or `450 V`"
    assert unknown_unit("20", "") == Flaw("`20` has no unit", after)
    assert bare("20mfdd", Dimension.CAPACITANCE) == unknown_unit("20", "mfdd")


@pytest.mark.parametrize(
    "words", ["6SA7", "12AX7", "1N4007", "6.3Volt-a", "20 mfdd", "half-moon", "X2", "foot 3", "5-plates"]
)
def test_what_is_no_quantity_is_left_to_be_a_word(words: str) -> None:
    (part,) = parse(Source("x.netck", f"resistor R1 {words}"))[0].statements
    assert isinstance(part, tree.Part)
    assert [item.text for item in part.items if isinstance(item, tree.Word)] == words.split()


@pytest.mark.parametrize("edge", ["1000000 V", "-1000000 V", "1000000 meg", "1000000000000 Hz", "0 V"])
def test_sizes_up_to_the_bounds_are_read(edge: str) -> None:
    assert abs(amount(edge)) in (Decimal("1e6"), Decimal("1e12"), 0)


@pytest.mark.parametrize("beyond", ["1000001 V", ".0009 mmfd", "1000001 meg", "1000000000001 Hz"])
def test_sizes_beyond_the_bounds_are_refused(beyond: str) -> None:
    assert flaw(beyond).headline == f"`{beyond}` is not a size that a part can have"


@pytest.mark.parametrize("written", ["5 MH", "1 MW", "5 MV", "1 MHY", "5 a", "1 f", "r47", "k47", "- 5 V", "1.2.3 V"])
def test_no_other_case_or_place_is_guessed(written: str) -> None:
    assert flaw(written).help


@pytest.mark.parametrize("written", ["1.2.3", ".", "1/0", "9" * 30])
def test_what_is_no_number_is_told_before_its_unit(written: str) -> None:
    outcomes = {bare(written, dimension) for dimension in Dimension}
    assert len(outcomes) == 1
    assert isinstance(outcomes.pop(), Flaw)
