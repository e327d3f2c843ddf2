"""An ordinary line, read without loading Lark; of any other line Lark is the judge.

Why the two agree: ``steps.txt`` is worked out of Lark's own tables of the grammar (``tests/steps.py``), and a line is
read here only in the way that Lark would take. No statement nests, so all that Lark can have in mind within a line is
one of some hundred states. In each it looks for certain terminals alone, of which a keyword comes before a name and a
quantity before both; each leads to one next state, and may mean that a piece of the statement is complete. A terminal
that Lark would look for and then refuse stands in the table too, marked ``!``. What meets no step is left to Lark: a
mistake is told from what Lark says of it. ``tests/test_language_recognise.py`` holds both against each other.

The table has two sorts of lines. A terminal is followed by its words, or by its expression between slashes. A number is
a state, followed by its steps: ``leads)NAME:28`` closes the piece ``leads``, takes a name and goes to state 28;
``FROM(35`` begins a piece with the word ``from``; ``END`` is the end of the line. A piece that closes is followed by
where it has nothing in the place of an optional word, ``net@-1``, counted from its end where negative. Terminals whose
name begins with an underscore leave nothing behind, as in every grammar of Lark's.
"""

import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import NamedTuple

from netcheck.core.shipped import shipped

__all__ = ["Phrase", "Token", "recognised"]

_STEP = re.compile(r"([:(!]|\Z)")
_START = 0
_BLANKS = r"(?:[ \t\r\n]+|#[^\n]*)*+"
_BLANKS_BEFORE_A_NUMBER = r"(?:[ \t\r\n]+|(?!{LAMP_NUMBER})#[^\n]*)*+"
_NUMBER, _VALUE = r"(?P<LAMP_NUMBER>{LAMP_NUMBER})|", r"(?P<QUANTITY>{QUANTITY})|"
# A name ends where a keyword may end, else what is a name to Lark alone could be a keyword here.
_OTHERS = r'(?P<NAME>{NAME})(?![^ \t\r\n,:"#])|(?P<_COMMA>,)|(?P<TEXT>{TEXT})|(?P<_COLON>:)|(?P<END>\Z)'
_FINDERS: Mapping[str, str] = {
    "LAMP_NUMBER": f"{_BLANKS_BEFORE_A_NUMBER}(?:{_NUMBER}{_VALUE}{_OTHERS})",
    "QUANTITY": f"{_BLANKS}(?:{_VALUE}{_OTHERS})",
    "": f"{_BLANKS}(?:{_OTHERS})",
}
"""Finds the next token, by the terminal that a state looks for before all others."""

Finder = Callable[[str, int, int], re.Match[str] | None]


class Token(str):
    """A word, value or text with its terminal and its offsets within the line, as Lark's tokens have them."""

    __slots__ = ("end_pos", "start_pos", "type")

    type: str
    start_pos: int
    end_pos: int


class Phrase:
    """A statement or a piece of one: the grammar's rule, and what it is made of."""

    __slots__ = ("children", "data")

    def __init__(self, rule: str, children: "list[Token | Phrase | None]") -> None:
        self.data = rule
        self.children = children


class _TerminalAct(NamedTuple):
    """What a terminal does: pieces it closes, whether it begins one, what it leaves; no state to go to is ``!``."""

    closes: tuple[tuple[str, tuple[int, ...]], ...]
    opens: bool
    leaves: str
    to: int | None


class _State(NamedTuple):
    """What can be read next: words that mean something here, other terminals, and the expression that finds either."""

    words: Mapping[str, _TerminalAct]
    kinds: Mapping[str, _TerminalAct]
    find: Finder


_NOWHERE = _TerminalAct((), opens=False, leaves="", to=None)


def recognised(text: str, start: int, end: int) -> Phrase | None:
    """What Lark makes of the logical line at the offsets; None where Lark has to be asked."""
    states = _states()
    state, at, begin = states[_START], start, 0
    kept: list[Token | Phrase | None] = []
    while found := state.find(text, at, end):
        kind = found.lastgroup or ""
        word = found[kind]
        closes, opens, leaves, to = state.words.get(word) or state.kinds.get(kind) or _NOWHERE
        if to is None:
            return None
        for rule, blanks in closes:
            kept[begin:] = [_branch(rule, blanks, kept[begin:])]
            begin = 0
        at = found.end()
        if kind == "END":
            return _whole(kept)
        if opens:
            begin = len(kept)
        if leaves:
            kept.append(_token(word, leaves, at - start))
        state = states[to]
    return None


def _branch(rule: str, blanks: tuple[int, ...], children: "list[Token | Phrase | None]") -> Phrase:
    for at in blanks:
        children.insert(at if at >= 0 else len(children) + 1 + at, None)
    return Phrase(rule, children)


def _whole(kept: "list[Token | Phrase | None]") -> Phrase | None:
    return kept[0] if isinstance(kept[0], Phrase) else None


def _token(word: str, terminal: str, end: int) -> Token:
    token = Token(word)
    token.type = terminal
    token.start_pos = end - len(word)
    token.end_pos = end
    return token


class _States(dict[int, _State]):
    """The states by number; each is made of its line of the table when a netlist first comes to it."""

    def __init__(self, table: str) -> None:
        lines = [line.split(" ", 1) for line in table.splitlines() if line[0] != "#"]
        self._steps = {int(number): steps for number, steps in lines if number.isdigit()}
        self._words = {name: said.split() for name, said in lines if not name.isdigit() and said[0] != "/"}
        self._expressions = {name: said[1:-1] for name, said in lines}  # asked for where there is one
        self._finders: dict[str, Finder] = {}

    def __missing__(self, number: int) -> _State:
        words: dict[str, _TerminalAct] = {}
        kinds: dict[str, _TerminalAct] = {}
        for said in self._steps[number].split():
            terminal, step = _step(said)
            if terminal in self._words:
                words.update(dict.fromkeys(self._words[terminal], step))
            else:
                kinds[terminal] = step
        state = self[number] = _State(words, kinds, self._finder(next(filter(kinds.__contains__, _FINDERS), "")))
        return state

    def _finder(self, first: str) -> Finder:
        if first not in self._finders:
            self._finders[first] = re.compile(_FINDERS[first].format_map(self._expressions)).match
        return self._finders[first]


def _step(said: str) -> tuple[str, _TerminalAct]:
    *pieces, step = said.split(")")
    terminal, way, to = _STEP.split(step)[:3]
    leaves = "" if terminal[0] == "_" else terminal
    return terminal, _TerminalAct(tuple(map(_piece, pieces)), way == "(", leaves, None if way == "!" else int(to or 0))


def _piece(shape: str) -> tuple[str, tuple[int, ...]]:
    rule, *blanks = shape.split("@")
    return rule, tuple(map(int, blanks))


@cache
def _states() -> _States:
    return _States(shipped(__package__, "steps.txt"))
