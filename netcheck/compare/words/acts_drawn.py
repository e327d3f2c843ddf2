"""The acts of a mend as lines of a picture: what comes off at which place, what goes on at which."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from netcheck.compare.words.cards import Cards
from netcheck.compare.words.original_names import OriginalNames
from netcheck.core.circuit import UNSOLDERED, How, Join, Part
from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS
from netcheck.core.mend import Act, Bond, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.core.panel import Done, LeadRow, Line, Mark
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["ActsDrawn"]


class ActsDrawn:
    """The lines of acts on the rewired state as it is."""

    def __init__(self, graph: CircuitGraph, cards: Cards) -> None:
        self._graph = graph
        self._index = graph.circuit.index
        self._cards = cards

    def lines(self, act: Act) -> Iterator[Line]:
        """What an act takes off, then what it puts on."""
        yield from self._taken_off(act)
        yield from self._put_on(act)

    def _taken_off(self, act: Act) -> Iterator[Line]:
        match act:
            case Lift(point) | Put(point):
                yield from self._off(act, point)
            case Cut(a, b):
                yield self._cut(act, a, b)
            case Insulate(part):
                yield from self._mounted(act, part, Mark.OFF)
            case Remove(part):
                yield from self._removed(act, part)
            case _:
                pass

    def _put_on(self, act: Act) -> Iterator[Line]:
        match act:
            case Put(point, to) | Solder(point, to):
                yield self._line(act, Mark.ON, (point, to))
            case Wire(a, b, words):
                yield self._line(act, Mark.ON, (a, b), f"{_colour(words)} wire".strip(), words or "wire")
            case Bond(part):
                yield from self._mounted(act, part, Mark.ON)
            case _:
                pass

    def _off(self, act: Act, point: str) -> Iterator[Line]:
        at = self._index[point]
        for join in _held_by(self._graph.joins_at[at]):
            other = self._graph.point(join.a if join.b == at else join.b).name
            if other in self._index:  # what is lifted already comes off nothing
                yield self._line(act, Mark.OFF, (point, other), *_said(join))

    def _cut(self, act: Act, a: str, b: str) -> Line:
        ends = {self._index[a], self._index[b]}
        join = next((j for j in self._graph.joins_at[self._index[a]] if {j.a, j.b} == ends), None)
        return self._line(act, Mark.OFF, (a, b), *(_said(join) if join else ()))

    def _mounted(self, act: Act, part: str, mark: Mark) -> Iterator[Line]:
        for name in _seats(self._graph.circuit.parts[part]):
            yield self._line(act, mark, (name, "chassis"), "bond")

    def _removed(self, act: Act, part: str) -> Iterator[Line]:
        whole = self._graph.circuit.parts[part]
        self._cards.marked(whole, Mark.OFF, Done(act.line, (part,)))
        for at in self._graph.terminals(whole):
            yield from self._off(act, self._graph.point(at).name)

    def _line(self, act: Act, mark: Mark, ends: tuple[str, str], label: str = "", colour: str = "") -> Line:
        a, b = (self._cards.spot(self._index[end]) for end in ends)
        return Line(a, b, mark, label, colour, Done(act.line, ends))

    def rows(self, mend: Mend, names: OriginalNames) -> Iterator[LeadRow]:
        """The acts as a table, where there are too many to draw."""
        for act in mend:
            lines = list(self.lines(act))
            if not lines:
                continue
            off = [line for line in lines if line.mark is Mark.OFF]
            on = [line for line in lines if line.mark is Mark.ON]
            said = [", ".join(_told(line, names, self._index) for line in some) for some in (off, on)]
            yield LeadRow(_lead(lines[0]), said[0], said[1], _all(off), _all(on))


def _all(lines: Sequence[Line]) -> tuple[Done, ...]:
    """What several lines of one act are a sign of."""
    done = list(filter(None, (line.done for line in lines)))
    return (Done(done[0].act, tuple(dict.fromkeys(at for each in done for at in each.at))),) if done else ()


def _lead(line: Line) -> str:
    return line.label or (line.done.at[0] if line.done else "")


def _told(line: Line, names: OriginalNames, index: Mapping[str, int]) -> str:
    if line.done is None:
        return ""
    a, b = line.done.at
    over = names.of_place(index[b])
    to = b if over in (b, "") else f"{b} ({over})"
    return f"{a} to {to}" if line.label else to


def _held_by(joins: Iterable[Join]) -> list[Join]:
    """The joints of a lead that hands can undo: where it is soldered, else the net's name that it is listed under."""
    free = [j for j in joins if j.how not in UNSOLDERED]
    return [j for j in free if j.how is not How.NET] or free


def _seats(part: Part) -> tuple[str, ...]:
    """The points that a part's mounting joins to the chassis, or would if it were grounded."""
    words = (*(word for word in part.features.words if word not in MOUNTINGS), "grounded")
    shape = part.kind.shape(replace(part.features, words=words))
    return () if isinstance(shape, Flaw) else tuple(lead_name(part, name) for name in shape.bonded)


def _colour(words: str) -> str:
    return " ".join(w for w in words.split() if w.replace("-", "").replace("/", "").isalpha() and w.upper() != "AWG")


def _said(join: Join) -> tuple[str, str]:
    """A wire's label and its words; nothing of a lead's own joint."""
    if join.how is not How.WIRE:
        return ("", "")
    return (f"{_colour(join.words)} wire".strip(), join.words or "wire")
