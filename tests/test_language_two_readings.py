"""Values that can be read two ways, and commas: both readings are told, and each can be written."""

import pytest

from tests.test_language_values import flaw, read

# A spelling with two readings: US drawings of the 1930s to 50s write M for 1000 (from memory), British ones for a
# million; MF was microfarad on old parts (justradios.com/captips.html) and mF is a millifarad today.
UNSURE = {
    "50M": ("`50k`", "`50 meg`"), "2 M": ("`2k`", "`2 meg`"), ".5 M": ("`.5k`", "`.5 meg`"),
    "8 MF": ("`8 mfd`", "`8000 mfd`"), "1 mF": ("`1 mfd`", "`1000 mfd`"), "4m7": ("`4.7 mfd`", "`4700 mfd`"),
}  # fmt: skip


@pytest.mark.parametrize(("written", "proposals"), UNSURE.items())
def test_two_readings_are_both_told(written: str, proposals: tuple[str, str]) -> None:
    found = flaw(written)
    assert f"`{written}` can mean" in found.headline
    assert all(proposal in found.help for proposal in proposals)


@pytest.mark.parametrize(
    ("written", "headline"),
    [("1.2.3 MF", "`1.2.3` is not a number"), ("8,5 MF", "a comma ends an item, so `8,5` is not one number")],
)
def test_what_is_no_number_has_no_readings(written: str, headline: str) -> None:
    assert flaw(written).headline == headline


COMMAS = {
    "1,000 V": "`1000 V`", "1,000.5 V": "`1000.5 V`", "22,000,000 ohm": "`22000000 ohm`", "4,7k": "`4.7k`",
    "0,05 mfd": "`0.05 mfd`", "1,50 V": "`1.50 V`", "10,0000 ohm": "`10.0000 ohm`",
}  # fmt: skip


@pytest.mark.parametrize("written", COMMAS)
def test_a_comma_is_that_of_thousands_before_three_figures(written: str) -> None:
    """Else it is a decimal comma, as on the continent."""
    assert flaw(written).help == f"write {COMMAS[written]}"


@pytest.mark.parametrize("written", UNSURE)
def test_what_is_proposed_for_two_readings_can_be_read(written: str) -> None:
    one, other = (read(text) for text in flaw(written).help.split("`")[1::2])
    assert one.amount * 1000 == other.amount
