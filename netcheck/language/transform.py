"""Parse trees to syntax nodes: one method for each rule of the grammar, named like it."""
# ruff: noqa: D102  # what a method reads stands in the grammar, what it returns in tree.py

from netcheck.language import tree
from netcheck.language.pieces import Child, Pieces

__all__ = ["Transform"]


class Transform(Pieces):
    """Reads the parse trees of one source; ``slips`` gathers what could be parsed and still is wrong."""

    def statement(self, parsed: Child, start: int, end: int) -> tree.Statement:
        """The node of a logical line that lies at the offsets."""
        self.start = start
        self.line = self.source.between(start, end)
        node: tree.Statement = getattr(self, parsed.data)(*parsed.children)
        return node

    def title(self, text: Child) -> tree.Title:
        return tree.Title(self.line, self.text(text))

    def state(self, word: Child, unfinished: Child) -> tree.State:
        return tree.State(self.line, self.word(word), self.maybe(unfinished))

    def mains(self, *values: Child) -> tree.Mains:
        return tree.Mains(self.line, tuple(map(self.value, values)))

    def note(self, subject: Child, text: Child) -> tree.Note:
        return tree.Note(self.line, self.maybe(subject), self.text(text))

    def include(self, path: Child) -> tree.Include:
        return tree.Include(self.line, self.text(path))

    def start_from(self, _from: Child, path: Child) -> tree.Base:
        return tree.Base(self.line, self.text(path), joins=True)

    def parts_from(self, _from: Child, path: Child) -> tree.Base:
        return tree.Base(self.line, self.text(path), joins=False)

    def covers(self, *names: Child) -> tree.Covers:
        return tree.Covers(self.line, self.words(names))

    def all(self, what: Child, _in: Child, unit: Child) -> tree.Convention:
        return tree.Convention(self.line, self.word(what), self.word(unit))

    def lamp(self, kind: Child, name: Child, number: Child, *rest: Child) -> tree.Part:
        items, clauses = self.body(rest)
        printed = () if number is None else (self.word(number),)
        return tree.Part(self.line, self.word(kind), self.word(name), (*printed, *items), clauses)

    def part(self, kind: Child, name: Child, *rest: Child) -> tree.Part:
        return tree.Part(self.line, self.word(kind), self.word(name), *self.body(rest))

    def tube(self, kind: Child, name: Child, type_: Child, *rest: Child) -> tree.Part:
        items, clauses = self.body(rest)
        return tree.Part(self.line, self.word(kind), self.word(name), (self.word(type_), *items), clauses)

    def section(self, name: Child, *rest: Child) -> tree.Section:
        return tree.Section(self.line, self.word(name), *self.body(rest))

    def winding(self, part: Child, name: Child, *rest: Child) -> tree.Winding:
        said = [token for token in rest if token is not None]
        self.refuse_ways(said)
        leads = tuple(self.word(token) for token in said if token.type == "NAME")
        values = tuple(self.value(token) for token in said if token.type == "QUANTITY")
        each_side = any(token.type == "EACH" for token in said)
        return tree.Winding(self.line, self.word(part), self.word(name), leads, values, each_side)

    def position(self, switch: Child, name: Child, *groups: Child) -> tree.Position:
        closed = tuple(self.words(group.children) for group in groups)
        self.refuse_ways([token for group in groups for token in group.children])
        return tree.Position(self.line, self.word(switch), self.word(name), closed)

    def basing(self, type_: Child, *pins: Child) -> tree.Basing:
        labelled = tuple(tree.PinOf(*self.words(pin.children)) for pin in pins)
        return tree.Basing(self.line, self.word(type_), labelled)

    def net(self, name: Child, *rest: Child) -> tree.Net:
        return tree.Net(self.line, self.word(name), self.words(rest[:-1]), self.intent(rest[-1]))

    def meant(self, name: Child, *points: Child) -> tree.Meant:
        return tree.Meant(self.line, self.word(name), self.words(points))

    def at(self, point: Child, *rest: Child) -> tree.At:
        groups = [self.words(group.children) for group in rest[:-1]]
        intended = self.intent(rest[-1])
        if all(len(words) == 1 for words in groups):
            return tree.At(self.line, self.word(point), tuple(words[0] for words in groups), intended)
        self.refuse_missing_comma(point, groups)
        spots = tuple(tree.Spot(words[0], words[1:]) for words in groups)
        return tree.At(self.line, self.word(point), (), intended, spots)

    def wire(self, *children: Child) -> tree.Wire:
        ends = 1 + 2 * sum(getattr(child, "type", "") == "TO" for child in children)
        rest = children[ends:]
        items = self.items(child for child in rest if isinstance(child, str))
        clauses = [child for child in rest if not isinstance(child, str)]
        past = tuple(word for c in clauses if c.data == "past" for word in self.words(c.children[1:]))
        intended = self.intent(self.only([c for c in clauses if c.data == "intended"]))
        return tree.Wire(self.line, self.words(children[:ends:2]), items, past, intended)

    def fit(self, part: Child, leads: Child, colour: Child, intended: Child) -> tree.Fit:
        return tree.Fit(self.line, self.word(part), self.leads(leads, colour), self.intent(intended))

    def spare(self, *children: Child) -> tree.Spare:
        return tree.Spare(self.line, self.words(children[:-1]), self.maybe(children[-1]))

    def common(self, point: Child) -> tree.Common:
        return tree.Common(self.line, self.word(point))

    def apart(self, *children: Child) -> tree.Apart:
        return tree.Apart(self.line, self.words(children[:-1]), self.maybe(children[-1]))

    def place(self, name: Child, *rest: Child) -> tree.Stand:
        right, right_unit, front, front_unit, turned = rest
        across = self.word(right), self.maybe(right_unit)
        along = self.word(front), self.maybe(front_unit)
        return tree.Stand(self.line, self.word(name), *across, *along, turned is not None)

    def volts(self, point: Child, _to: Child, to: Child, value: Child) -> tree.Volts:
        return tree.Volts(self.line, self.word(point), self.maybe(to), self.value(value))

    def draws(self, point: Child, value: Child) -> tree.Draws:
        return tree.Draws(self.line, self.word(point), self.value(value))

    def supply(self, point: Child, _to: Child, to: Child, *rest: Child) -> tree.Supply:
        value, reason = rest
        return tree.Supply(self.line, self.word(point), self.word(to), self.value(value), self.maybe(reason))

    def meter(self, value: Child) -> tree.Meter:
        return tree.Meter(self.line, self.value(value))

    def leakage(self, value: Child) -> tree.Leakage:
        return tree.Leakage(self.line, self.value(value))

    def remove(self, *children: Child) -> tree.Remove:
        *names, bridged, reason = children
        return tree.Remove(self.line, self.words(names), self.maybe(bridged), self.maybe(reason))

    def lift(self, *children: Child) -> tree.Lift:
        return tree.Lift(self.line, self.words(children[:-1]), self.intent(children[-1]))

    def move(self, point: Child, _to: Child, to: Child, intended: Child) -> tree.Move:
        return tree.Move(self.line, self.word(point), self.word(to), self.intent(intended))

    def cut(self, point: Child, _to: Child, to: Child, intended: Child) -> tree.Cut:
        return tree.Cut(self.line, self.word(point), self.word(to), self.intent(intended))

    def change(self, name: Child, *rest: Child) -> tree.Change:
        said = [token for token in rest if token is not None]
        kind = said[0] if said[0].type in ("KIND", "TUBE", "LAMP") else None
        return tree.Change(self.line, self.word(name), self.maybe(kind), self.items(said[kind is not None :]))

    def accept(self, rule: Child, *rest: Child) -> tree.Accept:
        return tree.Accept(self.line, self.word(rule), self.words(rest[:-1]), self.text(rest[-1]))
