"""Declarations to parts: layer by layer, parts are removed, changed and put in."""

from collections.abc import Mapping

from msgspec.structs import replace

from netcheck.core.article import with_article
from netcheck.core.circuit import Part, Removal
from netcheck.core.diagnostic import Diagnostic, Flaw, Label
from netcheck.core.kind import Basing, Family, Features, PartKind, Pin, Seat, Standing
from netcheck.core.quantity import Dimension
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.model.features import NONE, changed, electrodes_of, features_of, from_end_to_end, is_refused, twins
from netcheck.model.load import Layer
from netcheck.model.messages import Near, stop
from netcheck.model.printed import conventions
from netcheck.model.sizes import unfit
from netcheck.model.stock import Inventory, PartSoFar, Shapes, touched, with_members
from netcheck.parts import KINDS, SOCKET

__all__ = ["inventory"]

_DECLARED = (tree.Part, tree.Section)


def inventory(chain: tuple[Layer, ...], unread: frozenset[str]) -> Inventory:
    """The parts of a chain of layers, with what can't be read of their declarations."""
    return _Store(unread).through(chain)


class _Store:
    """The one place where drafts change; nothing of it leaves but frozen parts."""

    def __init__(self, unread: frozenset[str]) -> None:
        self._unread = unread
        self._near = Near()
        self._drafts: dict[str, PartSoFar] = {}
        self._own: frozenset[str] = frozenset()
        self._folded: dict[str, str] = {}
        self._cans: dict[str, dict[str, str]] = {}
        self._returns: dict[str, dict[str, str]] = {}
        self._gone: dict[str, Part] = {}
        self._basings: dict[str, Basing] = {}
        self._removals: list[Removal] = []
        self._fits: list[tuple[int, str, tree.Lead]] = []
        self._problems: list[Diagnostic] = []
        self._convention: Mapping[Dimension, str] = {}
        self._alike: dict[tuple[str, str], Features] = {}  # under one layer's basings and convention
        self._shapes = Shapes()

    def through(self, chain: tuple[Layer, ...]) -> Inventory:
        stages: list[dict[str, Part]] = []
        for number, layer in enumerate(chain):
            before, anew = stages[-1] if stages else {}, set(touched(layer))
            inherited = frozenset(self._drafts)
            self._convention, problems = conventions(layer.of(tree.Convention))
            self._problems.extend(problems)
            self._alike.clear()
            own = (*(s.name for s in layer.of(tree.Part)), *(s.name for s in layer.of(tree.Section)))
            self._own = frozenset(word.text for word in own)
            for statement in layer.of(tree.Basing):
                self._basing(statement)
            self._take_away(layer, inherited)
            self._change(layer, inherited)
            self._put_in(layer, number, inherited)
            kept = {name: part for name, part in before.items() if name not in anew}
            stages.append({name: kept.get(name) or self._part(draft) for name, draft in self._drafts.items()})
        return Inventory(tuple(stages), self._gone, tuple(self._removals), tuple(self._fits), tuple(self._problems))

    def _basing(self, statement: tree.Basing) -> None:
        labels = [p.label.text for p in statement.pins]
        for pin in statement.pins:
            if labels.count(pin.label.text) > 1:
                self._tell("declared-twice", pin.label.place, f"pin {pin.label.text} is given twice")
                return
        if statement.type.text in self._basings:
            self._tell("declared-twice", statement.type.place, f"there is a basing `{statement.type.text}` already")
            return
        pins = tuple(Pin(p.label.text, p.electrode.text) for p in statement.pins)
        self._basings[statement.type.text] = Basing(statement.type.text, "", pins, Standing.FILE)

    def _take_away(self, layer: Layer, inherited: frozenset[str]) -> None:
        for statement in layer.of(tree.Remove):
            for name in statement.names:
                draft = self._inherited(name, inherited)
                if draft is None:
                    self._nothing_there("remove", name)
                    continue
                part = self._gone[name.text] = self._part(draft)
                self._leave_socket(name.text, part, draft)
                reason = statement.reason.text if statement.reason else None
                self._removals.append(Removal(name.text, statement.bridged is not None, reason, name.place))

    def _inherited(self, name: tree.Word, inherited: frozenset[str]) -> PartSoFar | None:
        draft = self._drafts.get(name.text) if name.text in inherited else None
        return None if draft is None or draft.kind is SOCKET else draft

    def _leave_socket(self, name: str, part: Part, draft: PartSoFar) -> None:
        """A tube that is pulled leaves its socket, whose pins are lugs; anything else leaves nothing."""
        if part.kind.family is Family.TUBE and part.shape is not None:
            self._drafts[name] = PartSoFar(SOCKET, draft.name, draft.features, tree.Clauses())
        else:
            del self._drafts[name]

    def _change(self, layer: Layer, inherited: frozenset[str]) -> None:
        touched: dict[str, Place] = {}
        for statement in layer.of(tree.Change):
            name = statement.name
            draft = self._inherited(name, inherited)
            if draft is None:
                self._nothing_there("change", name)
                continue
            if name.text in touched:
                first = Label(touched[name.text], "first here")
                self._problems.append(
                    stop("declared-twice", name.place, f"`{name.text}` is changed twice", "put it in one line", first)
                )
                continue
            touched[name.text] = name.place
            kind = KINDS[statement.kind.text] if statement.kind else draft.kind
            features, draft.told = self._features(kind, name, statement)
            if kind is not draft.kind:
                draft.kind, draft.features = kind, features
            else:
                draft.features = changed(draft.features, features, kind)
            draft.name = name

    def _put_in(self, layer: Layer, number: int, inherited: frozenset[str]) -> None:
        for statement in layer.statements:
            if isinstance(statement, _DECLARED):
                word = statement.kind.text if isinstance(statement, tree.Part) else "section"
                self._declare(statement, KINDS[word], number, inherited)
        for winding in layer.of(tree.Winding):
            self._member(winding, winding.part, "transformer", Family.TRANSFORMER, Family.INDUCTOR)
        for position in layer.of(tree.Position):
            self._member(position, position.switch, "switch", Family.SWITCH)
        for section in layer.of(tree.Section):
            self._section(section)

    def _declare(
        self, statement: tree.Part | tree.Section, kind: PartKind, number: int, inherited: frozenset[str]
    ) -> None:
        name = statement.name
        if self._refused_name(statement, kind, inherited):
            return
        clauses = statement.clauses
        if clauses.inserted and clauses.added:
            first = Label(clauses.inserted.word.place, "or this")
            self._problems.append(
                stop(
                    "declared-twice",
                    clauses.added.word.place,
                    f"`{name.text}` is inserted or added, not both",
                    "in series where a joint was: `inserted`; across two nets: `added`",
                    first,
                )
            )
        features, told = self._features(kind, name, statement)
        self._drafts[name.text] = PartSoFar(kind, name, features, statement.clauses, told)
        self._folded[name.text.lower()] = name.text
        self._fits.extend((number, name.text, lead) for lead in statement.clauses.leads)

    def _refused_name(self, statement: tree.Part | tree.Section, kind: PartKind, inherited: frozenset[str]) -> bool:
        name, text = statement.name, statement.name.text
        if text == "chassis" or "." in text or text[-1] in "+-":
            self._tell("refused-name", name.place, f"`{text}` can't be a part's name", "it would read as a lead")
            return True
        if text in self._drafts and not (kind.family is Family.TUBE and self._drafts[text].kind is SOCKET):
            first = Label(self._drafts[text].name.place, "first here")
            said = " ".join(item.place.text for item in statement.items)
            again = f": write `change {text} {said}`" if said else ""
            do = f"it comes from the earlier file{again}" if text in inherited else "give one another name"
            self._problems.append(stop("declared-twice", name.place, f"there is a part `{text}` already", do, first))
            return True
        twin = self._folded.get(text.lower(), text)
        if twin != text and twin in self._drafts:
            first = Label(self._drafts[twin].name.place, "the other one")
            self._problems.append(
                stop(
                    "declared-twice",
                    name.place,
                    f"`{text}` and `{twin}` differ in capitals only",
                    "give one another name",
                    first,
                )
            )
            return True
        return False

    def _features(
        self, kind: PartKind, name: tree.Word, statement: tree.Part | tree.Section | tree.Change
    ) -> tuple[Features, bool]:
        """What a line says of its part, and whether some of it is refused; of lines that go on alike one is read."""
        said = kind.word, name.place.source.text[name.place.end : statement.place.end]
        if said in self._alike:
            return self._alike[said], False
        features, problems = features_of(kind, name.text, statement.items, self._basings, self._convention)
        self._problems.extend(problems)
        told = is_refused(statement.items, problems)
        if not (problems or told):
            self._alike[said] = features
        return features, told

    def _member(self, statement: tree.Winding | tree.Position, owner: tree.Word, kind: str, *own: Family) -> None:
        if (draft := self._drafts.get(owner.text)) is None:
            self._undeclared(owner, kind)
            return
        if draft.kind.family not in own:
            self._tell(
                "wrong-value",
                owner.place,
                f"`{owner.text}` is {with_article(draft.kind.word)}, not {with_article(kind)}",
                f"write it as {with_article(kind)}",
            )
            return
        name = statement.name.text
        known = [n for n, _ in draft.windings] + [n for n, _ in draft.positions]
        if name in known:
            again = f"{name}-2"
            line = statement.place.text.replace(f" {name} ", f" {again} ", 1)
            do = f"call the second one `{again}`: `{' '.join(line.split())}`"
            self._tell("declared-twice", statement.name.place, f"`{owner.text}` has a {name} already", do)
            name = again  # its leads are known all the same
        if isinstance(statement, tree.Winding):
            namesakes = twins(owner.text, statement, (lead for _, leads in draft.windings for lead in leads))
            draft.flawed |= bool(namesakes)
            self._problems.extend(namesakes)
            draft.windings.append((name, tuple(w.text for w in statement.leads)))
            values = from_end_to_end(statement)
            self._problems.extend(unfit(statement.values))
            draft.winding_values[name] = values
            draft.features = replace(draft.features, quantities=draft.features.quantities + values)
        else:
            draft.positions.append((name, tuple(tuple(w.text for w in g) for g in statement.groups)))

    def _section(self, statement: tree.Section) -> None:
        name = statement.name.text
        draft = self._drafts.get(name)
        host = self._drafts.get(name[:-1])
        if draft is None or draft.name is not statement.name:
            return
        if host is None or host.kind.seat is not Seat.CAN:
            draft.flawed = True
            if name[:-1] not in self._unread:
                self._tell(
                    "undeclared-name",
                    statement.name.place,
                    f"`{name}` would be a section of `{name[:-1]}`, and there is no such can",
                    f"add it first: `can {name[:-1]} grounded` or `can {name[:-1]} insulated`",
                )
            return
        marks = [w for w in draft.features.words if w in ("half-moon", "square", "triangle", "plain")]
        self._cans.setdefault(name[:-1], {})[name[-1]] = marks[0] if marks else ""
        own = draft.features.arguments.get("minus")
        if own:
            self._returns.setdefault(name[:-1], {})[name[-1]] = own

    def _part(self, draft: PartSoFar) -> Part:
        """Freezes a draft; a broken declaration still declares its name."""
        name = draft.name.text
        features = with_members(draft, self._cans.get(name, NONE), self._returns.get(name, NONE))
        shape = None if draft.flawed else self._shapes.of(draft.kind, features)
        if isinstance(shape, Flaw):
            if not draft.told:  # what is refused may be what its shape lacks: one slip, one message
                self._problems.append(stop("broken-declaration", draft.name.place, shape.headline, shape.help))
            draft.flawed, shape = True, None
        clauses = draft.clauses
        replaced = (word.text.partition(".")[0] for word in clauses.replaces)
        return Part(
            name,
            draft.kind,
            features,
            shape,
            draft.name.place,
            host=name[:-1] if draft.kind.seat is Seat.IN_CAN and shape else "",
            replaces=tuple(dict.fromkeys(replaced)) if clauses.replaces else (),
            electrodes=electrodes_of(clauses.replaces) if clauses.replaces else NONE,
            inserted=clauses.inserted.reason.text if clauses.inserted else None,
            added=clauses.added.reason.text if clauses.added else None,
        )

    def _nothing_there(self, verb: str, name: tree.Word) -> None:
        if name.text in self._unread:
            return
        if name.text in self._gone:
            self._tell("refused-change", name.place, f"`{name.text}` is removed already")
        elif name.text in self._own:
            self._tell("refused-change", name.place, f"`{name.text}` comes from this very file", "change it there")
        else:
            headline = f"nothing to {verb}: the earlier file has no part `{name.text}`"
            self._tell("refused-change", name.place, headline, self._near(name.text, self._drafts))

    def _undeclared(self, name: tree.Word, kind: str) -> None:
        if name.text not in self._unread:
            do = self._near(name.text, self._drafts) or f"add the {kind}"
            self._tell("undeclared-name", name.place, f"there is no part `{name.text}`", do)

    def _tell(self, rule: str, place: Place, headline: str, do: str = "") -> None:
        self._problems.append(stop(rule, place, headline, do))
