"""What is told to the restorer: one finding or one mistake in a netlist, as a value."""

from dataclasses import KW_ONLY, dataclass, field
from enum import Enum

from netcheck.core.mend import Mend
from netcheck.core.panel import Panel
from netcheck.core.source import Place

__all__ = ["Diagnostic", "Flaw", "Grade", "Label", "Touched"]


class Grade(Enum):
    """How much it matters: do not plug it in, look at it, know it."""

    STOP = "STOP"
    LOOK = "LOOK"
    NOTE = "NOTE"

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return ("STOP", "LOOK", "NOTE").index(self.value)


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong with a piece of text, before it has a place."""

    headline: str
    help: str = ""


@dataclass(frozen=True, slots=True)
class Label:
    """A place with a word on what stands there; an empty text only underlines."""

    place: Place
    text: str = ""


@dataclass(frozen=True, slots=True)
class Touched:
    """The names that a finding is about, each once, as the files write them."""

    leads: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    nets: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name in ("leads", "parts", "nets"):
            object.__setattr__(self, name, tuple(dict.fromkeys(getattr(self, name))))


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One message: the headline stands alone, the first label is the main place.

    ``why`` says why it matters, ``do`` what to do about it (at the bench, or in the file). ``mends`` are the same as
    acts: the first is the one to do, the others would do as well. With what ``burns`` the set may not live a minute.
    """

    rule: str
    grade: Grade
    headline: str
    labels: tuple[Label, ...]
    _: KW_ONLY
    why: str = ""
    do: str = ""
    touched: Touched = field(default_factory=Touched)
    panel: Panel | None = None
    mends: tuple[Mend, ...] = ()
    burns: bool = False

    @property
    def order(self) -> tuple[object, ...]:
        """A total sort key: gravest first, what burns before the rest, then the main place, then the text."""
        return (
            self.grade.rank,
            not self.burns,
            tuple(label.place.order for label in self.labels),
            self.rule,
            self.headline,
        )
