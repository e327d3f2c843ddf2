"""What can differ between two states: frozen variants, each the work of one hand.

``mends`` are the ways to undo it, the likelier first, each of which was carried out on the circuit and found to do so;
empty where none was found.
"""

from enum import Enum, auto

from msgspec import Struct

from netcheck.core.circuit import Join
from netcheck.core.mend import Mend

__all__ = ["Fault", "Lead", "Merge", "Move", "Rearranged", "Split", "Swap", "Way"]


class Lead(Struct, frozen=True, gc=False):
    """One electrical end in both states.

    ``old`` and ``new`` are its points there, ``name`` what it is called in the rewired file, ``old_name`` in the
    original; ``part`` and ``old_part`` likewise. The chassis and the common are leads of no part.
    """

    name: str
    old_name: str
    part: str
    old_part: str
    old: int
    new: int


class Split(Struct, frozen=True):
    """Leads that left a net and are on no other: a joint is missing.

    ``old_net`` is a net of the original, ``rest`` the leads that stayed, ``home`` the net where they are now.
    """

    leads: tuple[Lead, ...]
    old_net: int
    rest: tuple[Lead, ...]
    home: int
    new_net: int
    mends: tuple[Mend, ...] = ()


class Merge(Struct, frozen=True):
    """Two nets of the original that are one now; ``culprits`` are the joins that do it.

    ``parted`` is what the culprit wire was to reach, where that hangs free.
    """

    leads: tuple[Lead, ...]
    old_net: int
    others: tuple[Lead, ...]
    other_net: int
    new_net: int
    culprits: tuple[Join, ...]
    parted: Split | None = None
    mends: tuple[Mend, ...] = ()


class Move(Struct, frozen=True):
    """Leads that left one net for another; ``home`` is where the rest of their net is now.

    ``culprits`` are the joins that hold them on the wrong net.
    """

    leads: tuple[Lead, ...]
    old_net: int
    home: int
    wrong_net: int
    new_net: int
    culprits: tuple[Join, ...]
    mends: tuple[Mend, ...] = ()


class Way(Enum):
    """In which way leads changed places."""

    TURNED = auto()  # a polarised part the other way round
    LEADS = auto()  # two leads, or two bundles of leads
    ROUND = auto()  # three leads or more, each on the next one's place
    MIRRORED = auto()  # a socket or strip read from above
    SHIFTED = auto()  # a socket or strip gone one pin or lug on
    UNITS = auto()  # two equal units of one envelope
    PARTS = auto()  # two parts took each other's place


class Swap(Struct, frozen=True):
    """Leads on the wrong one of two places: they belong on ``old_net`` and are on ``wrong_net`` now.

    ``there`` is a point of the rewired state where they belong; the leads that are wrongly there say which.
    """

    leads: tuple[Lead, ...]
    old_net: int
    wrong_net: int
    there: int


class Rearranged(Struct, frozen=True):
    """Leads that changed places among themselves: ``parts`` (or the one strip) by name, ``swaps`` lead by lead."""

    way: Way
    parts: tuple[str, ...]
    swaps: tuple[Swap, ...]
    mends: tuple[Mend, ...] = ()


Fault = Split | Merge | Move | Rearranged
