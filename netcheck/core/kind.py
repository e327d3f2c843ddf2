"""What a kind of part is: its terminals, its values, its words."""

from collections.abc import Callable, Iterator, Mapping
from enum import Enum, auto

from msgspec import Struct, field
from msgspec.structs import force_setattr, replace

from netcheck.core.diagnostic import Flaw
from netcheck.core.family import Family, Junction, Seat
from netcheck.core.quantity import Dimension, Quantity, first_of

__all__ = [
    "MOUNTINGS", "Basing", "Family", "Features", "Junction", "PartKind", "Pin", "Role", "Seat", "Shape", "Standing",
    "Terminal", "count_of", "framed", "mounting_of", "numbered", "polarised", "two_ended", "wound",
]  # fmt: skip

MOUNTINGS = frozenset({"grounded", "insulated"})  # how a metal part sits on the chassis
_MOST_LUGS = 60


class Role(Enum):
    """What a terminal is for the comparison."""

    LEAD = auto()  # an electrical end of the part; compared
    LUG = auto()  # a place to solder to, nothing inside
    SPARE_PIN = auto()  # a pin without an electrode; may serve as a tie point
    INTERNAL_PIN = auto()  # must not be used
    SHELL = auto()  # a metal envelope, frame or inner shield; compared, but may be left bare


class Standing(Enum):
    """Where a part's facts come from (a tube basing, for instance)."""

    SOURCE = auto()
    MEMORY = auto()
    FILE = auto()


class Terminal(Struct, frozen=True, gc=False):
    """A terminal by its own name (``1``, ``+``, ``wiper``) and the other words for the same point.

    ``electrode`` is what the comparison goes by where pins may differ (``cathode``); else the name serves. ``suffix``
    makes a point's name of its part's: ``C51+``, ``R41.1``; it is empty for a lug that is a part by itself. ``said`` is
    the trade's word for the electrode where that is another one: a directly heated tube has a filament.
    """

    name: str
    role: Role = Role.LEAD
    aliases: tuple[str, ...] = ()
    electrode: str = ""
    suffix: str = "."
    said: str = ""

    def __post_init__(self) -> None:
        if self.suffix == ".":
            force_setattr(self, "suffix", self.name if self.name in ("+", "-") else f".{self.name}")

    @property
    def key(self) -> str:
        """What the same terminal is called in the other state."""
        return self.electrode or self.name


class Pin(Struct, frozen=True):
    """One pin of a basing: its electrode, or ``none`` (no pin or not connected), ``internal``, ``shell``.

    Electrodes that share a pin are joined by a plus sign, the one it is known by first: ``heater-2+cathode``.
    """

    label: str
    electrode: str


class Basing(Struct, frozen=True):
    """Which electrode is on which pin; ``cap`` is a pin's label too. ``pins`` holds every place of the socket.

    ``socket`` says its make (``octal``, ``7-pin miniature``); empty where a file declared the basing.
    """

    type: str
    base: str
    pins: tuple[Pin, ...]
    standing: Standing
    source: str = ""
    socket: str = ""


class Features(Struct, frozen=True, gc=False):
    """How one part was declared: values, words, words with an argument (``foot 3``), and its members.

    ``basing`` is one that a file declared for the type. ``sections`` are the letters of a can's sections,
    ``marks`` their marks by letter, ``returns`` the own minus leads by letter. ``windings`` are names with their
    leads in order; ``winding_values`` says by name what each winding's own line does, ohms from end to end. A
    quoted text is the part's ``description`` and no word of it.
    """

    quantities: tuple[Quantity, ...] = ()
    words: tuple[str, ...] = ()
    arguments: Mapping[str, str] = field(default_factory=dict)
    type: str = ""
    basing: Basing | None = None
    description: str = ""
    windings: tuple[tuple[str, tuple[str, ...]], ...] = ()
    winding_values: Mapping[str, tuple[Quantity, ...]] = field(default_factory=dict)
    positions: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...] = ()
    sections: tuple[str, ...] = ()
    marks: Mapping[str, str] = field(default_factory=dict)
    returns: Mapping[str, str] = field(default_factory=dict)

    def all_of(self, dimension: Dimension) -> tuple[Quantity, ...]:
        """The quantities of a dimension, in the order written."""
        return tuple(q for q in self.quantities if q.dimension is dimension)

    def first(self, dimension: Dimension) -> Quantity | None:
        """The first quantity of a dimension."""
        return first_of(self.quantities, dimension)


class Shape(Struct, frozen=True):
    """The terminals that one declared part has; the other fields speak of them by name.

    ``tied`` groups are one point inside the part; ``bonded`` terminals are on the chassis; ``free`` pairs may
    change places without a difference; ``polarity`` is (plus or cathode, minus or anode); ``ordered`` are lugs
    that have neighbours, in order, seen from below; ``ring`` says that the order closes on itself.
    """

    terminals: tuple[Terminal, ...]
    tied: tuple[tuple[str, ...], ...] = ()
    bonded: tuple[str, ...] = ()
    free: tuple[tuple[str, str], ...] = ()
    polarity: tuple[str, str] | None = None
    ordered: tuple[str, ...] = ()
    ring: bool = False
    leads: tuple[Terminal, ...] = ()
    """The terminals that the comparison looks at."""
    ends: tuple[Terminal, ...] = ()
    """Of those the first of each electrode; others of it are the same point."""
    spellings: tuple[tuple[str, int], ...] = ()
    """What a part's name goes on with at a terminal (by number), beside the terminal's own suffix."""

    def __post_init__(self) -> None:
        leads = tuple(t for t in self.terminals if t.role is Role.LEAD or t.role is Role.SHELL)
        first = {t.key: t for t in reversed(leads)}
        # How a frozen value is given what follows from the rest.
        force_setattr(self, "leads", leads)
        force_setattr(self, "ends", tuple(t for t in leads if first[t.key] is t))
        force_setattr(self, "spellings", tuple(_spellings(self.terminals)))


def _spellings(terminals: tuple[Terminal, ...]) -> Iterator[tuple[str, int]]:
    found: dict[str, int] = {}
    for number, terminal in enumerate(terminals):
        for word in filter(None, (terminal.name, *terminal.aliases, terminal.electrode)):
            # Of several pins of one electrode, its name means the first.
            found.setdefault(f".{word}", number)
            if word in ("+", "-"):
                found.setdefault(word, number)
    return ((word, number) for word, number in found.items() if word != terminals[number].suffix)


def _nothing_known(_: str) -> tuple[Quantity, ...]:
    return ()


class PartKind(Struct, frozen=True):
    """A kind of part: its keyword, what it does, what may be said of it, and how its terminals follow from that.

    ``family`` says what it does, ``seat`` how it is held. A rectifier says of what its ``junction`` is, an inductor
    whether there is ``iron`` in it, a control whether it ``divides``, with an end on either side of its wiper.
    ``principal`` is the dimension of the value that the part is known by; ``rated`` those of which its value is the
    most that it takes; ``dimensions`` all that it may carry; ``repeated`` those that it may carry more than once.
    ``words`` are free-standing, ``arguments`` take the word after them. ``typed`` kinds name a type first
    (``tube V1 6SA7``); ``of_type`` gives the values that its data sheet states, which hold where the declaration
    states none. ``place`` kinds are things to solder to, not circuit elements; their terminals may be left bare.
    ``example`` is a declaration that is right. ``refused`` holds terminals that can be read two ways, each with what
    to write instead. ``spoken`` is the trade's word where the keyword is this language's own.
    """

    word: str
    family: Family
    seat: Seat
    example: str
    shape: Callable[[Features], Shape | Flaw]
    principal: Dimension | None = None
    rated: tuple[Dimension, ...] = ()
    dimensions: frozenset[Dimension] = frozenset()
    repeated: frozenset[Dimension] = frozenset()
    words: frozenset[str] = frozenset()
    arguments: frozenset[str] = frozenset()
    typed: bool = False
    of_type: Callable[[str], tuple[Quantity, ...]] = field(default=_nothing_known)
    place: bool = False
    junction: Junction | None = None
    iron: bool | None = None
    divides: bool = False
    spoken: str = ""
    letters: tuple[str, ...] = ()  # the letters that its names usually begin with
    refused: Mapping[str, str] = field(default_factory=dict)
    notes: str = ""

    @property
    def holds_leads(self) -> bool:
        """Whether other parts are soldered to it: a place, or a socket with its tube."""
        return self.place or self.seat is Seat.SOCKET

    @property
    def trade_word(self) -> str:
        """What the trade calls one."""
        return self.spoken or self.word

    @property
    def is_chain(self) -> bool:
        """Whether it is several resistances in a row, one per value, from lug to lug."""
        return self.family is Family.RESISTOR and Dimension.RESISTANCE in self.repeated

    @property
    def is_choke(self) -> bool:
        """Whether it filters: an inductor on iron. One in air is of radio frequency."""
        return self.family is Family.INDUCTOR and bool(self.iron)


_TWO_ENDED = Shape((Terminal("1"), Terminal("2")), free=(("1", "2"),))
_POLARISED = Shape((Terminal("+"), Terminal("-")), polarity=("+", "-"))


def two_ended(_: Features) -> Shape:
    """Leads ``1`` and ``2``, which may change places."""
    return _TWO_ENDED


def polarised(_: Features) -> Shape:
    """Leads ``+`` and ``-``."""
    return _POLARISED


def wound(features: Features) -> Shape:
    """The leads of the declared windings, in their order; an end of one winding never stands for the other end."""
    leads = dict.fromkeys(lead for _, winding in features.windings for lead in winding)
    return Shape(tuple(Terminal(lead) for lead in leads))


def numbered(count: int) -> tuple[str, ...]:
    """Terminal names from ``1`` to the count."""
    return tuple(str(number) for number in range(1, count + 1))


def count_of(features: Features, dimension: Dimension) -> int | Flaw:
    """How many lugs, pins or wires the declaration says; they are what a part of this kind consists of."""
    said = features.first(dimension)
    if said is None:
        return Flaw(f"the number of {dimension.value} is not stated", f"write how many, like `5 {dimension.value}`")
    if said.amount != int(said.amount) or not 1 <= said.amount <= _MOST_LUGS:
        return Flaw(
            f"a part can't have `{said.written}`", f"write a whole number of {dimension.value} from 1 to {_MOST_LUGS}"
        )
    return int(said.amount)


def mounting_of(features: Features) -> str | Flaw:
    """``grounded``, ``insulated`` or, where nothing is said, the empty text."""
    said = sorted(MOUNTINGS.intersection(features.words))
    if len(said) > 1:
        return Flaw("it can't be both `grounded` and `insulated`", "keep the one that is true on this chassis")
    return said[0] if said else ""


def framed(shape: Shape, features: Features, *aliases: str) -> Shape | Flaw:
    """The shape with its metal frame, if the declaration says how that is mounted."""
    mounting = mounting_of(features)
    if isinstance(mounting, Flaw):
        return mounting
    if not mounting and "exposed" in features.words:
        return Flaw(
            "`exposed` is about the frame, and how that is mounted is not stated",
            "write `insulated exposed`, or `grounded` if the frame is on the chassis",
        )
    if not mounting:
        return shape
    clash = next((t.name for t in shape.terminals if t.name in ("frame", *aliases)), None)
    if clash:
        return Flaw(
            f"a lead can't be called `{clash}` where the frame is `{mounting}`",
            f"`{clash}` is that frame; give the lead another name, its colour for instance",
        )
    frame = Terminal("frame", Role.SHELL, aliases)
    bonded = ("frame",) if mounting == "grounded" else ()
    return replace(shape, terminals=(*shape.terminals, frame), bonded=(*shape.bonded, *bonded))
