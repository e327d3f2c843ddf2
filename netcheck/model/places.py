"""What is soldered where: each place of a chassis with its lugs in order, as the netlist says it."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from enum import Enum

from msgspec import Struct

from netcheck.core.circuit import Circuit, How, Join, Part, Stand
from netcheck.core.kind import Family, PartKind, Role, Seat, Terminal
from netcheck.core.source import Place
from netcheck.model.graph import CircuitGraph
from netcheck.model.outline import half_size
from netcheck.model.place_words import about
from netcheck.model.points import lead_name

__all__ = ["HeldBy", "Item", "PlaceListing", "Spot", "owner_of", "places", "socket_key"]


_KEYS = {8: "key", 7: "gap", 9: "gap"}


def socket_key(part: Part) -> str:
    """What the pins of a tube's socket are counted from: octal sockets have a key, miniature ones a gap."""
    if part.kind.seat is not Seat.SOCKET or part.shape is None:
        return ""
    return _KEYS.get(sum(1 for terminal in part.shape.terminals if terminal.name.isdigit()), "")


class HeldBy(Enum):
    """How something comes to be at a spot."""

    LEAD = "lead"  # soldered here
    WIRE = "wire"  # a wire ends here
    AT = "at"  # a flying lead: this end itself is soldered elsewhere
    DRAWN = "drawn"  # on the same net by the drawing; which lug it is on is not said
    BONDED = "bonded"  # on the chassis by its mounting
    INSIDE = "inside"  # one point with another pin, inside the part
    PAST = "past"  # a wire that only runs by
    MORE = "more"  # so many more on the same net by the drawing; they are counted, not named


class Item(Struct, frozen=True):
    """One thing at a spot: ``name`` is the lead here or the wire's other end, ``words`` its colour and gauge.

    Of a wire that only runs by, ``name`` is both its ends, of what is only counted how many; ``past`` are the points
    that a wire ending here runs by. ``inherited`` says that a base file joins it, so nobody traced it in this state.
    """

    put: HeldBy
    name: str
    words: str = ""
    inherited: bool = False
    past: tuple[str, ...] = ()


class Spot(Struct, frozen=True):
    """A lug, pin or flying lead: its label on the part, what it is there, its net, and what is on it.

    ``net`` is empty where the net has no name of its own and nothing else on it. ``spare`` is the reason why it is
    bare on purpose; None where nothing is said.
    """

    point: str
    label: str
    word: str
    net: str
    items: tuple[Item, ...]
    spare: str | None = None

    @property
    def is_held(self) -> bool:
        """Whether anything is soldered to it: not what the part has inside, nor a wire that only runs by."""
        return any(item.put not in (HeldBy.INSIDE, HeldBy.PAST) for item in self.items)


class PlaceListing(Struct, frozen=True):
    """A strip, socket, can or the like: ``about`` says what it is and how its lugs count, ``notes`` the file's.

    ``key`` is where the pins of a socket begin to count: ``key``, ``gap``, or empty where that is not known.
    ``stand`` is where it sits, if the file says so, and ``half`` is half of how wide and how deep it is, in mm.
    ``kind`` is for a person; ``made`` is the kind of part, None for the chassis and what is lifted together.
    """

    name: str
    kind: str
    about: str
    spots: tuple[Spot, ...]
    notes: tuple[str, ...] = ()
    key: str = ""
    stand: Stand | None = None
    half: tuple[float, float] = (0.0, 0.0)
    made: PartKind | None = None

    @property
    def seat(self) -> Seat | None:
        """How the part is held."""
        return None if self.made is None else self.made.seat


# Besides the kinds that are places: parts with lugs or coloured leads of their own to solder to.
_PHYSICAL = frozenset({How.SOLDERED, How.LEAD, How.WIRE})
MOST_DRAWN = 40
"""So many others of a net as drawn are named at each lug: a list of two thousand at each of them is none to read."""


def owner_of(circuit: Circuit, subject: str) -> str:
    """The part that a note is on, by itself or by one of its terminals; empty for a net or the whole."""
    at = circuit.index.get(subject)
    return subject if at is None else circuit.points[at].part


def places(graph: CircuitGraph) -> tuple[PlaceListing, ...]:
    """Every place in the order of the file, then what hangs lifted, then the chassis itself.

    A part with two leads is a place where something else is soldered to it.
    """
    lister = _Lister(graph)
    return tuple(lister.all())


class _Lister:
    """Lists places over one circuit."""

    def __init__(self, graph: CircuitGraph) -> None:
        self._graph = graph
        self._circuit = graph.circuit
        self._used = {
            end
            for join in self._circuit.joins
            if join.how in _PHYSICAL
            for end in ((join.a, join.b) if join.how is How.WIRE else (join.a,))
        }
        self._passing = _passing(self._circuit)
        self._stands = {stand.part: stand for stand in self._circuit.stands}
        self._listed = tuple(part for part in self._circuit.parts.values() if self._is_place(part))
        self._names = frozenset(part.name for part in self._listed)
        self._spare = {name: s.reason for s in self._circuit.spared for name in s.points}
        self._told: dict[int, tuple[int, ...]] = {}

    def _is_place(self, part: Part) -> bool:
        if part.shape is None or part.host:
            return False
        if (
            part.name in self._stands
            or part.kind.holds_leads
            or part.kind.seat is Seat.TERMINALS
            or len(part.leads) > 2
        ):
            return True
        return any(self._circuit.index[lead_name(part, t.name)] in self._used for t in part.shape.terminals)

    def all(self) -> Iterator[PlaceListing]:
        for part in self._listed:
            yield self._place(part)
        for at, point in enumerate(self._circuit.points):
            items = tuple(self._items(at)) if self._is_bundle(at) and self._holds(at) else ()
            if any(item.put is not HeldBy.DRAWN for item in items):
                still = "lifted, and still joined together"
                yield PlaceListing(point.name, "bundle", still, (Spot(point.name, "", "", self._net(at), items),))
        items = tuple(item for item in self._items(0) if item.put in (HeldBy.LEAD, HeldBy.WIRE))
        size = self._stands.get("chassis")
        if items or size is not None:
            spots = (Spot("chassis", "", "", self._net(0), items),) if items else ()
            how = "soldered straight to it" if items else ""
            measures = size.measures if size is not None else ""
            said = ", ".join(word for word in (measures, how) if word)
            yield PlaceListing("chassis", "chassis", said, spots, stand=size)

    def _place(self, part: Part) -> PlaceListing:
        terminals = part.shape.terminals if part.shape is not None else ()
        spots = tuple(self._spot(part, terminal) for terminal in terminals)
        noted = ((of, text) for of, text in self._circuit.notes if owner_of(self._circuit, of) == part.name)
        notes = tuple(text if of == part.name else f"{of}: {text}" for of, text in noted)
        stand = self._stands.get(part.name)
        half = half_size(part, turned=stand is not None and stand.turned)
        key = socket_key(part)
        return PlaceListing(part.name, part.kind.word, about(part, stand), spots, notes, key, stand, half, part.kind)

    def _spot(self, part: Part, terminal: Terminal) -> Spot:
        at = self._circuit.index[lead_name(part, terminal.name)]
        label = "" if part.kind.seat is Seat.LUG else terminal.name
        items = tuple(self._items(at))
        name = self._graph.point(at).name
        return Spot(name, label, self._word(part, terminal), self._net(at), items, self._spare.get(name))

    def _word(self, part: Part, terminal: Terminal) -> str:
        if terminal.role is Role.SPARE_PIN:
            return "nothing inside"
        if terminal.role is Role.INTERNAL_PIN:
            return "internal"
        if part.kind.seat is Seat.CAN:
            return self._can_word(part, terminal)
        if "foot" in terminal.aliases:
            return "foot"
        return terminal.electrode if terminal.electrode != terminal.name else ""

    def _can_word(self, part: Part, terminal: Terminal) -> str:
        """The lug's mark, and whether its section is still in there."""
        if terminal.name not in part.features.sections:
            return "common" if terminal.name == "can" else ""
        mark = part.features.marks.get(terminal.name, "")
        out = f"{part.name}{terminal.name}" not in self._circuit.parts
        return ", ".join(word for word in (mark, "section out" if out else "") if word)

    def _net(self, at: int) -> str:
        """What a net is called; empty for one point alone, or where only the end of a small part names it."""
        net = self._circuit.nets[at]
        name = self._graph.net_names[net]
        named = net == self._circuit.nets[0] or name in self._graph.declared_names(net)
        if named:
            return "" if len(self._graph.members[net]) < 2 else name
        pin = next((p for p in self._graph.members[net] if self._graph.spoken(p) == name), at)
        part = self._graph.part_of(pin)
        return name if pin != at and part is not None and part.kind.family is Family.TUBE else ""

    def _items(self, at: int) -> Iterator[Item]:
        joins = self._graph.joins_at[at]
        for how in (How.SOLDERED, How.LEAD, How.WIRE, How.NET, How.INSIDE, How.BOND):
            for join in joins:
                if join.how is how and join.a != join.b:
                    yield from self._item(at, join)
        yield from self._passing.get(self._graph.point(at).name, ())

    def _is_bundle(self, at: int) -> bool:
        point = self._graph.point(at)
        return at != 0 and not point.part and not point.net_name

    def _holds(self, at: int) -> bool:
        """Whether a lifted bundle is more than the empty place of the one lead that was taken off."""
        return len(self._graph.joins_at[at]) > 1

    def _item(self, at: int, join: Join) -> Iterator[Item]:
        other = join.a if join.b == at else join.b
        if self._is_bundle(other) and not self._holds(other):
            return
        name, inherited = self._graph.point(other).name, join.place.source is not self._circuit.source
        if join.how is How.NET:
            yield from self._drawn(at, other, inherited=inherited)
        elif join.how is How.WIRE:
            yield Item(HeldBy.WIRE, name, join.words, inherited, join.past)
        elif join.how is How.BOND:
            yield Item(HeldBy.BONDED, name)
        elif join.how is How.INSIDE:
            if self._graph.point(other).part == self._graph.point(at).part:
                yield Item(HeldBy.INSIDE, name)
        else:
            yield Item(HeldBy.LEAD if join.a == at else HeldBy.AT, name, "", inherited)

    def _drawn(self, at: int, hub: int, *, inherited: bool) -> Iterator[Item]:
        """What else a net lists: other places, and leads whose place nothing says. Of the chassis only itself."""
        if self._circuit.nets[hub] == self._circuit.nets[0]:
            yield Item(HeldBy.DRAWN, "chassis", "", inherited)
            return
        beside = {end for join in self._graph.joins_at[at] if join.how in _PHYSICAL for end in (join.a, join.b)}
        told = self._told_of(hub)
        named = 0
        for number, other in enumerate(told):
            if other in beside or other == at:
                continue
            yield Item(HeldBy.DRAWN, self._graph.point(other).name, "", inherited)
            named += 1
            if named == MOST_DRAWN and number + 1 < len(told):
                yield Item(HeldBy.MORE, str(len(told) - number - 1))
                return

    def _told_of(self, hub: int) -> tuple[int, ...]:
        """What a net lists that is told at each of its lugs, once for all of them."""
        if hub not in self._told:
            joins = (join for join in self._graph.joins_at[hub] if join.how is How.NET)
            ends = (join.a if join.b == hub else join.b for join in joins)
            self._told[hub] = tuple(end for end in ends if end != hub and self._is_told(end))
        return self._told[hub]

    def _is_told(self, at: int) -> bool:
        """A place, or a lead that no place has; of lifted bundles only one that holds something together."""
        if self._is_bundle(at):
            return self._holds(at)
        held = any(join.how in _PHYSICAL for join in self._graph.joins_at[at])
        return self._graph.point(at).part in self._names or not held


def _passing(circuit: Circuit) -> Mapping[str, tuple[Item, ...]]:
    """The wires that run by each point; a wire of several lengths is one, from its first end to its last."""
    wires: dict[Place, list[Join]] = defaultdict(list)
    for join in circuit.joins:
        if join.past:
            wires[join.statement].append(join)
    found: dict[str, list[Item]] = defaultdict(list)
    for lengths in wires.values():
        first, last = lengths[0], lengths[-1]
        ends = f"{circuit.points[first.a].name} to {circuit.points[last.b].name}"
        item = Item(HeldBy.PAST, ends, first.words, first.place.source is not circuit.source)
        for name in first.past:
            found[name].append(item)
    return {name: tuple(items) for name, items in found.items()}
