"""Cards and lines of one panel while it is put together."""

from collections.abc import Sequence
from dataclasses import replace

from netcheck.compare.pair import Pair
from netcheck.core.circuit import Part
from netcheck.core.difference import Lead
from netcheck.core.kind import Role
from netcheck.core.panel import Can, End, Line, Lug, Mark, NetCard, Panel, PartBox, PlaceCard, Socket, Strip

__all__ = ["Board", "Cell"]

Cell = tuple[int, str]
"""A card's index in its row and the label of its cell."""

_LEADS_SHOWN = 6


class Board:
    """One panel in the making; places are taken from the rewired state."""

    def __init__(self, pair: Pair) -> None:
        self._pair = pair
        self._graph = pair.rewired
        self._tops: list[PlaceCard] = []
        self._bottoms: list[PlaceCard] = []
        self._parts: list[PartBox] = []
        self._lines: list[Line] = []
        self._known: dict[tuple[bool, str], int] = {}

    def panel(self) -> Panel:
        """The finished panel."""
        return Panel(tuple(self._tops), tuple(self._parts), tuple(self._bottoms), tuple(self._lines))

    def is_card(self, at: int) -> bool:
        """Whether a point is a place with neighbours: a lug, a pin, one of many leads."""
        part, point = self._graph.part_of(at), self._graph.point(at)
        if part is None or point.terminal is None or part.host:
            return False
        return point.terminal.role is Role.LUG or part.kind.place or part.kind.word == "tube" or len(part.leads) > 2

    def site(self, at: int, lead: Lead, net: int, name: str, mark: Mark) -> Cell:
        """The cell where a lead is now; the net's card where no lug is known."""
        if self.is_card(at) and at != lead.new:
            return self._place(at, mark, name)
        return self._net(net, name, mark)

    def target(self, at: int | None, net: int, name: str) -> Cell:
        """The cell where a lead belongs."""
        if at is not None and self.is_card(at):
            return self._place(at, Mark.MAKE, name)
        return self._net(net, name, Mark.MAKE)

    def target_cell(self, at: int, name: str, mark: Mark) -> None:
        """Marks a cell without a line to it."""
        if self.is_card(at):
            self._place(at, mark, name)

    def thick(self, at: int, name: str, *, bottom: bool = False) -> Cell:
        """One end of a bridge."""
        if self.is_card(at):
            return self._place(at, Mark.TAKE_OFF, name, bottom=bottom)
        point = self._graph.point(at)
        return self._net(self._graph.circuit.nets[at], point.name, Mark.TAKE_OFF, bottom=bottom)

    def line(self, upper: Cell, lower: Cell, mark: Mark) -> None:
        """A line from a place to a part's end; the same line twice is one."""
        line = Line(upper, lower, mark)
        if line not in self._lines:
            self._lines.append(line)

    def bridge(self, upper: Cell, lower: Cell, label: str) -> None:
        """A line between two places that are joined without a part."""
        self._lines.append(Line(upper, lower, Mark.TAKE_OFF, label, to_bottom=True))

    def share_a_card(self, one: int, other: int) -> bool:
        """Whether two points are lugs or pins of one place, which is drawn once."""
        owner = self._graph.point(one).part
        return self.is_card(one) and self.is_card(other) and owner == self._graph.point(other).part

    def strap(self, one: Cell, other: Cell, name: str) -> None:
        """A wire or a bridge between two lugs of one place: a box of its own with a line to each of them."""
        index = len(self._parts)
        self._parts.append(PartBox(name, (), (End(one[1]), End(other[1])), Mark.TAKE_OFF, is_joint=True))
        for cell in (one, other):
            self.line(cell, (index, cell[1]), Mark.TAKE_OFF)

    def box(self, part: Part, concerned: Sequence[int]) -> dict[int, Cell]:
        """A part; the cells of the leads concerned. Of a part with many leads only those are shown."""
        graph = self._graph
        points = graph.terminals(part)
        shown = [at for at in points if at in concerned or len(points) <= 4]
        ends = []
        for at in shown:
            terminal = graph.point(at).terminal
            label = terminal.name if terminal else ""
            ends.append(End(label, "" if at in concerned else self._net_word(at)))
        index = len(self._parts)
        values = part.features.type or " ".join(q.written for q in part.features.quantities[:2])
        self._parts.append(PartBox(part.name, (values,) if values else (), tuple(ends)))
        return {at: (index, end.label) for at, end in zip(shown, ends, strict=True) if at in concerned}

    def box_of_point(self, at: int) -> Cell:
        """The cell of a lead that a culprit joint holds."""
        part = self._graph.part_of(at)
        if part is None:
            return self.list_box(self._graph.point(at).name, ())
        return self.box(part, (at,)).get(at) or (len(self._parts) - 1, self._parts[-1].ends[0].label)

    def list_box(self, title: str, names: Sequence[str]) -> Cell:
        """One box for many leads: the first six by name."""
        shown = list(names[:_LEADS_SHOWN])
        more = f"and {len(names) - _LEADS_SHOWN} more" if len(names) > _LEADS_SHOWN else ""
        lines = (" ".join(shown[:3]), " ".join((*shown[3:], more)).strip())
        self._parts.append(PartBox(title, tuple(line for line in lines if line), (End("leads"),)))
        return len(self._parts) - 1, "leads"

    def _net_word(self, at: int) -> str:
        net = self._graph.circuit.nets[at]
        old = self._pair.home.old_of.get(net)
        return self._pair.original.net_names[old] if old is not None else self._graph.net_names[net]

    def _place(self, at: int, mark: Mark, name: str, *, bottom: bool = False) -> Cell:
        part = self._graph.part_of(at)
        point = self._graph.point(at)
        row = self._bottoms if bottom else self._tops
        if part is None or point.terminal is None:
            return self._net(self._graph.circuit.nets[at], name, mark, bottom=bottom)
        index = self._known.get((bottom, part.name))
        if index is None:
            index = self._known[bottom, part.name] = len(row)
            row.append(self._card(part))
        label = self._label(part, point.terminal.name)
        row[index] = _marked(row[index], label, mark, name)
        return index, label

    def _card(self, part: Part) -> PlaceCard:
        terminals = part.shape.terminals if part.shape else ()
        lugs = tuple(Lug(self._label(part, t.name), word="foot" if "foot" in t.aliases else "") for t in terminals)
        if part.kind.word == "tube":
            key = {8: "key", 7: "gap", 9: "gap"}.get(len([t for t in terminals if t.name.isdigit()]), "")
            return Socket(part.name, part.features.type, key, lugs)
        if part.kind.word == "can":
            return Can(part.name, lugs)
        return Strip(part.name, lugs)

    def _label(self, part: Part, terminal: str) -> str:
        if part.kind.word == "can":
            return part.features.marks.get(terminal) or terminal
        return part.name if part.kind.word == "lug" else terminal

    def _net(self, net: int, name: str, mark: Mark, *, bottom: bool = False) -> Cell:
        row = self._bottoms if bottom else self._tops
        key = (bottom, f"net {net} {name}")
        if key not in self._known:
            self._known[key] = len(row)
            leads = [self._graph.point(at).name for at in self._graph.leads_on(net)]
            row.append(NetCard(name, tuple(leads[:_LEADS_SHOWN]), len(leads), mark))
        return self._known[key], ""


def _marked(card: PlaceCard, label: str, mark: Mark, net: str) -> PlaceCard:
    """The card with one cell marked; a cell that has a mark keeps it."""

    def put(lugs: tuple[Lug, ...]) -> tuple[Lug, ...]:
        return tuple(
            replace(lug, mark=mark if lug.mark is Mark.PLAIN else lug.mark, net=lug.net or net)
            if lug.label == label
            else lug
            for lug in lugs
        )

    if isinstance(card, Socket):
        return replace(card, pins=put(card.pins))
    if isinstance(card, NetCard):
        return card
    return replace(card, lugs=put(card.lugs))
