"""What both directions of a proof come to together, and what is said of two capacitors back to back."""

import pytest

from netcheck.electrical.proof.verdict import Verdict, verdicts
from tests.circuits import circuit

SWUNG = "S W a 0 9\n{} a k {}\nE C1 k 0\n"
FED = "S W a 0 9\nD D1 a b\nR R1 b 0 9\n"
OUTER = "b is always more positive than 0: R1 joins the two, and no rectifier between them pulls the other way"
LOOSE = "nothing that carries DC sets the voltage between {} and the other side"


def _of(text: str, name: str = "C1") -> Verdict:
    (found,) = (one for one in verdicts(circuit(text)) if one.capacitor == name)
    return found


@pytest.mark.parametrize(
    ("clamps", "surety", "way", "by"),
    [
        ("D D1 k 0\nD D2 0 k", "unproven", "unknown", ()),
        ("X D1 k 0\nX D2 0 k", "unproven", "unknown", ()),
        # 9 V of swing behind a resistor: what drops less holds its side nearer to the common.
        ("D D1 k 0\nX D2 0 k", "calculated", "reversed", ("D1",)),
        ("X D1 k 0\nD D2 0 k", "calculated", "right", ("D2",)),
    ],
)
def test_between_two_rectifiers_the_one_that_drops_less_says_which_way(
    clamps: str, surety: str, way: str, by: tuple[str, ...]
) -> None:
    found = _of(SWUNG.format("R R9", 1) + clamps)
    assert (found.surety.value, found.way.value, found.path) == (surety, way, by)


@pytest.mark.parametrize(
    ("clamps", "witness", "higher", "lower"),
    [("D D1 k 0\nX D2 0 k", "D1", "0", "k"), ("X D1 k 0\nD D2 0 k", "D2", "k", "0")],
)
def test_behind_a_capacitor_the_drop_may_be_all_there_is(clamps: str, witness: str, higher: str, lower: str) -> None:
    found = _of(SWUNG.format("C C9", 1) + clamps)
    assert (found.surety.value, found.way.value, found.witness) == ("unproven", "unknown", witness)
    assert found.reason == (
        f"{witness} may drop all that makes {higher} more positive than {lower}; it may be slightly reversed, or "
        "see no voltage at all"
    )
    assert found.settles == ((2, 0),)


def test_where_no_direct_current_comes_it_may_lie_either_way() -> None:
    found = _of("B W a 0 9\nC C9 a k 1\nE C1 k 0\nR R1 k 0 9")
    assert (found.surety.value, found.way.value) == ("proven", "either")
    assert (found.reason, found.state) == ("there is no DC voltage between 0 and k", "hot or cold")


@pytest.mark.parametrize(
    ("pair", "right", "wrong"),
    [("E C1 b k\nE C2 0 k", "C1", "C2"), ("E C1 k b\nE C2 k 0", "C2", "C1")],
    ids=["minus to minus", "plus to plus"],
)
def test_of_two_back_to_back_across_a_supply_one_is_backwards(pair: str, right: str, wrong: str) -> None:
    for name, other, way in ((right, wrong, "right"), (wrong, right, "reversed")):
        found = _of(FED + pair, name)
        assert (found.surety.value, found.way.value, found.partner) == ("proven", way, other)
        both = f"{name} and {other} are back to back, which is right only if there is no DC across the two; "
        assert found.reason == both + OUTER


def test_two_back_to_back_without_direct_current_have_no_polarity() -> None:
    found = _of("S W a 0 9\nR R1 a 0 9\nE C1 a k\nE C2 0 k")
    assert (found.way.value, found.partner) == ("either", "C2")
    assert (
        found.reason == "C1 and C2 are back to back, and there is no DC across the two: together they have no polarity"
    )


@pytest.mark.parametrize("pair", ["E C1 b k\nE C2 k 0", "E C1 b k\nC C2 0 k 1", "E C1 b k\nE C2 0 k\nC C3 k b 1"])
def test_in_series_the_same_way_or_with_a_third_they_are_no_pair(pair: str) -> None:
    found = _of(FED + pair)
    assert (found.partner, found.way.value, found.reason) == (None, "unknown", LOOSE.format("b"))
