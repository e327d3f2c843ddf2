"""What looking for slips comes to, and what putting them right does, as data."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from msgspec import Struct, field

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault
from netcheck.core.mend import Mend

if TYPE_CHECKING:
    from netcheck.compare.faults.inserted import Bridged

__all__ = ["STRANGERS", "Explained", "PutRight"]

STRANGERS = 40
"""With more faults than this it is another circuit: no slip of a hand is told apart in that."""


class Explained(Struct, frozen=True, eq=False):
    """The slips that were found, each with the fault that it is and the mends that undo it; ``left`` has the rest.

    ``table`` is the one that they are told by: like parts in each other's places are taken for each other in it.
    """

    table: SideBySide
    first: Account
    found: tuple[tuple[Fault, tuple[Mend, ...]], ...]
    left: Account
    undone: int = 0
    in_vain: frozenset[Mend] = frozenset()
    """What was tried on the state as it is and left no less wrong."""

    @property
    def cost(self) -> int:
        """How many slips it takes in all."""
        return self.undone + self.left.cost


class PutRight(Struct, frozen=True, eq=False):
    """The faults with their mends, and the ``state`` when all first mends are done.

    ``left`` is the state before the mends of ``whole`` parts: joined to nothing, too many, or replaced and still in.
    """

    state: Circuit
    left: Laid
    faults: tuple[Fault, ...] = ()
    bridged: "tuple[Bridged, ...]" = ()
    whole: Mapping[str, tuple[Mend, ...]] = field(default_factory=dict)
    strangers: bool = False
