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


LINE = "S LINE line 0 165\nD CR1 line K\n"
BOOST = "U V9 {} boost\nC C8 boost 0 1\nR R7 boost 0 1000000"
GRID = "T V1 K k g\nR R1 k 0 270\nR R2 g 0 470000\n"
SCREEN = "R R9 K sc 10000\nT V1s sc k\n" + GRID
WEAK = "C C9 K 0 9\nR R1 K m 22000\nE C1 m 0\nT V1 m 0\n"
NEXT = "R R1 K p 100000\nT V1 p 0\nT V2 K k g\nR R2 k 0 1000\nR R3 g 0 470000\n"
# What is proved, on what it leans, and the words: where the current comes from, and what could bring it another way.
REASONS = {
    "a cathode's bypass": (LINE + GRID + "E C1 k 0", "proven right", "k is always more positive than 0: {0}", ("R1",)),
    "the same reversed": (
        LINE + GRID + "E C1 0 k",
        "proven reversed",
        "k is always more positive than 0: {0}",
        ("R1",),
    ),
    "a screen to its cathode": (
        LINE + SCREEN + "E C1 sc k",
        "proven right if V1",
        "sc is never more than 0.7 V below k: {0}, as long as the grid of V1 draws no current",
        ("R9", "CR1", "LINE", "R1"),
    ),
    "from a plate to the next grid": (
        LINE + NEXT + "E C1 p g",
        "proven right",
        "p is never more than 0.7 V below g: {0}",
        ("R1", "CR1", "LINE", "R3"),
    ),
    "the same the other way": (
        LINE + NEXT + "E C1 g p",
        "proven reversed",
        "p is never more than 0.7 V below g: {0}",
        ("R1", "CR1", "LINE", "R3"),
    ),
    "B+ that a damper loads": (
        LINE + "E C1 K 0\nT V1 K 0\n" + BOOST.format("K"),
        "proven right if V9",
        "K is never more than 0.7 V below 0: {0}, as long as V9 only loads this supply",
        ("CR1", "LINE"),
    ),
    "backwards, as long as a damper only loads it": (
        LINE + "E C1 0 K\nT V1 K 0\n" + BOOST.format("K"),
        "proven reversed if V9",
        "K is never more than 0.7 V below 0: {0}, as long as V9 only loads this supply",
        ("CR1", "LINE"),
    ),
    "the boost that it charges": (
        LINE + "R R1 K 0 10000\nE C1 boost 0\n" + BOOST.format("K"),
        "unproven unknown by V9",
        "V9, which the line does not drive, charges it to a voltage that the file does not state",
        (),
    ),
    "a weak line that a damper hangs on": (
        LINE + WEAK + BOOST.format("m"),
        "unproven unknown by V9",
        "V9, which the line does not drive, could reverse it",
        (),
    ),
    "a grid leak": (
        LINE + "R R1 K 0 9000\nT V1 K 0 g\nE C1 0 g\nR R3 g 0 470000",
        "unproven unknown by V1",
        "grid current of V1 could reverse it",
        (),
    ),
    "between two cathodes": (
        LINE + "T V1 K k1\nR R8 k1 0 1000\nE C1 k1 k2\nT V2 K k2\nR R2 k2 0 1000",
        "unproven unknown by CR1",
        "rectifier CR1 could reverse it through LINE",
        ("LINE",),
    ),
    "backwards but for a drop": (
        "S LINE line 0 165\nX CR1 line K\nE C1 0 K\nT V1 K 0",
        "proven reversed",
        "K is never more than 5 V below 0: {0}",
        ("CR1", "LINE"),
    ),
}
JOINED = "joins the two, and no rectifier between them pulls the other way"


def _joining(names: tuple[str, ...]) -> str:
    if len(names) < 2:
        return f"{''.join(names)} {JOINED}"
    return f"{', '.join(names[:-1])} and {names[-1]} {JOINED.replace('joins', 'join')}"


@pytest.mark.parametrize("name", REASONS)
def test_a_verdict_says_what_it_rests_on(name: str) -> None:
    text, said, reason, path = REASONS[name]
    found = _of(text)
    words = [found.surety.value, found.way.value]
    words += [word for names in found.assumes for word in ("if", names)]
    words += ["by", found.witness] if found.witness else []
    assert " ".join(words) == said
    assert found.reason == reason.format(_joining(path))
    assert found.path == path
    assert found.by_grid is (name == "a grid leak")
    assert bool(found.settles) is (found.way.value == "unknown")
