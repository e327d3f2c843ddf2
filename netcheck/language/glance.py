"""The lines that a netlist mostly has, each read at one glance; any other line is read token by token.

Such a line can be taken in one way only: where it has a name nothing but a name is looked for, or no word that means
something else stands there. Parts are declared alike by the dozen, so what stands behind a part's name is read once.
``tests/test_language_glance.py`` holds this against how the same lines are read token by token.
"""

import re
from sys import intern

from netcheck.core.source import Place, Source
from netcheck.language import tree
from netcheck.language.grammar import clause_words

__all__ = ["Glance"]

_NAME = r"[A-Za-z0-9_.+/-]++"
"""A name of ASCII, as almost all are; what follows it here is never a letter."""
_NAMES = re.compile(_NAME)
_HEAD = re.compile(rf"([a-z]++)[ \t]++({_NAME})")
_LIST = re.compile(rf"[ \t]*+:[ \t]*+{_NAME}(?:[ \t]*+,[ \t\r\n]*+{_NAME})*+")
_TO = re.compile(rf"[ \t]++to[ \t]++({_NAME})(?:[ \t]++([a-z][a-z/-]*+))?")
"""A wire with one colour at most: no quantity begins with a small letter."""
_NO_CLAUSES = tree.Clauses()


class Glance:
    """Reads lines of one source by their offsets in its legible text."""

    def __init__(self, source: Source, text: str) -> None:
        self._source = source
        self._text = text
        self._reserved = frozenset(clause_words())
        self._parts: dict[tuple[str, str], tree.Part] = {}

    def read(self, start: int, end: int) -> tree.Statement | None:
        """The node of a line; None where it has to be read token by token."""
        head = _HEAD.match(self._text, start, end)
        if head is None:
            return None
        first = head[1]
        if first == "wire":
            return self._wire(head, end)
        return self._joined(head, end) if first in ("at", "net") else self._part(head, end)

    def keep(self, statement: tree.Statement) -> None:
        """Notes a part that was read token by token without a mistake, for others that are declared alike."""
        if isinstance(statement, tree.Part) and statement.clauses == _NO_CLAUSES:
            said = self._text[statement.name.place.end : statement.place.end]
            self._parts[statement.kind.text, said] = statement

    def _joined(self, head: re.Match[str], end: int) -> tree.At | tree.Net | None:
        start, behind = head.span()
        if _LIST.fullmatch(self._text, behind, end) is None:
            return None
        made = tree.At if head[1] == "at" else tree.Net
        names = _NAMES.finditer(self._text, behind, end)
        return made(self._source.between(start, end), self._word(head, 2), tuple([self._word(name) for name in names]))

    def _wire(self, head: re.Match[str], end: int) -> tree.Wire | None:
        start, behind = head.span()
        rest = _TO.fullmatch(self._text, behind, end)
        if rest is None or rest[2] in self._reserved:
            return None
        colour = () if rest[2] is None else (self._word(rest, 2),)
        return tree.Wire(self._source.between(start, end), (self._word(head, 2), self._word(rest, 1)), colour, ())

    def _part(self, head: re.Match[str], end: int) -> tree.Part | None:
        start, behind = head.span()
        like = self._parts.get((head[1], self._text[behind:end]))
        if like is None:
            return None
        on = behind - like.name.place.end
        items = tuple([_moved(item, on) for item in like.items])
        return tree.Part(
            self._source.between(start, end), self._word(head, 1), self._word(head, 2), items, like.clauses
        )

    def _word(self, found: re.Match[str], group: int = 0) -> tree.Word:
        word = found[group]
        return tree.Word(intern(word), Place(self._source, found.start(group), len(word)))


def _moved(item: tree.Item, on: int) -> tree.Item:
    """The same word or value on a later line."""
    place = Place(item.place.source, item.place.start + on, item.place.size)
    return tree.Value(item.quantity, place) if isinstance(item, tree.Value) else tree.Word(item.text, place)
