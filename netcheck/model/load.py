"""Files to layers: includes, ``start from`` and ``parts from`` followed, loops and depth refused."""

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import TypeVar, cast

from msgspec import Struct

from netcheck.core.diagnostic import Diagnostic, Flaw, Grade, Label
from netcheck.core.source import Place, Source
from netcheck.language import tree
from netcheck.language.parser import parse

__all__ = ["DEEPEST", "Layer", "Layers", "Parsed", "Reader", "layers"]

S = TypeVar("S")

Reader = Callable[[str, str], Source | Flaw]
"""(name of the file that asks, path as written there) to the file, or why it can't be had."""

Parsed = Callable[[Source], tuple[tree.Tree, tuple[Diagnostic, ...]]]
"""How a source is parsed: anew, or from a memory of the caller's where two states stand on one file."""

DEEPEST = 16

_DECLARATIONS = (tree.Part, tree.Section, tree.Winding, tree.Position, tree.Basing, tree.Note, tree.Convention)


class Layer(Struct, frozen=True, eq=False, dict=True):
    """One file with its includes; ``joins`` is False where only its parts are taken over by the next layer."""

    source: Source
    statements: tuple[tree.Statement, ...]
    joins: bool = True

    def of(self, kind: type[S]) -> Sequence[S]:
        """The statements of one kind; of most kinds there is none, and a dozen readers ask."""
        return cast("Sequence[S]", self._by_kind.get(kind, ()))

    @cached_property
    def _by_kind(self) -> Mapping[type, Sequence[tree.Statement]]:
        found: dict[type, list[tree.Statement]] = defaultdict(list)
        for statement in self.statements:
            found[type(statement)].append(statement)
        return found


class Layers(Struct, frozen=True):
    """The chain, base first. ``unread`` are the words of lines that gave a message: no second message for them."""

    chain: tuple[Layer, ...]
    unread: frozenset[str]
    diagnostics: tuple[Diagnostic, ...]


def layers(source: Source, read: Reader, parsed: Parsed = parse) -> Layers:
    """Reads a file, what it includes and what it starts from."""
    loader = _Loader(read, parsed)
    chain = loader.follow(source)
    return Layers(chain, frozenset(loader.unread), tuple(loader.diagnostics))


class _Loader:
    """Walks one chain of files; each file is read once."""

    def __init__(self, read: Reader, parsed: Parsed) -> None:
        self._read = read
        self._parsed = parsed
        self.diagnostics: list[Diagnostic] = []
        self.unread: set[str] = set()
        self._trees: dict[str, tuple[tree.Statement, ...]] = {}

    def follow(self, source: Source) -> tuple[Layer, ...]:
        chain: list[Layer] = []
        seen = {source.name}
        takes_joins = True
        at: Source | None = source
        while at is not None:
            statements = tuple(self._statements(at))
            if not statements and not at.text.strip():
                self._tell(at.whole, f"`{at.name}` is empty", "write at least one part and one net")
            chain.append(Layer(at, statements, takes_joins))
            bases = [s for s in statements if isinstance(s, tree.Base)]
            for extra in bases[1:]:
                self._tell(extra.place, "a file starts from one other file only", "take one of the two lines away")
            at = None
            if bases:
                takes_joins = takes_joins and bases[0].joins
                at = self._open(bases[0].path, seen, len(chain))
        return tuple(reversed(chain))

    def _statements(self, source: Source) -> Iterator[tree.Statement]:
        yield from self._own(source)
        pending = [s for s in self._trees[source.name] if isinstance(s, tree.Include)]
        seen = {source.name}
        while pending:
            include = pending.pop(0)
            found = self._open(include.path, seen, 1, again=True)
            if found is None:
                continue
            for statement in self._own(found):
                if isinstance(statement, tree.Include):
                    pending.append(statement)
                elif isinstance(statement, _DECLARATIONS):
                    yield statement
                else:
                    self._tell(
                        statement.place,
                        "an included file has parts and basings only",
                        "sections, windings and positions too; all else belongs in the file that includes it",
                    )

    def _own(self, source: Source) -> tuple[tree.Statement, ...]:
        parsed, problems = self._parsed(source)
        self.diagnostics.extend(problems)
        self.unread.update(_words_of_unread_lines(source, problems))
        self._trees[source.name] = parsed.statements
        return parsed.statements

    def _open(self, path: tree.Word, seen: set[str], depth: int, *, again: bool = False) -> Source | None:
        found = self._read(path.place.source.name, path.text)
        if isinstance(found, Flaw):
            self._tell(path.place, found.headline, found.help)
            return None
        if found.name in seen:
            loop = "is included already" if again else "leads back to itself"
            self._tell(path.place, f"`{found.name}` {loop}", "take this line away")
            return None
        if depth >= DEEPEST:
            self._tell(path.place, f"more than {DEEPEST} files start from one another", "write the state out in full")
            return None
        seen.add(found.name)
        return found

    def _tell(self, place: Place, headline: str, do: str) -> None:
        self.diagnostics.append(
            Diagnostic("unusable-file", Grade.STOP, headline, (Label(place),), do=do),
        )


def _words_of_unread_lines(source: Source, problems: tuple[Diagnostic, ...]) -> Iterator[str]:
    """Every word of a line that gave a message, with the lines that it goes on in."""
    lines = [""] if not problems else ["", *source.text.split("\n")]  # counted from 1
    read: set[int] = set()
    for problem in problems:
        first = end = problem.labels[0].place.line
        while first > 1 and first - 1 not in read and lines[first - 1].rstrip().endswith(","):
            first -= 1
        while end + 1 < len(lines) and end not in read and lines[end].rstrip().endswith(","):
            end += 1
        for line in range(first, end + 1):
            if line not in read:
                read.add(line)
                yield from _names_in(lines[line][:10_000])


def _names_in(line: str) -> Iterator[str]:
    """The words of a line, and what part each would be of."""
    for word in re.findall(r"[^\s,:\"#]+", line):
        yield word
        yield word.split(".")[0].rstrip("+-")
