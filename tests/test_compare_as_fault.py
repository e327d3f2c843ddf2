"""A slip told as a difference; what can't be told by the leads that are compared is none."""

import pytest

from netcheck.compare.faults.account import accounted
from netcheck.compare.faults.as_fault import as_fault
from netcheck.compare.faults.doubts import doubtful_nets
from netcheck.compare.faults.hands import tried
from netcheck.compare.faults.laid import SideBySide
from netcheck.compare.faults.slips import JointFault
from netcheck.compare.faults.suspects import suspected
from netcheck.compare.roles.pairing import pair_parts
from netcheck.core.difference import Split
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

PARTS = "\n".join(f"resistor R{n} {n}k" for n in range(1, 8))
ORIGINAL = f"""
common B-
{PARTS}
net B+: R1.1, R2.1, R3.1, R4.1, R5.1, R6.1, R7.1
net B-: R1.2, R2.2, R3.2, R7.2
net ground: chassis, R4.2, R5.2, R6.2
"""
FOOT = """
parts from "original.netck"
common B-
strip SP1 5 lugs foot 3 insulated
strip SP2 2 lugs
net B+: R1.1, R2.1, R3.1, R4.1, R5.1, R6.1, R7.1
net B-: R1.2, R7.2
at chassis: R2.2, R6.2
"""
ON_THE_FOOT = {
    "two leads of the chassis": ("at SP1.3: R4.2, R5.2\nat chassis: R3.2\n", ("R4.2", "R5.2")),
    "nothing of the chassis": ("at SP1.3: R3.2\nat chassis: R4.2, R5.2\n", ()),
}


@pytest.mark.parametrize(("log", "lost"), ON_THE_FOOT.values(), ids=ON_THE_FOOT)
def test_a_foot_without_its_bond_is_told_by_what_it_holds_of_the_chassis(log: str, lost: tuple[str, ...]) -> None:
    drawn, worked = circuit(ORIGINAL), circuit(FOOT + log, original=ORIGINAL)
    graph = CircuitGraph(drawn)
    table = SideBySide(graph, pair_parts(graph, CircuitGraph(worked)), worked)
    now = accounted(table, worked)
    slips = suspected(now, doubtful_nets(now, drawn), graph)
    (foot,) = [slip for slip in slips if slip.what is JointFault.UNBONDED]
    bonded = tried(worked, foot.mend)
    assert bonded is not None
    found = as_fault(table, now, foot, accounted(table, bonded))
    assert lost == (tuple(lead.name for lead in found.leads) if isinstance(found, Split) else ())
    assert (found is None) is (not lost)
