"""What a hand can do on a chassis, as acts: a joint's end put elsewhere, leads put in each other's places.

A pin, a lug of a can or a strip stays where it is and what is soldered to it moves; a part's own lead moves itself.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from netcheck.core.circuit import UNSOLDERED, Circuit, How, Join
from netcheck.core.kind import Role, Seat
from netcheck.core.mend import Act, Bond, Cut, Insulate, Mend, Put, Solder, Wire
from netcheck.model.acts import applied
from netcheck.model.graph import CircuitGraph
from netcheck.model.moulded import pins_of_moulded
from netcheck.model.points import lead_name

__all__ = ["Hands", "tried"]


def tried(circuit: Circuit, mend: Mend) -> Circuit | None:
    """The circuit after a mend; None where hands can't carry it out on this one, or where it has nothing to do."""
    points = circuit.points
    inside = {points[lead].name: points[pin].name for lead, pin in pins_of_moulded(circuit).items()}
    try:
        return applied(circuit, mend) if mend and not any(_opens(act, inside) for act in mend) else None
    except ValueError:
        return None


def _opens(act: Act, inside: Mapping[str, str]) -> bool:
    """Whether an act takes a lead out of a moulded network; what else is told at that lead is on its pin."""
    match act:
        case Put(point=point):
            return point in inside
        case Cut(a=a, b=b):
            return inside.get(a) == b or inside.get(b) == a
        case _:
            return False


def _settled(on: Sequence[tuple[int, int, Join]], moved: Collection[int]) -> Iterator[tuple[int, int, Join]]:
    """What goes on in an order that a hand can follow: nothing onto a lead that is still to be moved itself."""
    waiting = list(on)
    while waiting:
        free = [one for one in waiting if not any(_carries(one, other, moved) for other in waiting if other is not one)]
        ready = free or waiting
        yield from ready
        waiting = [one for one in waiting if one not in ready]


def _carries(one: tuple[int, int, Join], other: tuple[int, int, Join], moved: Collection[int]) -> bool:
    """Whether one thing goes onto a lead that another act moves."""
    return other[1] in moved and other[1] in one[:2]


class Hands:
    """Acts on one state, ``real``: its inserted parts as they are."""

    def __init__(self, real: CircuitGraph) -> None:
        self.real = real
        self._pin_of = real.moulded

    def joints(self, at: int) -> tuple[Join, ...]:
        """The joints at a point that a soldering iron can undo."""
        return tuple(join for join in self.real.joins_at[at] if not self._is_inside(join))

    def grips(self, at: int) -> tuple[int, ...]:
        """The points by which an end is soldered: a section's lug, an electrode's pins, a network's pin, itself."""
        inside = (join for join in self.real.joins_at[at] if join.how is How.INSIDE)
        pin = (self._pin_of[at],) if at in self._pin_of else ()
        return (at, *pin, *(join.a if join.b == at else join.b for join in inside))

    def _is_inside(self, join: Join) -> bool:
        moulded_in = self._pin_of.get(join.a) == join.b or self._pin_of.get(join.b) == join.a
        return moulded_in or join.how in UNSOLDERED

    def stand(self, at: int) -> int:
        """The grip that has most joints; a section's is its can's lug, with or without."""
        part = self.real.part_of(at)
        grips = self.grips(at)
        if at in self._pin_of or (part is not None and part.host and len(grips) > 1):
            return grips[1]
        return max(grips, key=lambda grip: (len(self.joints(grip)), -grip))

    def is_movable(self, at: int) -> bool:
        """Whether a lead can be bent to another lug: not a pin, a lug, a can, the chassis or a net's name."""
        part, point = self.real.part_of(at), self.real.point(at)
        if part is None or point.terminal is None or part.host or at in self._pin_of:
            return False
        fixed = part.kind.holds_leads
        return not fixed and point.terminal.role is Role.LEAD

    def exchanged(self, ends: Mapping[int, int]) -> Mend:
        """What is on each end put to the end that it belongs on; ``ends`` are electrical ends, by point."""
        nets, moves = self.real.circuit.nets, {}
        for end, to in ends.items():
            for grip in self.grips(end) if nets[end] != nets[to] else ():
                moves[grip] = self.stand(to)
        return self.rejoined(moves)

    def rejoined(self, moves: Mapping[int, int], kept: Iterable[Join] = ()) -> Mend:
        """Every joint that ends on a point of ``moves`` put to the point that it belongs on, but those ``kept``."""
        stay = {id(join) for join in kept}
        touched = {id(join): join for at in moves for join in self.joints(at) if id(join) not in stay}
        return self.put([(join, moves.get(join.a, join.a), moves.get(join.b, join.b)) for join in touched.values()])

    def put(self, changes: Sequence[tuple[Join, int, int]]) -> Mend:
        """Joints put between other points, each with its two ends to be; what comes off first, then what goes on."""
        off: list[Join] = []
        on: list[tuple[int, int, Join]] = []
        leaving: set[int] = set()
        for join, a, b in changes:
            if {a, b} != {join.a, join.b}:
                off.append(join)
                leaving |= {was for was, to in ((join.a, a), (join.b, b)) if was != to}
                if a != b:
                    on.append((a, b, join))
        return self._simplest(off, on, leaving)

    def _simplest(self, off: Sequence[Join], on: Sequence[tuple[int, int, Join]], leaving: Collection[int]) -> Mend:
        """A lead that leaves its only joint and goes to one other place is moved; all else is taken off and put on.

        What is itself ``leaving`` a net is no place for another to be put on that net.
        """
        gone = {id(join) for join in off}
        onto = Counter(lead for _, lead, _ in on)
        moved = {lead for _, lead, join in on if onto[lead] == 1 and self._moves_whole(lead, join, gone)}
        acts: list[Act] = [self._cut(j) for j in off if moved.isdisjoint((j.a, j.b))]
        for hub, lead, join in _settled(on, moved):
            if join.how is How.WIRE:
                acts.append(Wire(self.name(hub), self.name(lead), join.words))
                continue
            to = self.name(hub if self._is_bared(hub, gone) else self.place(hub, (*onto, *leaving)))
            acts.append(Put(self.name(lead), to) if lead in moved else Solder(self.name(lead), to))
        return tuple(dict.fromkeys(acts))

    def _is_bared(self, hub: int, gone: set[int]) -> bool:
        """Whether a net's name would be left with nothing; a file says by it alone where its common is."""
        return self.real.point(hub).net_name and all(id(join) in gone for join in self.joints(hub))

    def _moves_whole(self, lead: int, join: Join, gone: set[int]) -> bool:
        """Whether a lead hangs on one joint, which is undone; off a wire that is cut there is nothing left to move."""
        own = self.joints(lead)
        soldered = join.how is not How.WIRE and all(each.how is not How.WIRE for each in own)
        return soldered and self.is_movable(lead) and len(own) == 1 and id(own[0]) in gone

    def place(self, hub: int, but: Iterable[int]) -> int:
        """Where one solders to join a hub: itself; for a net's name, or a bundle, a lug, pin or lead there."""
        if hub == 0 or self.real.point(hub).part:
            return hub
        out = set(but)
        ends = [join.a if join.b == hub else join.b for join in self.joints(hub)]
        rest = [at for at in ends if at not in out and self.real.point(at).part]
        if not rest:
            members = self.real.members[self.real.circuit.nets[hub]]
            held = [at for at in members if self.real.point(at).part and at not in out and self.joints(at)]
            rest = held or [at for at in members if self.real.point(at).net_name]
        return min(rest, key=lambda at: (self.is_movable(at), len(self.joints(at)), self.name(at)), default=hub)

    def taken_off(self, joins: Iterable[Join]) -> Mend:
        """Joints undone, and nothing put in their place; a bond by its mounting is undone by insulating the part."""
        acts: list[Act] = []
        for join in joins:
            if join.how is How.BOND:
                acts.append(Insulate(self.real.point(join.b).part))
            else:
                acts.append(self._cut(join))
        return tuple(dict.fromkeys(acts))

    def end_put(self, join: Join, wrong: int, right: int) -> Mend:
        """One joint with its end on ``wrong`` put to ``right``."""
        a, b = (right if end == wrong else end for end in (join.a, join.b))
        return self.put([(join, a, b)])

    def bonded(self, part_name: str) -> Mend:
        """A mounting made to reach the chassis."""
        return (Bond(part_name),)

    def seat(self, part_name: str) -> int | None:
        """The point that such a bond joins to the chassis."""
        circuit = self.real.circuit
        part = circuit.parts[part_name]
        for terminal in part.shape.terminals if part.shape else ():
            if "foot" in terminal.aliases or terminal.name in ("can", "frame", "shield") or part.kind.seat is Seat.LUG:
                return circuit.index[lead_name(part, terminal.name)]
        return None

    def name(self, at: int) -> str:
        """A point by its canonical name."""
        return self.real.point(at).name

    def _cut(self, join: Join) -> Cut:
        return Cut(self.name(join.a), self.name(join.b))
