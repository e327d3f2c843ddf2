"""What is ``meant``: leads entered into the original, as if it had been drawn with the change."""

from collections import defaultdict

from msgspec.structs import replace

from netcheck.core.circuit import Circuit, How, Join, Meant, Part, Point
from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.engine.rule import Finding
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import implicit
from netcheck.model.messages import near
from netcheck.model.points import lead_name

__all__ = ["with_meant"]


def with_meant(original: Circuit, rewired: Circuit) -> tuple[Circuit, tuple[Finding, ...]]:
    """The original with what the rewired file means, and the lines that can't be meant so.

    The circuit's own ``meant`` are then the lines that were taken, with the leads that they were taken for.
    """
    lines = [line for line in rewired.meant if line.place.source.name not in original.sources]
    drawing = _Drawing(original, rewired)
    for line in lines:
        drawing.take(line)
    return drawing.drawn(), tuple(drawing.problems)


class _Drawing:
    """The original while leads are entered."""

    def __init__(self, original: Circuit, rewired: Circuit) -> None:
        self.original = original
        self.rewired = rewired
        self.problems: list[Finding] = []
        self._parts = dict(self.original.parts)
        self._points = list(self.original.points)
        self._index = dict(self.original.index)
        self._joins = list(self.original.joins)
        self._taken: list[Meant] = []
        self._listed: defaultdict[str, int] = defaultdict(int)
        for line in self.rewired.meant:
            self._listed[line.net] += len(line.points)

    def drawn(self) -> Circuit:
        joins = tuple(self._joins)
        return replace(
            self.original,
            parts=self._parts,
            points=tuple(self._points),
            index=self._index,
            joins=joins,
            nets=closure(len(self._points), joins),
            meant=tuple(self._taken),
        )

    def take(self, line: Meant) -> None:
        flaw = self._flaw_of(line)
        if flaw is not None:
            self.problems.append(flaw)
            return
        hub = self._point(line.net)
        ends = [self._point(name) for name in line.points]
        self._joins.extend(Join(hub, end, How.NET, line.place, line.place) for end in ends)
        self._taken.append(line)

    def _flaw_of(self, line: Meant) -> Finding | None:
        inserted = [n for n in line.points if (part := self._owner(n)) is not None and part.inserted is not None]
        if inserted:
            what = f"`{inserted[0]}` is a lead of a part that is inserted, whose place is where the joint was"
            return _idle(line, what, "take it out of this line")
        at = self.rewired.index.get(line.net)
        if line.net not in self._index and at is not None and self._is_lug(self.rewired.points[at]):
            return _idle(line, f"`{line.net}` is a new lug, and a drawing knows no lugs", "name the net")
        if not self._is_known(line.net) and self._listed[line.net] < 2:
            nets = [p.name for p in self.original.points if p.net_name]
            do = near(line.net, nets) or "name a net of the original, or list what else is to be on the new one"
            return _idle(line, f"`{line.net}` is no net of the original, and {line.points[0]} would be alone on it", do)
        return self._joining(line)

    def _joining(self, line: Meant) -> Finding | None:
        """A line that would make one net of two: a lead that it lists is still on another net."""
        state = CircuitGraph(self.drawn())
        here = state.circuit.nets[self._index[line.net]] if line.net in self._index else None
        for name in line.points:
            at = self._index.get(name)
            net = None if at is None else state.circuit.nets[at]
            if net is None or net == here or state.is_lonely(net):
                continue
            if here is None:
                here = net
                continue
            names = f"{state.net_names[net]} and {state.net_names[here]}"
            return _idle(line, f"`{name}` is on {state.net_names[net]} in the original: so {names} would be one net",
                         self._leaving(name, state.net_names[net]))  # fmt: skip
        return None

    def _leaving(self, lead: str, net: str) -> str:
        verb = next((t.verb for t in self.rewired.taken if t.point == lead), "")
        if verb:
            return f'say that it leaves {net} on purpose: put `intended "why"` after the `{verb}`'
        return f'if it leaves {net}, write `lift {lead} intended "why"`; else take it out of this line'

    def _is_known(self, name: str) -> bool:
        return name in self._index or self._owner(name) is not None

    @staticmethod
    def _is_lug(point: Point) -> bool:
        return bool(point.part) and not point.is_lead

    def _owner(self, name: str) -> Part | None:
        at = self.rewired.index.get(name)
        return None if at is None else self.rewired.parts.get(self.rewired.points[at].part)

    def _point(self, name: str) -> int:
        """A point of the original; a lead of a new part comes with the part, a new name is a net's."""
        part = self._owner(name)
        if name not in self._index and part is not None:
            self._enter(part)
        if name not in self._index:
            self._add(Point(name, net_name=True))
        return self._index[name]

    def _enter(self, part: Part) -> None:
        """The points of a part; the part itself with its inner joints where the original has none of that name."""
        terminals = part.shape.terminals if part.shape is not None else ()
        for terminal in terminals:
            name = lead_name(part, terminal.name)
            if name not in self._index:
                self._add(Point(name, part.name, terminal))
        if part.name not in self._parts:
            self._parts[part.name] = part
            self._joins.extend(implicit({part.name: part}, self._index))

    def _add(self, point: Point) -> None:
        self._index[point.name] = len(self._points)
        self._points.append(point)


def _idle(line: Meant, what: str, do: str) -> Finding:
    return Finding(what, (Label(line.place),), do=do, touched=Touched(line.points), grade=Grade.STOP)
