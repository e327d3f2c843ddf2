"""A mend: the few acts of a hand that undo one slip, as data.

The acts are those that a work log has, so a mend can be carried out on a circuit (`model.acts`) and written into a
file; the sentence, the picture and the document of a finding are made from it. Points and parts are called by their
canonical names in the rewired state.
"""

from typing import ClassVar

from msgspec import Struct

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
    "spoken",
]


class _Statement(Struct, frozen=True):
    """What all acts have: ``form`` is how a work log writes one, ``said`` how it is told to somebody with an iron.

    Where the chassis around it is known, more is said (`compare.words.orders`).
    """

    form: ClassVar[str]
    said: ClassVar[str]

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return self.form.format(self).rstrip()

    @property
    def order(self) -> str:
        """The act as it is said to a hand."""
        return self.said.format(self).rstrip()


class Lift(_Statement, frozen=True):
    """A lead off all that it is on; what hung on it stays joined."""

    form = "lift {0.point}"
    said = "take {0.point} off all that it is on"
    point: str


class Put(_Statement, frozen=True):
    """A lead off all that it is on, and onto another point."""

    form = "move {0.point} to {0.to}"
    said = "move {0.point} to {0.to}"
    point: str
    to: str


class Solder(_Statement, frozen=True):
    """A lead onto a point, beside what it is on already."""

    form = "at {0.to}: {0.point}"
    said = "solder {0.point} to {0.to}"
    point: str
    to: str


class Cut(_Statement, frozen=True):
    """One joint undone: a wire taken off, a lead unsoldered from this point alone, two lugs bent apart."""

    form = "cut {0.a} to {0.b}"
    said = "undo the joint between {0.a} and {0.b}"
    a: str
    b: str


class Wire(_Statement, frozen=True):
    """A wire between two points; ``words`` are its colour and gauge as the file has them."""

    form = "wire {0.a} to {0.b} {0.words}"
    said = "run a wire from {0.a} to {0.b} {0.words}"
    a: str
    b: str
    words: str = ""


class Bond(_Statement, frozen=True):
    """A strip's foot, a lug, a can or a frame joined to the chassis by its mounting."""

    form = "change {0.part} grounded"
    said = "join {0.part} to the chassis by its mounting"
    part: str


class Insulate(_Statement, frozen=True):
    """The same kept off the chassis by its mounting."""

    form = "change {0.part} insulated"
    said = "keep {0.part} off the chassis"
    part: str


class Change(_Statement, frozen=True):
    """Another part at the same leads: ``words`` are its values and ratings."""

    form = "change {0.part} {0.words}"
    said = "fit {0.part} of {0.words}"
    part: str
    words: str

    @property
    def order(self) -> str:
        """The act as it is said to a hand; of some parts the file says no value."""
        return super().order if self.words else f"fit another {self.part}"


class Remove(_Statement, frozen=True):
    """A part taken out."""

    said = "take {0.part} out"
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


def spoken(mend: Mend) -> tuple[str, ...]:
    """A mend as it is said to somebody with an iron in the hand, act by act."""
    return tuple(act.order for act in mend)


_WORDS = frozenset({"words", "reason"})


def names(mend: Mend) -> frozenset[str]:
    """The points and parts that a mend is about; the words of its wires and changes are no such names."""
    return frozenset(getattr(act, field) for act in mend for field in act.__struct_fields__ if field not in _WORDS)
