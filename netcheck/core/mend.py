"""A mend: the few acts of a hand that undo one slip, as data.

The acts are those that a work log has, so a mend can be carried out on a circuit (`model.acts`) and written into a
file; the sentence, the picture and the document of a finding are made from it. Points and parts are called by their
canonical names in the rewired state.
"""

from dataclasses import dataclass, fields
from typing import ClassVar

__all__ = [
    "Act",
    "Bond",
    "Change",
    "Cut",
    "Insulate",
    "Lift",
    "Mend",
    "Put",
    "Remove",
    "Solder",
    "Wire",
    "lines",
    "names",
]


class _Statement:
    """What all acts have: ``form`` is how a work log writes one."""

    __slots__ = ()
    form: ClassVar[str]

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return self.form.format(self).rstrip()


@dataclass(frozen=True, slots=True)
class Lift(_Statement):
    """A lead off all that it is on; what hung on it stays joined."""

    form = "lift {0.point}"
    point: str


@dataclass(frozen=True, slots=True)
class Put(_Statement):
    """A lead off all that it is on, and onto another point."""

    form = "move {0.point} to {0.to}"
    point: str
    to: str


@dataclass(frozen=True, slots=True)
class Solder(_Statement):
    """A lead onto a point, beside what it is on already."""

    form = "at {0.to}: {0.point}"
    point: str
    to: str


@dataclass(frozen=True, slots=True)
class Cut(_Statement):
    """One joint undone: a wire taken off, a lead unsoldered from this point alone, two lugs bent apart."""

    form = "cut {0.a} to {0.b}"
    a: str
    b: str


@dataclass(frozen=True, slots=True)
class Wire(_Statement):
    """A wire between two points; ``words`` are its colour and gauge as the file has them."""

    form = "wire {0.a} to {0.b} {0.words}"
    a: str
    b: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class Bond(_Statement):
    """A strip's foot, a lug, a can or a frame joined to the chassis by its mounting."""

    form = "change {0.part} grounded"
    part: str


@dataclass(frozen=True, slots=True)
class Insulate(_Statement):
    """The same kept off the chassis by its mounting."""

    form = "change {0.part} insulated"
    part: str


@dataclass(frozen=True, slots=True)
class Change(_Statement):
    """Another part at the same leads: ``words`` are its values and ratings."""

    form = "change {0.part} {0.words}"
    part: str
    words: str


@dataclass(frozen=True, slots=True)
class Remove(_Statement):
    """A part taken out."""

    part: str
    reason: str = ""

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f'remove {self.part} "{self.reason}"' if self.reason else f"remove {self.part}"


Act = Lift | Put | Solder | Cut | Wire | Bond | Insulate | Change | Remove
Mend = tuple[Act, ...]
"""The acts of one mend in the order of hands: what comes off before what goes on."""


def lines(mend: Mend) -> tuple[str, ...]:
    """A mend as the lines of a work log that starts from the rewired file."""
    return tuple(act.line for act in mend)


_WORDS = frozenset({"words", "reason"})


def names(mend: Mend) -> frozenset[str]:
    """The points and parts that a mend is about; the words of its wires and changes are no such names."""
    return frozenset(getattr(act, one.name) for act in mend for one in fields(act) if one.name not in _WORDS)
