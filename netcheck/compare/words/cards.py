"""The cards of a panel while it is put together: each place and part once, with the cells that lines end at."""

from collections.abc import Callable
from itertools import takewhile

from netcheck.core.circuit import How, Part
from netcheck.core.kind import Family, Junction, Role, Seat
from netcheck.core.panel import (
    BareChassis,
    Can,
    Card,
    Cell,
    Done,
    End,
    Form,
    Lug,
    Mark,
    NetCard,
    PartBox,
    Socket,
    Strip,
    Winding,
)
from netcheck.model.graph import CircuitGraph

__all__ = ["Cards", "form_of", "place_card", "written"]

_FORMS = {
    Family.RESISTOR: Form.RESISTOR,
    Family.CAPACITOR: Form.CAPACITOR,
    Family.ELECTROLYTIC: Form.ELECTROLYTIC,
    Family.INDUCTOR: Form.COIL,
    Family.RECTIFIER: Form.DIODE,
    Family.FUSE: Form.FUSE,
    Family.LAMP: Form.LAMP,
}
_SHOWN_WHOLE = 4
"""Of a part with more leads only those are shown that something is done to, or whose winding it is."""


class Cards:
    """``names_lead`` and ``names_place`` say what stands beside a lead that stays, and over a lug."""

    def __init__(
        self, graph: CircuitGraph, names_lead: Callable[[int], str], names_place: Callable[[int], str]
    ) -> None:
        self._graph = graph
        self._names_lead, self._names_place = names_lead, names_place
        self._parts: dict[str, list[int]] = {}
        self._order: list[tuple[str, str | int]] = []
        self._lugs: dict[str, set[int]] = {}
        self._marked: dict[str, tuple[Mark, Done]] = {}

    def at(self, at: int) -> int:
        """The point by which one solders to another: a section's lead is its can's lug."""
        part = self._graph.part_of(at)
        if part is not None and part.host:
            inside = [j for j in self._graph.joins_at[at] if j.how is How.INSIDE]
            return inside[0].a if inside and inside[0].b == at else inside[0].b if inside else at
        return at

    def spot(self, at: int) -> Cell:
        """The cell of a point; its card is there from now on."""
        at = self.at(at)
        part, point = self._graph.part_of(at), self._graph.point(at)
        if at == 0:
            return self._index(("chassis", "")), ""
        if part is None or point.terminal is None:
            chassis = self._graph.circuit.nets[at] == self._graph.circuit.nets[0]
            return self._index(("chassis", "") if chassis else ("net", at)), ""
        if is_place(part, point.terminal.role):
            self._lugs.setdefault(part.name, set()).add(at)
            return self._index(("place", part.name)), _lug_label(part, point.terminal.name)
        concerned = self._parts.setdefault(part.name, [])
        if at not in concerned:
            concerned.append(at)
        return self._index(("part", part.name)), point.terminal.name

    def marked(self, part: Part, mark: Mark, done: Done) -> None:
        """A part that is itself put in or taken out."""
        self._index(("part", part.name))
        self._marked[part.name] = (mark, done)

    def made(self) -> tuple[Card, ...]:
        """The cards in the order in which they were asked for."""
        return tuple(self._card(kind, key) for kind, key in self._order)

    def _index(self, key: tuple[str, str | int]) -> int:
        if key not in self._order:
            self._order.append(key)
        return self._order.index(key)

    def _card(self, kind: str, key: str | int) -> Card:
        if kind == "chassis":
            return BareChassis()
        if isinstance(key, int):
            return self._net(key)
        part = self._graph.circuit.parts[key]
        if kind == "place":
            marked = self._lugs.get(key, set())
            return place_card(self._graph, part, lambda at: self._names_place(at) if at in marked else "")
        return self._box(part)

    def _net(self, at: int) -> NetCard:
        leads = self._graph.leads_on(self._graph.circuit.nets[at])
        names = tuple(self._graph.point(o).name for o in leads)
        return NetCard(self._names_place(at) or self._graph.point(at).name, names[:6], len(names))

    def _box(self, part: Part) -> PartBox:
        concerned = self._parts.get(part.name, [])
        points = self._graph.terminals(part)
        shown = _shown(self._graph, part, concerned)
        ends = tuple(
            End(_terminal(self._graph, at), "" if at in concerned else self._names_lead(at))
            for at in [*(p for p in points if p in shown), *(p for p in concerned if p not in points)]
        )
        mark, done = self._marked.get(part.name, (Mark.PLAIN, None))
        values = (text,) if (text := written(part)) else ()
        return PartBox(part.name, values, ends, form_of(part), mark, _windings(part, {e.label for e in ends}), done)


def is_place(part: Part, role: Role) -> bool:
    """Whether a terminal is one that something is soldered to: a lug, a pin, a can, a plug's pin."""
    return role is Role.LUG or part.kind.holds_leads


def _lug_label(part: Part, terminal: str) -> str:
    if part.kind.seat is Seat.LUG:
        return part.name
    return part.features.marks.get(terminal, terminal) or terminal


def place_card(graph: CircuitGraph, part: Part, net: Callable[[int], str]) -> Strip | Socket | Can:
    """A place with all its lugs; ``net`` says what stands over each."""
    from netcheck.model.places import socket_key
    from netcheck.model.points import lead_name

    terminals = part.shape.terminals if part.shape else ()
    lugs = tuple(
        Lug(
            _lug_label(part, t.name),
            "foot" if "foot" in t.aliases else "",
            net(graph.circuit.index[lead_name(part, t.name)]),
        )
        for t in terminals
    )
    if part.kind.seat is Seat.SOCKET:
        return Socket(part.name, part.features.type, socket_key(part), lugs)
    return Can(part.name, lugs) if part.kind.seat is Seat.CAN else Strip(part.name, lugs)


def form_of(part: Part) -> Form:
    """What a part looks like."""
    if part.features.windings:
        return Form.WINDINGS
    stack = part.kind.junction is Junction.SELENIUM
    form = Form.STACK if stack else _FORMS.get(part.kind.family, Form.BOX)
    return form if len(part.leads) == 2 else Form.BOX


def written(part: Part) -> str:
    """What the file says of a part in short: its type, or its first two values; of a tapped resistor each section."""
    if part.features.windings:
        return part.features.description
    values = part.features.quantities
    sections = sum(1 for _ in takewhile(lambda q: q.dimension is values[0].dimension, values))
    said = " ".join(q.written for q in values[: max(2, sections)])
    return part.features.type or said or part.features.description


def _terminal(graph: CircuitGraph, at: int) -> str:
    terminal = graph.point(at).terminal
    return terminal.name if terminal else ""


def _shown(graph: CircuitGraph, part: Part, concerned: list[int]) -> set[int]:
    points = graph.terminals(part)
    if len(points) <= _SHOWN_WHOLE and not part.features.windings:
        return set(points)
    labels = {_terminal(graph, at) for at in concerned}
    beside = {lead for _, leads in part.features.windings for lead in leads if labels.intersection(leads)}
    shown = {at for at in points if at in concerned or _terminal(graph, at) in beside}
    return shown or set(points[:_SHOWN_WHOLE])


def _windings(part: Part, labels: set[str]) -> tuple[Winding, ...]:
    return tuple(
        Winding(
            name, " ".join(q.written for q in part.features.winding_values.get(name, ())[:2]),
            tuple(lead for lead in leads if lead in labels),
        )
        for name, leads in part.features.windings
        if labels.intersection(leads)
    )  # fmt: skip
