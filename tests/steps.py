"""The steps by which an ordinary line is read, worked out of Lark's tables of the grammar.

``python -m tests.steps`` writes ``netcheck/language/steps.txt``; run it whenever the grammar changes.

Lark reads a line with a stack of states. No statement of the language nests, so a line can meet a limited number of
stacks: each becomes one state here, and what Lark does at a terminal, reductions and all, becomes one step. A terminal
that Lark's lexer looks for in a state, though the line would then be refused, is kept as a step to nowhere: left out,
the same characters would be taken for something else.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lark.grammar import Rule, Symbol, Terminal

from netcheck.language.grammar import compiled, spellings

STEPS = Path(__file__).parents[1] / "netcheck/language/steps.txt"
END = "$END"
IGNORED = {"COMMENT", "BLANKS"}
ESCAPED = str.maketrans({"\n": r"\n", "\r": r"\r", "\t": r"\t"})
HEAD = """\
# How an ordinary line is read, state by state; recognise.py says how to read this.
# Made from the grammar by `python -m tests.steps`: never edit it by hand.
"""

Stack = tuple[int, ...]


@dataclass(frozen=True)
class Move:
    """What Lark does at a terminal: the stack after it (none where it refuses), and the pieces complete before it.

    A piece is its rule with the stack on which it began.
    """

    to: Stack | None = None
    pieces: tuple[tuple[Rule, Stack], ...] = ()


@dataclass(frozen=True)
class Step:
    """One step of the table: the pieces that it closes, whether it begins one, the stack that it leads to."""

    closes: tuple[str, ...]
    opens: bool
    to: Stack | None


class Walk:
    """Every stack that a line can meet, with its steps."""

    def __init__(self) -> None:
        lark = compiled()
        self.terminals = {terminal.name: terminal for terminal in lark.terminals}
        self.rules = lark.rules
        table: Any = lark.parser.parser._parse_table
        self.states: dict[int, dict[str, tuple[Any, Any]]] = table.states
        self.start: Stack = (table.start_states["statement"],)
        self.end: int = table.end_states["statement"]
        self.moves = self._moves()
        self.begun = {(stack, rule.origin.name) for row in self.moves.values() for move in row.values()
                      for rule, stack in move.pieces if len(stack) > 1}  # fmt: skip

    def rows(self) -> dict[Stack, dict[str, Step]]:
        """The steps of every stack."""
        return {stack: {terminal: self._step(terminal, move) for terminal, move in row.items()}
                for stack, row in self.moves.items()}  # fmt: skip

    def _moves(self) -> dict[Stack, dict[str, Move]]:
        found: dict[Stack, dict[str, Move]] = {}
        waiting = [self.start]
        while waiting:
            stack = waiting.pop()
            if stack not in found:
                asked = self.states[stack[-1]].keys() & {*self.terminals, END}
                found[stack] = {terminal: self._move(stack, terminal) for terminal in asked}
                waiting.extend(move.to for terminal, move in found[stack].items() if move.to and terminal != END)
        return found

    def _move(self, stack: Stack, terminal: str) -> Move:
        at = list(stack)
        pieces: list[tuple[Rule, Stack]] = []
        while at[-1] != self.end:
            action, to = self.states[at[-1]].get(terminal, (None, None))
            if action is None:
                return Move()
            if action.name == "Shift":
                return Move((*at, to), tuple(pieces))
            del at[len(at) - len(to.expansion) :]
            if to.origin.name[0] != "_" and to.origin.name != "statement":
                pieces.append((to, tuple(at)))
            at.append(self.states[at[-1]][to.origin.name][1])
        return Move(tuple(at), tuple(pieces))

    def _step(self, terminal: str, move: Move) -> Step:
        closes = tuple(self._shape(rule) for rule, _ in move.pieces)
        return Step(closes, move.to is not None and self._opens(move.to[:-1], terminal), move.to)

    def _opens(self, stack: Stack, terminal: str) -> bool:
        return any(base == stack and terminal in self._first(origin) for base, origin in self.begun)

    def _first(self, origin: str) -> set[str]:
        """The terminals that a rule can begin with."""
        found, seen = set(), {origin}
        waiting = [origin]
        while waiting:
            name = waiting.pop()
            symbols = {rule.expansion[0] for rule in self.rules if rule.origin.name == name}
            found |= {symbol.name for symbol in symbols if symbol.is_term}
            waiting.extend({symbol.name for symbol in symbols if not symbol.is_term} - seen)
            seen.update(waiting)
        return found

    def _shape(self, rule: Rule) -> str:
        """A rule's name, with where it has nothing in the place of an optional piece: from its end if negative."""
        return "@".join((rule.alias or rule.origin.name, *map(str, self._blanks(rule))))

    def _blanks(self, rule: Rule) -> Iterator[int]:
        empty: Any = rule.options.empty_indices or [False] * len(rule.expansion)
        said = "".join(str(int(one)) for one in empty)
        before = [len(ones) for ones in said.split("0")]  # how many stand before each symbol, and behind the last
        sizes = [self._size(symbol) for symbol in rule.expansion]
        for at, count in enumerate(before):
            left, right = sizes[:at], sizes[at:]
            for _ in range(count):
                known = None not in left
                yield sum(filter(None, left)) + sum(before[:at]) if known else -1 - sum(size or 0 for size in right)
                assert known or None not in right, f"where is the missing piece of {rule}?"

    def _size(self, symbol: Symbol) -> int | None:
        """How many children a symbol hands to its rule; None where that is not always the same."""
        if isinstance(symbol, Terminal):
            return int(not symbol.filter_out)
        if symbol.name[0] != "_":
            return 1
        sizes = {len(rule.expansion) for rule in self.rules if rule.origin.name == symbol.name}
        return 1 if sizes == {1} else None


def merged(rows: dict[Stack, dict[str, Step]]) -> dict[Stack, int]:
    """A number for every stack, the same for stacks from which every line goes on alike."""
    number = dict.fromkeys(rows, 0)
    while True:
        seen: dict[object, int] = {}
        finer = {}
        for stack, row in rows.items():
            ways = {(t, s.closes, s.opens, -1 if s.to is None else number.get(s.to)) for t, s in row.items()}
            finer[stack] = seen.setdefault(frozenset(ways), len(seen))
        if len(seen) == len(set(number.values())):
            return finer
        number = finer


def table() -> str:
    """The text of the table; its states are numbered in the order of the alphabet, the first line's first."""
    walk = Walk()
    rows = walk.rows()
    number = merged(rows)
    order = {number[walk.start]: 0}
    states: list[str] = []
    waiting = [walk.start]
    while waiting:
        row = [
            (terminal, step) for terminal, step in sorted(rows[waiting.pop(0)].items()) if step.to or terminal != END
        ]
        for terminal, step in row:
            if step.to and terminal != END and number[step.to] not in order:
                order[number[step.to]] = len(order)
                waiting.append(step.to)
        steps = (_said(terminal, step, order.get(number.get(step.to or (), -1), 0)) for terminal, step in row)
        states.append(f"{len(states)} {' '.join(steps)}\n")
    return "".join((HEAD, *_terminals(walk), *states))


def _said(terminal: str, step: Step, to: int) -> str:
    if step.to is None:
        return f"{terminal}!"
    closes = "".join(f"{piece})" for piece in step.closes)
    return f"{closes}END" if terminal == END else f"{closes}{terminal}{'(' if step.opens else ':'}{to}"


def _terminals(walk: Walk) -> Iterator[str]:
    for name in sorted(walk.terminals.keys() - IGNORED):
        words = [word for word, _ in spellings(name)]
        if words and all(word.isalpha() for word in words):
            yield f"{name} {' '.join(words)}\n"
        else:
            yield f"{name} /{walk.terminals[name].pattern.to_regexp().translate(ESCAPED)}/\n"


if __name__ == "__main__":
    STEPS.write_text(table(), encoding="utf-8")
    sys.stdout.write(f"{STEPS} written\n")
