"""A slip of the hand, by what undoes it: the acts to be tried on the chassis, and what it was."""

from collections.abc import Mapping
from enum import Enum

from msgspec import Struct, field

from netcheck.core.circuit import Join
from netcheck.core.difference import Way
from netcheck.core.mend import Mend

__all__ = ["JointFault", "Slip"]


class JointFault(Enum):
    """What is wrong with one joint."""

    BRIDGE = "bridge"  # it should not be
    ASTRAY = "astray"  # it ends on the wrong lug
    UNBONDED = "unbonded"  # a mounting that does not reach the chassis
    BONDED = "bonded"  # a mounting that must not reach it


class Slip(Struct, frozen=True):
    """``what`` was done and the ``mend`` that undoes it.

    Of joints: ``joint`` is the one made (or the bond that lacks), with its end on ``wrong`` where ``right`` was meant;
    ``beside`` are those of other leads that went the same way with it.
    Of leads that changed places: ``ends`` says for each end the one that it belongs in the place of, and ``parts``
    whose they are (or the one strip or socket); on a strip ``ends`` are lugs.
    """

    what: JointFault | Way
    mend: Mend
    joint: Join | None = None
    wrong: int = 0
    right: int = 0
    beside: tuple[Join, ...] = ()
    parts: tuple[str, ...] = ()
    ends: Mapping[int, int] = field(default_factory=dict)

    @property
    def cost(self) -> int:
        """How many slips of a hand it is worth: leads of several parts that went round are as many exchanges."""
        return len(self.ends) - 1 if self.what is Way.ROUND and len(self.parts) > 1 else 1
