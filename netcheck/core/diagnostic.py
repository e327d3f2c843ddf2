"""What is told to the restorer: one finding or one mistake in a netlist, as a value."""

from enum import Enum, Flag, auto
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import force_setattr

from netcheck.core.mend import Mend
from netcheck.core.source import Place

if TYPE_CHECKING:
    from netcheck.core.panel import Panel

__all__ = ["About", "Diagnostic", "Flaw", "Grade", "Label", "Touched"]


class Grade(Enum):
    """How much it matters: do not plug it in, look at it, know it."""

    STOP = "STOP"
    LOOK = "LOOK"
    NOTE = "NOTE"

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return ("STOP", "LOOK", "NOTE").index(self.value)


class About(Flag):
    """What the findings of a rule are about.

    Beside other findings one is told, held back or reworded by this and never by its rule's name, so that a new rule
    has its place among the others as soon as it says what it is about.
    """

    ITSELF = 0  # whatever else is told, it is told as it is
    # How the state is soldered.
    JOINTS = auto()  # of one part: where that part is compared, the comparison says it better
    NET = auto()  # what a net comes to: a fault told on that net has said it
    ACROSS = auto()  # leads that ought to be apart and are on one net
    NAMES = auto()  # what nets are called
    NOT_DONE = auto()  # work ahead where the state is unfinished
    MISPLACED = auto()  # something is on a net that is not its own
    STRAY = auto()  # single leads are, or sections with theirs: the part may be turned round by it
    BRIDGE = auto()  # a joint too many
    # What it was built of.
    VALUE = auto()  # another value or kind than the original's
    CHOICE = auto()  # of a part chosen anew it is said whatever the original has
    DESIGN = auto()  # what harms nobody where the original has it too
    ABSENCE = auto()  # what one state lacks: where the original has it, the comparison tells it
    SAME_VOLTS = auto()  # the circuit's volts are what they were: the part is too weak for them, or the paper is wrong
    # What the circuit does.
    RATING = auto()  # a part sees more than it is rated for
    LOAD = auto()  # of current or heat
    POLARITY = auto()  # the way round of a part
    SUPPLY_REVERSED = auto()  # of the part that turns a whole supply round
    LINE = auto()  # where something is seen from the line
    LINE_FUSE = auto()  # seen from its fuse
    HOT_METAL = auto()  # current from the line to what hands touch


class Flaw(Struct, frozen=True):
    """What is wrong with a piece of text, before it has a place."""

    headline: str
    help: str = ""


class Label(Struct, frozen=True):
    """A place with a word on what stands there; an empty text only underlines."""

    place: Place
    text: str = ""


class Touched(Struct, frozen=True):
    """The names that a finding is about, each once, as the files write them."""

    leads: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    nets: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name in ("leads", "parts", "nets"):
            force_setattr(self, name, tuple(dict.fromkeys(getattr(self, name))))


class Diagnostic(Struct, frozen=True):
    """One message: the headline stands alone, the first label is the main place.

    ``why`` says why it matters, ``do`` what to do about it (at the bench, or in the file). ``mends`` are the same as
    acts: the first is the one to do, the others would do as well. With what ``burns`` the set may not live a minute.
    ``about`` is its rule's.
    """

    rule: str
    grade: Grade
    headline: str
    labels: tuple[Label, ...]
    why: str = ""
    do: str = ""
    touched: Touched = field(default_factory=Touched)
    panel: "Panel | None" = None
    mends: tuple[Mend, ...] = ()
    burns: bool = False
    about: About = About.ITSELF

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
