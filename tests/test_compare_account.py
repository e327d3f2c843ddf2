"""How many slips of a hand a fault is worth: leads that leave by one joint are one, a bundle or the chassis is not."""

import pytest

from netcheck.compare.faults.account import slips_of
from netcheck.core.difference import Lead, Merge, Move, Split
from tests.paper import circuit

JOINTS = circuit("strip SP1 5 lugs\nresistor R1 1k\nwire SP1.1 to SP1.2 to SP1.4 to SP1.5\nat SP1.1: R1.1").joins
CHASSIS = Lead("chassis", "chassis", "", "", 0, 0)


def leads(count: int) -> tuple[Lead, ...]:
    return tuple(Lead(f"R{n}.1", f"R{n}.1", f"R{n}", f"R{n}", n, n) for n in range(1, count + 1))


def moved(group: tuple[Lead, ...], joints: int) -> Move:
    return Move(group, 1, 2, 3, 4, JOINTS[:joints])


WORTH = {
    "a lead on a wrong lug": (moved(leads(1), 1), 1),
    "a lead on two wrong lugs": (moved(leads(1), 2), 2),
    "four leads by one joint": (moved(leads(4), 1), 1),
    "five leads by one joint, which hardly moved": (moved(leads(5), 1), 3),
    "the chassis with a lead": (moved((CHASSIS, *leads(1)), 1), 3),
    "two leads by two joints: a group that hardly moved": (moved(leads(2), 2), 3),
    "two leads by three joints": (moved(leads(2), 3), 4),
    "two nets joined": (Merge(leads(1), 1, leads(2)[1:], 2, 3, JOINTS[:1]), 1),
    "two nets joined twice": (Merge(leads(1), 1, leads(2)[1:], 2, 3, JOINTS[:2]), 2),
    "two nets joined by nothing that was found": (Merge(leads(1), 1, leads(2)[1:], 2, 3, ()), 1),
    "a net in two pieces": (Split(leads(3), 1, leads(1), 2, 3), 1),
}


@pytest.mark.parametrize(("fault", "slips"), WORTH.values(), ids=WORTH)
def test_what_a_fault_is_worth(fault: Move | Merge | Split, slips: int) -> None:
    assert slips_of(fault) == slips
