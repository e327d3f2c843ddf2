"""What is backwards after switching on, and for how long: against closed forms and a step-by-step solution."""

import math
from random import Random

import pytest

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.running import coming_up as followers
from netcheck.electrical.running.coming_up import coming_up
from netcheck.electrical.running.switch_on import switch_on
from netcheck.electrical.starting import backwards_at_first
from netcheck.electrical.study import HIGH_LINE
from netcheck.rules.reversed_at_switch_on import RULE
from tests.soundness.oracle import seconds_below
from tests.soundness.taken_over import wiring
from tests.supplies import random_supply

SILICON = Conduction(((0.7, 0.0), (1.2, 10.0)))
BORNE = 1.5


def two_batteries(fast: float, slow: float, seconds: float) -> Network:
    """100 V behind a millisecond and more volts behind seconds, and between them a capacitor that draws nothing."""
    elements = (
        VoltageSource("B1", 1, 0, fast, 0.0, 100.0),
        Capacitor("C1", 1, 0, 1e-5),
        VoltageSource("B2", 2, 0, slow, 0.0, seconds / 1e-5),
        Capacitor("C2", 2, 0, 1e-5),
        Capacitor("C3", 2, 1, 1e-13, polarised=True),
    )
    return Network(3, elements)


@pytest.mark.parametrize(("slow", "seconds"), [(150.0, 0.5), (150.0, 4.0), (300.0, 1.0), (105.0, 2.0)])
def test_the_time_is_that_of_one_exponential(slow: float, seconds: float) -> None:
    """Slow volts pass 98.5 V after RC ln(V / (V - 98.5)); the fast line is up within a cycle."""
    (found,) = coming_up(two_batteries(100.0, slow, seconds), BORNE)
    crossing = seconds * math.log(slow / (slow - 100.0 + BORNE))
    assert found.name == "C3"
    assert not found.lasting
    assert found.seconds == pytest.approx(crossing, rel=0.01, abs=1 / 60)
    early = max(
        100.0 * (1 - math.exp(-t / 1e-3)) - slow * (1 - math.exp(-t / seconds)) for t in (k * 1e-4 for k in range(400))
    )
    assert found.volts == pytest.approx(early, rel=0.02)


def test_what_stays_so_lasts() -> None:
    (found,) = coming_up(two_batteries(100.0, 90.0, 0.5), BORNE)
    assert found.lasting
    (found,) = coming_up(two_batteries(100.0, 150.0, 300.0), BORNE)
    assert found.lasting
    assert found.seconds >= 30.0


def test_a_slow_line_that_ends_lower_is_right() -> None:
    """The same capacitor with its plus on the line that is there first."""
    network = two_batteries(100.0, 150.0, 1.0)
    elements = (*network.elements[:-1], Capacitor("C3", 1, 2, 1e-13, polarised=True))
    (found,) = coming_up(Network(3, elements), BORNE)
    assert found.lasting  # 50 V backwards in the end: that is the running set's, and its verdict tells it
    assert coming_up(Network(3, (*elements[:-1], Capacitor("C3", 2, 0, 1e-6, polarised=True))), BORNE) == ()


def rectified(*, slow_ohms: float = 4.7e3, choke: bool = False) -> Network:
    ways: tuple[Element, ...] = (Resistor("R2", 4, 5, slow_ohms),)
    if choke:
        ways = (Inductor("L2", 4, 5, 12.0, 300.0),)
    elements = (
        VoltageSource("W1", 1, 0, 200.0, 60.0, 20.0, rise=0.05),
        Rectifier("D1", 1, 2, SILICON),
        Capacitor("C1", 2, 0, 40e-6, polarised=True),
        VoltageSource("W2", 3, 0, 300.0, 60.0, 20.0, rise=0.05),
        Rectifier("D2", 3, 4, SILICON),
        *ways,
        Capacitor("C2", 5, 0, 40e-6, polarised=True),
        Capacitor("C3", 5, 2, 10e-6, polarised=True),
        Load("V1", 2, 0, 0.002),
    )
    return Network(6, elements)


@pytest.mark.parametrize("network", [rectified(), rectified(slow_ohms=1e3), rectified(choke=True)])
def test_rectified_lines_come_up_as_a_step_by_step_solution_has_them(network: Network) -> None:
    below = seconds_below(wiring(network), -BORNE, 120, line=1.1)
    found = {one.name: one.seconds for one in coming_up(network, BORNE, 1.1)}
    assert set(found) == {name for name, seconds in below.items() if seconds > 1 / 60}
    for name, seconds in found.items():
        assert below[name] == pytest.approx(seconds, rel=0.03, abs=2e-3)


def test_no_more_volts_are_seen_than_by_following_every_period() -> None:
    found = {one.name: one.volts for one in coming_up(rectified(), BORNE)}
    followed = {one.name: one.low for one in switch_on(rectified(), cycles=60).capacitors}
    assert found["C3"] == pytest.approx(-followed["C3"], rel=0.02)


def first_seen(network: Network, verdict: Verdict | None = None) -> list[str]:
    verdicts = {} if verdict is None else {verdict.capacitor: verdict}
    return [one.name for one in backwards_at_first(network, verdicts, Figures())]


def test_what_a_verdict_has_told_is_not_told_again() -> None:
    right = Verdict("C3", Surety.COMPUTED, WayRound.RIGHT, "")
    assert first_seen(rectified()) == first_seen(rectified(), right) == ["C3"]
    for way in (WayRound.REVERSED, WayRound.BOTH):
        assert first_seen(rectified(), Verdict("C3", Surety.COMPUTED, way, "")) == []
    assert first_seen(rectified(), Verdict("C3", Surety.COMPUTED, WayRound.EITHER, "", partner="C9")) == []


def test_a_choke_that_swings_a_capacitor_below_nothing() -> None:
    """A first capacitor that is far too small, then two chokes: what they store pulls it through nothing."""
    elements = (
        VoltageSource("W1", 1, 0, 300.0, 60.0, 20.0),
        Rectifier("D1", 1, 2, SILICON),
        Capacitor("C1", 2, 0, 0.5e-6, polarised=True),
        Inductor("L1", 2, 3, 10.0, 170.0),
        Capacitor("C2", 3, 0, 25e-6, polarised=True),
        Resistor("R1", 3, 0, 1e5),
    )
    network = Network(4, elements)
    (found,) = coming_up(network, BORNE)
    assert found.name == "C1"
    assert first_seen(network) == ["C1"]
    assert first_seen(Network(4, (*elements[:2], Capacitor("C1", 2, 0, 2e-5, polarised=True), *elements[3:]))) == []


def test_where_nothing_ever_draws_a_lasting_one_is_the_verdicts() -> None:
    elements = rectified().elements
    turned = (*elements[:-2], Capacitor("C3", 2, 5, 10e-6, polarised=True))
    assert any(one.lasting for one in coming_up(Network(6, turned), BORNE))
    assert first_seen(Network(6, turned)) == []
    assert first_seen(Network(6, (*turned, Load("V1", 5, 0, 0.02)))) == ["C3"]


def test_alternating_current_begins_with_a_push_to_one_side() -> None:
    """An electrolytic on a winding through a resistor, held up by another line so that it is right once it runs."""
    elements = (
        VoltageSource("W1", 1, 0, 300.0, 60.0, 20.0),
        Rectifier("D1", 1, 2, SILICON),
        Capacitor("C1", 2, 0, 40e-6, polarised=True),
        Resistor("R1", 2, 3, 470e3),
        VoltageSource("W2", 0, 4, 600.0, 60.0, 20.0),
        Resistor("R2", 4, 3, 33e3),
        Capacitor("C2", 3, 0, 6.8e-6, polarised=True),
    )
    assert "C2" in first_seen(Network(5, elements))


def test_the_push_is_up_to_twice_the_swing_that_is_left() -> None:
    """1.2 V of swing are borne; at first they are 2.4 V, and the load on the winding goes before they do."""
    elements = (
        VoltageSource("W1", 1, 0, 27.5, 50.0, 200.0, rise=0.05),
        Resistor("R1", 1, 2, 33e3),
        Capacitor("C1", 0, 2, 2.2e-6, polarised=True),
        VoltageSource("W2", 3, 0, 100.0, 50.0, 20.0),
        Rectifier("D1", 3, 4, SILICON),
        Capacitor("C2", 4, 0, 33e-6, polarised=True),
    )
    network = Network(5, elements)
    below = seconds_below(wiring(network), -BORNE, 10, line=1.1)
    assert first_seen(network) == [name for name, seconds in below.items() if seconds > 0.02] == ["C1"]


def between_lines(slow: float, bias: float) -> Network:
    """A line above the common and one below it, each filtered, the lower one behind its own 10 kilohm; and a bias.

    The bias is taken between the two, and its capacitor has its plus on the common: right once both are there.
    """
    elements = (
        VoltageSource("W1", 1, 0, 200.0, 60.0, 20.0),
        Rectifier("D1", 1, 2, SILICON),
        Capacitor("C1", 2, 0, 10e-6, polarised=True),
        Rectifier("D2", 3, 1, SILICON),
        Capacitor("C2", 0, 3, 10e-6, polarised=True),
        Resistor("R3", 3, 4, 10e3),
        Capacitor("C4", 0, 4, slow, polarised=True),
        Resistor("R1", 2, 5, 100e3),
        Resistor("R2", 5, 4, 47e3),
        Capacitor("C3", 0, 5, bias, polarised=True),
    )
    return Network(6, elements)


@pytest.mark.parametrize(("slow", "bias", "told"), [(100e-6, 1e-6, ["C3"]), (0.3e-6, 0.1e-6, [])])
def test_a_bias_between_two_lines_is_turned_round_by_the_one_that_is_there_first(
    slow: float, bias: float, told: list[str]
) -> None:
    network = between_lines(slow, bias)
    below = seconds_below(wiring(network), -BORNE, 20, line=HIGH_LINE)
    assert [name for name, seconds in below.items() if seconds > 1 / 60] == told
    assert first_seen(network) == told


def doubler(first: float, *, turned: bool = False) -> Network:
    """100 V peak, nothing lost, the second capacitor 100 mfd."""
    drop_less = Conduction(((0.0, 0.0), (0.01, 10.0)))
    elements = (
        VoltageSource("P1", *((0, 1) if turned else (1, 0)), 100.0, 60.0, 1e-3),
        Capacitor("C1", 2, 1, first, polarised=True),
        Rectifier("D1", 0, 2, drop_less),
        Rectifier("D2", 2, 3, drop_less),
        Capacitor("C2", 3, 0, 1e-4, polarised=True),
    )
    return Network(4, elements)


def cycles_backwards(first: float) -> float:
    """Of a doubler that loses nothing, switched on as the line rises.

    The two capacitors share what the line rises by while it feeds the second one. The first one then keeps its volts
    until the line has fallen so far that its own rectifier turns it round.
    """
    kept = 1e-4 / (first + 1e-4)
    held, second, cycles = 0.0, 0.0, 0.0
    while second < 100.0 - BORNE:
        begins = second - held  # the line, as the second rectifier begins to conduct
        crossing = begins + (held + BORNE) / kept
        after = held - kept * (100.0 - begins)
        if after < -BORNE:
            cycles += (math.pi - math.asin(BORNE / 100) - math.asin(crossing / 100)) / (2 * math.pi)
        held, second = 100.0, after + 100.0
    return cycles


def test_the_manual_says_how_long_a_doubler_turns_its_first_capacitor_round() -> None:
    page = " ".join(str(RULE.manual).split())
    for said, first in (("0.5 of a cycle", 1e-4), ("0.8 with one half as large", 5e-5), ("1.6 with a fifth", 2e-5)):
        assert said in page
        assert cycles_backwards(first) == pytest.approx(float(said[:3]), abs=0.05)


@pytest.mark.parametrize("first", [5e-6, 1e-5, 2e-5, 3.3e-5, 3.7e-5, 5e-5, 1e-4])
def test_a_doubler_that_loses_nothing_turns_its_first_capacitor_round_as_long_as_two_that_share(first: float) -> None:
    cycles = cycles_backwards(first)
    found = {one.name: one.seconds for one in coming_up(doubler(first), BORNE)}
    assert set(found) == ({"C1"} if cycles > 1.0 else set())
    assert found.get("C1", 0.0) == pytest.approx(cycles / 60 if cycles > 1.0 else 0.0, rel=0.02)


@pytest.mark.parametrize("turned", [False, True])
def test_a_doubler_is_followed_from_its_worse_half_wave(*, turned: bool) -> None:
    (one,) = backwards_at_first(doubler(2e-5, turned=turned), {}, Figures())
    assert one.rides
    assert one.seconds == pytest.approx(cycles_backwards(2e-5) / 60, rel=0.02)
    assert backwards_at_first(doubler(5e-5, turned=turned), {}, Figures()) == ()


@pytest.mark.parametrize(("reservoir", "told"), [(1e-4, {"C1", "C2"}), (1e-6, set())])
def test_both_of_a_full_wave_doubler_that_charge_a_far_larger_one(reservoir: float, told: set[str]) -> None:
    elements = (
        VoltageSource("W1", 1, 2, 286.0, 50.0, 94.0, rise=0.05),
        Rectifier("D1", 1, 3, SILICON),
        Rectifier("D2", 0, 1, SILICON),
        Capacitor("C1", 3, 2, 1e-5, polarised=True),
        Capacitor("C2", 2, 0, 1e-5, polarised=True),
        Capacitor("C3", 3, 0, reservoir, polarised=True),
    )
    network = Network(4, elements)
    below = seconds_below(wiring(network), -BORNE, 20, line=1.1)
    assert set(first_seen(network)) == {name for name, seconds in below.items() if seconds > 1.1 / 50} == told


@pytest.mark.parametrize("seed", range(12))
def test_a_supply_that_is_not_followed_turns_nothing_round(monkeypatch: pytest.MonkeyPatch, seed: int) -> None:
    """Volts that only rise on the common alone are left alone, however high the line; all else is followed."""
    network = random_supply(Random(f"left alone {seed}"))  # noqa: S311 - trials are repeated
    polarised = {one.name for one in network.elements if isinstance(one, Capacitor) and one.polarised}
    chokes = any(isinstance(one, Inductor) for one in network.elements)
    followed: list[Network] = []

    def follow(asked: Network, *_: float) -> tuple[()]:
        followed.append(asked)
        return ()

    monkeypatch.setattr(followers, "coming_up", follow)
    backwards_at_first(network, {}, Figures(), switch_on(network, line=HIGH_LINE) if chokes else None)
    assert chokes or not followed or not lies_on_the_common(network)
    if not followed:
        assert polarised.isdisjoint(one.name for one in coming_up(network, BORNE, HIGH_LINE))


def lies_on_the_common(network: Network) -> bool:
    """Whether every capacitor ends on the common, and none on a winding."""
    ends = {n for s in network.elements if isinstance(s, VoltageSource) for n in (s.plus, s.minus)} - {0}
    capacitors = ({one.plus, one.minus} for one in network.elements if isinstance(one, Capacitor))
    return all(0 in each and each.isdisjoint(ends) for each in capacitors)
