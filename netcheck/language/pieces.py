"""The pieces of statements: words, values, items and clauses, each with its place."""

import re
from collections.abc import Iterable, Mapping, Sequence
from sys import intern
from types import MappingProxyType
from typing import Any, TypeAlias

from netcheck.core.diagnostic import Flaw
from netcheck.core.quantity import Quantity
from netcheck.core.source import Place, Source
from netcheck.language import tree
from netcheck.language.colours import is_colour
from netcheck.language.grammar import clause_words
from netcheck.language.slip import FORM, VALUE, PlacedFlaw, clipped
from netcheck.language.values import quantity

__all__ = ["Child", "Pieces"]

Child: TypeAlias = Any
"""What Lark hands over: a token (a ``str``), a subtree, or None where an optional piece is missing."""

_NUMBERED = re.compile(r"([A-Z]+)[0-9]+[A-Z]?")
_WAYS = frozenset({"from", "to"})
_NO_CLAUSE = "this clause goes with the line that declares a part"
_INSTEAD: Mapping[str, str] = MappingProxyType(
    {
        "intended": 'a part is put in on purpose with `inserted "reason"` or `added "reason"`',
        "to": "in a `wire`, every `to` comes before the colour and the gauge",
        "past": "only a `wire` runs past something",
        "bridged": "only `remove` leaves a bridge",
    }
)


class Pieces:
    """Makes the words and values of one source; what is wrong with them is gathered in ``slips``.

    ``start`` is the offset of the logical line that tokens are counted from, ``line`` its place.
    """

    def __init__(self, source: Source) -> None:
        self.source = source
        self.start = 0
        self.line = source.whole
        self.slips: list[PlacedFlaw] = []
        self._read: dict[str, Quantity | Flaw] = {}
        self._reserved = frozenset(clause_words())

    def word(self, token: Child) -> tree.Word:
        """A name, a point or a keyword; the same in every line and file is one object, and found by that."""
        return tree.Word(intern(str(token)), Place(self.source, self.start + token.start_pos, len(token)))

    def words(self, tokens: Iterable[Child]) -> tuple[tree.Word, ...]:
        """Several names or points."""
        return tuple(map(self.word, tokens))

    def text(self, token: Child) -> tree.Word:
        """A text without its quotes, in its place with them."""
        return tree.Word(token[1:-1], Place(self.source, self.start + token.start_pos, len(token)))

    def maybe(self, token: Child) -> tree.Word | None:
        """A word or text that may be missing."""
        if token is None:
            return None
        return self.text(token) if token.type == "TEXT" else self.word(token)

    def value(self, token: Child) -> tree.Value:
        """A quantity; one that can't be read leaves a slip and no quantity."""
        place = Place(self.source, self.start + token.start_pos, len(token))
        found = self._read.get(token)
        if found is None:
            found = self._read[str(token)] = quantity(str(token))
        if isinstance(found, Flaw):
            self.slips.append(PlacedFlaw(place.start, place.end, found, VALUE))
            return tree.Value(None, place)
        return tree.Value(found, place)

    def items(self, tokens: Iterable[Child]) -> tuple[tree.Item, ...]:
        """Values, texts and descriptive words, up to a clause's word in a wrong place, which is a slip."""
        found: list[tree.Item] = []
        for token in tokens:
            if token.type == "QUANTITY":
                found.append(self.value(token))
            elif token.type == "TEXT":
                found.append(self.text(token))
            elif token in self._reserved:
                self._slip(token, f"{clipped(token)} does not belong here", _INSTEAD.get(token, _NO_CLAUSE))
                break
            else:
                found.append(self.word(token))
        return tuple(found)

    def intent(self, parsed: Child) -> tree.Intent | None:
        """The clause ``intended``, ``inserted`` or ``added``, which may be missing."""
        return None if parsed is None else tree.Intent(self.word(parsed.children[0]), self.text(parsed.children[1]))

    def only(self, clauses: Sequence[Child]) -> Child:
        """The one clause of its sort, or None; each further one is a slip."""
        for clause in clauses[1:]:
            word = clause.children[0]
            self._slip(word, f"{clipped(word)} is on this line twice", "keep one of the two")
        return clauses[0] if clauses else None

    def leads(self, parsed: Child, last: Child = None) -> tuple[tree.Lead, ...]:
        """Both leads of a leads clause, or none where it is missing; ``last`` is the second lead's colour."""
        if parsed is None:
            return ()
        role, point, colour, other_role, other_point = parsed.children
        first = tree.Lead(self.word(role), self.word(point), self._colour(colour))
        return (first, tree.Lead(self.word(other_role), self.word(other_point), self._colour(last)))

    def _colour(self, token: Child) -> tree.Word | None:
        if token is not None and not is_colour(token):
            self._slip(token, f"{clipped(token)} is no colour of a lead", "leave it out, or put it in a comment")
        return self.maybe(token)

    def refuse_missing_comma(self, hub: Child, groups: Sequence[Sequence[tree.Word]]) -> None:
        """``at SP1.3: C51- R7.2``: a line about one lug, where only one about a whole place has words side by side."""
        if "." in hub or hub[-1] in "+-":
            first = next(words for words in groups if len(words) > 1)
            listed = ", ".join(word.text for words in groups for word in words if not is_colour(word.text))
            place, said = first[1].place, clipped(first[1].text)
            coloured = is_colour(first[1].text)
            headline = f"{said} is a colour, and no lead" if coloured else f"a comma is missing before {said}"
            flaw = Flaw(headline, f"write `at {hub}: {listed}`")
            self.slips.append(PlacedFlaw(place.start, place.end, flaw, FORM))

    def refuse_ways(self, listed: Sequence[Child]) -> None:
        """``a to b`` in a winding or a position, where names stand side by side; a lead of that name alone is one."""
        names = [one for one in listed if one.type == "NAME"]
        for at, name in enumerate(names[:-1]):
            around = {names[at + 1], *(names[at - 1 : at] if name == "to" else ())}
            if name in _WAYS and name not in around and (name == "from") is (at == 0):
                do = "leave it out: names are listed side by side"
                self._slip(name, f"{clipped(name)} does not belong here", do)

    def body(self, children: Sequence[Child]) -> tuple[tuple[tree.Item, ...], tree.Clauses]:
        """The items and the clauses of a declaration, which may stand in any order."""
        tokens: list[Child] = []
        clauses: dict[str, list[Child]] = {}
        last: Child = None
        for before, child in zip((None, *children), children, strict=False):
            if not isinstance(child, str):
                clauses.setdefault(child.data, []).append(child)
            elif getattr(before, "data", "") == "leads" and is_colour(child):
                last = child
            elif not self._lacks_comma(before, child):
                tokens.append(child)
        own = tuple(word for clause in clauses.get("own_minus", ()) for word in self.words(clause.children))
        replaced = tuple(word for clause in clauses.get("replaces", ()) for word in self.words(clause.children[1:]))
        return (*self.items(tokens), *own), tree.Clauses(
            self.leads(self.only(clauses.get("leads", ())), last),
            replaced,
            self.intent(self.only(clauses.get("inserted", ()))),
            self.intent(self.only(clauses.get("added", ()))),
        )

    def _lacks_comma(self, before: Child, token: Child) -> bool:
        """``replaces R5 R6``: R6 would be read as a word, or even as 0.6 ohm."""
        if before is None or isinstance(before, str) or before.data != "replaces":
            return False
        last, this = _NUMBERED.fullmatch(before.children[-1]), _NUMBERED.fullmatch(token)
        if last is None or this is None or last[1] != this[1]:
            return False
        self._slip(
            token, f"a comma is missing before {clipped(token)}", f"write {clipped(f'{before.children[-1]}, {token}')}"
        )
        return True

    def _slip(self, token: Child, headline: str, do: str) -> None:
        self.slips.append(
            PlacedFlaw(self.start + token.start_pos, self.start + token.end_pos, Flaw(headline, do), FORM)
        )
