"""Statements to joins: each layer takes away from what it inherits, then puts in its own."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from netcheck.core.circuit import How, Join, Part, Taken
from netcheck.core.diagnostic import Diagnostic, Label
from netcheck.core.kind import Family
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.model.joints import cut, lifted, soldered_at, without_parts
from netcheck.model.lead_roles import terminal_of, wrong_role
from netcheck.model.load import Layer
from netcheck.model.messages import look, one_place, stop
from netcheck.model.points import Found, PointTable, lead_name
from netcheck.model.stock import Inventory

__all__ = ["Wiring"]

_LIFTS = (tree.Lift, tree.Move)

NO_JOINT = "write the joint as the earlier file has it: a wire's two ends, or a lead and what it is soldered to"

MANY_POINTS = 8  # of a net: more are not written out in a proposal


class Wiring:
    """The joins of a chain of layers, while they are read."""

    def __init__(self, table: PointTable, stock: Inventory) -> None:
        self.table = table
        self._stock = stock
        self.joins: list[Join] = []
        self.taken: list[Taken] = []
        self.problems: list[Diagnostic] = []
        self.net_places: dict[str, Place] = {}
        self._present: Mapping[str, Part] = {}
        self._inherits = False

    def add_layer(self, number: int, layer: Layer) -> None:
        """Applies one layer to the joins of those before it."""
        before = self._stock.stages[number - 1] if number else {}
        self._inherits = bool(self.joins)
        self._name_nets(layer)
        self._present = self._stock.stages[number]
        self._take_away(layer, before)
        held = {end for join in self.joins for end in (join.a, join.b)}
        for statement in layer.statements:
            if joins := _JOINS.get(type(statement)):
                self.joins.extend(joins(self, statement))
        for at, name, lead in self._stock.fits:
            if at == number and name in self._present:
                self.joins.extend(self._leads(self._present[name], (lead,), held, lead.role.place))
        for fit in layer.of(tree.Fit):
            self.joins.extend(self._fit(fit, held))

    def forget_joins(self) -> None:
        """Keeps the parts only; what is soldered inside a moulded network is part of the part."""
        points, present = self.table.points, self._present
        self.joins = [
            join
            for join in self.joins
            if (hub := present.get(points[join.a].part)) is not None and hub.kind.family is Family.NETWORK
        ]
        self.taken.clear()

    def _name_nets(self, layer: Layer) -> None:
        for statement in layer.of(tree.Net):
            if statement.name.text in self.net_places:
                continue
            name = statement.name
            if self.table.is_terminal(name.text) and name.text != "chassis":
                owner = name.text.rstrip("+-").partition(".")[0]
                self._tell(
                    "declared-twice",
                    name.place,
                    f"`{name.text}` is a net here and also a lead of `{owner}`",
                    "give the net another name",
                )
            elif name.text == "chassis":
                self._tell(
                    "refused-name",
                    name.place,
                    "`chassis` can't name a net",
                    f"give the net a name of its own, with the chassis in it: `{_with_the_chassis(statement)}`",
                )
            else:
                self.net_places[name.text] = name.place
                self.table.add(name.text, net_name=True)

    def _take_away(self, layer: Layer, before: Mapping[str, Part]) -> None:
        gone = {name for name in before if name not in self._present}
        known = before or self._present
        off = dict(self._lifted(layer, known))
        bundles = {at: self.table.bundle(name) for at, name in off.items()}
        self._cut(layer, known)
        found = {end for join in self.joins for end in (join.a, join.b) if end in bundles}
        self._refuse_idle(layer, off, found)
        self.joins = lifted(self.joins, bundles)
        self._refuse_busy(gone, before)
        self.joins = without_parts(self.joins, self.table.points, gone)

    def _refuse_busy(self, gone: set[str], before: Mapping[str, Part]) -> None:
        """A strip, can or socket with joints at it can't be taken out from under them."""
        held = soldered_at(self.joins, self.table.points, (before[name] for name in gone))
        for name, (join, point) in sorted(held.items()):
            place = next(r.place for r in self._stock.removals if r.part == name)
            self._tell(
                "refused-change",
                place,
                f"`{name}` can't be removed: something is soldered to `{point.name}`",
                f"move that first, or keep `{name}` as a tie point",
                Label(join.place, "soldered here"),
            )

    def _lifted(self, layer: Layer, before: Mapping[str, Part]) -> Iterator[tuple[int, str]]:
        seen: dict[int, Place] = {}
        for statement in layer.statements:
            if not isinstance(statement, _LIFTS):
                continue
            words = statement.points if isinstance(statement, tree.Lift) else (statement.point,)
            if self._of_original_only(statement):
                continue
            for word in words:
                at = self._resolve_before(word, before)
                if at is None:
                    continue
                if at in seen:
                    twice = f"`{word.text}` is lifted twice"
                    self._tell("refused-change", word.place, twice, "", Label(seen[at], "first here"))
                    continue
                seen[at] = word.place
                verb = "lift" if isinstance(statement, tree.Lift) else "move"
                self.taken.append(Taken(self.table.points[at].name, verb, word.place))
                yield at, self.table.points[at].name

    def _of_original_only(self, statement: tree.Lift | tree.Move | tree.Cut) -> bool:
        """A change that a trace declares as intended: nothing is inherited here that it could take away."""
        return statement.intended is not None and not self._inherits

    def _refuse_idle(self, layer: Layer, lifted: Mapping[int, str], found: set[int]) -> None:
        for name in (name for at, name in lifted.items() if at not in found):
            place = next(t.place for t in self.taken if t.point == name and t.place.source is layer.source)
            self._tell("refused-change", place, f"`{name}` is on nothing here, so it can't be lifted")

    def _cut(self, layer: Layer, before: Mapping[str, Part]) -> None:
        cuts: list[tuple[tree.Cut, tuple[int, int]]] = []
        for statement in layer.of(tree.Cut):
            if self._of_original_only(statement):
                continue
            a, b = self._resolve_before(statement.point, before), self._resolve_before(statement.to, before)
            if a is not None and b is not None:
                cuts.append((statement, (a, b)))
        self.joins, hits = cut(self.joins, [ends for _, ends in cuts])
        for (statement, ends), hit in zip(cuts, hits, strict=True):
            if hit is not None:
                self.taken.extend(Taken(self.table.points[end].name, "cut", statement.place) for end in ends)
        self._refuse_cuts([one for one, hit in zip(cuts, hits, strict=True) if hit is None])

    def _refuse_cuts(self, cuts: Sequence[tuple[tree.Cut, tuple[int, int]]]) -> None:
        """What is there to cut at the one point or the other is proposed, as a line to write."""
        asked = {end for _, ends in cuts for end in ends}
        held: dict[int, int] = {}
        for join in self.joins if cuts else ():
            for at, other in ((join.a, join.b), (join.b, join.a)):
                if at in asked and at not in held and self._has_name(other):
                    held[at] = other
        for statement, ends in cuts:
            a, b = statement.point.text, statement.to.text
            headline = f"no joint from `{a}` to `{b}` comes from the earlier file"
            self._tell("refused-change", statement.place, headline, self._cut_instead(ends, held))

    def _cut_instead(self, ends: tuple[int, int], held: Mapping[int, int]) -> str:
        at = next((end for end in ends if end in held), None)
        if at is None:
            return NO_JOINT
        points = self.table.points
        return f"write `cut {points[at].name} to {points[held[at]].name}`, or name another joint that is there"

    def _has_name(self, at: int) -> bool:
        return self.table.index.get(self.table.points[at].name) == at

    def _net(self, statement: tree.Net) -> Iterable[Join]:
        name = statement.name.text
        return self._star(self.table.index[name], statement, How.NET) if name in self.net_places else ()

    def _move(self, statement: tree.Move) -> Iterable[Join]:
        if self._of_original_only(statement):
            return ()
        point, to = self._resolve(statement.point), self._resolve(statement.to)
        if point is None or to is None:
            return ()
        return (Join(to, point, How.SOLDERED, statement.to.place, statement.place),)

    def _at(self, statement: tree.At) -> Iterable[Join]:
        """What is soldered at one place, or at a whole strip or socket lug by lug."""
        if statement.spots:
            return self._spots(statement)
        hub = self._resolve(statement.point)
        return () if hub is None else self._star(hub, statement, How.SOLDERED)

    def _spots(self, statement: tree.At) -> Iterator[Join]:
        if self.table.is_terminal(statement.point.text):
            if "." not in statement.point.text:  # else the line has said it
                self._tell("no-such-terminal", statement.place, *one_place(statement))
            return
        for spot in statement.spots:
            lug = self._resolve(tree.Word(f"{statement.point.text}.{spot.lug.text}", spot.lug.place))
            if lug is None:
                continue
            for word in spot.points:
                if (at := self._resolve(word)) is not None:
                    yield Join(lug, at, How.SOLDERED, word.place, statement.place)

    def _star(self, hub: int, statement: tree.Net | tree.At, how: How) -> list[Join]:
        ends = [(self._resolve(word), word.place) for word in statement.points]
        return [Join(hub, at, how, place, statement.place) for at, place in ends if at is not None]

    def _wire(self, statement: tree.Wire) -> Iterator[Join]:
        words = " ".join(item.place.text for item in statement.items)
        ends = [(word, self._resolve(word)) for word in statement.points]
        passed: dict[str, None] = {}
        for word in statement.past:
            at = self._resolve(word)
            if at is not None and any(at == end for _, end in ends):
                self.problems.append(
                    look("past-own-end", word.place, f"the wire ends at `{word.text}`; it does not run past it")
                )
            elif at is not None:
                passed[self.table.points[at].name] = None
        for (_, a), (word, b) in pairwise(ends):
            if a is not None and b is not None:
                yield Join(a, b, How.WIRE, word.place, statement.place, words, tuple(passed))

    def _fit(self, statement: tree.Fit, held: set[int]) -> Iterator[Join]:
        part = self._present.get(statement.part.text)
        if part is None:
            self._resolve(statement.part)
            return
        yield from self._leads(part, statement.leads, held, statement.place)

    def _leads(self, part: Part, leads: tuple[tree.Lead, ...], held: set[int], statement: Place) -> Iterator[Join]:
        for lead in leads:
            at = self._resolve(lead.point)
            terminal = terminal_of(part, lead.role.text)
            if part.shape is None or at is None:
                continue
            if terminal is None:
                self._tell("no-such-terminal", lead.role.place, *wrong_role(part, lead.role.text))
                continue
            own = self._found(self.table.lead(part, lead_name(part, terminal), lead.role))
            if own in held:
                name = self.table.points[own].name
                self._tell(
                    "refused-change",
                    lead.point.place,
                    f"`{name}` is still connected as in the earlier file",
                    f"write `move {name} to {lead.point.text}`",
                )
                continue
            if own is not None:
                colour = lead.colour.text if lead.colour is not None else ""
                yield Join(at, own, How.LEAD, lead.point.place, statement, colour)

    def _resolve(self, word: tree.Word, stage: Mapping[str, Part] | None = None) -> int | None:
        return self._found(self.table.resolve(word, self._present if stage is None else stage))

    def _found(self, told: Found) -> int | None:
        at, problem = told
        self.problems.extend(filter(None, [problem]))
        return at

    def _resolve_before(self, word: tree.Word, before: Mapping[str, Part]) -> int | None:
        """The point of what a change takes away, which was there before the changes."""
        at, problem = self.table.resolve(word, before)
        if problem is not None and self.table.resolve(word, self._present)[0] is not None:
            headline = f"`{word.text}` comes with this file, so nothing was on it to take away"
            self._tell("refused-change", word.place, headline, "leave this out, and write what is soldered there now")
        elif problem is not None:
            self.problems.append(problem)
        return at

    def _tell(self, rule: str, place: Place, headline: str, do: str = "", *others: Label) -> None:
        self.problems.append(stop(rule, place, headline, do, *others))


_JOINS: Mapping[type, Callable[[Wiring, Any], Iterable[Join]]] = {
    tree.Net: Wiring._net, tree.At: Wiring._at, tree.Move: Wiring._move, tree.Wire: Wiring._wire,  # noqa: SLF001
}  # fmt: skip
"""What puts in the joins of a statement, in the order of the text."""


def _with_the_chassis(net: tree.Net) -> str:
    """A line of a net that was to be called ``chassis``, with a name of its own."""
    points = [point.text for point in net.points if point.text != "chassis"]
    shown = points if len(points) <= MANY_POINTS else [*points[:2], "..."]
    return f"net ground: {', '.join(['chassis', *shown])}"
