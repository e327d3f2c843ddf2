"""What the lines of a supply are called."""

import pytest

from netcheck.electrical.network.supplies import translated
from netcheck.electrical.table.supply import supply as supply_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

NAMES = """state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 250 V 60 ohm
diode D1 1N4007
fuse F1 100 mA
switch S1 drawn {stand}
electrolytic C1 40 mfd 450 V
resistor R1 10k 20 W
resistor R2 47k 20 W
net a: P1.1, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net raw: D1.cathode, C1+, F1.1
net B+1: F1.2, R1.1, S1.1
net standby: S1.2, R2.1
net ground: chassis, T1.red-b, C1-, R1.2, R2.2
"""


@pytest.mark.parametrize(("stand", "name"), [("closed", "raw, B+1, standby"), ("open", "raw, B+1")])
def test_a_line_has_all_names_that_fuses_and_closed_contacts_make_one(stand: str, name: str) -> None:
    table = supply_of(CircuitGraph(circuit(NAMES.format(stand=stand))))
    assert [line.name for line in table.lines] == [name]


@pytest.mark.parametrize(
    ("net", "joint", "name"),
    [
        ("net B+1: F1.2, R1.1, S1.1", "at R1.1: F1.2, S1.1", "raw"),
        ("net raw: D1.cathode, C1+, F1.1", "at D1.cathode: C1+, F1.1", "B+1"),
    ],
)
def test_a_line_keeps_its_name_beside_a_joint_that_has_none(net: str, joint: str, name: str) -> None:
    """What hangs on the other end of a fuse without a name of its own is called after the line that has one."""
    graph = CircuitGraph(circuit(NAMES.format(stand="open").replace(net, joint)))
    assert [line.name for line in supply_of(graph).lines] == [name]
    assert name in translated(graph).network.names


SILICON = """state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 250 V 20 ohm
diode D1 1N4007
choke L1 8 H 100 ohm
electrolytic C1 40 mfd 600 V
electrolytic C2 8 mfd 600 V
resistor R1 10k 20 W
net a: P1.1, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.{}
net raw: D1.{}, C1{}, L1.1
net line: L1.2, C2{}, R1.1
net ground: chassis, T1.red-b, C1{}, C2{}, R1.2
"""


def test_a_line_below_the_common_is_the_mirror_of_one_above() -> None:
    """With a choke the figures before the tubes draw are those of the first moments, above and below alike."""
    above = SILICON.format("anode", "cathode", "+", "+", "-", "-")
    below = SILICON.format("cathode", "anode", "-", "-", "+", "+")
    up, down = (supply_of(CircuitGraph(circuit(text))).lines for text in (above, below))
    assert [line.name for line in up] == [line.name for line in down] == ["raw", "line"]
    for one, other in zip(up, down, strict=True):
        said = (one.running, one.ripple, one.cold, one.cold_high)
        assert (-other.running, other.ripple, -other.cold, -other.cold_high) == pytest.approx(said, rel=1e-3)
    assert max(line.cold for line in up) > 1.2 * 250 * 2**0.5 * 1.05
