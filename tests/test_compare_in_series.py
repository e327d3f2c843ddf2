"""Inserted parts: which of them are in series in a state."""

import pytest

from netcheck.compare.faults.series import InSeries
from netcheck.compare.roles.pairing import pair_parts
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

DRAWN = """
cord P1
switch S1
position S1 on: 1 2
transformer T1 "power"
winding T1 primary black-a black-b 117 V
tube V1 6J5
resistor R1 47k
resistor R2 1 meg
capacitor C1 .05 mfd 400 V
net line-a: P1.1, S1.1
net line-b: S1.2, T1.black-a
net line-c: P1.2, T1.black-b
net plate: V1.plate, R1.1, C1.1
net grid: V1.grid, R2.1, C1.2
net ground: chassis, V1.cathode, R1.2, R2.2
"""
FUSED = """start from "original.netck"
strip SP1 4 lugs
fuse F1 1 A slow inserted "no fuse before"
fuse F2 2 A slow inserted "one in each wire"
"""


def idle(log: str) -> dict[str, set[str]]:
    drawn, worked = circuit(DRAWN), circuit(f"{FUSED}{log}", original=DRAWN)
    pairing = pair_parts(CircuitGraph(drawn), CircuitGraph(worked))
    found = InSeries(drawn, worked, pairing).idle(worked)
    return {name: {worked.points[at].name for at in ends} for name, ends in found.items()}


STATES = {
    "both in series": ("move P1.1 to F1.1\nat S1.1: F1.2\nmove P1.2 to F2.1\nat T1.black-b: F2.2\n", {}),
    "one joined to nothing": ("move P1.1 to F1.1\nat S1.1: F1.2\n", {"F2": {"F2.1", "F2.2"}}),
    "one after the other": ("move P1.1 to F1.1\nat F1.2: F2.1\nat S1.1: F2.2\n", {}),
    "one after the other, and nothing behind": (
        "at P1.1: F1.1\nat F1.2: F2.1\nat SP1.1: F2.2\n", {"F1": {"F1.2"}, "F2": {"F2.2"}},
    ),
    "side by side": ("move P1.1 to F1.1\nat F1.1: F2.1\nat F1.2: F2.2\nat S1.1: F1.2\n", {}),
    "side by side, and nothing behind": (
        "at P1.1: F1.1, F2.1\nat SP1.1: F1.2, F2.2\n", {"F1": {"F1.2"}, "F2": {"F2.2"}},
    ),
    "both ends on one net": ("at P1.1: F1.1\nat S1.1: F1.2\nmove P1.2 to F2.1\nat T1.black-b: F2.2\n", {"F1": set()}),
    "one end at the chassis": ("at chassis: F1.1\nat V1.cathode: F1.2\n", {"F1": set(), "F2": {"F2.1", "F2.2"}}),
    "only an added part behind it": (
        'at P1.1: F1.1\nat P1.2: F2.1\nresistor R9 1k 5 W from F1.2 to F2.2 added "load"\n',
        {"F1": {"F1.2"}, "F2": {"F2.2"}},
    ),
    "a part behind it that nothing says the purpose of": (
        "at P1.1: F1.1\nat P1.2: F2.1\nresistor R9 1k 5 W from F1.2 to F2.2\n", {"F1": {"F1.2"}, "F2": {"F2.2"}},
    ),
    "a part behind it that should be out": (
        "at P1.1: F1.1\nat P1.2: F2.1\nmove R2.1 to F1.2\nmove R2.2 to F2.2\nresistor R12 1 meg replaces R2\n",
        {"F1": {"F1.2"}, "F2": {"F2.2"}},
    ),
}  # fmt: skip


@pytest.mark.parametrize(("log", "wanted"), STATES.values(), ids=STATES)
def test_which_inserted_parts_are_in_series(log: str, wanted: dict[str, set[str]]) -> None:
    assert idle(log) == wanted
