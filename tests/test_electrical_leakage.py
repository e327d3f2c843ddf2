"""The current of the line that reaches the chassis: published figures, whole sets, and a ladder by chain matrices."""

import math
import re
import subprocess
import sys
from pathlib import Path
from random import Random

import numpy as np
import pytest

from netcheck.electrical.mains.leak_words import milliamperes
from netcheck.electrical.mains.leakage import EARTHED_LIMIT, LIMIT, Leak, leaks
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

ROOT = Path(__file__).parents[1]
AMERICA, EUROPE = "120 V 60 Hz", "230 V 50 Hz"

SET = """
mains {mains}
cord P1
switch S1
transformer T1
winding T1 primary black-a black-b
{parts}
net line-a: P1.1, S1.1
net line-b: S1.2, T1.black-a
net line-c: P1.2, T1.black-b{ends}
net frame: chassis{feet}
"""


def leak_of(text: str) -> Leak:
    found = leaks(CircuitGraph(circuit(text)))
    assert found[0].metal == "chassis"
    return found[0]


def from_the_line(mains: str, *parts: str) -> Leak:
    """The leak of a set with some parts from one side of its line to the chassis."""
    names = [part.split()[1] for part in parts]
    ends, feet = ("".join(f", {name}.{end}" for name in names) for end in "12")
    return leak_of(SET.format(mains=mains, parts="\n".join(parts), ends=ends, feet=feet))


# Computed, 2 pi f C V: mA at 120 V 60 Hz and at 230 V 50 Hz, to the last digit printed.
@pytest.mark.parametrize(
    ("capacitor", "america", "europe"),
    [
        ("1 nF", "0.045", "0.072"),
        ("4.7 nF", "0.213", "0.340"),
        ("10 nF", "0.452", "0.723"),
        ("47 nF", "2.13", "3.40"),
        ("50 nF", "2.26", "3.61"),
        ("0.1 mfd", "4.52", "7.23"),
        ("0.2 mfd", "9.05", "14.45"),
    ],
)
def test_a_capacitor_passes_what_the_tables_say(capacitor: str, america: str, europe: str) -> None:
    for mains, printed in ((AMERICA, america), (EUROPE, europe)):
        digits = len(printed.partition(".")[2])
        found = from_the_line(mains, f"capacitor C1 {capacitor}").amperes * 1000
        assert f"{found:.{digits}f}" == printed


def test_a_resistor_beside_it_adds_at_a_right_angle() -> None:
    """0.1 mfd and 220k side by side pass 4.557 mA at 120 V 60 Hz (computed)."""
    leak = from_the_line(AMERICA, "capacitor C1 .1 mfd", "resistor R1 220k")
    assert leak.amperes * 1000 == pytest.approx(4.557, abs=5e-4)
    assert [way.part for way in leak.ways] == ["C1", "R1"]


# The largest capacitor for a limit (computed), and the next size above it.
@pytest.mark.parametrize(
    ("mains", "milli", "largest"),
    [
        (AMERICA, 0.5, 11.05),
        (EUROPE, 0.5, 6.92),
        (AMERICA, 0.75, 16.6),
        (EUROPE, 0.75, 10.4),
        (AMERICA, 3.5, 77.4),
        (EUROPE, 3.5, 48.4),
    ],
)
def test_the_largest_capacitor_for_a_limit(mains: str, milli: float, largest: float) -> None:
    limit = f"{mains}\nleakage {milli} mA"
    assert not from_the_line(limit, f"capacitor C1 {largest * 0.998:.4f} nF").is_over
    assert from_the_line(limit, f"capacitor C1 {largest * 1.004:.4f} nF").is_over


def test_the_limits_are_those_of_the_service_manuals() -> None:
    """0.75 V across 1.5 kilohm beside 0.15 mfd is 0.502 mA at 60 Hz (leakage check of television service manuals)."""
    network = abs(1 / (1 / 1500 + 2j * math.pi * 60 * 0.15e-6))
    assert network == pytest.approx(1494.6, abs=0.1)
    assert pytest.approx(0.75 / network, rel=0.01) == LIMIT
    assert EARTHED_LIMIT == 0.0035  # IEC 60950-1, class I, stationary: from memory
    assert from_the_line(AMERICA, "capacitor C1 1 nF").limit == LIMIT


def test_direct_current_passes_resistors_alone() -> None:
    leak = from_the_line("110 V DC", "capacitor C1 .1 mfd", "resistor R1 220k")
    assert leak.amperes == pytest.approx(110 / 220_000)


def test_without_a_mains_line_the_usual_is_taken() -> None:
    text = "cord P1\nresistor R1 10k\nresistor R2 120k\n"
    text += "net a: P1.1, R1.1\nnet b: P1.2, R1.2, R2.1\nnet frame: chassis, R2.2\n"
    assert leak_of(text).amperes == pytest.approx(0.001)


STRING = """
mains 120 V 60 Hz
cord P1{kind}
switch S1
tube V1 50C5
tube V2 12BA6
resistor R30 220k
net line-a: {hot}, V1.3
net string: V1.4, V2.3
net line-b: {cold}, S1.1
net B-: S1.2, V2.4, R30.1
net frame: chassis, R30.2
"""


def test_switched_off_the_heaters_bring_the_line_to_the_bus() -> None:
    """Hobby forums: one way of the plug the set is hot when on, the other way when off, through the cold heaters."""
    either = leak_of(STRING.format(kind="", hot="P1.1", cold="P1.2"))
    assert either.amperes == pytest.approx(120 / 220_000, rel=1e-3)
    one_way = leak_of(STRING.format(kind=" polarized", hot="P1.hot", cold="P1.neutral"))
    hot = 50 / 0.15 + 12.6 / 0.15
    assert one_way.amperes == pytest.approx(120 / (220_000 + hot / 7), rel=1e-6)
    assert one_way.switched == "S1 open"


def test_the_neutral_on_the_bus_and_the_switch_in_the_other_wire_is_cold() -> None:
    """The usual modification: wide blade to the bus, the other wire by way of the switch (hobby forums)."""
    text = """
        mains 120 V 60 Hz
        cord P1 polarized
        switch S1
        tube V1 50C5
        resistor R30 220k
        net line-a: P1.hot, S1.1
        net line-b: S1.2, V1.3
        net B-: P1.neutral, V1.4, R30.1
        net frame: chassis, R30.2
    """
    assert leak_of(text).amperes == pytest.approx(0.0, abs=1e-12)


def test_windings_of_one_transformer_are_isolated() -> None:
    text = """
        mains 120 V 60 Hz
        cord P1
        transformer T1
        winding T1 primary a b 120 V
        winding T1 high c d 250 V
        net line-a: P1.1, T1.a
        net line-b: P1.2, T1.b
        net high: T1.d
        net frame: chassis, T1.c
    """
    assert leak_of(text).amperes == 0


def test_an_autotransformer_is_one_winding() -> None:
    text = """
        mains 120 V 60 Hz
        cord P1
        transformer T1
        winding T1 auto a tap b
        net line-a: P1.1, T1.a
        net line-b: P1.2, T1.b
        net frame: chassis, T1.tap
    """
    assert leak_of(text).amperes > 1


def test_a_switch_is_tried_in_every_position() -> None:
    text = """
        mains 120 V 60 Hz
        cord P1
        switch S2 drawn radio
        position S2 radio: 1 2
        position S2 phono: 1 3
        resistor R1 10k
        resistor R2 60k
        net line-a: P1.1, R1.1
        net line-b: P1.2, R1.2, S2.1
        net phono: S2.3, R2.1
        net radio: S2.2
        net frame: chassis, R2.2
    """
    leak = leak_of(text)
    assert leak.amperes == pytest.approx(0.002)
    assert leak.switched == "S2 at phono"


def test_switches_are_tried_together() -> None:
    """Neutral on the wide blade: only with the mains switch open and the other one closed the lamp feeds the metal."""
    leak = leak_of("""
mains 120 V 60 Hz
cord P1 polarized
switch S1
switch S2 drawn open
lamp LM1 120 V 100 mA
resistor R1 10k
net hot: P1.hot, LM1.1
net far: LM1.2, S1.1, S2.1
net neutral: S1.2, P1.neutral
net tap: S2.2, R1.1
net frame: chassis, R1.2
""")
    assert leak.switched == "S1 open and S2 closed"
    assert leak.amperes == pytest.approx(120 / (10_000 + 120 / 0.1))


def test_both_wires_of_the_cord_on_one_net_are_no_line() -> None:
    text = "cord P1\nresistor R1 10k\nnet a: P1.1, P1.2, R1.1\nnet frame: chassis, R1.2\n"
    assert leaks(CircuitGraph(circuit(text))) == ()


def test_the_current_is_the_sum_of_its_ways_over_a_whole_set() -> None:
    """A ladder from the line to the chassis with a resistor to the other side of the line at every step."""
    rng = Random(5)  # noqa: S311 (a reproducible draw)
    parts, nets = [], ["net n0: P1.hot, Q0.1", "net other: P1.neutral"]
    sizes = [(rng.randrange(1, 90), rng.randrange(1, 90)) for _ in range(12)]
    for at, (kilohms, nano) in enumerate(sizes):
        parts += [f"resistor R{at} {kilohms}k", f"capacitor Q{at} {nano} nF"]
        nets += [f"net n{at + 1}: Q{at}.2, R{at}.1, Q{at + 1}.1", f"net other: R{at}.2"]
    text = "\n".join(
        ["mains 120 V 60 Hz", "cord P1 polarized", *parts, "capacitor Q12 5 nF", *nets, "net frame: chassis, Q12.2"]
    )
    leak = leak_of(text)
    assert leak.amperes == pytest.approx(_ladder(sizes, 5), rel=1e-9)


def _ladder(sizes: list[tuple[int, int]], last: int) -> float:
    """A ladder's current into a short, by chain matrices: volts and amperes carried from step to step."""
    turn = 2j * math.pi * 60e-9
    matrix = np.eye(2, dtype=complex)
    for kilohms, nano in sizes:
        matrix = matrix @ np.array([[1, 1 / (turn * nano)], [0, 1]]) @ np.array([[1, 0], [1 / (kilohms * 1000), 1]])
    matrix = matrix @ np.array([[1, 1 / (turn * last)], [0, 1]])
    return float(120 / abs(matrix[0, 1]))


@pytest.mark.parametrize(
    ("amperes", "said"),
    [
        (0.00072, "0.72 mA"),
        (0.0005, "0.5 mA"),
        (0.0023, "2.3 mA"),
        (0.886, "890 mA"),
        (1.17, "1.2 A"),
        (0.0449, "45 mA"),
    ],
)
def test_a_current_is_said_with_two_figures(amperes: float, said: str) -> None:
    assert milliamperes(amperes) == said


OF_THE_LINE = sorted((ROOT / "netcheck/electrical/mains").glob("*.py"))


def test_a_set_without_a_cord_loads_nothing_that_computes() -> None:
    code = (
        "import sys; from netcheck.cli import main; main(['check', 'samples/one-can/original.netck']); "
        "print([n for n in sys.modules if n.startswith('netcheck.electrical')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    data = {
        "netcheck.electrical",
        "netcheck.electrical.fuses",
        "netcheck.electrical.idle_tubes",  # asks whether there is a supply before it looks
        "netcheck.electrical.network",
        "netcheck.electrical.network.elements",
        "netcheck.electrical.network.supplies",
        "netcheck.electrical.network.unrated",
        "netcheck.electrical.proof",
        "netcheck.electrical.proof.judgement",
        "netcheck.electrical.unheated",  # asks whether there is a cord before it looks
        "netcheck.electrical.weighed",
    }
    assert set(re.findall(r"[\w.]+", done.stdout.splitlines()[-1])) <= data


@pytest.mark.parametrize("path", OF_THE_LINE, ids=lambda path: path.stem)
def test_what_looks_at_the_line_needs_no_numpy(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert "numpy" not in text
    assert set(re.findall(r"netcheck\.electrical\.(\w+)", text)) <= {"mains", "tube_data"}
