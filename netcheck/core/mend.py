"""A mend: the few acts of a hand that undo one slip, as data.

The acts are those that a work log has, so a mend can be carried out on a circuit (`model.acts`) and written into a
file; the sentence, the picture and the document of a finding are made from it. Points and parts are called by their
canonical names in the rewired state.
"""

from dataclasses import dataclass

__all__ = ["Act", "Bond", "Change", "Cut", "Insulate", "Lift", "Mend", "Put", "Remove", "Solder", "Wire", "lines"]


@dataclass(frozen=True, slots=True)
class Lift:
    """A lead off all that it is on; what hung on it stays joined."""

    point: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"lift {self.point}"


@dataclass(frozen=True, slots=True)
class Put:
    """A lead off all that it is on, and onto another point."""

    point: str
    to: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"move {self.point} to {self.to}"


@dataclass(frozen=True, slots=True)
class Solder:
    """A lead onto a point, beside what it is on already."""

    point: str
    to: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"at {self.to}: {self.point}"


@dataclass(frozen=True, slots=True)
class Cut:
    """One joint undone: a wire taken off, a lead unsoldered from this point alone, two lugs bent apart."""

    a: str
    b: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"cut {self.a} to {self.b}"


@dataclass(frozen=True, slots=True)
class Wire:
    """A wire between two points; ``words`` are its colour and gauge as the file has them."""

    a: str
    b: str
    words: str = ""

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"wire {self.a} to {self.b} {self.words}".rstrip()


@dataclass(frozen=True, slots=True)
class Bond:
    """A strip's foot, a lug, a can or a frame joined to the chassis by its mounting."""

    part: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"change {self.part} grounded"


@dataclass(frozen=True, slots=True)
class Insulate:
    """The same kept off the chassis by its mounting."""

    part: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"change {self.part} insulated"


@dataclass(frozen=True, slots=True)
class Change:
    """Another part at the same leads: ``words`` are its values and ratings."""

    part: str
    words: str

    @property
    def line(self) -> str:
        """The act as a statement of a work log."""
        return f"change {self.part} {self.words}"


@dataclass(frozen=True, slots=True)
class Remove:
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
