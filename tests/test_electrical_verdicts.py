"""What the static engine says of the electrolytics in stages of real sets."""

import re
from pathlib import Path

import pytest

from netcheck.electrical.network.elements import Network
from netcheck.electrical.proof.verdict import Surety, Verdict, WayRound, verdicts
from tests.circuits import circuit, node

STAGES = (Path(__file__).parent / "electrical" / "stages.md").read_text(encoding="utf-8")
CASES = re.findall(r"^## (.*?)\n.*?```\n(.*?)```", STAGES, re.DOTALL | re.MULTILINE)

TWO_DROPPERS = """
S LINE line 0 165
X CR1 line K
E C1 K 0
R R1 K A 1000
R R2 K B 10000
E C2 A B
"""


def stage(name: str) -> Network:
    return circuit(re.sub(r"^=.*", "", dict(CASES)[name], flags=re.MULTILINE))


def of(network: Network, name: str, *readings: tuple[int, int, float, float]) -> Verdict:
    return next(verdict for verdict in verdicts(network, readings) if verdict.capacitor == name)


def described(verdict: Verdict) -> str:
    if verdict.surety is Surety.UNPROVEN:
        return f"unproven {verdict.witness}" if verdict.witness else "loose"
    word = {WayRound.RIGHT: verdict.surety.value, WayRound.REVERSED: "reversed", WayRound.EITHER: "pair"}[verdict.way]
    return " ".join([word, *(f"if {name}" for name in verdict.assumes)])


@pytest.mark.parametrize(("name", "block"), CASES, ids=[name for name, _ in CASES])
def test_every_electrolytic_gets_the_verdict_that_its_stage_expects(name: str, block: str) -> None:
    expected = dict(line[2:].split(" ", 1) for line in block.splitlines() if line.startswith("="))
    assert {verdict.capacitor: described(verdict) for verdict in verdicts(stage(name))} == expected


@pytest.mark.parametrize("name", [name for name, _ in CASES])
def test_an_open_question_comes_with_a_reading_that_settles_it(name: str) -> None:
    network = stage(name)
    for verdict in verdicts(network):
        if verdict.surety is Surety.UNPROVEN:
            (plus, minus), *others = verdict.settles
            assert len(others) <= 1
            found = {volts: of(network, verdict.capacitor, (plus, minus, volts, 0.2)) for volts in (30.0, -30.0)}
            # A reading that no tube or rectifier could cause is told to be wrong; at least one of the two is possible.
            possible = {volts: each.way for volts, each in found.items() if each.surety is not Surety.CONTRADICTED}
            assert possible
            assert possible.items() <= {30.0: WayRound.RIGHT, -30.0: WayRound.REVERSED}.items()
            assert all(found[volts].surety is Surety.COMPUTED for volts in possible)


def test_the_reason_says_what_ties_the_capacitor() -> None:
    reason = of(stage("tube supply with choke and cathode bypasses"), "C2").reason
    assert reason == (
        "B1 is always more positive than 0: "
        "L1, V1a and T1a join the two, and no rectifier between them pulls the other way"
    )


def test_the_reason_of_an_open_question_says_what_could_reverse_it_and_how() -> None:
    reason = of(stage("capacitor between two branches from different droppers"), "C2").reason
    assert reason == "rectifier CR1 could reverse it through V1 and LINE"


def test_stated_currents_settle_a_capacitor_between_two_droppers() -> None:
    network = circuit(TWO_DROPPERS + "J V1 A 0 0.005\nJ V2 B 0 0.005")
    verdict = of(network, "C2")
    assert (verdict.surety, verdict.way) == (Surety.COMPUTED, WayRound.RIGHT)
    # 5 mA +-30 % through 10 kilohm and 1 kilohm, each +-20 % (1/1.2 to 1/0.8 of the conductance).
    assert verdict.volts == pytest.approx((3.5e-3 * 8000 - 6.5e-3 * 1200, 6.5e-3 * 12000 - 3.5e-3 * 800))


@pytest.mark.parametrize(
    ("volts", "way"), [((150, 100), WayRound.RIGHT), ((100, 150), WayRound.REVERSED), ((150, 140), None)]
)
def test_two_readings_settle_it_only_when_they_are_far_apart(volts: tuple[float, float], way: WayRound | None) -> None:
    network = circuit(TWO_DROPPERS + "T V1 A 0\nT V2 B 0")
    chart = [(node(network, name), 0, each, 0.1) for name, each in zip("AB", volts, strict=True)]
    verdict = of(network, "C2", *chart)
    assert (verdict.surety is Surety.COMPUTED) == (way is not None)
    assert verdict.way is (way or WayRound.UNKNOWN)


def test_a_chart_can_contradict_the_netlist() -> None:
    network = circuit(TWO_DROPPERS + "T V1 A 0\nT V2 B 0")
    chart = [(node(network, name), 0, volts, 0.1) for name, volts in (("K", 100.0), ("A", 140.0))]
    verdict = of(network, "C2", *chart)
    assert verdict.surety is Surety.CONTRADICTED
    assert verdict.reason == ("the readings don't fit the circuit; in doubt: 100 V from 0 to K or 140 V from 0 to A")
    assert of(network, "C1", *chart).surety is Surety.PROVEN


def test_an_overloaded_multiplier_is_not_called_right() -> None:
    ladder = "S T1 line 0 75 2\nE C1 A line 4\nX CR1 0 A\nX CR2 A B\nE C2 B 0 4\nE C3 K A 4\nX CR3 B K\n"
    assert of(circuit(ladder + "J V1 K 0 0.002"), "C3").surety is Surety.COMPUTED
    assert of(circuit(ladder + "J V1 K 0 0.2"), "C3").surety is Surety.UNPROVEN


def test_a_capacitor_without_any_dc_voltage_stands_either_way() -> None:
    network = circuit("S LINE line 0 165\nR R1 a 0 100\nE C1 a 0")
    verdict = of(network, "C1")
    assert (verdict.surety, verdict.way) == (Surety.PROVEN, WayRound.EITHER)


BEHIND_A_DIODE = "S LINE line 0 {peak}\nD CR1 line K\nE C1 0 K\nT V1 K 0"


@pytest.mark.parametrize(("peak", "way"), [(165, WayRound.REVERSED), (1.8, WayRound.REVERSED), (1.6, WayRound.UNKNOWN)])
def test_nothing_is_backwards_that_the_rectifier_leaves_hardly_a_volt(peak: float, way: WayRound) -> None:
    """facts.md 3.5, from memory: up to 1 V backwards is harmless; the diode takes 0.7 V off the peak."""
    assert of(circuit(BEHIND_A_DIODE.format(peak=peak)), "C1").way is way


DOUBLER = "S W1 line M 66.4 16.3\nD CR1 line K\nD CR2 0 line\nE C1 K M 68\nE C2 {ends} 1.5\nJ V1 K 0 {load}"


@pytest.mark.parametrize(
    ("ends", "load", "way"),
    [
        ("M 0", 0.002, WayRound.RIGHT),
        ("0 M", 0.002, WayRound.REVERSED),
        ("M 0", 0.077, WayRound.UNKNOWN),
        ("0 M", 0.077, WayRound.UNKNOWN),
    ],
)
def test_what_a_rectifier_holds_up_less_its_drop_is_as_right_as_its_load_lets_it(
    ends: str, load: float, way: WayRound
) -> None:
    verdict = of(circuit(DOUBLER.format(ends=ends, load=load)), "C2")
    assert (verdict.way, verdict.surety) == (way, Surety.UNPROVEN if way is WayRound.UNKNOWN else Surety.COMPUTED)
    if way is WayRound.UNKNOWN:
        assert "may drop all that makes M more positive than 0" in verdict.reason


def test_a_reversed_capacitor_comes_with_its_volts_where_currents_are_stated() -> None:
    network = circuit("S LINE line n 165\nD CR1 line K\nE C1 K n\nR R1 0 n 10\nE C2 n 0\nJ V1 K 0 0.05")
    verdict = of(network, "C2")
    assert (verdict.surety, verdict.way) == (Surety.PROVEN, WayRound.REVERSED)
    # 50 mA +-30 % through 10 ohm +-20 % (1/1.2 to 1/0.8 of the conductance).
    assert verdict.volts == pytest.approx((-0.065 * 12, -0.035 * 8))


HALF_WAVE = "S LINE line 0 165\nD D1 line k\nR R1 k m 1000\nR R2 m 0 10000\nE C2 k 0\n"
# What meets in the middle of two in series, and which of the two is then the wrong way round: DC stands from m to 0.
PAIRS = [("E C3 x m\nE C4 x 0", "C3", "C4"), ("E C3 m x\nE C4 0 x", "C4", "C3")]


@pytest.mark.parametrize(("pair", "wrong", "right"), PAIRS, ids=["plus against plus", "minus against minus"])
def test_of_two_back_to_back_on_dc_one_is_backwards(pair: str, wrong: str, right: str) -> None:
    """Their middle lies between the two ends, so each sees a part of the volts: the one with its plus at the lower."""
    network = circuit(HALF_WAVE + pair)
    assert of(network, wrong).way is WayRound.REVERSED
    assert of(network, right).way is WayRound.RIGHT
    assert (of(network, wrong).partner, of(network, right).partner) == (right, wrong)
    assert of(network, wrong).reason.startswith(
        f"{wrong} and {right} are back to back, which is right only if there is"
    )
    assert "m is always more positive than 0" in of(network, wrong).reason


def test_a_battery_that_might_be_the_higher_one_is_named() -> None:
    """Each of two feeds its divider; without figures nobody knows that the first, behind the minus, is not higher."""
    dividers = "B BT1 a 0 100\nB BT2 b 0 50\nR R1 a m 1000\nR R2 m 0 1000\nR R3 b n 1000\nR R4 n 0 1000\n"
    assert of(circuit(f"{dividers}E C1 n m"), "C1").reason == "supply BT1 could reverse it"
