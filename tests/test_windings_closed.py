"""What is left round a loop of windings, by the largest in it; and which go against which across the line."""

import pytest

from netcheck.electrical.opposed import Chain, Loop, closed_loops, opposed_chains
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

WINDINGS = (
    "mains 117 V 60 Hz\ncord P1\ntransformer T1\nwinding T1 primary p q 117 V\nnet a: P1.1, T1.p\nnet b: P1.2, T1.q\n"
)


def _loops(windings: str) -> list[Loop]:
    return list(closed_loops(CircuitGraph(circuit(f"{WINDINGS}{windings}"))))


def _ring(*volts: float) -> str:
    """Windings in a ring, each end of one on the start of the next; one below nothing the other way round."""
    lines = [f"winding T1 w{at} {at}x {at}y {abs(each):g} V" for at, each in enumerate(volts)]
    ends = [(f"{at}x", f"{at}y") if each > 0 else (f"{at}y", f"{at}x") for at, each in enumerate(volts)]
    nets = [f"net n{at}: T1.{ends[at - 1][1]}, T1.{start}" for at, (start, _) in enumerate(ends)]
    return "\n".join([*lines, *nets])


@pytest.mark.parametrize(
    ("volts", "left", "share", "shorts"),
    [
        ((6.3,), 6.3, 1.0, True),
        ((5.0, -6.3), 1.3, 1.3 / 6.3, True),
        ((5.1, -6.3), 1.2, 1.2 / 6.3, False),
        ((50.0, 50.0, -81.0), 19.0, 19 / 81, True),
        ((-81.0, 50.0, 50.0), 19.0, 19 / 81, True),
        ((50.0, 50.0, -95.0), 5.0, 5 / 95, False),
    ],
)
def test_a_loop_is_judged_by_its_largest_winding(
    volts: tuple[float, ...], left: float, share: float, *, shorts: bool
) -> None:
    (loop,) = _loops(_ring(*volts))
    assert loop.volts == pytest.approx(left)
    assert loop.share == pytest.approx(share)
    assert loop.is_short is shorts
    assert loop.windings == tuple(f"w{at}" for at in range(len(volts)))
    assert loop.turned == ""  # to turn one round mends none of these


@pytest.mark.parametrize("volts", [(6.3, -6.3), (50.0, 50.0, -100.0), (5.0, -5.09)])
def test_windings_that_cancel_are_no_short(volts: tuple[float, ...]) -> None:
    assert _loops(_ring(*volts)) == []


def test_of_an_output_transformer_a_half_may_be_tied_to_its_tap() -> None:
    """Without volts it makes nothing by itself; two windings without volts and of other names may."""
    assert _loops("winding T1 plate 1 2 3\nnet t: T1.1, T1.2") == []
    assert _loops("winding T1 plate 1 2 3 6.3-0-6.3 V\nnet t: T1.1, T1.2")[0].share == pytest.approx(1.0)
    (unknown,) = _loops("winding T1 one 1 2\nwinding T1 other 3 4\nnet t: T1.1, T1.3\nnet u: T1.2, T1.4")
    assert (unknown.volts, unknown.share, unknown.turned, unknown.is_short) == (None, None, "", False)


@pytest.mark.parametrize(
    ("names", "turns"),
    [
        (("h-1", "h-2"), True),
        (("h8", "h9"), True),
        (("h_1", "h_2"), True),
        (("h", "h-2"), True),
        (("h_1", "h"), True),
        (("h-1", "g-2"), None),
    ],
)
def test_windings_named_alike_are_alike(names: tuple[str, str], *, turns: bool | None) -> None:
    pair = "\n".join(f"winding T1 {name} {at}x {at}y" for at, name in enumerate(names))
    loops = _loops(f"{pair}\nnet t: T1.0x, T1.1x\nnet u: T1.0y, T1.1y")
    assert bool(loops) is (turns is None)
    (crossed,) = _loops(f"{pair}\nnet t: T1.0x, T1.1y\nnet u: T1.0y, T1.1x")
    assert (crossed.share, crossed.turned) == ((2.0, names[1]) if turns else (None, ""))


def test_of_three_windings_without_volts_one_is_left_over_and_a_stated_one_is_none_of_them() -> None:
    ring = "net t: T1.1y, T1.2x\nnet u: T1.2y, T1.3y\nnet v: T1.1x, T1.3x"
    three = "\n".join(f"winding T1 h{at} {at}x {at}y" for at in (1, 2, 3))
    assert [loop.share for loop in _loops(f"{three}\n{ring}")] == [1.0]
    assert [loop.share for loop in _loops(f"{three} 6.3 V\n{ring}")] == [None]


def test_two_windings_in_parallel_of_which_one_is_turned_round() -> None:
    (loop,) = _loops(_ring(117.0, 117.0))
    assert (loop.volts, loop.share, loop.turned) == (234.0, 2.0, "w1")


@pytest.mark.parametrize(
    ("names", "turned", "told"),
    [
        (("p-1", "p-2"), True, [(0.0, True, "p-2")]),
        (("p-1", "p-2"), False, []),
        (("p-1", "q-2"), True, [(None, None, "q-2")]),
        (("p-1", "p-2 117 V"), True, [(None, None, "p-2")]),
        (("p-1 117 V", "p-2 117-0-117 V"), True, [(None, None, "p-2")]),
        (("p-1", "p-2", "p-3"), True, [(None, None, "p-3")]),
    ],
)
def test_windings_in_series_whose_volts_are_not_said(
    names: tuple[str, ...], *, turned: bool, told: list[tuple[float | None, bool | None, str]]
) -> None:
    """Alike windings make as much each: of two that go against each other nothing is left."""
    windings = "\n".join("winding T1 {} {}x {}y {}".format(*_named(name, at)) for at, name in enumerate(names))
    ends = ["xy"] * (len(names) - 1) + ["yx" if turned else "xy"]
    chains = _chains("mains 234 V 50 Hz\n", windings, ends)
    assert [(one.volts, one.shorts, one.turned) for one in chains] == told
    assert all(one.windings == tuple(name.partition(" ")[0] for name in names) for one in chains)


def _named(name: str, at: int) -> tuple[str, int, int, str]:
    word, _, volts = name.partition(" ")
    return word, at, at, volts


SERIES = "{mains}cord P1\ntransformer T1\n{windings}\nnet a: P1.1, T1.0{first}\nnet b: P1.2, T1.{last}\n{between}"


@pytest.mark.parametrize(
    ("volts", "line", "told"),
    [
        ((117.0, 117.0), 234, None),
        ((117.0, -117.0), 234, (0.0, True, "w1")),
        ((117.0, -12.0), 117, None),  # bucks: 105 V of turns
        ((117.0, -12.0), 132, (105.0, True, "w1")),  # a quarter more, and a little
        ((117.0, -12.0), 131, None),
        ((117.0, -12.0), None, (105.0, None, "w1")),
        ((-117.0, 12.0), 132, (105.0, True, "w1")),
        ((117.0, -115.0), None, (2.0, True, "w1")),
        ((117.0, 117.0, -117.0, -117.0), 234, (0.0, True, "")),
        ((-12.0, 117.0, 117.0), 300, (222.0, True, "w0")),
    ],
)
def test_windings_in_series_across_the_line(
    volts: tuple[float, ...], line: int | None, told: tuple[float, bool | None, str] | None
) -> None:
    windings = "\n".join(f"winding T1 w{at} {at}x {at}y {abs(each):g} V" for at, each in enumerate(volts))
    mains = f"mains 50 Hz {line} V\n" if line else ""
    chains = _chains(mains, windings, ["xy" if each > 0 else "yx" for each in volts])
    assert [(one.volts, one.shorts, one.turned) for one in chains] == ([told] if told else [])


def _chains(mains: str, windings: str, ends: list[str]) -> tuple[Chain, ...]:
    between = "\n".join(f"net m{at}: T1.{at}{ends[at][1]}, T1.{at + 1}{ends[at + 1][0]}" for at in range(len(ends) - 1))
    last = f"{len(ends) - 1}{ends[-1][1]}"
    text = SERIES.format(mains=mains, windings=windings, first=ends[0][0], last=last, between=between)
    return opposed_chains(CircuitGraph(circuit(text)))
