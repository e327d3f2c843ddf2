"""The guard over both engines: a verdict that any figure of its own row contradicts is never told as certain."""

import pytest
from msgspec.structs import replace

from netcheck.core.source import Source
from netcheck.electrical.network.elements import Capacitor, Conduction, Load, Network, Rectifier, VoltageSource
from netcheck.electrical.proof.guard import Seen, agreed, contradicts, held_against
from netcheck.electrical.proof.judgement import BORNE_VOLTS, Surety, Verdict, WayRound
from netcheck.electrical.proof.verdict import verdicts
from netcheck.electrical.running.steady import steady
from netcheck.electrical.running.switch_on import switch_on
from netcheck.electrical.study import judged
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import reader

PROVEN_RIGHT = Verdict("C1", Surety.PROVEN, WayRound.RIGHT, "R1 joins the two", "hot or cold")
RUNNING_RIGHT = Verdict("C1", Surety.COMPUTED, WayRound.RIGHT, "12 V across it", "running with the currents stated")
REVERSED = Verdict("C1", Surety.PROVEN, WayRound.REVERSED, "R1 joins the two", "hot or cold")
EITHER = Verdict("C1", Surety.PROVEN, WayRound.EITHER, "there is no DC", "hot or cold")
PAIR = Verdict("C1", Surety.PROVEN, WayRound.EITHER, "back to back", "hot or cold", partner="C2")
OPEN = Verdict("C1", Surety.UNPROVEN, WayRound.UNKNOWN, "D1 could reverse it", witness="D1")


@pytest.mark.parametrize(
    ("verdict", "seen", "expected"),
    [
        (PROVEN_RIGHT, Seen(100.0, 90.0, 110.0, 150.0), (Surety.PROVEN, WayRound.RIGHT)),
        # Less than a volt backwards does no harm, and rectifiers may drop as much.
        (PROVEN_RIGHT, Seen(-0.9, -1.4, 0.0, -0.9), (Surety.PROVEN, WayRound.RIGHT)),
        (PROVEN_RIGHT, Seen(-1.1, -1.2, -1.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        (PROVEN_RIGHT, Seen(100.0, 90.0, 110.0, -1.1), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        # One that speaks of the running set alone is not held against the cold one.
        (RUNNING_RIGHT, Seen(12.0, 11.0, 13.0, -5.0), (Surety.COMPUTED, WayRound.RIGHT)),
        (RUNNING_RIGHT, Seen(-12.0, -13.0, -11.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        # Right on average, and reversed at the bottom of its ripple.
        (PROVEN_RIGHT, Seen(100.0, -1.6, 210.0, 150.0), (Surety.COMPUTED, WayRound.BOTH)),
        (PROVEN_RIGHT, Seen(100.0, -1.4, 210.0, 150.0), (Surety.PROVEN, WayRound.RIGHT)),
        (EITHER, Seen(0.0, -50.0, 50.0), (Surety.COMPUTED, WayRound.BOTH)),
        (OPEN, Seen(0.0, -50.0, 50.0), (Surety.COMPUTED, WayRound.BOTH)),
        (PAIR, Seen(0.0, -50.0, 50.0), (Surety.PROVEN, WayRound.EITHER)),
        (PAIR, Seen(-2.0, -50.0, 50.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        (replace(REVERSED, partner="C2"), Seen(-0.9, -50.0, 49.0), (Surety.COMPUTED, WayRound.EITHER)),
        (replace(REVERSED, partner="C2"), Seen(-1.1, -50.0, 49.0), (Surety.PROVEN, WayRound.REVERSED)),
        (OPEN, Seen(-5.0, -50.0, 10.0), (Surety.COMPUTED, WayRound.BOTH)),
        (PROVEN_RIGHT, Seen(-5.0, -50.0, 10.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        # Turning it round would not help, but it is backwards all the same.
        (REVERSED, Seen(-20.0, -50.0, 10.0), (Surety.PROVEN, WayRound.REVERSED)),
        (REVERSED, Seen(-0.5, -50.0, 49.0), (Surety.COMPUTED, WayRound.BOTH)),
        (REVERSED, Seen(20.0, 10.0, 30.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        (REVERSED, Seen(-20.0, -30.0, -10.0, 1.1), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        (EITHER, Seen(1.1, 1.0, 1.2), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        (OPEN, Seen(100.0, 90.0, 110.0), (Surety.UNPROVEN, WayRound.UNKNOWN)),
        # A volt on average and one and a half for a moment are borne, and a volt is more than a pair bears.
        (PROVEN_RIGHT, Seen(-1.0, -1.4, 0.0, -1.0), (Surety.PROVEN, WayRound.RIGHT)),
        (PROVEN_RIGHT, Seen(100.0, -1.5, 210.0, 150.0), (Surety.PROVEN, WayRound.RIGHT)),
        (EITHER, Seen(1.0, 1.0, 1.2), (Surety.PROVEN, WayRound.EITHER)),
        (REVERSED, Seen(-20.0, -30.0, -10.0, 1.0), (Surety.PROVEN, WayRound.REVERSED)),
        (REVERSED, Seen(-0.5, -50.0, 1.5), (Surety.PROVEN, WayRound.REVERSED)),
        (REVERSED, Seen(-1.0, -50.0, 49.0), (Surety.PROVEN, WayRound.REVERSED)),
        (replace(REVERSED, partner="C2"), Seen(-1.0, -50.0, 49.0), (Surety.PROVEN, WayRound.REVERSED)),
    ],
)
def test_a_verdict_stands_as_far_as_its_row_bears_it_out(
    verdict: Verdict, seen: Seen, expected: tuple[Surety, WayRound]
) -> None:
    found = held_against(verdict, seen)
    assert (found.surety, found.way) == expected
    assert not contradicts(found, seen)


BOTH = Verdict("C1", Surety.COMPUTED, WayRound.BOTH, "in every cycle", "running")


# A volt either way does no harm, and a volt and a half for a moment: not more than that is meant.
@pytest.mark.parametrize(
    ("verdict", "seen", "against"),
    [
        (PROVEN_RIGHT, Seen(-1.0, -1.5, 0.0, -1.0), False),
        (PROVEN_RIGHT, Seen(5.0, -1.51, 9.0), True),
        (replace(PROVEN_RIGHT, surety=Surety.UNPROVEN), Seen(-9.0, -9.0, -9.0), False),
        (REVERSED, Seen(1.0, 0.0, 2.0, 1.0), False),
        (REVERSED, Seen(1.01, 0.0, 2.0), True),
        (EITHER, Seen(1.0, 1.0, 1.0, -1.0), False),
        (EITHER, Seen(-1.01, -1.1, 0.0), True),
        (EITHER, Seen(0.0, -1.6, 1.6), True),
        (EITHER, Seen(0.0, -1.5, 1.6), False),
        (EITHER, Seen(0.0, -1.6, 1.5), False),
        (PAIR, Seen(0.0, -1.6, 1.6), False),
        (PAIR, Seen(1.01, -1.6, 1.6), True),
        (BOTH, Seen(0.0, -1.6, 1.6), False),
        (BOTH, Seen(0.0, -1.5, 1.6), True),
        (BOTH, Seen(9.0, 8.0, 10.0), True),
        (replace(BOTH, way=WayRound.UNKNOWN), Seen(9.0, -9.0, 10.0), False),
    ],
)
def test_which_figures_stand_against_a_verdict(verdict: Verdict, seen: Seen, *, against: bool) -> None:
    assert contradicts(verdict, seen) is against


@pytest.mark.parametrize(
    ("verdict", "seen", "way"),
    [
        (replace(REVERSED, partner="C2"), Seen(-1.0, -50.0, 49.0), WayRound.REVERSED),
        (replace(REVERSED, partner="C2"), Seen(-0.5, -1.5, 0.5), WayRound.REVERSED),
        (REVERSED, Seen(-1.0, -50.0, 49.0), WayRound.REVERSED),
        (REVERSED, Seen(-0.99, -50.0, 49.0), WayRound.BOTH),
        (replace(REVERSED, partner="C2"), Seen(0.99, -50.0, 49.0), WayRound.EITHER),
    ],
)
def test_what_turns_round_in_every_cycle_is_backwards_only_if_it_is_on_average(
    verdict: Verdict, seen: Seen, way: WayRound
) -> None:
    found = held_against(verdict, seen)
    assert found.way is way
    assert found.state == (verdict.state if found is verdict else "running")


def test_other_cases_are_gone_through_once_and_need_not_be() -> None:
    assert agreed(PROVEN_RIGHT, ()) is PROVEN_RIGHT
    assert agreed(PROVEN_RIGHT, iter([PROVEN_RIGHT, RUNNING_RIGHT])).surety is Surety.COMPUTED


def test_what_was_taken_back_says_both_figures_and_proof() -> None:
    found = held_against(PROVEN_RIGHT, Seen(-12.3, -13.0, -11.0, 4.0))
    assert found.reason == (
        "-12.3 V are calculated across it (-13 to -11 V, 4 V cold), against the proven verdict (R1 joins the two): "
        "rely on neither"
    )


def test_without_figures_a_verdict_stands() -> None:
    assert held_against(PROVEN_RIGHT, None) is PROVEN_RIGHT


def test_readings_that_contradict_are_not_weighed_again() -> None:
    doubted = Verdict("C1", Surety.CONTRADICTED, WayRound.UNKNOWN, "the readings don't fit the circuit")
    assert held_against(doubted, Seen(0.0, -50.0, 50.0)) is doubted


def test_a_verdict_is_no_surer_than_in_the_worst_of_the_other_cases() -> None:
    assert agreed(PROVEN_RIGHT, [PROVEN_RIGHT, None]) is PROVEN_RIGHT
    assert agreed(PROVEN_RIGHT, [RUNNING_RIGHT]).surety is Surety.COMPUTED
    torn = agreed(PROVEN_RIGHT, [REVERSED], switches="S1")
    assert (torn.surety, torn.way, torn.reason) == (
        Surety.UNPROVEN, WayRound.UNKNOWN,
        "it depends on the position of S1: write how it is drawn, as in `drawn closed`",
    )  # fmt: skip
    missing = agreed(PROVEN_RIGHT, [OPEN], missing="R1: add its ohms")
    assert missing.reason == "it depends on what is not stated: R1: add its ohms"
    assert agreed(OPEN, [REVERSED]) is OPEN


SILICON = Conduction(((0.7, 0.0), (0.75, 1.0)))
DOUBLER = Network(
    4,
    (
        VoltageSource("line", 1, 0, 165.0, 60.0, 5.0),
        Capacitor("C1", 2, 1, 40e-6, polarised=True),
        Capacitor("C2", 3, 0, 40e-6, polarised=True),
        Rectifier("D1", 0, 2, SILICON),
        Rectifier("D2", 2, 3, SILICON),
        Load("set", 3, 0, 0.05),
    ),
)


def test_a_proof_speaks_of_the_running_set_and_a_doubler_is_reversed_for_half_a_cycle_before() -> None:
    seen = steady(DOUBLER)
    assert all(one.volts.low > 0 for one in seen.capacitors)
    assert {one.way for one in verdicts(DOUBLER)} == {WayRound.RIGHT}
    first, whole = (
        {one.name: one.low for one in switch_on(DOUBLER, cycles=cycles).capacitors}["C1"] for cycles in (1, 40)
    )
    assert first < -BORNE_VOLTS  # a switch that closes as the line rises
    assert whole == first  # and never again


SWITCHED = """state drawn
mains 120 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 120 V
winding T1 high red-a red-b 250 V 60 ohm
winding T1 bias blue-a blue-b 150 V 60 ohm
diode D1 1N4007
diode D2 1N4007
switch S1{drawn}
electrolytic C1 40 mfd 450 V
electrolytic C2 40 mfd 250 V
electrolytic C3 10 mfd 450 V
resistor R1 47k 2 W
resistor R2 220k 2 W
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net bias: T1.blue-a, D2.cathode
net B+: D1.cathode, C1+, S1.1
net fed: S1.2, R1.1
net middle: R1.2, R2.1, C3+
net minus: D2.anode, C2-, R2.2
net ground: chassis, T1.red-b, T1.blue-b, C1-, C2+, C3-
"""


def _of_c3(drawn: str) -> Verdict:
    circuit, _ = build(Source("set.netck", SWITCHED.format(drawn=drawn)), reader({}))
    assert circuit is not None
    return judged(CircuitGraph(circuit))["C3"]


def test_a_contact_of_unsaid_position_is_tried_open_and_closed() -> None:
    assert _of_c3(" drawn closed").way is WayRound.RIGHT
    assert _of_c3(" drawn open").way is WayRound.REVERSED
    unsaid = _of_c3("")
    assert (unsaid.surety, unsaid.way) == (Surety.UNPROVEN, WayRound.UNKNOWN)
    assert unsaid.reason == "it depends on the position of S1: write how it is drawn, as in `drawn closed`"


def test_the_same_way_without_a_verdict_for_it_is_no_agreement() -> None:
    """Readings that contradict each other leave a way that nobody vouches for."""
    doubted = replace(PROVEN_RIGHT, surety=Surety.CONTRADICTED)
    found = agreed(PROVEN_RIGHT, [PROVEN_RIGHT, doubted], "SW1")
    assert (found.surety, found.way) == (Surety.UNPROVEN, WayRound.UNKNOWN)
    assert agreed(PROVEN_RIGHT, [PROVEN_RIGHT, None], "SW1") == PROVEN_RIGHT
