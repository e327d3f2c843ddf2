"""Orders for a soldering iron: a mend in words, and its alternatives after it. Nothing is said that is no act."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.compare.faults.hands import Hands
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import listed, net_at
from netcheck.core.circuit import How, Join, Part
from netcheck.core.difference import Fault, Rearranged, Way
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.model.points import lead_name

_NAMED = 4
"""So many things that move together are named."""

__all__ = ["UNORDERED", "UNTRIED", "alternatives", "moved_leads", "order", "ordered", "pin_by_pin"]

UNTRIED = "no change was found that puts this right by itself; compare the two places joint by joint"
"""What stands where an order would, and none could be tried out."""

UNORDERED = "compare the places named here with the drawing, joint by joint, and run it again"
"""What stands where an order would, and the orders together were found not to put everything right."""


def ordered(pair: Pair, fault: Fault) -> str:
    """What to do about a fault, and what else may be done instead: each was tried."""
    return alternatives(pair, fault.mends) or UNTRIED


def alternatives(pair: Pair, mends: Sequence[Mend]) -> str:
    """Mends in words, the first one first; empty where there is none."""
    return "; or ".join(dict.fromkeys(order(pair, mend) for mend in mends))


def order(pair: Pair, mend: Mend) -> str:
    """One mend as it is said to a hand."""
    said = _Said(pair, mend)
    return "; ".join(said.clauses())


class _Move(Struct, frozen=True):
    """Something taken from one place to another; ``wire`` is the whole of it where one end of a wire is."""

    thing: str
    wrong: str
    to: str
    wire: bool = False


def pin_by_pin(pair: Pair, fault: Rearranged, part: Part) -> str:
    """What a socket or strip that is mirrored or one place on comes to: ``from pin 8 to 7, 9 to 8``."""
    if not fault.mends or part.shape is None:
        return UNTRIED
    order = part.shape.ordered
    numbers = {lead_name(part, name): n for n, name in enumerate(order)}
    moves = [(numbers[a], numbers[b]) for a, b in _Said(pair, fault.mends[0]).places() if {a, b} <= numbers.keys()]
    steps = Counter((to - wrong) % len(order) for wrong, to in moves)
    step = max(steps, key=steps.__getitem__, default=1)
    mirrored = fault.way is Way.MIRRORED
    held = sorted({wrong for wrong, to in moves if mirrored or (to - wrong) % len(order) == step})
    places = [(n, len(order) - 1 - n if mirrored else (n + step) % len(order)) for n in held]
    told = ", ".join(f"{order[n]} to {order[to]}" for n, to in places if n != to)
    word = "pin" if part.kind.seat.has_pins else "lug"
    seen = "from left to right" if word == "lug" else "clockwise from the key or gap"
    return f"move what is soldered there, from {word} {told}; {word}s count {seen}, seen from below"


def moved_leads(fault: Fault) -> tuple[str, ...]:
    """The leads that its first mend moves, by name."""
    acts = fault.mends[0] if fault.mends else ()
    return tuple(dict.fromkeys(act.point for act in acts if isinstance(act, Put | Solder | Lift)))


class _Said:
    """One mend while it is put into words; what is taken off and put on again elsewhere is moved."""

    def __init__(self, pair: Pair, mend: Mend) -> None:
        self._pair = pair
        self._graph = pair.real
        self._left = list(mend)
        self._partners = self._paired()

    def clauses(self) -> Iterator[str]:
        exchanged = self._exchanged()
        if exchanged:
            yield exchanged
        moves: dict[tuple[str, str], list[_Move]] = {}
        rest: list[str] = []
        while self._left:
            act = self._left.pop(0)
            move = self._move(act)
            if move is None:
                rest.append(self._said(act))
            else:
                moves.setdefault((move.wrong, move.to), []).append(move)
        for (wrong, to), things in moves.items():
            yield self._moved(wrong, to, things)
        yield from rest

    def places(self) -> Iterator[tuple[str, str]]:
        """From where to where things go, one by one; a wire that is laid anew may have moved with both its ends."""
        for cut, laid in self._partners.items():
            self._left = [act for act in self._left if act not in (cut, laid)]
            yield from ((was, now) for was, now in ((cut.a, laid.a), (cut.b, laid.b)) if was != now)
        while self._left:
            move = self._move(self._left.pop(0))
            if move is not None:
                yield move.wrong, move.to

    def _moved(self, wrong: str, to: str, moves: Sequence[_Move]) -> str:
        """One thing or several that go from one place to another."""
        names = [move.thing for move in moves]
        there = self._place(to, wrong, names)
        if all(move.wire for move in moves):
            ends = "that end" if len(moves) == 1 else "those ends"
            return f"take {listed(names, _NAMED)} off {self._spoken(wrong)} and put {ends} on {there}"
        start = "" if self._graph.point(self._at(wrong)).net_name or wrong in names else f"from {self._spoken(wrong)} "
        return f"move {listed(names, _NAMED)} {start}to {there}"

    def _move(self, act: Act) -> _Move | None:
        if isinstance(act, Put):
            return _Move(act.point, self._site(act.point), act.to)
        again = self._again(act) if isinstance(act, Cut) and self._joint(act) is not None else None
        if again is None or not isinstance(act, Cut):
            return None
        new, stays, to = again
        self._left.remove(new)
        wrong = act.a if act.b == stays else act.b
        if isinstance(new, Solder) and new.point == stays and self._is_movable(stays):
            return _Move(stays, wrong, to)
        return _Move(self._thing(act), wrong, to, wire=True)

    def _exchanged(self) -> str:
        """Leads that are moved and nothing else, not all to one place: each with its own, in the order of the file."""
        puts = [act for act in self._left if isinstance(act, Put)]
        if len({act.to for act in puts}) < 2 or len(puts) < len(self._left):
            return ""
        self._left.clear()
        puts.sort(key=lambda act: self._at(act.point))
        return ", ".join(f"{act.point} to {self._place(act.to, self._site(act.point), (act.point,))}" for act in puts)

    def _site(self, point: str) -> str:
        at, joints = self._at(point), Hands(self._graph).joints(self._at(point))
        only = len(joints) == 1
        site = self._name((joints[0].a if joints[0].b == at else joints[0].b) if only else self._graph.site(at))
        return site if site in self._graph.circuit.index else point  # with what was lifted off a place it is on none

    def _at(self, name: str) -> int:
        return self._graph.circuit.index[name]

    def _again(self, cut: Cut) -> tuple[Act, str, str] | None:
        """The act that makes a joint anew from one of its ends: that act, the end that stays, and the new end."""
        partner = self._partners.get(cut)
        if partner is not None:
            ends = {cut.a: partner.a, cut.b: partner.b}
            stays = [end for end, now in ends.items() if end == now]
            moved = [now for end, now in ends.items() if end != now]
            return (partner, stays[0], moved[0]) if len(stays) == 1 else None
        for act in self._left:
            if not isinstance(act, Wire | Solder) or act in self._partners.values():
                continue
            one, other = (act.a, act.b) if isinstance(act, Wire) else (act.to, act.point)
            for stays_at, to in ((other, one), (one, other)):
                gone = cut.a if cut.b == stays_at else cut.b
                if stays_at in (cut.a, cut.b) and self._keeps(act, stays_at, to, gone):
                    return act, stays_at, to
        return None

    def _keeps(self, act: Wire | Solder, stays: str, to: str, gone: str) -> bool:
        """Whether it is the same thing: a lead is itself; only of a wire may either end stay."""
        if isinstance(act, Wire) or act.point == stays:
            return True
        return not (self._is_movable(to) or self._is_movable(gone))

    def _paired(self) -> Mapping[Cut, Wire]:
        """Wires that are cut and laid anew, each with its own: both stand in one order, end by end."""
        cuts = [act for act in self._left if isinstance(act, Cut) and self._is_wire(act)]
        laid = [act for act in self._left if isinstance(act, Wire)]
        return dict(zip(cuts, laid, strict=True)) if len(cuts) == len(laid) else {}

    def _is_wire(self, cut: Cut) -> bool:
        joint = self._joint(cut)
        return joint is not None and joint.how is How.WIRE

    def _is_movable(self, name: str) -> bool:
        return Hands(self._graph).is_movable(self._at(name))

    def _said(self, act: Act) -> str:
        match act:
            case Put(point, to):
                return f"move {point} {self._from(point)}to {self._place(to, self._site(point), (point,))}"
            case Solder(point, to):
                return f"solder {point} to {self._place(to, things=(point,))}"
            case Cut():
                return f"take off {self._thing(act)}"
            case Wire(a, b):
                return f"join {self._spoken(a)} to {self._place(b, a, (a,))}"
            case Lift(point):
                return f"take off {point} {self._from(point)}".rstrip()
            case _:
                return self._of_part(act)

    def _of_part(self, act: Bond | Insulate | Change | Remove) -> str:
        match act:
            case Bond(part):
                return f"bond {self._seat(part)} to the chassis"
            case Insulate(part):
                return f"keep {self._seat(part)} off the chassis: it must sit insulated"
            case Change(part, words):
                return f"fit {words} for {part}"
            case Remove(part):
                return f"take {part} out"

    def _from(self, point: str) -> str:
        site = self._site(point)
        at = self._at(site)
        return "" if site == point or self._graph.point(at).net_name else f"from {self._graph.spoken(at)} "

    def _joint(self, cut: Cut) -> Join | None:
        ends = {self._at(cut.a), self._at(cut.b)}
        return next((j for j in self._graph.joins_at[self._at(cut.a)] if {j.a, j.b} == ends), None)

    def _thing(self, cut: Cut) -> str:
        """What is taken off: a wire by its colour, a lead from where it is, a strand or a bend between two lugs."""
        joint = self._joint(cut)
        if joint is None or joint.how is How.WIRE or self._is_laid(joint):
            colour = (
                ""
                if joint is None or joint.how is not How.WIRE
                else " ".join(w for w in joint.words.split() if w.isalpha() and w != "AWG")
            )
            return f"the {colour + ' ' if colour else ''}wire from {cut.a} to {cut.b}"
        a, b = self._graph.point(joint.a), self._graph.point(joint.b)
        return f"{b.name} from net {a.name}" if joint.how is How.NET else f"{b.name} from {a.name}"

    def _is_laid(self, joint: Join) -> bool:
        """Whether two places are joined that no lead reaches by itself: there must be a wire, said or not."""
        named = joint.how is not How.NET
        return named and not (self._is_movable(self._name(joint.a)) or self._is_movable(self._name(joint.b)))

    def _name(self, at: int) -> str:
        return self._graph.point(at).name

    def _spoken(self, name: str) -> str:
        return self._graph.spoken(self._at(name))

    def _place(self, name: str, seen_from: str = "", things: Sequence[str] = ()) -> str:
        """A place for things with the net that it belongs to, said once; whether it is beside the wrong one."""
        at = self._at(name)
        net, spoken = net_at(self._pair, at, things), self._graph.spoken(at)
        beside = seen_from and at in self._graph.beside(self._at(seen_from))
        electrode = spoken[len(name) + 2 : -1]
        if electrode:
            word = spoken if net in (electrode, spoken) else f"{name} ({electrode}, {net})"
        else:
            word = name if name == net else f"{name} ({net})"
        return f"{word}, {self._beside(at)} beside it" if beside else word

    def _beside(self, at: int) -> str:
        part = self._graph.part_of(at)
        return "the pin" if part is not None and part.kind.seat.has_pins else "the lug"

    def _seat(self, part: str) -> str:
        points: Sequence[str] = [
            self._graph.spoken(at)
            for at, point in enumerate(self._graph.circuit.points)
            if point.part == part and point.terminal is not None and "foot" in point.terminal.aliases
        ]
        return listed(points[:1]) or part
