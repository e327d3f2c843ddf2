"""The circuit as nodes and ties: a net is a card, a part with two leads a tie, any other a box; rails are words.

What `place` lines put on each other is named and not drawn.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct, field

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.panel import Mark
from netcheck.model.graph import CircuitGraph
from netcheck.reports.drawing.lettering import brief, label
from netcheck.reports.drawing.whole.signs import Changed, Sign

__all__ = ["DrawingPlan", "Node", "Tie", "planned"]

_RAIL = 8
"""A net with more leads than this is a word at each of them, and no knot that all lines run to."""

_MOST_LINES = 7
_BY_WHAT_IT_IS = (Family.TRANSFORMER, Family.SWITCH, Family.PLUG, Family.CORD)


class Node(Struct, frozen=True):
    """A card, a box or a rail's word at the end of a sign: its head, the lines under it, the findings' numbers."""

    key: str
    kind: str
    head: str
    lines: tuple[str, ...] = ()
    numbers: tuple[int, ...] = ()
    mark: Mark = Mark.PLAIN


class Tie(Struct, frozen=True):
    """A line between two nodes: a part with two leads, a lead of a box, or a sign."""

    a: str
    b: str
    words: str
    sign: Sign | None = None


class DrawingPlan(Struct, frozen=True):
    """``aside`` are the parts that lie between two rails."""

    nodes: tuple[Node, ...]
    ties: tuple[Tie, ...]
    aside: tuple[str, ...] = ()


def planned(graph: CircuitGraph, signs: Sequence[Sign], changed: Sequence[Changed]) -> DrawingPlan:
    """The plan of a state, with signs between its points."""
    return _Planner(graph, signs, changed).plan()


class _Planner(Struct):
    graph: CircuitGraph
    signs: Sequence[Sign]
    changed: Sequence[Changed]
    lines: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    numbers: dict[str, set[int]] = field(default_factory=lambda: defaultdict(set))
    ties: list[Tie] = field(default_factory=list)
    boxes: dict[str, Part] = field(default_factory=dict)
    cards: dict[str, int] = field(default_factory=dict)
    tags: list[Node] = field(default_factory=list)
    awaited: set[int] = field(default_factory=set)
    aside: list[str] = field(default_factory=list)

    def plan(self) -> DrawingPlan:
        signed = {at for sign in self.signs for at in (sign.a, sign.b)}
        self.awaited = {self._net(at) for at in signed}
        marked = {one.part: one for one in self.changed}
        for part in self.graph.circuit.parts.values():
            leads = self._leads(part)
            if not leads:  # strips, lugs and cans are only places
                continue
            nets = [self._net(at) for at in leads]
            plain = part.name not in marked and signed.isdisjoint(leads)
            if plain and len(leads) == 2 and all(map(self._is_joined, nets)):
                self._two_leads(part, nets)
            else:
                self._box(part, leads, signed)
        self._signed()
        for one in self.changed:
            if one.part in self.boxes:
                self.numbers[_box(one.part)].add(one.number)
        nodes = [*self._card_nodes(), *self._box_nodes({one.part for one in self.changed if one.out}), *self.tags]
        return _folded(DrawingPlan(tuple(nodes), tuple(self.ties), tuple(self.aside)))

    def _leads(self, part: Part) -> list[int]:
        return list(self.graph.terminals(part))

    def _net(self, at: int) -> int:
        return self.graph.circuit.nets[at]

    def _is_joined(self, net: int) -> bool:
        if net in self.awaited and len(self.graph.members[net]) > 1:
            return True
        return self._is_rail(net) or len(self.graph.leads_on(net)) > 1 or bool(self.graph.declared_names(net))

    def _is_rail(self, net: int) -> bool:
        circuit = self.graph.circuit
        common = circuit.index.get(circuit.common)
        if net == circuit.nets[0] or (common is not None and net == circuit.nets[common]):
            return True
        return len(self.graph.leads_on(net)) > _RAIL

    def _name(self, net: int) -> str:
        return brief(self.graph.net_names[net])

    def _card(self, net: int) -> str:
        key = f"n{net}"
        self.cards.setdefault(key, net)
        return key

    def _two_leads(self, part: Part, nets: Sequence[int]) -> None:
        one, other = nets
        said = _said(part)
        if self._is_rail(one) and self._is_rail(other):
            self.aside.append(f"{said}, {self._name(one)} to {self._name(other)}")
        elif one == other:
            self.lines[self._card(one)].append(f"{said}, both ends")
        elif self._is_rail(one) or self._is_rail(other):
            card, rail = (other, one) if self._is_rail(one) else (one, other)
            self.lines[self._card(card)].append(f"{said} to {self._name(rail)}")
        else:
            self.ties.append(Tie(self._card(one), self._card(other), said))

    def _box(self, part: Part, leads: Sequence[int], signed: set[int]) -> None:
        """Its leads on a rail, and loose ones, in words; a lead with a sign has the sign's own line."""
        key = _box(part.name)
        self.boxes[part.name] = part
        ties: dict[int, list[str]] = defaultdict(list)
        words: dict[str, list[str]] = defaultdict(list)
        for at in leads:
            net, name = self._net(at), self._label(at)
            if self._is_rail(net):
                words[self._name(net)].append(name)
            elif self._is_joined(net):
                ties[net].append(name)
            elif at not in signed:
                words["open"].append(name)
        self.lines[key] = [f"{' '.join(names)} {rail}" for rail, names in words.items()]
        self.ties += [Tie(key, self._card(net), " ".join(names)) for net, names in ties.items()]

    def _label(self, at: int) -> str:
        terminal = self.graph.point(at).terminal
        return label(terminal.name) if terminal is not None else ""

    def _signed(self) -> None:
        for sign in self.signs:
            ends = [self._end(at) for at in (sign.a, sign.b)]
            for end in ends:
                self.numbers[end].add(sign.number)
            self.ties.append(Tie(ends[0], ends[1], self._sign_words(sign), sign))

    def _sign_words(self, sign: Sign) -> str:
        own = [self._label(at) for at in (sign.a, sign.b) if self.graph.point(at).part in self.boxes]
        said = sign.words.partition(" AWG")[0].rstrip("0123456789 ") if sign.words else ""
        return " ".join(word for word in (f"{sign.number}:", " to ".join(own), said) if word)

    def _end(self, at: int) -> str:
        point = self.graph.point(at)
        if point.part in self.boxes:
            return _box(point.part)
        net = self._net(at)
        if not self._is_rail(net):
            return self._card(net)
        head = self._name(net)
        said = head if not at or point.net_name else f"{point.name} ({head})"
        tag = Node(f"t{len(self.tags)}", "rail", brief(said), (), ())
        self.tags.append(tag)
        return tag.key

    def _card_nodes(self) -> Iterator[Node]:
        for key, net in self.cards.items():
            yield Node(key, "card", self._name(net), _few(self.lines[key]), tuple(sorted(self.numbers[key])))

    def _box_nodes(self, out: set[str]) -> Iterator[Node]:
        for name, part in self.boxes.items():
            key = _box(name)
            mark = Mark.OFF if name in out else Mark.PLAIN
            yield Node(key, "box", _said(part), _few(self.lines[key]), tuple(sorted(self.numbers[key])), mark)


def _box(name: str) -> str:
    return f"p{name}"


def _said(part: Part) -> str:
    """``C54 27 mfd 50 V``; a tube by its type, another part by its first two values."""
    features = part.features
    values = [q.written for q in features.quantities[:2]]
    words = [part.name, features.type or features.description, *([] if features.type else values)]
    if part.kind.family in _BY_WHAT_IT_IS:
        words = [part.name, features.description or part.kind.word]
    return " ".join(brief(word) for word in words if word)


def _few(lines: Sequence[str]) -> tuple[str, ...]:
    if len(lines) <= _MOST_LINES:
        return tuple(lines)
    return (*lines[: _MOST_LINES - 1], f"and {len(lines) - _MOST_LINES + 1} more")


def _folded(plan: DrawingPlan) -> DrawingPlan:
    """A card that only one box touches, and no sign, becomes lines of that box."""
    nodes = {node.key: node for node in plan.nodes}
    touching: dict[str, list[Tie]] = defaultdict(list)
    for tie in plan.ties:
        touching[tie.a].append(tie)
        touching[tie.b].append(tie)
    gone = {key: _only(touching[key], nodes) for key, node in nodes.items() if node.kind == "card" and node.lines}
    folds = {key: tie for key, tie in gone.items() if tie is not None}
    return DrawingPlan(
        tuple(_with(nodes, folds, node) for key, node in nodes.items() if key not in folds),
        tuple(tie for tie in plan.ties if tie not in folds.values()),
        plan.aside,
    )


def _only(ties: Sequence[Tie], nodes: Mapping[str, Node]) -> Tie | None:
    fits = len(ties) == 1 and ties[0].sign is None and nodes[ties[0].a].kind == "box"
    return ties[0] if fits else None


def _with(nodes: Mapping[str, Node], folds: Mapping[str, Tie], box: Node) -> Node:
    own = [(nodes[key], tie) for key, tie in folds.items() if tie.a == box.key]
    more = [line for card, tie in own for line in (f"{tie.words} {card.head}:", *(f"   {one}" for one in card.lines))]
    return Node(box.key, box.kind, box.head, (*box.lines, *more), box.numbers, box.mark)
