"""Which tubes, loads and regulators alternating current reaches: those rectify it."""

import pytest

from netcheck.electrical.network.alternating import alternating
from tests.circuits import circuit

REACHED = {
    "a plate on a winding": ("S W a 0 9\nT V1 a 0", {"V1"}),
    "a cathode on a winding": ("S W a 0 9\nT V1 k a\nR R1 k 0 1", {"V1"}),
    "through a resistor": ("S W a 0 9\nR R1 a p 9\nT V1 p 0", {"V1"}),
    "through a choke": ("S W a 0 9\nL L1 a p 9\nT V1 p 0", {"V1"}),
    "through a capacitor": ("S W a 0 9\nC C1 a p 9\nT V1 p 0", {"V1"}),
    "a load": ("S W a 0 9\nJ V1 a 0 0.01", {"V1"}),
    "a regulator": ("S W a 0 9\nG VR1 a 0 150", {"VR1"}),
    "not from a battery": ("B W a 0 9\nT V1 a 0", set()),
    "not from a battery beside a winding": ("S W a b 9\nR R1 a b 9\nB B1 c 0 9\nT V1 c 0", set()),
    "not behind a rectifier": ("S W a 0 9\nD D1 a k\nE C1 k 0\nT V1 k 0", set()),
    "not behind another tube": ("S W a 0 9\nT V1 a k\nR R1 k 0 1\nE C1 k 0\nT V2 k 0", {"V1"}),
    "beside a load of the winding": ("S W a 0 9\nR R1 a 0 9\nT V1 a 0", {"V1"}),
    "at a tap of it": ("S W a 0 9\nR R1 a m 1\nR R2 m 0 1\nT V1 m 0", {"V1"}),
    "on a branch of it": ("S W a 0 9\nR R1 a 0 9\nR R2 a x 1\nT V1 x 0", {"V1"}),
    "not across what hangs by one end": ("S W a 0 9\nR R1 a 0 9\nR R2 a x 1\nR R3 x y 1\nT V1 x y", set()),
    "between the sides of one that floats": ("S W a b 9\nR R1 a 0 1\nT V1 0 x\nR R2 x b 1", {"V1"}),
    "not beside one that floats": ("S W a b 9\nR R1 a b 1\nR R2 k 0 1\nT V1 k c\nR R3 c 0 1", set()),
    "a plate alone": ("S W a b 9\nR R1 a b 9\nT V1 a k\nR R2 k 0 1\nD D1 0 b", {"V1"}),
    "a cathode alone": ("S W a b 9\nR R1 a b 9\nT V1 k a\nR R2 k 0 1\nD D1 b 0", {"V1"}),
    "through one of two resistors": ("S W a 0 9\nR R1 a p 9\nR R2 a q 9\nR R4 k z 1\nT V1 p k", {"V1"}),
    "through two side by side": ("S W a 0 9\nR R1 a p 1\nR R2 p a 1\nT V1 p 0", {"V1"}),
    "of two windings": ("S W a 0 9\nS U b 0 9\nT V1 b 0\nD D1 a k\nE C1 k 0\nT V2 k 0", {"V1"}),
    "none without a winding": ("T V1 a 0\nR R1 a 0 1", set()),
    "none without a tube": ("S W a 0 9\nR R1 a 0 1", set()),
}


@pytest.mark.parametrize("name", REACHED)
def test_what_alternating_current_reaches(name: str) -> None:
    text, names = REACHED[name]
    assert alternating(circuit(text)) == names
