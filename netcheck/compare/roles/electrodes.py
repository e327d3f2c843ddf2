"""Which electrode of a replaced tube each diode or resistor stands for: plates, the cathode, the heater's share."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from netcheck.compare.roles.part_pair import PartPair
from netcheck.core.circuit import Circuit, Part
from netcheck.core.kind import Family
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import is_bundle
from netcheck.model.points import HUNG_ON, lead_name

__all__ = ["HEATER", "Seats", "Successor", "answers_to", "claimed_pins", "seats"]

HEATER = frozenset({"heater", "filament"})
"""What the whole heater is called where a resistor stands for it in a series string."""

_ANODES = ("plate", "diode", "anode")


@dataclass(frozen=True, slots=True)
class Successor:
    """A lead (``new``, a point of the rewired state) where an electrode was (``old``, a point of the original).

    ``either`` is the lead with which it may change places.
    """

    old: int
    new: int
    either: int | None = None


@dataclass(frozen=True, slots=True)
class Seats:
    """The electrodes that are taken, and the plates that nothing takes though their net has no other diode."""

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
    tube = pair.old[0]
    if len(pair.old) > 1 or tube.kind.family is not Family.TUBE or any(len(part.leads) != 2 for part in pair.new):
        return None
    if not any(part.electrodes.get(tube.name) or _is_rectifier(part) for part in pair.new):
        return None
    return _Socket(tube, original, rewired).seated(pair.new)


class _Socket:
    """One tube's electrodes while parts are put to them."""

    def __init__(self, tube: Part, original: CircuitGraph, rewired: CircuitGraph) -> None:
        self._tube = tube
        self._original = original
        self._rewired = rewired
        self._as_drawn = _drawn_nets(original.circuit)
        self._plates = [t.name for t in tube.leads if t.key.startswith(_ANODES) and t.key == _first_key(tube, t.name)]

    def seated(self, parts: Sequence[Part]) -> Seats:
        claims = {part.name: self._claimed(part) for part in parts if _is_rectifier(part)}
        self._share_out([part for part in parts if claims.get(part.name) == []], claims)
        taken = [seat for part in parts if _is_rectifier(part) for seat in self._rectifier(part, claims[part.name])]
        for part in parts:
            if HEATER.intersection(part.electrodes.get(self._tube.name, ())):
                taken.extend(self._heater_share(part))
        nets = self._original.circuit.nets
        fed = {nets[seat.old] for seat in taken}
        left = tuple(at for name in self._plates if nets[at := self._at(name)] not in fed) if claims else ()
        return Seats(tuple(self._with_free(taken)), left)

    def _claimed(self, part: Part) -> list[str]:
        """The plates that a part says it stands for; none where it stands for the tube as it comes."""
        found = []
        for word in part.electrodes.get(self._tube.name, ()):
            terminal = _terminal(self._tube, word)
            if terminal in self._plates:
                found.append(terminal)
            elif terminal is not None:
                found.extend(p for p in self._plates if self._cathode(p) == self._at(terminal))
        return found

    def _share_out(self, parts: Sequence[Part], claims: dict[str, list[str]]) -> None:
        """Gives the parts that stand for the whole tube a plate each, that one first which their leads speak for."""
        nets = self._original.circuit.nets
        said = {nets[self._at(plate)] for plates in claims.values() for plate in plates}
        for part in parts:
            open_plates = [p for p in self._plates if nets[self._at(p)] not in said] or self._plates
            chosen = max(open_plates, key=lambda plate: self._votes(part, plate), default=None)
            if chosen is not None:
                claims[part.name] = [chosen]
                said.add(nets[self._at(chosen)])

    def _votes(self, part: Part, plate: str) -> int:
        """How many leads of the plate's net are where one end of the part is, its anode before its cathode."""
        old, new = self._original.circuit, self._rewired.circuit
        ends = [new.nets[at] for at in self._ends(part)]
        here = [
            new.nets[new.index[name]]
            for at in self._original.leads_on(old.nets[self._at(plate)])
            if (name := old.points[at].name) in new.index and old.points[at].part != self._tube.name
        ]
        return sum(2 * (net == ends[1]) + (net == ends[0]) for net in here)

    def _rectifier(self, part: Part, plates: Sequence[str]) -> Iterator[Successor]:
        cathode, anode = self._ends(part)
        for plate in plates[:1]:
            yield Successor(self._at(plate), anode)
            yield Successor(self._cathode(plate), cathode)

    def _ends(self, part: Part) -> tuple[int, int]:
        """The cathode and the anode of a two-lead rectifier, as points of the rewired state."""
        index = self._rewired.circuit.index
        plus, minus = part.polarity or ("1", "2")
        return index[lead_name(part, plus)], index[lead_name(part, minus)]

    def _heater_share(self, part: Part) -> Iterator[Successor]:
        ends = self._rewired.terminals(part)
        for pin, end, other in zip(_heater(self._tube), ends, ends[::-1], strict=False):
            yield Successor(self._at(pin), end, other)

    def _with_free(self, taken: Sequence[Successor]) -> Iterator[Successor]:
        """The two plates of a full-wave rectifier are equal, so their diodes are."""
        partner = {self._at(a): self._at(b) for one, other in self._tube.free for a, b in ((one, other), (other, one))}
        by_old = {seat.old: seat.new for seat in taken if seat.either is None}
        for seat in taken:
            yield (
                seat
                if seat.either is not None
                else Successor(seat.old, seat.new, by_old.get(partner.get(seat.old, -1)))
            )

    def _at(self, terminal: str) -> int:
        return self._original.circuit.index[lead_name(self._tube, terminal)]

    def _cathode(self, plate: str) -> int:
        """The cathode that a plate works with; of a tube without one, the end of the filament that feeds the set."""
        key = _first_key(self._tube, plate)
        unit = key[-2:] if key[-2:] in ("-a", "-b") else ""
        for word in (f"cathode{unit}", "cathode"):
            terminal = _terminal(self._tube, word)
            if terminal is not None:
                return self._at(terminal)
        return self._filament_output()

    def _filament_output(self) -> int:
        """A point of the net that the filament feeds: at one of its pins, else at the tap of its winding."""
        pins = [self._at(name) for name in _heater(self._tube)]
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
