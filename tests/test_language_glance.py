"""What is read at a glance is what would be read token by token, and lines are split alike either way."""

import random
import re
from collections.abc import Iterator

import pytest
from msgspec import Struct

from netcheck.core.source import Place, Source
from netcheck.language import lines, tree
from netcheck.language.characters import legible
from netcheck.language.glance import Glance
from netcheck.language.grammar import clause_words, first_words
from netcheck.language.parser import parse
from netcheck.language.recognise import recognised
from netcheck.language.transform import Transform
from tests.test_language_recognise import LINES, MUTATIONS, mutated

NEVER = re.compile(r"(?!)")
OTHER_NAME = "R1234b"


def shown(node: object) -> object:
    """A node as plain tuples: statements are not held against each other by what is in them."""
    if isinstance(node, Place):
        return (node.start, node.end)
    if isinstance(node, Struct):
        return (type(node).__name__, *(shown(getattr(node, name)) for name in node.__struct_fields__))
    return tuple(map(shown, node)) if isinstance(node, tuple) else node


def by_token(text: str, start: int, end: int) -> tree.Statement | None:
    """What a line says, read token by token; None where it has a mistake."""
    transform = Transform(Source("a", text))
    known = recognised(text, start, end)
    statement = None if known is None else transform.statement(known, start, end)
    return None if transform.slips else statement


def twice(line: str) -> Iterator[tuple[str, int, int]]:
    """The line behind another, then once more with another name of its part."""
    first = f"title {line}\n"
    yield first, len("title "), len(first) - 1
    words = line.split(None, 2)
    again = first + " ".join([words[0], OTHER_NAME, *words[2:]] if len(words) > 1 else words)
    yield again, len(first), len(again)


def is_read_alike(line: str) -> bool:
    """Whether any of it is read at a glance; what is, has to be right."""
    glances = 0
    (_, start, end), (text, next_start, next_end) = twice(line)
    glance = Glance(Source("a", text), text)
    for at, to in ((start, end), (next_start, next_end)):
        seen, judged = glance.read(at, to), by_token(text, at, to)
        glances += seen is not None
        assert seen is None or shown(seen) == shown(judged), text[at:to]
        if judged is not None:
            glance.keep(judged)
            kept = glance.read(at, to)
            assert kept is None or shown(kept) == shown(judged), text[at:to]
    return glances > 0


def test_most_lines_are_read_at_a_glance_and_as_token_by_token() -> None:
    assert sum(map(is_read_alike, LINES)) > len(LINES) / 2


@pytest.mark.parametrize("seed", range(2))
def test_no_mutated_line_is_read_otherwise_at_a_glance(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 -- not for secrets
    assert sum(is_read_alike(legible(mutated(rng.choice(LINES), rng))) for _ in range(MUTATIONS)) > MUTATIONS / 20


def test_a_part_with_a_clause_is_never_taken_for_another() -> None:
    text = 'resistor R1 470 inserted "one"\nresistor R2 470 inserted "one"\nresistor R3 470 from X.1 to X.2\n'
    parsed, slips = parse(Source("a", text))
    assert not slips
    first, second, third = parsed.statements
    assert isinstance(first, tree.Part)
    assert isinstance(second, tree.Part)
    assert isinstance(third, tree.Part)
    assert first.clauses.inserted is not None
    assert second.clauses.inserted is not None
    assert second.clauses.inserted.word.place.line == 2
    assert len(third.clauses.leads) == 2


def test_a_mistake_is_told_on_every_line_that_has_it() -> None:
    text = "resistor R1 4,7k\nresistor R2 4,7k\n"
    _, slips = parse(Source("a", text))
    assert {slip.labels[0].place.line for slip in slips} == {1, 2}


@pytest.mark.parametrize("seed", range(2))
def test_lines_are_split_alike_without_a_glance(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    rng = random.Random(seed)  # noqa: S311 -- not for secrets
    ends = ("\n", "\r\n", ",\n  ", " \n", "\n\n", " # remark\n", ",\n", "\n ", "é\n")
    texts = ["".join(rng.choice(LINES) + rng.choice(ends) for _ in range(20)) for _ in range(200)]
    quick = [list(lines.split(text, first_words())) for text in texts]
    monkeypatch.setattr(lines, "_PLAIN", NEVER)
    assert [list(lines.split(text, first_words())) for text in texts] == quick


@pytest.mark.parametrize("last", [*clause_words(), "20", "R12", "4R7", "20AWG", "470"])
def test_a_wire_that_ends_in_more_than_a_colour_is_read_token_by_token(last: str) -> None:
    line = f"wire V1.8 to SP1.2 {last}"
    assert Glance(Source("a", line), line).read(0, len(line)) is None


@pytest.mark.parametrize("line", ["wire A.1 to B red-white", "at A.1: B+,\n  C.2,\tD", "net B+1 : C1+, V1.8"])
def test_what_is_read_at_a_glance(line: str) -> None:
    assert Glance(Source("a", line), line).read(0, len(line)) is not None


def test_of_parts_that_are_declared_alike_one_is_read_token_by_token(monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[int] = []

    def recognised_and_noted(text: str, start: int, end: int) -> object:
        read.append(start)
        return recognised(text, start, end)

    monkeypatch.setattr("netcheck.language.parser.recognised", recognised_and_noted)
    text = "resistor R1 470k 1/2 W\nresistor R2 470k 1/2 W\nresistor R3 470k 1 W\nresistor R4 470k 1/2 W\n"
    found, problems = parse(Source("a.netck", text))
    assert problems == ()
    assert len(found.statements) == 4
    assert read == [0, text.index("resistor R3")]
