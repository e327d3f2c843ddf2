"""What a netlist becomes as a network: which elements, between which nodes, with which values."""

import math

import pytest

from netcheck.core.source import Source
from netcheck.electrical.network.elements import (
    Capacitor,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.network.translate import Translation, network_of
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.shared_out import say_counted
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit, reader

HALF_WAVE = """
mains 117 V 60 Hz
common B-
cord P1
switch S1
diode D1 400 V
electrolytic C1 47 mfd 200 V
resistor R1 2.2k 2 W
net a: P1.1, S1.1
net b: S1.2, D1.anode
net B+: D1.cathode, C1+, R1.1
net B-: P1.2, C1-, R1.2
"""
FULL_WAVE = """
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary 1 2 117 V 5 ohm
winding T1 high 3 4 5 310-0-310 V 200 ohm
winding T1 filament 6 7 5 V
tube V1 5Y3GT
choke L1 10 H 300 ohm
electrolytic C1 8 mfd 450 V
electrolytic C2 16 mfd 450 V
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net plate-a: T1.3, V1.4
net plate-b: T1.5, V1.6
net fil: T1.6, V1.2
net B+1: T1.7, V1.8, C1+, L1.1
net B+2: L1.2, C2+
net ground: chassis, T1.4, C1-, C2-
draws B+2 60 mA
"""


def _translated(text: str) -> Translation:
    source = Source("set.netck", f'title "A set"\nstate drawn\n{text}')
    circuit, problems = build(source, reader({}))
    assert circuit is not None, problems
    return network_of(CircuitGraph(circuit))


def _named(network: Network, name: str) -> object:
    return next(one for one in network.elements if one.name == name)


def _kinds(network: Network) -> list[tuple[str, str]]:
    return sorted((type(one).__name__, one.name) for one in network.elements)


def test_a_half_wave_set_is_source_rectifier_capacitor_and_load() -> None:
    found = _translated(HALF_WAVE)
    assert _kinds(found.network) == [
        ("Capacitor", "C1"), ("Rectifier", "D1"), ("Resistor", "R1"), ("VoltageSource", "P1"),
    ]  # fmt: skip
    mains = _named(found.network, "P1")
    assert isinstance(mains, VoltageSource)
    assert mains.peak == pytest.approx(117 * math.sqrt(2))
    assert (mains.hertz, mains.minus) == (60.0, 0)
    assert _named(found.network, "C1") == Capacitor("C1", _node(found, "B+"), 0, 47e-6, polarised=True, volts=200.0)
    assert found.network.names[_node(found, "B+")] == "B+"
    assert found.defaults == ("P1: 1 ohm of the house wiring", "D1: silicon, 0.7 V and 0.05 ohm")


def _node(found: Translation, name: str) -> int:
    return found.network.names.index(name)


@pytest.mark.parametrize(
    ("statements", "closed"),
    [
        ("switch S1", True),
        ("switch S1 drawn on\nposition S1 on: 1 2\nposition S1 off: 2 3", True),
        ("switch S1 drawn off\nposition S1 on: 1 2\nposition S1 off: 2 3", False),
        ("fuse S1 1 A", True),
    ],
)
def test_a_switch_is_as_drawn_and_a_fuse_is_whole(statements: str, *, closed: bool) -> None:
    found = _translated(HALF_WAVE.replace("switch S1", statements))
    assert (("VoltageSource", "P1") in _kinds(found.network)) is closed


def test_a_centre_tapped_winding_is_two_sources_with_the_primary_seen_through_it() -> None:
    found = _translated(FULL_WAVE)
    upper, lower = _named(found.network, "T1 high 1"), _named(found.network, "T1 high 2")
    assert isinstance(upper, VoltageSource)
    assert isinstance(lower, VoltageSource)
    assert (upper.minus, lower.plus) == (0, 0)
    assert upper.peak == pytest.approx(310 * math.sqrt(2))
    assert upper.rise == 0.05  # usual, from memory
    # Half of the winding, and the primary by the square of the turns.
    assert upper.ohms == pytest.approx(100 + 5 * (310 / 117) ** 2)
    assert _named(found.network, "L1") == Inductor("L1", _node(found, "B+1"), _node(found, "B+2"), 10.0, 300.0)
    assert isinstance(_named(found.network, "draws B+2"), Load)


def test_the_primary_scales_with_the_mains() -> None:
    found = _translated(FULL_WAVE.replace("mains 117 V", "mains 105.3 V"))
    upper = _named(found.network, "T1 high 1")
    assert isinstance(upper, VoltageSource)
    assert upper.peak == pytest.approx(0.9 * 310 * math.sqrt(2))


def test_a_winding_without_ohms_says_so() -> None:
    found = _translated(FULL_WAVE.replace(" 200 ohm", ""))
    upper = _named(found.network, "T1 high 1")
    assert isinstance(upper, VoltageSource)
    assert upper.ohms == pytest.approx(0.03 * 310 / 0.060)  # 3 % of V/I
    assert "T1 high 1: 155 ohm, 3 % of its volts at 60 mA" in found.defaults


def test_the_cold_peak_of_the_full_wave_set_is_the_exact_one() -> None:
    """sqrt(2) times the volts of one half and the rise, less the tube's first corner."""
    peaks = cold_peaks(_translated(FULL_WAVE).network)
    assert peaks["C1"] == pytest.approx(310 * math.sqrt(2) * 1.05, rel=0.01)
    assert peaks["C2"] == pytest.approx(peaks["C1"], rel=1e-6)


def _extra(lines: str) -> Translation:
    return _translated(HALF_WAVE + lines)


@pytest.mark.parametrize(
    ("lines", "name", "kind", "value"),
    [
        ("tube V1 0A2\nnet B+: V1.plate\nnet B-: V1.cathode", "V1", Regulator, ("volts", 150.0)),
        ("lamp LM1 6 V 150 mA\nnet B+: LM1.1\nnet B-: LM1.2", "LM1", Resistor, ("ohms", 40.0)),
        ("pot RV1 10k\nnet B+: RV1.cw\nnet B-: RV1.ccw", "RV1 wiper to cw", Resistor, ("ohms", 5000.0)),
        ("candohm R9 100 ohm 50 ohm\nnet B+: R9.1\nnet B-: R9.3", "R9 2 to 3", Resistor, ("ohms", 50.0)),
        ("tube V1 6V6GT\nnet B+: V1.plate, V1.screen\nnet B-: V1.cathode", "V1 plate current", Load,
         ("amperes", 0.045)),  # from memory
        ("tube V1 6J5\nnet B+: V1.plate\nnet B-: V1.cathode", "V1 plate current", Load, ("amperes", 0.003)),
        # Of 20 V at most across its cathode resistor; 45 and 4.5 mA share what 2 kilohm let through.
        ("tube V1 6V6GT\nresistor R9 2k\nnet B+: V1.plate, V1.screen\nnet k: V1.cathode, R9.1\nnet B-: R9.2",
         "V1 plate current", Load, ("amperes", 0.010 * 45 / 49.5)),
    ],
)  # fmt: skip
def test_parts_across_the_supply(lines: str, name: str, kind: type, value: tuple[str, float]) -> None:
    found = _named(_extra(lines).network, name)
    assert isinstance(found, kind)
    assert getattr(found, value[0]) == pytest.approx(value[1])


@pytest.mark.parametrize(
    ("stack", "names"),
    [
        ("selenium D1 130 V", ["D1"]),
        ("selenium D1 130 V doubler", ["D1 - to ac", "D1 ac to +"]),
        ("selenium D1 130 V centre-tapped", ["D1 - to ac", "D1 ac to +"]),
        ("selenium D1 130 V bridge", ["D1 - to ac-1", "D1 - to ac-2", "D1 ac-1 to +", "D1 ac-2 to +"]),
    ],
)
def test_a_stack_is_as_many_rectifiers_as_it_holds(stack: str, names: list[str]) -> None:
    ac = "D1-" if len(names) == 1 else "D1.ac" if len(names) == 2 else "D1.ac-1"
    text = HALF_WAVE.replace("diode D1 400 V", stack).replace("D1.anode", ac).replace("D1.cathode", "D1+")
    text += "net B-: D1-\n" if len(names) > 1 else ""
    text += (
        "net x: D1.ac-2, R1.1\n".replace("R1.1", "R8.1") + "resistor R8 1k\nnet B-: R8.2\n" if len(names) > 2 else ""
    )
    found = _translated(text)
    assert sorted(one.name for one in found.network.elements if isinstance(one, Rectifier)) == names
    assert any(text.startswith("D1: 5 plates of 1 V and 3 ohm") for text in found.defaults)  # 130 V by 26 V a plate


def test_stated_draws_go_before_the_typical_current() -> None:
    tube = "tube V1 6V6GT\nnet B+: V1.plate, V1.screen\nnet B-: V1.cathode\n"
    assert ("Load", "V1 plate current") in _kinds(_extra(tube).network)
    stated = _kinds(_extra(f"{tube}draws B+ 30 mA\n").network)
    assert [name for kind, name in stated if kind == "Load"] == ["draws B+"]
    behind = tube.replace("net B+: V1.plate, V1.screen", "switch S9\nnet B+: S9.1\nnet x: S9.2, V1.plate, V1.screen")
    stated = _kinds(_extra(f"{behind}draws B+ 30 mA\n").network)
    assert [name for kind, name in stated if kind == "Load"] == ["draws B+"]


def test_which_tubes_a_stated_current_has_in_it_is_told() -> None:
    def told(text: str) -> str:
        return say_counted(CircuitGraph(circuit(HALF_WAVE + text)))

    tube = "tube V1 6V6GT\nnet B+: V1.plate, V1.screen\nnet B-: V1.cathode\n"
    assert told(tube) == ""
    assert told("draws B+ 30 mA\n") == ""
    assert told(f"{tube}draws B+ 30 mA\n") == (
        "counted in `draws B+`, and not added to it: V1 plate and V1 screen current"
    )
    triode = "tube V2 6J5\nresistor R9 10k\nnet B+: R9.1\nnet x: R9.2, V2.plate\nnet B-: V2.cathode\n"
    assert told(f"{triode}draws B+ 30 mA\ndraws x 2 mA\n") == (
        "counted in `draws B+` and `draws x`, and not added to it: V2 plate current"
    )


def test_a_damper_is_not_driven_by_the_mains() -> None:
    found = _extra(
        "tube V1 6W4GT\nelectrolytic C9 10 mfd 450 V\nnet B+: V1.plate, C9-\n"
        "net boost: V1.cathode, C9+, R9.1\nresistor R9 1 meg\nnet B-: R9.2\n"
    )
    damper = _named(found.network, "V1")
    assert isinstance(damper, Rectifier)
    assert not damper.driven
    assert not damper.cold


def test_what_hangs_on_by_one_net_is_left_away_and_said() -> None:
    found = _extra("electrolytic C9 10 mfd 450 V\nresistor R9 1k\nnet B+: C9+\nnet x: C9-, R9.1\n")
    assert ("Capacitor", "C9") not in _kinds(found.network)
    assert any(text.startswith("C9:") for text in found.left_out)


@pytest.mark.parametrize("text", [HALF_WAVE, FULL_WAVE])
def test_a_frequency_that_is_not_said_is_told(text: str) -> None:
    assert "mains: 60 Hz" in _translated(text.replace("117 V 60 Hz", "117 V")).defaults
    assert "mains: 60 Hz" not in _translated(text).defaults
    assert "mains: 60 Hz" not in _translated(HALF_WAVE.replace("117 V 60 Hz", "117 V DC")).defaults


@pytest.mark.parametrize(
    ("part", "assumed"),
    [
        ("choke L1 10 H 300 ohm", ["L1: core loss as 100 kilohm"]),
        ("choke L1 10 H", ["L1: 200 ohm", "L1: core loss as 100 kilohm"]),
        ("choke L1 300 ohm", ["L1: 10 H", "L1: core loss as 100 kilohm"]),
        ("coil L1 2 mH 300 ohm", []),
        ("coil L1 2 mH", ["L1: 1 ohm"]),
        ("lamp L1 6 V 150 mA", []),
        ("lamp L1", ["L1: 40 ohm"]),
    ],
)
def test_what_a_part_does_not_state_is_assumed_and_said(part: str, assumed: list[str]) -> None:
    found = _extra(f"{part}\nnet B+: L1.1\nnet B-: L1.2\n")
    assert [text for text in found.defaults if text.startswith("L1:")] == assumed


def test_a_small_capacitor_is_of_the_supply_where_a_rectifier_charges_it() -> None:
    """From .1 mfd on, whose charge hurts; it is paper elsewhere, and a larger one never is."""
    parts = "resistor R8 1k\nresistor R9 1k\nnet B+: {}, R8.1\nnet x: R8.2, R9.1, {}\nnet B-: R9.2, C9.2\n"
    for size, charged, apart in ((".05", False, False), (".1", True, False), (".25", True, True)):
        for at, wanted in ((("C9.1", "R9.1"), charged), (("R8.1", "C9.1"), apart)):
            found = _extra(f"capacitor C9 {size} mfd 400 V\n{parts.format(*at)}")
            assert (("Capacitor", "C9") in _kinds(found.network)) is wanted, (size, at)


def test_batteries_and_supplies_from_outside_are_sources_of_direct_volts() -> None:
    text = HALF_WAVE.replace("mains 117 V 60 Hz\n", "").replace("D1.anode", "D1.anode, B1+")
    battery = _named(_translated(f"{text}battery B1 90 V\nnet B-: B1-\n").network, "B1")
    assert isinstance(battery, VoltageSource)
    assert (battery.peak, battery.hertz) == (90.0, 0.0)
    outside = _named(_translated(f"{HALF_WAVE}supply b to B- 150 V DC\n").network, "supply b")
    assert isinstance(outside, VoltageSource)
    assert (outside.peak, outside.hertz, outside.minus) == (150.0, 0.0, 0)


def test_direct_mains_drive_no_transformer() -> None:
    found = _translated(FULL_WAVE.replace("mains 117 V 60 Hz", "mains 117 V DC"))
    assert not found.network.elements or not any(one.name.startswith("T1 high") for one in found.network.elements)
    assert "T1 high: no AC `mains` line in the file" in found.left_out


def test_a_small_capacitor_that_a_rectifier_charges_through_a_resistor_smooths() -> None:
    """Up to the first filter: behind one it is left out."""
    small = "resistor R8 1k\ncapacitor C2 .2 mfd 400 V\nresistor R9 100k\nnet B+: R8.1\nnet x: R8.2, C2.1, R9.1\n"
    small += "net B-: C2.2, R9.2\n"
    bare = HALF_WAVE.replace("electrolytic C1 47 mfd 200 V\n", "").replace("C1+, ", "").replace("C1-, ", "")
    assert ("Capacitor", "C2") in _kinds(_translated(bare + small).network)
    assert ("Capacitor", "C2") not in _kinds(_extra(small).network)


def test_what_comes_from_outside_is_a_source_of_an_ohm_and_ac_is_left_out() -> None:
    load = "resistor R1 10k\nelectrolytic C1 10 mfd\nnet B+: R1.1, C1+\nnet ground: chassis, R1.2, C1-\n"
    found = _translated(f"{load}supply B+ to ground 250 V\n")
    (source,) = [one for one in found.network.elements if isinstance(one, VoltageSource)]
    assert (source.name, source.peak, source.hertz, source.ohms) == ("supply B+", 250.0, 0.0, 1.0)
    assert "supply B+: 1 ohm" in found.defaults
    assert "the supply at B+ from outside" in _extra("supply B+ to B- 6.3 V AC\n").left_out
