"""Which rings of lugs are suspected: those that leave less wrong on paper, and all where paper does not know a lead."""

from netcheck.compare.faults.account import accounted
from netcheck.compare.faults.doubts import doubtful_nets
from netcheck.compare.faults.hands import Hands
from netcheck.compare.faults.laid import SideBySide
from netcheck.compare.faults.paper import OnPaper
from netcheck.compare.faults.turnings import turned_places
from netcheck.compare.roles.pairing import pair_parts
from netcheck.core.difference import Way
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

PARTS = "\n".join(f"resistor R{n} {n}k" for n in range(1, 13))
ORIGINAL = f"""{PARTS}
net a: R1.1, R2.1, R3.1, R10.1
net b: R4.1, R5.1, R6.1, R11.1
net c: R7.1, R8.1, R9.1, R12.1
net ground: chassis, {", ".join(f"R{n}.2" for n in range(1, 13))}
"""
GROUND = ", ".join(f"R{n}.2" for n in range(1, 13))
ROUND = f"""parts from "original.netck"
strip SP1 4 lugs
wire SP1.1 to SP2.1
wire SP1.2 to SP2.2
wire SP1.3 to SP2.3
strip SP2 4 lugs foot 4
at SP2.1: R2.1, R3.1, R10.1
at SP2.2: R5.1, R6.1, R11.1
at SP2.3: R8.1, R9.1, R12.1
at SP2.4: {GROUND}
at SP1.2: R1.1
at SP1.3: R4.1
at SP1.1: R7.1
"""


def rings_of(strip: str, rewired: str) -> set[str]:
    """Each as lugs by number, from the lowest on: what is on the first belongs on the next."""
    drawn, worked = circuit(ORIGINAL), circuit(rewired, original=ORIGINAL)
    graph = CircuitGraph(drawn)
    table = SideBySide(graph, pair_parts(graph, CircuitGraph(worked)), worked)
    account = accounted(table, worked)
    slips = turned_places(account, doubtful_nets(account, drawn), Hands(account.real), OnPaper(account.laid))
    found = set()
    for slip in slips:
        if slip.what is Way.ROUND and slip.parts == (strip,):
            to = {worked.points[at].name: worked.points[there].name for at, there in slip.ends.items()}
            ring = [min(to)]
            while to[ring[-1]] != ring[0]:
                ring.append(to[ring[-1]])
            found.add("".join(name.partition(".")[2] for name in ring))
    return found


def test_of_three_lugs_that_went_round_the_other_way_is_not_suspected() -> None:
    assert rings_of("SP1", ROUND) == {"132"}


def test_a_ring_with_a_lead_of_an_inserted_part_is_tried_either_way() -> None:
    inserted = 'resistor R50 10 ohm inserted "to read the current"\nat SP1.1: R50.1\nat SP2.1: R50.2\n'
    assert rings_of("SP1", ROUND.replace("wire SP1.1 to SP2.1\n", "") + inserted) == {"123", "132"}
