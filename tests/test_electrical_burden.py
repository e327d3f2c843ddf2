"""What rectifiers off the mains load, and what they charge: dampers, bias diodes, supplies that are declared."""

import pytest

from netcheck.electrical.proof.burden import Burden
from netcheck.electrical.proof.rows import heated
from tests.circuits import circuit, node

LINE = "S LINE a 0 165\nD CR1 a k\nE C1 k 0\n"
BEHIND = LINE + "R R1 k m {ohms}\nU D2 m boost\nE C2 boost 0\nR R2 boost 0 1000000"

# Network, the capacitor's plus and minus, what may load it, and what charges it.
TOLD = [
    ("a damper takes its current from B+", LINE + "U D2 k boost\nE C2 boost 0", "k", "0", {"D2"}, set()),
    ("and charges the boost supply", LINE + "U D2 k boost\nE C2 boost 0", "boost", "0", set(), {"D2"}),
    ("through a resistor too", LINE + "U D2 k x\nR R1 x boost 1000\nE C2 boost 0", "boost", "0", set(), {"D2"}),
    ("or a choke", LINE + "U D2 k x\nL L1 x boost 5\nE C2 boost 0", "boost", "0", set(), {"D2"}),
    ("not what a winding drives", LINE + "U D2 k x\nS W x boost 9\nE C2 boost 0", "boost", "0", {"D2"}, set()),
    ("a winding feeds it", LINE + "S W k x 9\nU D2 x boost", "y", "0", {"D2"}, set()),
    ("and a choke", LINE + "L L1 k x 5\nU D2 x boost", "y", "0", {"D2"}, set()),
    ("no capacitor does", LINE + "C C8 k x 5\nU D2 x boost", "y", "0", set(), set()),
    ("not through a supply", LINE + "U D2 k x\nB B1 x boost 9\nE C2 boost 0", "boost", "0", {"D2"}, set()),
    ("a stiff line bears it", BEHIND.format(ohms=9_900), "m", "0", {"D2"}, set()),
    ("a weak one may be held by it", BEHIND.format(ohms=10_100), "m", "0", set(), set()),
    ("but not what lies nearer the mains", BEHIND.format(ohms=10_100), "k", "0", {"D2"}, set()),
    ("what a declared supply holds is not charged", "B B1 p 0 250\nU D1 0 x\nR R1 x p 470000", "p", "0", {"D1"}, set()),
    ("nor what hangs on its minus", "B B1 0 n 50\nU D1 n x\nR R1 x n 470000", "0", "n", {"D1"}, set()),
    ("nor the cathode of a driven one", LINE + "U D1 0 x\nR R1 x k 470000", "k", "0", {"D1"}, set()),
    ("nor the common", "B B1 p q 9\nR R2 q r 1e6\nU D1 p x\nR R1 x 0 470000", "p", "0", {"D1"}, set()),
    ("a supply that is negative feeds from its minus", "B B1 n 0 -50\nR R1 n 0 1e6\nU D1 0 x", "y", "0", {"D1"}, set()),
    ("and one that is not from its plus", "B B1 p 0 50\nR R1 p 0 1e6\nU D1 0 x", "y", "0", set(), set()),
]


@pytest.mark.parametrize(
    ("text", "plus", "minus", "loads", "charging"), [case[1:] for case in TOLD], ids=[case[0] for case in TOLD]
)
def test_what_a_rectifier_off_the_mains_does_to_a_capacitor(
    text: str, plus: str, minus: str, loads: set[str], charging: set[str]
) -> None:
    network = circuit(f"{text}\nC C9 y 0 1")
    ends, burden = (node(network, plus), node(network, minus)), Burden(network)
    assert burden.loads(*ends) == loads
    assert {each.name for each in burden.charging(*ends)} == charging


def test_with_rectifiers_that_are_warm_first_nothing_else_of_a_network_changes() -> None:
    """A tube rectifier on a heater of its own is as quick as silicon."""
    tubes, silicon = (circuit(f"S LINE a 0 165\n{kind} CR1 a k\nE C1 k 0\nT V1 k 0") for kind in "VD")
    assert [one.name for one in heated(tubes).elements] == ["LINE", "CR1", "C1", "V1"]
    assert heated(heated(tubes)) == heated(tubes) != tubes
    assert heated(silicon) == silicon
