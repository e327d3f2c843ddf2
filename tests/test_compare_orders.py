"""A mend in words: each wire that is laid anew is told of its own cut, and of no other one."""

from netcheck.compare.pair import compared
from netcheck.compare.words.orders import order
from netcheck.core.mend import Cut, Solder, Wire
from tests.paper import built

SOCKET = """
tube V1 6J5
strip SP1 4 lugs
resistor R1 1k
resistor R2 1k
net a: V1.3, R1.1
net b: V1.5, R2.1
net c: V1.8, R1.2, R2.2
"""


def test_a_joint_undone_does_not_take_the_wire_that_another_one_is_laid_anew_with() -> None:
    original, _ = built(SOCKET)
    rewired, _ = built(f"{SOCKET}\nat V1.3: SP1.1\nwire SP1.2 to V1.5\n")
    assert original is not None
    assert rewired is not None
    mend = (Cut("V1.3", "SP1.1"), Cut("SP1.2", "V1.5"), Wire("SP1.1", "V1.5"), Solder("SP1.2", "V1.3"))
    assert order(compared(original, rewired), mend) == (
        "take the wire from V1.3 to SP1.1 off SP1.1 and put that end on SP1.2 (b), the lug beside it; "
        "take the wire from SP1.2 to V1.5 off SP1.2 and put that end on SP1.1 (a), the lug beside it"
    )
