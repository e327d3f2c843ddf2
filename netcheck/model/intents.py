"""What a file says about its joins beside making them: scope, intentions, acceptances, readings."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.core.circuit import (
    Acceptance,
    Apart,
    Chart,
    Declared,
    Intended,
    Meant,
    Part,
    Spared,
    Stand,
    StatedLoad,
    StateOfWork,
)  # fmt: skip
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.quantity import Dimension, Quantity
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.model.load import Layer
from netcheck.model.messages import stop
from netcheck.model.points import PointTable
from netcheck.model.sizes import of_no_line, unfit
from netcheck.model.stands import outside, stands

__all__ = ["Sayings", "sayings"]


class Sayings(Struct):
    """Everything said over all layers; the last layer's title, state, mains, common, meter and leakage stand."""

    title: str = ""
    state: StateOfWork = StateOfWork.UNSAID
    unfinished: bool = False
    mains: tuple[Quantity, ...] = ()
    common: str = "chassis"
    meter: Quantity | None = None
    leakage: Quantity | None = None
    covers: list[Declared] = field(default_factory=list)
    spared: list[Spared] = field(default_factory=list)
    apart: list[Apart] = field(default_factory=list)
    intended: list[Intended] = field(default_factory=list)
    meant: list[Meant] = field(default_factory=list)
    acceptances: list[Acceptance] = field(default_factory=list)
    charts: list[Chart] = field(default_factory=list)
    loads: list[StatedLoad] = field(default_factory=list)
    supplies: list[StatedLoad] = field(default_factory=list)
    notes: list[tuple[str, str]] = field(default_factory=list)
    stands: dict[str, Stand] = field(default_factory=dict)
    problems: list[Diagnostic] = field(default_factory=list)


def sayings(chain: tuple[Layer, ...], table: PointTable, stages: tuple[Mapping[str, Part], ...]) -> Sayings:
    """Reads the statements that make no join, each against the parts present in its layer."""
    said = Sayings()
    for number, layer in enumerate(chain):
        reader = _Reader(said, table, stages[number])
        reader.read(layer)
    said.problems.extend(outside(said.stands))
    return said


class _Reader:
    """Reads one layer."""

    def __init__(self, said: Sayings, table: PointTable, present: Mapping[str, Part]) -> None:
        self._said = said
        self._table = table
        self._present = present

    def read(self, layer: Layer) -> None:
        found, problems = stands(layer, self._present)
        self._said.stands.update(found)
        self._said.problems.extend(problems)
        once: dict[type, Place] = {}
        for statement in layer.statements:
            kind = type(statement)
            if kind in _ONCE and once.setdefault(kind, statement.place) is not statement.place:
                self._twice(statement, once[kind])
                continue
            if (read := _ONCE.get(kind) or _EACH.get(kind)) is not None:
                read(self, statement)
            self._intended(statement)

    def _twice(self, statement: tree.Statement, first: Place) -> None:
        word = type(statement).__name__.lower()
        self._tell(
            "declared-twice", statement.place, f"a file has one `{word}` line", "take one away", Label(first, "first")
        )

    def title(self, statement: tree.Title) -> None:
        self._said.title = statement.text.text

    def note(self, statement: tree.Note) -> None:
        subject = "" if statement.subject is None else self._noted(statement.subject)
        self._said.notes.append((subject, statement.text.text))

    def _noted(self, word: tree.Word) -> str:
        """What a note is on: a part, be it taken out, or a point; as it joins nothing, one on neither is a LOOK."""
        if self._table.knows_part(word.text):
            return word.text
        at, problem = self._table.resolve(word, self._present)
        if problem is not None and problem.rule != "removed-part":
            self._said.problems.append(replace(problem, grade=Grade.LOOK))
        return word.text if at is None else self._table.points[at].name

    def common(self, statement: tree.Common) -> None:
        self._said.common = self._name(statement.point) or self._said.common

    def spare(self, statement: tree.Spare) -> None:
        self._said.spared.append(Spared(*self._declared(statement)))

    def apart(self, statement: tree.Apart) -> None:
        self._said.apart.append(Apart(*self._declared(statement)))

    def _declared(self, statement: tree.Spare | tree.Apart) -> tuple[tuple[str, ...], Place, str]:
        reason = statement.reason.text if statement.reason else ""
        return self._names(statement.points), statement.place, reason

    def state(self, statement: tree.State) -> None:
        self._said.state = StateOfWork(statement.word.text)
        self._said.unfinished = statement.unfinished is not None

    def mains(self, statement: tree.Mains) -> None:
        values = tuple(i.quantity for i in statement.items if isinstance(i, tree.Value) and i.quantity is not None)
        for value in values:
            if value.dimension not in (Dimension.VOLTAGE, Dimension.FREQUENCY):
                self._tell("wrong-value", statement.place, f"the mains have volts and hertz, not `{value.written}`")
        self._said.problems.extend((*unfit(statement.items), *of_no_line(statement.items)))
        self._said.mains = values

    def measure(self, statement: tree.Meter | tree.Leakage) -> None:
        value = statement.value
        if isinstance(statement, tree.Meter):
            if value.quantity is None or value.quantity.dimension in (Dimension.SENSITIVITY, Dimension.RESISTANCE):
                self._said.meter = value.quantity
                return
            headline = f"a meter has ohms per volt, or ohms, not `{value.place.text}`"
            self._tell("wrong-value", value.place, headline, "write it as in `meter 20000 ohm/V` or `meter 11 meg`")
        elif self._is(value, Dimension.CURRENT) and value.quantity is not None:
            self._said.leakage = value.quantity

    def covers(self, statement: tree.Covers) -> None:
        names = tuple(n for n in map(self._part_or_point, statement.names) if n)
        self._said.covers.append(Declared(names, statement.place))

    def _part_or_point(self, word: tree.Word) -> str:
        return word.text if self._table.knows_part(word.text) else self._name(word)

    def meant(self, statement: tree.Meant) -> None:
        """The net may be one of the original that this file does not name, so that only a terminal is resolved."""
        name = statement.name
        net = self._name(name) if self._table.is_terminal(name.text) or "." in name.text else name.text
        points = tuple(found for found in map(self._lead, statement.points) if found)
        if net and points:
            self._said.meant.append(Meant(net, points, statement.place))

    def _lead(self, word: tree.Word) -> str:
        """A part's lead; the drawing knows no lugs."""
        at: int | None = self._table.index.get(word.text)
        if at is None or not self._table.points[at].is_lead or self._table.points[at].part not in self._present:
            at, problem = self._table.resolve(word, self._present)
            if problem is not None:
                self._said.problems.append(problem)
        if at is None:
            return ""
        point = self._table.points[at]
        if not point.is_lead:
            do = "name the leads that are soldered there: a drawing lists leads, and knows no lugs"
            self._tell("no-such-terminal", word.place, f"`{word.text}` is no lead of a part", do)
            return ""
        return point.name

    def volts(self, statement: tree.Volts) -> None:
        point = self._name(statement.point)
        to = self._name(statement.to) if statement.to else ""
        if point and self._is(statement.value, Dimension.VOLTAGE) and statement.value.quantity:
            self._said.charts.append(Chart(point, to, statement.value.quantity, statement.place))

    def load(self, statement: tree.Draws | tree.Supply) -> None:
        point = self._name(statement.point)
        if isinstance(statement, tree.Draws):
            if point and self._is(statement.value, Dimension.CURRENT) and statement.value.quantity:
                self._stated(self._said.loads, StatedLoad(point, "", statement.value.quantity, statement.place))
            return
        to = self._name(statement.to)
        if point and to and self._is(statement.value, Dimension.VOLTAGE) and statement.value.quantity:
            self._stated(self._said.supplies, StatedLoad(point, to, statement.value.quantity, statement.place))

    def _stated(self, known: list[StatedLoad], load: StatedLoad) -> None:
        """Keeps what a line states; of the same points a later file states it anew, and one file states it once."""
        same = next((one for one in known if (one.point, one.to) == (load.point, load.to)), None)
        if same is None:
            known.append(load)
        elif same.place.source is load.place.source:
            word = f"supply {load.point} to {load.to}" if load.to else f"draws {load.point}"
            headline = f"a file has one `{word}` line; there is one of {same.value.written}"
            self._tell("declared-twice", load.place, headline, "put it in one line", Label(same.place, "first"))
        else:
            known[known.index(same)] = load

    def _is(self, value: tree.Value, dimension: Dimension) -> bool:
        if value.quantity is None or value.quantity.dimension is dimension:
            return True
        self._tell("wrong-value", value.place, f"a value in {dimension.value}s belongs here, not `{value.place.text}`")
        return False

    def accept(self, statement: tree.Accept) -> None:
        subjects = tuple(w.text for w in statement.subjects)
        self._said.acceptances.append(Acceptance(statement.rule.text, subjects, statement.reason.text, statement.place))

    def _intended(self, statement: tree.Statement) -> None:
        intent = getattr(statement, "intended", None)
        if intent is None or not isinstance(statement, _CHANGES):
            return
        verb = type(statement).__name__.lower()
        for words in _joints_of(statement):
            points = tuple(map(self._canonical, words))
            self._said.intended.append(Intended(verb, points, intent.reason.text, statement.place))

    def _canonical(self, word: tree.Word) -> str:
        """A point's own name; what is no point was told where its statement was read."""
        at, _ = self._table.resolve(word, self._present)
        return word.text if at is None else self._table.points[at].name

    def _names(self, words: tuple[tree.Word, ...]) -> tuple[str, ...]:
        return tuple(n for n in map(self._name, words) if n)

    def _name(self, word: tree.Word) -> str:
        at, problem = self._table.resolve(word, self._present)
        if problem is not None:
            self._said.problems.append(problem)
        return "" if at is None else self._table.points[at].name

    def _tell(self, rule: str, place: Place, headline: str, do: str = "", *others: Label) -> None:
        self._said.problems.append(stop(rule, place, headline, do, *others))


_ONCE: Mapping[type, Callable[[_Reader, Any], None]] = {
    tree.Title: _Reader.title, tree.State: _Reader.state, tree.Mains: _Reader.mains, tree.Meter: _Reader.measure,
    tree.Leakage: _Reader.measure, tree.Common: _Reader.common, tree.Covers: _Reader.covers,
}  # fmt: skip
"""What reads a statement that makes no join and that a file has one of: a second one is told, not read."""

_EACH: Mapping[type, Callable[[_Reader, Any], None]] = {
    tree.Note: _Reader.note, tree.Accept: _Reader.accept, tree.Spare: _Reader.spare, tree.Apart: _Reader.apart,
    tree.Volts: _Reader.volts, tree.Draws: _Reader.load, tree.Supply: _Reader.load, tree.Meant: _Reader.meant,
}  # fmt: skip
"""The same of those that a file may have many of."""

_CHANGES = (tree.Net, tree.At, tree.Wire, tree.Fit, tree.Lift, tree.Move, tree.Cut)


def _joints_of(statement: tree.Statement) -> Iterator[tuple[tree.Word, ...]]:
    """The points of each joint that a change speaks of; a line about a whole strip speaks of one a lug."""
    if isinstance(statement, tree.At) and statement.spots:
        for spot in statement.spots:
            lug = tree.Word(f"{statement.point.text}.{spot.lug.text}", spot.lug.place)
            yield (lug, *spot.points)
        return
    yield tuple(_points_of(statement))


def _points_of(statement: tree.Statement) -> Iterator[tree.Word]:
    """The points that a change speaks of, the hub or the lead first."""
    match statement:
        case tree.Net(name=hub, points=points) | tree.At(point=hub, points=points):
            yield hub
            yield from points
        case tree.Wire(points=points) | tree.Lift(points=points):
            yield from points
        case tree.Fit(leads=leads):
            yield from (lead.point for lead in leads)
        case tree.Move(point=point, to=to) | tree.Cut(point=point, to=to):
            yield point
            yield to
        case _:
            pass
