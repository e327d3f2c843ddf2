"""What can differ between two states: frozen variants, each the work of one hand."""

from dataclasses import dataclass

from netcheck.core.circuit import Join

__all__ = ["Exchange", "Fault", "Lead", "Merge", "Move", "Split"]


@dataclass(frozen=True, slots=True)
class Lead:
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


@dataclass(frozen=True, slots=True)
class Split:
    """Leads that left a net and are on no other: a joint is missing.

    ``old_net`` is a net of the original, ``rest`` the leads that stayed, ``home`` the net where they are now.
    """

    leads: tuple[Lead, ...]
    old_net: int
    rest: tuple[Lead, ...]
    home: int
    new_net: int


@dataclass(frozen=True, slots=True)
class Merge:
    """Two nets of the original that are one now; ``culprits`` are the joins that do it."""

    leads: tuple[Lead, ...]
    old_net: int
    others: tuple[Lead, ...]
    other_net: int
    new_net: int
    culprits: tuple[Join, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """Leads that left one net for another; ``home`` is where the rest of their net is now.

    ``culprits`` are the joins that hold them on the wrong net.
    """

    leads: tuple[Lead, ...]
    old_net: int
    home: int
    wrong_net: int
    new_net: int
    culprits: tuple[Join, ...]


@dataclass(frozen=True, slots=True)
class Exchange:
    """Two moves in opposite directions: the leads of one part, or of two, changed places."""

    one: Move
    other: Move


Fault = Split | Merge | Move | Exchange
