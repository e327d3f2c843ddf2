"""What types are rated for: the tables against what their makers' numbering implies, and what a declaration gets."""

from decimal import Decimal

import pytest

from netcheck.core.kind import Features, Standing
from netcheck.core.quantity import Dimension
from netcheck.parts.diode_types import diode_type_of, diode_types
from netcheck.parts.lamp_types import lamp_type_of, lamp_types
from netcheck.parts.resistor_types import most_volts
from netcheck.parts.transformer import rise_of
from tests.paper import circuit

# JEDEC registration lists as remembered: the numbers of a family rise with the volts.
FAMILIES = (
    ("1N400", "1234567", "50 100 200 400 600 800 1000"),
    ("1N539", "123456789", "50 100 200 300 400 500 600 800 1000"),
    ("1N540", "012345678", "50 100 200 300 400 500 600 800 1000"),
    ("UF400", "1234567", "50 100 200 400 600 800 1000"),
)
STANDARD_VOLTS = {50, 100, 200, 300, 400, 500, 600, 800, 1000, 1250, 1300}


@pytest.mark.parametrize(("stem", "digits", "volts"), FAMILIES)
def test_a_family_of_diodes_rises_in_volts_with_its_number(stem: str, digits: str, volts: str) -> None:
    rows = [diode_type_of(f"{stem}{digit}") for digit in digits]
    assert [row and row.inverse_volts for row in rows] == list(map(Decimal, volts.split()))
    assert len({(row.mean_amperes, row.surge_amperes) for row in rows if row}) == 1


@pytest.mark.parametrize("name", sorted(diode_types()))
def test_a_diode_stands_a_rated_step_and_a_surge_of_many_times_its_mean(name: str) -> None:
    row = diode_types()[name]
    assert int(row.inverse_volts) in STANDARD_VOLTS
    assert 8 * row.mean_amperes <= row.surge_amperes <= 70 * row.mean_amperes
    assert row.source
    assert row.standing in (Standing.SOURCE, Standing.MEMORY)


def test_what_is_from_memory_says_so() -> None:
    """Who copies a rating has to know whether anybody read it in a data sheet."""
    diode_types.cache_clear()
    read = {row.source for row in diode_types().values() if row.standing is Standing.SOURCE}
    remembered = {row.source for row in diode_types().values() if row.standing is Standing.MEMORY}
    assert all(source.startswith("dtsheet.com/doc/") for source in read)
    assert remembered == {"makers' data", "as dtsheet.com/doc/1286897"}


def test_a_type_is_found_as_it_is_printed() -> None:
    assert diode_type_of("1n4007") == diode_type_of("1N4007G") == diode_type_of("1N-4007") != None  # noqa: E711
    assert diode_type_of("1N4008") is None
    assert lamp_type_of("#47") == lamp_type_of("47") != None  # noqa: E711
    assert lamp_type_of("40a") == lamp_type_of("# 40A") != None  # noqa: E711
    assert lamp_type_of("4") is None


@pytest.mark.parametrize("number", sorted(lamp_types()))
def test_a_lamp_is_of_the_size_of_a_pilot_lamp(number: str) -> None:
    row = lamp_types()[number]
    assert Decimal("0.1") <= row.volts * row.amperes <= 5
    assert row.source


# Miniature lamps of radio dials by their number: volts and amperes (Radio Amateur's Handbook, 1950s; from memory).
DIAL_LAMPS = {
    "40": "6.3 .15", "40A": "6.3 .15", "41": "2.5 .5", "42": "3.2 .35", "43": "2.5 .5", "44": "6.3 .25",
    "45": "3.2 .35", "46": "6.3 .25", "47": "6.3 .15", "48": "2.0 .06", "49": "2.0 .06", "51": "7.5 .22",
    "55": "7.0 .41", "292": "2.9 .17", "1490": "3.2 .16", "1815": "14 .2", "1891": "14 .24", "1892": "14.4 .12",
}  # fmt: skip


def test_dial_lamps_take_what_their_numbers_say() -> None:
    lamp_types.cache_clear()
    read = lamp_types()
    assert {n: (read[n].volts, read[n].amperes) for n in DIAL_LAMPS} == {
        number: tuple(map(Decimal, said.split())) for number, said in DIAL_LAMPS.items()
    }
    assert {row.number: row.standing for row in read.values() if "lamp makers" not in row.source} == {
        "47": Standing.SOURCE
    }
    assert {row.standing for row in read.values() if "lamp makers" in row.source} == {Standing.MEMORY}
    assert "memory" not in " ".join(row.source for row in read.values())


def test_what_a_declaration_states_goes_before_its_type() -> None:
    text = "diode D1 1N4007\ndiode D2 1N4007 400 V\ndiode D3 OA999\nnet a: D1.anode, D2.anode, D3.anode\n"
    parts = circuit(text + "net b: D1.cathode, D2.cathode, D3.cathode\n").parts
    stated = {
        name: [parts[name].features.first(each) for each in (Dimension.VOLTAGE, Dimension.CURRENT)] for name in parts
    }
    amounts = {name: [each and each.amount for each in both] for name, both in stated.items()}
    assert amounts == {"D1": [1000, 1], "D2": [400, 1], "D3": [None, None]}


# Carbon composition resistors of 1/4, 1/2 and 1 W (data sheet, studylib.net/doc/18037366); 2 W from memory (MIL-R-11).
@pytest.mark.parametrize(
    ("watts", "volts"),
    [
        ("0.125", 250),
        ("0.25", 250),
        ("0.33", 350),
        ("0.5", 350),
        ("1", 500),
        ("2", 750),
        ("3", None),
    ],
)
def test_a_small_resistor_stands_the_volts_of_its_length(watts: str, volts: int | None) -> None:
    assert most_volts(Decimal(watts)) == volts


@pytest.mark.parametrize(
    ("said", "times"),
    [("8%", "1.08"), ("8 %", "1.08"), ("0%", "1"), ("50%", "1.5"), ("50.1%", ""), ("-1%", ""), ("8", ""), ("nan%", "")],
)
def test_a_rise_without_a_load_is_in_percent_and_at_most_half_as_much_again(said: str, times: str) -> None:
    rise = rise_of(Features(arguments={"rise": said}))
    assert rise == (Decimal(times) - 1 if times else None)
