"""A circuit: parts, points, the joins between points, and what was declared about them. Immutable."""

from collections.abc import Mapping
from enum import Enum

from msgspec import Struct, field

from netcheck.core.kind import Family, Features, PartKind, Role, Shape, Terminal
from netcheck.core.quantity import Quantity
from netcheck.core.source import Place, Source

__all__ = [
    "UNSOLDERED",
    "Acceptance",
    "Apart",
    "Chart",
    "Circuit",
    "Declared",
    "How",
    "Intended",
    "Join",
    "Meant",
    "Part",
    "Point",
    "Removal",
    "Spared",
    "Stand",
    "StateOfWork",
    "StatedLoad",
    "Taken",
]  # fmt: skip


class StateOfWork(Enum):
    """Which state of the chassis a file describes."""

    UNSAID = "unsaid"
    DRAWN = "drawn"
    FOUND = "found"
    PLANNED = "planned"
    REWIRED = "rewired"


class How(Enum):
    """What makes a join."""

    NET = "net"  # listed under a net's name
    SOLDERED = "soldered"  # at a lug
    LEAD = "lead"  # a leads clause, fit or move: a lead put to a place
    WIRE = "wire"
    INSIDE = "inside"  # one point inside a part
    BOND = "bond"  # to the chassis by the part's mounting
    NAMED = "named"  # the name that a trace takes over for a net: a label, no joint


# Bound once: each look at a member through its Enum takes as long as ten at a plain name.
_ENDS = (Role.LEAD, Role.SHELL)

UNSOLDERED = frozenset({How.INSIDE, How.BOND, How.NAMED})
"""What no soldering iron undoes."""


class Part(Struct, frozen=True, gc=False):
    """One part as declared, after every change; ``shape`` is None where the declaration was broken.

    ``host`` is the can of a section. ``inserted`` and ``added`` hold their reasons. ``electrodes`` gives, for a
    tube among the parts that it ``replaces``, those whose place it takes; a tube that is not in there as a whole.
    """

    name: str
    kind: PartKind
    features: Features
    shape: Shape | None
    place: Place
    host: str = ""
    replaces: tuple[str, ...] = ()
    electrodes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    inserted: str | None = None
    added: str | None = None

    @property
    def leads(self) -> tuple[Terminal, ...]:
        """The terminals that the comparison looks at."""
        return () if self.shape is None else self.shape.leads

    @property
    def ends(self) -> tuple[Terminal, ...]:
        """The same, one for all pins of one electrode."""
        return () if self.shape is None else self.shape.ends

    @property
    def polarity(self) -> tuple[str, str] | None:
        """Its plus or cathode and its minus or anode, where it has these."""
        return None if self.shape is None else self.shape.polarity

    @property
    def free(self) -> tuple[tuple[str, str], ...]:
        """The pairs of its leads that may change places without a difference."""
        return () if self.shape is None else self.shape.free


class Point(Struct, frozen=True, gc=False):
    """Something to solder to or a name for it: the chassis, a net's name, or a part's terminal.

    ``part`` is empty for the chassis, a net's name and a lifted bundle.
    """

    name: str
    part: str = ""
    terminal: Terminal | None = None
    net_name: bool = False

    @property
    def is_lead(self) -> bool:
        """Whether it is an electrical end of a part."""
        return self.terminal is not None and self.terminal.role in _ENDS


class Join(Struct, frozen=True, gc=False):
    """Two points made one, by index; ``place`` is the word that says so, ``statement`` its whole line.

    ``past`` are the points that a wire only runs by on its way, by name: it is not joined to them. ``bridges`` names
    the inserted part that the joint stands for where a comparison looks past it.
    """

    a: int
    b: int
    how: How
    place: Place
    statement: Place
    words: str = ""
    past: tuple[str, ...] = ()
    bridges: str = ""


class Taken(Struct, frozen=True):
    """A point taken off what it was joined to, by ``lift``, ``move``, ``remove`` or ``cut``."""

    point: str
    verb: str
    place: Place


class Declared(Struct, frozen=True):
    """A statement about points, by their canonical names, with the reason where one was given."""

    points: tuple[str, ...]
    place: Place
    reason: str = ""


class Spared(Declared, frozen=True):
    """``spare``: points that are bare on purpose."""


class Apart(Declared, frozen=True):
    """``apart``: points that must not be joined directly."""


class Intended(Struct, frozen=True):
    """A circuit change on purpose: ``verb`` is the statement's word, ``points`` by their canonical names."""

    verb: str
    points: tuple[str, ...]
    reason: str
    place: Place


class Meant(Struct, frozen=True):
    """``meant``: leads that the drawing would list under a net of its own, or under a new one.

    ``net`` is the net's name as written, or a point's canonical name.
    """

    net: str
    points: tuple[str, ...]
    place: Place


class Removal(Struct, frozen=True):
    """A part taken out; without a reason it is still told as missing."""

    part: str
    bridged: bool
    reason: str | None
    place: Place


class Acceptance(Struct, frozen=True):
    """A finding permitted by rule and subject; an empty tuple of subjects never occurs."""

    rule: str
    subjects: tuple[str, ...]
    reason: str
    place: Place


class Chart(Struct, frozen=True):
    """A voltage reading of the service chart, from a point to another (the common where ``to`` is empty)."""

    point: str
    to: str
    volts: Quantity
    place: Place


class StatedLoad(Struct, frozen=True):
    """The current that a point's own load draws, or a supply from outside (``to`` is then its minus)."""

    point: str
    to: str
    value: Quantity
    place: Place


class Stand(Struct, frozen=True):
    """Where a part sits: its middle from the left and the back edge, in mm, the chassis seen from below, back away.

    Of the ``chassis`` itself it is the far corner: how wide and how deep it is. ``written`` are both lengths in the
    file's own unit, as ``4-1/4 in``.
    """

    part: str
    right: float
    front: float
    turned: bool
    place: Place
    written: tuple[str, str]

    @property
    def measures(self) -> str:
        """Both lengths in a phrase: ``13 by 7-1/2 in``."""
        wide, deep = self.written
        unit = deep[deep.rindex(" ") :]
        return f"{wide.removesuffix(unit)} by {deep}"


class Circuit(Struct, frozen=True, eq=False):
    """One state of the chassis.

    ``unfinished`` work has joints still to make.

    ``sources`` are the files it was built from, the base first. ``nets`` gives each point's net as a number;
    numbers are those of the first point in the net. ``inherited`` counts the joins taken over from a base.
    ``leakage`` is the current that the line may drive through what can be touched, where the file says so.
    """

    source: Source
    sources: tuple[str, ...]
    title: str
    state: StateOfWork
    unfinished: bool
    parts: Mapping[str, Part]
    points: tuple[Point, ...]
    index: Mapping[str, int]
    joins: tuple[Join, ...]
    nets: tuple[int, ...]
    common: str = "chassis"
    mains: tuple[Quantity, ...] = ()
    meter: Quantity | None = None
    leakage: Quantity | None = None
    taken: tuple[Taken, ...] = ()
    spared: tuple[Spared, ...] = ()
    apart: tuple[Apart, ...] = ()
    covers: tuple[Declared, ...] = ()
    intended: tuple[Intended, ...] = ()
    meant: tuple[Meant, ...] = ()
    removals: tuple[Removal, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    charts: tuple[Chart, ...] = ()
    loads: tuple[StatedLoad, ...] = ()
    supplies: tuple[StatedLoad, ...] = ()
    notes: tuple[tuple[str, str], ...] = ()
    stands: tuple[Stand, ...] = ()
    gone: Mapping[str, Part] = field(default_factory=dict)
    inherited: int = 0

    def has(self, family: Family) -> bool:
        """Whether a part of that family is there, soldered in or not."""
        return any(part.kind.family is family for part in self.parts.values())

    def net_of(self, name: str) -> int:
        """The net of a point by its canonical name. Raises KeyError where there is no such point."""
        return self.nets[self.index[name]]
