"""Which electrode of a replaced tube each diode or resistor stands for: plates, the cathode, the heater's share."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.roles.part_pair import PartPair
from netcheck.core.circuit import Circuit, Part
from netcheck.core.kind import Family
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import is_bundle
from netcheck.model.points import HUNG_ON, lead_name

__all__ = ["ANODES", "HEATER", "Seats", "Successor", "answers_to", "claimed_pins", "seats"]

HEATER = frozenset({"heater", "filament"})
"""What the whole heater is called where a resistor stands for it in a series string."""

ANODES = ("plate", "diode", "anode")
"""How the name of an electrode that a diode's anode stands for begins."""


class Successor(Struct, frozen=True):
    """A lead (``new``, a point of the rewired state) where an electrode was (``old``, a point of the original).

    ``either`` is the lead with which it may change places.
    """

    old: int
    new: int
    either: int | None = None


class Seats(Struct, frozen=True):
    """The electrodes that are taken, and those that nothing takes: a plate, or a cathode whose plate's net is taken."""

    taken: tuple[Successor, ...]
    left: tuple[int, ...]


def answers_to(tube: Part, word: str) -> bool:
    """Whether a tube has an electrode of that name."""
    return (word in HEATER and bool(_heater(tube))) or _terminal(tube, word) is not None


def claimed_pins(tube: Part, parts: Iterable[Part]) -> frozenset[str]:
    """The pins of a tube whose electrodes some parts say that they stand for."""
    words = [word for part in parts for word in part.electrodes.get(tube.name, ())]
    pins = {pin for word in words for pin in (_heater(tube) if word in HEATER else (_terminal(tube, word),)) if pin}
    return frozenset(pins)


def seats(pair: PartPair, original: CircuitGraph, rewired: CircuitGraph) -> Seats | None:
    """Who took which electrode of a tube; None where no tube gave way to two-lead parts."""
    if any(tube.kind.family is not Family.TUBE for tube in pair.old) or any(len(part.leads) != 2 for part in pair.new):
        return None
    named = [part for part in pair.new if any(part.electrodes.get(tube.name) for tube in pair.old)]
    if not named and not any(_is_rectifier(part) for part in pair.new):
        return None
    return _Seating([_Socket(tube, original) for tube in pair.old], original, rewired).seated(pair.new)


Nets = tuple[int, int]
"""Where a rectifier sits: the net of its plate and the net of its cathode."""


class _Seating:
    """The electrodes of the tubes in one role while parts are put to them.

    Plates on one net with their cathodes on one net are one place for a diode, in one tube or in several; a tube that
    is in series with another is one place with it.
    """

    def __init__(self, sockets: Sequence["_Socket"], original: CircuitGraph, rewired: CircuitGraph) -> None:
        self._sockets = sockets
        self._original = original
        self._rewired = rewired
        self._nets = original.circuit.nets
        every = {at: cathode for socket in sockets for at, cathode in socket.plates.items()}
        self._behind = {self._nets[at]: cathode for at, cathode in every.items() if self._is_between(at, every)}
        ends = {at: self._last(cathode) for at, cathode in every.items() if self._nets[at] not in self._behind}
        self._place_of = {at: (self._nets[at], self._nets[end]) for at, end in ends.items()}
        self._places = {self._place_of[at]: (at, end) for at, end in reversed(ends.items())}

    def seated(self, parts: Sequence[Part]) -> Seats | None:
        """None where a part stands for heaters that are not one after the other, or side by side."""
        rectifiers = [part for part in parts if _is_rectifier(part)]
        chosen = self._shared_out(rectifiers)
        taken = [seat for part in rectifiers for seat in self._rectifier(part, chosen.get(part.name))]
        for part in parts:
            pins = self._heater_pins(part)
            if len(pins) not in (0, 2):
                return None
            taken.extend(self._heater_share(part, pins) if pins else ())
        left = tuple(self._left(frozenset(chosen.values()))) if rectifiers else ()
        return Seats(tuple(self._with_free(taken)), left)

    def _left(self, taken: Collection[Nets]) -> Iterator[int]:
        fed = {plate for plate, _ in taken}
        for place in dict.fromkeys(self._place_of.values()):
            if place not in taken:
                plate, cathode = self._places[place]
                yield cathode if place[0] in fed else plate

    def _is_between(self, plate: int, every: Mapping[int, int]) -> bool:
        """Whether a plate has nothing on its net but what works in these tubes, a cathode among it."""
        own = {*every, *every.values()}
        return self._nets[plate] in {self._nets[at] for at in every.values()} and own.issuperset(
            self._original.leads_on(self._nets[plate])
        )

    def _last(self, cathode: int) -> int:
        """The cathode at the end of a chain of tubes in series."""
        for _ in self._sockets:
            cathode = self._behind.get(self._nets[cathode], cathode)
        return cathode

    def _claimed(self, part: Part) -> list[Nets]:
        """The places that a part may stand for: those it names or whose cathode it names, else all of its tubes."""
        named = [at for s in self._sockets for word in part.electrodes.get(s.tube.name, ()) for at in s.answering(word)]
        whole = [at for s in self._sockets if s.tube.name in part.replaces for at in s.plates]
        said = dict.fromkeys(self._place_of[at] for at in named or whole if at in self._place_of)
        return list(said or dict.fromkeys(self._place_of.values()))

    def _shared_out(self, parts: Sequence[Part]) -> dict[str, Nets]:
        """A place for each part: the only one that it may stand for, else that which its leads speak for most."""
        claims = {part.name: self._claimed(part) for part in parts}
        chosen = {name: places[0] for name, places in claims.items() if len(places) == 1}
        for part in parts:
            if part.name not in chosen and claims[part.name]:
                free = [place for place in claims[part.name] if place not in chosen.values()] or claims[part.name]
                chosen[part.name] = max(free, key=lambda place: self._votes(part, place))
        return chosen

    def _votes(self, part: Part, place: Nets) -> int:
        """How many leads of a place's nets are where the ends of the part are: plate and cathode, or the wrong way."""
        cathode, anode = (self._rewired.circuit.nets[at] for at in self._ends(part))
        plates, cathodes = map(self._found, place)
        return 2 * plates.count(anode) + plates.count(cathode) + cathodes.count(cathode)

    def _found(self, net: int) -> list[int]:
        """Where the leads of a net of the original are now, but for those of the tubes."""
        old, new = self._original.circuit, self._rewired.circuit
        tubes = {socket.tube.name for socket in self._sockets}
        points = (old.points[at] for at in self._original.leads_on(net))
        return [new.nets[new.index[p.name]] for p in points if p.name in new.index and p.part not in tubes]

    def _rectifier(self, part: Part, place: Nets | None) -> Iterator[Successor]:
        if place is not None:
            cathode, anode = self._ends(part)
            yield Successor(self._places[place][0], anode)
            yield Successor(self._places[place][1], cathode)

    def _ends(self, part: Part) -> tuple[int, int]:
        """The cathode and the anode of a two-lead rectifier, as points of the rewired state."""
        index = self._rewired.circuit.index
        plus, minus = part.polarity or ("1", "2")
        return index[lead_name(part, plus)], index[lead_name(part, minus)]

    def _heater_pins(self, part: Part) -> list[int]:
        """The two ends of the heaters that a part stands for; more or fewer where they have not just two."""
        heated = [s for s in self._sockets if HEATER.intersection(part.electrodes.get(s.tube.name, ()))]
        pins = [s.at(pin) for s in heated for pin in _heater(s.tube)]
        if len(heated) < 2:
            return pins
        first = {self._nets[at]: at for at in reversed(pins)}
        shared = Counter(self._nets[at] for at in pins)
        return [
            at
            for net, at in reversed(first.items())
            if shared[net] == 1 or not set(pins).issuperset(self._original.leads_on(net))
        ]

    def _heater_share(self, part: Part, pins: Sequence[int]) -> Iterator[Successor]:
        ends = self._rewired.terminals(part)
        for pin, end, other in zip(pins, ends, ends[::-1], strict=True):
            yield Successor(pin, end, other)

    def _with_free(self, taken: Sequence[Successor]) -> Iterator[Successor]:
        """The two plates of a full-wave rectifier are equal, so their diodes are."""
        partner = {
            socket.at(a): socket.at(b)
            for socket in self._sockets
            for one, other in socket.tube.free
            for a, b in ((one, other), (other, one))
        }
        by_old = {seat.old: seat.new for seat in taken}
        for seat in taken:
            yield (
                seat
                if seat.either is not None
                else Successor(seat.old, seat.new, by_old.get(partner.get(seat.old, -1)))
            )


class _Socket:
    """One tube of the original: its plates (points), each with the cathode that it works with."""

    def __init__(self, tube: Part, original: CircuitGraph) -> None:
        self.tube = tube
        self._original = original
        self._as_drawn = _drawn_nets(original.circuit)
        plates = [t.name for t in tube.leads if t.key.startswith(ANODES) and t.key == _first_key(tube, t.name)]
        self.plates = {self.at(name): self._cathode(name) for name in plates}

    def answering(self, word: str) -> list[int]:
        """The plates that an electrode's name means: itself, or all that work with it."""
        terminal = _terminal(self.tube, word)
        at = None if terminal is None else self.at(terminal)
        return [plate for plate, cathode in self.plates.items() if at in (plate, cathode)]

    def at(self, terminal: str) -> int:
        """The point that a terminal is."""
        return self._original.circuit.index[lead_name(self.tube, terminal)]

    def _cathode(self, plate: str) -> int:
        """The cathode that a plate works with; of a tube without one, the end of the filament that feeds the set."""
        key = _first_key(self.tube, plate)
        unit = key[-2:] if key[-2:] in ("-a", "-b") else ""
        for word in (f"cathode{unit}", "cathode"):
            terminal = _terminal(self.tube, word)
            if terminal is not None:
                return self.at(terminal)
        return self._filament_output()

    def _filament_output(self) -> int:
        """A point of the net that the filament feeds: at one of its pins, else at the tap of its winding."""
        pins = [self.at(name) for name in _heater(self.tube)]
        fed = {at: len(self._loads(at)) for at in pins}
        best = max(pins, key=lambda at: fed[at], default=0)
        if fed.get(best):
            return best
        tap = self._tap(pins)
        return next(iter(self._loads(tap)), tap) if tap is not None else best

    def _loads(self, at: int) -> list[int]:
        """What a point feeds, but windings and filaments."""
        graph, net = self._original, self._as_drawn[at]
        found = (o for o, other in enumerate(self._as_drawn) if other == net and graph.point(o).is_lead)
        return [
            o for o in found if (part := graph.part_of(o)) and part.kind.family not in (Family.TRANSFORMER, Family.TUBE)
        ]

    def _tap(self, pins: Sequence[int]) -> int | None:
        """The tap of the winding that heats the filament, where the supply is taken from there."""
        circuit, nets = self._original.circuit, self._as_drawn
        for part in circuit.parts.values():
            for _, leads in part.features.windings:
                points = [circuit.index[name] for lead in leads if (name := lead_name(part, lead)) in circuit.index]
                if len(points) > 2 and {nets[points[0]], nets[points[-1]]} == {nets[at] for at in pins}:
                    return points[1]
        return None


def _drawn_nets(circuit: Circuit) -> tuple[int, ...]:
    """The nets before anything was lifted: what hung on a point is joined to it again."""
    bundles = ((at, p.name.removeprefix(HUNG_ON)) for at, p in enumerate(circuit.points) if is_bundle(p, at))
    back = (replace(circuit.joins[0], a=circuit.index[name], b=at) for at, name in bundles if name in circuit.index)
    return closure(len(circuit.points), (*circuit.joins, *back))


def _is_rectifier(part: Part) -> bool:
    return part.polarity is not None and len(part.leads) == 2


def _heater(tube: Part) -> tuple[str, ...]:
    pins = (_terminal(tube, "heater-1"), _terminal(tube, "heater-2"))
    return tuple(pin for pin in pins if pin is not None)


def _terminal(tube: Part, word: str) -> str | None:
    """The pin that answers to a name: its number, its electrode, or another word for that."""
    words = {w: t.name for t in reversed(tube.leads) for w in (t.electrode, *t.aliases, t.name) if w}
    return words.get(word)


def _first_key(tube: Part, terminal: str) -> str:
    """The electrode on a pin, where that pin is the first with it."""
    own = next(t for t in tube.leads if t.name == terminal)
    return own.key if next(t for t in tube.leads if t.key == own.key) is own else ""
