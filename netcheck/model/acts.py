"""A mend carried out on a circuit: what a work log of the same lines, on top of its file, would make of it."""

from collections.abc import Iterator, Mapping
from functools import cached_property

from msgspec.structs import replace

from netcheck.core.circuit import Circuit, How, Join, Part, Point, Removal, Taken
from netcheck.core.diagnostic import Flaw, Grade
from netcheck.core.kind import Basing, Family, Features
from netcheck.core.mend import Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.core.source import Source
from netcheck.language import tree
from netcheck.language.parser import parse
from netcheck.model.closure import closure
from netcheck.model.features import changed, features_of
from netcheck.model.joints import cut, implicit, lifted, soldered_at, without_parts
from netcheck.model.points import HUNG_ON, lead_name, section_lugs
from netcheck.parts import KINDS, SOCKET

__all__ = ["applied"]

_UNSAID = (How.INSIDE, How.BOND)


def applied(circuit: Circuit, mend: Mend) -> Circuit:
    """The circuit after a mend, its acts taken as one layer of a work log: first off, then changed, then on.

    What was declared about the state (its common, its readings, its intentions) stays as it was. Raises ValueError
    where a work log would be refused: a point that is not there, a lift of what is on nothing, a cut of no joint.
    """
    return _Bench(circuit, mend).after()


class _Bench:
    """One circuit while a mend is carried out on it."""

    def __init__(self, circuit: Circuit, mend: Mend) -> None:
        self._before = circuit
        self._placed = tuple((act, Source("mend", act.line).whole) for act in mend)
        self._parts = dict(circuit.parts)
        self._gone = dict(circuit.gone)
        self._points = list(circuit.points)
        self._index = circuit.index
        self._joins = [join for join in circuit.joins if join.how not in _UNSAID]
        self._inside = [join for join in circuit.joins if join.how in _UNSAID]
        self._removals = list(circuit.removals)
        self._taken = list(circuit.taken)

    def after(self) -> Circuit:
        self._remove()
        self._change()
        self._take_off()
        self._joins.extend(self._put_on())
        is_same = self._parts == self._before.parts
        joins = (*self._joins, *(self._inside if is_same else implicit(self._parts, self._index)))
        return replace(
            self._before,
            parts=self._before.parts if is_same else self._parts,
            gone=self._gone,
            points=tuple(self._points),
            index=self._index,
            joins=joins,
            nets=closure(len(self._points), joins),
            removals=tuple(self._removals),
            taken=tuple(self._taken),
        )

    def _remove(self) -> None:
        for act, place in self._placed:
            if isinstance(act, Remove):
                part = self._gone[act.part] = self._part(act.part)
                del self._parts[act.part]
                if part.kind.family is Family.TUBE and part.shape is not None:
                    self._leave_socket(part)
                self._removals.append(Removal(act.part, bridged=False, reason=act.reason or None, place=place))

    def _leave_socket(self, tube: Part) -> None:
        shape = SOCKET.shape(tube.features)
        if not isinstance(shape, Flaw):
            self._parts[tube.name] = Part(tube.name, SOCKET, tube.features, shape, tube.place)
            self._enter(self._parts[tube.name])

    def _change(self) -> None:
        seen: set[str] = set()
        for act, _ in self._placed:
            if isinstance(act, Bond | Insulate | Change):
                if act.part in seen:
                    raise ValueError(f"{act.part} is changed twice")
                seen.add(act.part)
                part = _refitted(self._part(act.part), act, self._basings)
                self._parts[act.part] = part
                self._enter(part)

    def _part(self, name: str) -> Part:
        if name not in self._parts or self._parts[name].kind is SOCKET:
            raise ValueError(f"there is no part {name}")
        return self._parts[name]

    def _enter(self, part: Part) -> None:
        """The points of a part that may have other terminals now."""
        own = {lead_name(part, t.name): t for t in part.shape.terminals} if part.shape is not None else {}
        for at in self._points_of.get(part.name, ()):
            point = self._points[at]
            if point.name not in own:
                if at in self._ends:
                    raise ValueError(f"something is soldered to {point.name}, which the new part does not have")
                self._points[at] = replace(point, terminal=None)
        index = self._index = dict(self._index)  # other states have it too
        for name, terminal in own.items():
            at = index.setdefault(name, len(self._points))
            self._points[at : at + 1] = [Point(name, part.name, terminal)]

    @cached_property
    def _basings(self) -> Mapping[str, Basing]:
        """The bases that this file states, by the type of tube."""
        kept = (part.features for part in self._before.parts.values())
        return {features.type: features.basing for features in kept if features.basing is not None}

    @cached_property
    def _ends(self) -> frozenset[int]:
        """The points that something was on."""
        return frozenset(end for join in self._before.joins for end in (join.a, join.b) if join.how not in _UNSAID)

    @cached_property
    def _points_of(self) -> Mapping[str, list[int]]:
        found: dict[str, list[int]] = {}
        for at, point in enumerate(self._before.points):
            found.setdefault(point.part, []).append(at)
        return found

    def _take_off(self) -> None:
        bundles: dict[int, int] = {}
        for act, place in self._placed:
            if isinstance(act, Lift | Put):
                at = self._at(act.point, self._before.parts)
                if at in bundles:
                    raise ValueError(f"{act.point} is lifted twice")
                bundles[at] = len(self._points)
                self._points.append(Point(f"{HUNG_ON}{self._points[at].name}"))
                verb = "lift" if isinstance(act, Lift) else "move"
                self._taken.append(Taken(self._points[at].name, verb, place))
        self._cut()
        idle = bundles.keys() - {end for join in self._joins for end in (join.a, join.b)}
        if idle:
            raise ValueError(f"{self._points[min(idle)].name} is on nothing, so it can't be lifted")
        self._joins = lifted(self._joins, bundles)
        gone = self._before.parts.keys() - self._parts.keys()
        held = soldered_at(self._joins, self._points, (self._before.parts[name] for name in gone))
        if held:
            name = min(held)
            raise ValueError(f"{name} can't be removed: something is soldered to {held[name][1].name}")
        self._joins = without_parts(self._joins, self._points, gone)

    def _cut(self) -> None:
        cuts = [(act, place) for act, place in self._placed if isinstance(act, Cut)]
        if not cuts:
            return
        pairs = [(self._at(act.a, self._before.parts), self._at(act.b, self._before.parts)) for act, _ in cuts]
        self._joins, hits = cut(self._joins, pairs)
        for (act, place), ends, hit in zip(cuts, pairs, hits, strict=True):
            if hit is None:
                raise ValueError(f"no joint from {act.a} to {act.b} is there")
            self._taken.extend(Taken(self._points[end].name, "cut", place) for end in ends)

    def _put_on(self) -> Iterator[Join]:
        for act, place in self._placed:
            if isinstance(act, Put | Solder):
                to, point = (self._at(name, self._parts) for name in (act.to, act.point))
                yield Join(to, point, How.SOLDERED, place, place)
            elif isinstance(act, Wire):
                a, b = (self._at(name, self._parts) for name in (act.a, act.b))
                yield Join(a, b, How.WIRE, place, place, act.words)

    def _at(self, name: str, present: Mapping[str, Part]) -> int:
        """A point by its canonical name; a section's lead is its can's lug."""
        at = self._index.get(name)
        if at is None:
            raise ValueError(f"there is no point {name}")
        part = present.get(self._points[at].part)
        if self._points[at].part and part is None:
            raise ValueError(f"{self._points[at].part} is taken out, so nothing can be done at {name}")
        if part is None or not part.host:
            return at
        lug = next(lug for sign, lug in section_lugs(part, self._before.parts[part.host]) if name[-1] == sign)
        return self._index[lug]


def _refitted(part: Part, act: Bond | Insulate | Change, basings: Mapping[str, Basing]) -> Part:
    """The part with other values, or mounted in another way, at the same leads."""
    statement = _read(act)
    kind = KINDS[statement.kind.text] if statement.kind else part.kind
    said, problems = features_of(kind, part.name, statement.items, basings)
    if problems and problems[0].grade is Grade.STOP:
        raise ValueError(problems[0].headline)
    old = part.features
    features = changed(old, said, kind) if kind is part.kind else _with_members(said, old)
    shape = kind.shape(features)
    if isinstance(shape, Flaw):
        raise ValueError(shape.headline)  # noqa: TRY004  # the words are wrong, not their type
    return replace(part, kind=kind, features=features, shape=shape)


def _read(act: Bond | Insulate | Change) -> tree.Change:
    read, problems = parse(Source("mend", act.line))
    if problems:
        raise ValueError(problems[0].headline)
    (statement,) = (s for s in read.statements if isinstance(s, tree.Change))
    return statement


def _with_members(said: Features, old: Features) -> Features:
    """Another kind of part keeps what lines of their own said: windings, positions, sections."""
    return replace(
        said,
        windings=old.windings,
        winding_values=old.winding_values,
        positions=old.positions,
        sections=old.sections,
        marks=old.marks,
        returns=old.returns,
    )
