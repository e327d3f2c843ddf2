"""Whatever the text, parsing gives values and messages whose places lie in it."""

import time
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from msgspec import Struct

from netcheck.core.diagnostic import Flaw
from netcheck.core.quantity import Dimension, Quantity
from netcheck.core.source import Place, Source
from netcheck.language.examples import EXAMPLES
from netcheck.language.lines import LONGEST, split
from netcheck.language.parser import parse
from netcheck.language.tree import Statement, Value
from netcheck.language.values import bare, quantity
from tests.grammar_words import STATEMENT_WORDS, UNITS

ROOT = Path(__file__).parents[1]
LINES = sorted(
    {line for path in (ROOT / "samples").glob("**/*.netck") for line in path.read_text("utf-8").splitlines() if line}
    | set(EXAMPLES.values())
)
RULES = frozenset({"syntax", "unreadable-value", "refused-character"})
SIGNS = ' \t\n\r,:"#.+-/_%0159kMmVµΩ½\u2212\u2013\u201c\u00a0\x00\u202eéAaBZ'


def places(node: object) -> list[Place]:
    """Every place in a node, however deep."""
    if isinstance(node, Place):
        return [node]
    if isinstance(node, tuple):
        return [place for piece in node for place in places(piece)]
    if isinstance(node, Struct) and not isinstance(node, (Quantity, Source)):
        return [place for field in node.__struct_fields__ for place in places(getattr(node, field))]
    return []


def check(text: str) -> tuple[Statement, ...]:
    source = Source("any.netck", text)
    parsed, diagnostics = parse(source)
    for place in [*places(parsed), *places(diagnostics)]:
        assert place.source is source
        assert 0 <= place.start <= place.end <= len(text)
        assert 1 <= place.line <= len(source.line_starts)
        assert place.column >= 1
    for found in diagnostics:
        assert found.rule in RULES
        assert found.do
        assert found.headline.isprintable()
        assert "``" not in found.headline + found.do
    starts = [found.labels[0].place.start for found in diagnostics]
    assert starts == sorted(starts)
    assert all(a.place.end <= b.place.start for a, b in pairwise(parsed.statements))
    return parsed.statements


@given(st.text())
@example("\ufeff")
@example('"')
@example(",")
@example("net a:,\n,")
def test_any_text_is_read_without_fault(text: str) -> None:
    check(text)


@given(st.text(alphabet=SIGNS, max_size=60), st.sampled_from(STATEMENT_WORDS), st.sampled_from(["", "\n", "\r\n"]))
@settings(max_examples=400)
def test_any_signs_after_a_first_word(rest: str, word: str, end: str) -> None:
    check(f"{word} {rest}{end}")


ODDMENTS = frozenset({",", ":", '"', "#", "to", "6.3", "1/0 W", "50M", '"x"'})
WORDS = st.sampled_from(sorted({piece for line in LINES for piece in line.split()} | ODDMENTS))


@given(st.lists(WORDS, max_size=12), st.sampled_from(STATEMENT_WORDS))
@settings(max_examples=400)
def test_any_words_of_the_language_after_a_first_word(words: list[str], first: str) -> None:
    check(" ".join((first, *words)))


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A line of the samples with a piece of it taken out, doubled or put in another's place."""
    line = draw(st.sampled_from(LINES))
    start = draw(st.integers(0, len(line)))
    end = draw(st.integers(start, min(len(line), start + 12)))
    piece = draw(st.sampled_from(("", line[start:end] * 2, " ", ",", ":", '"', "-", "to ", "\n", "\n  ", "\u2013")))
    return line[:start] + piece + line[end:]


@given(st.lists(mutated(), min_size=1, max_size=4))
@settings(max_examples=400)
def test_damaged_lines_are_read_without_fault(lines: list[str]) -> None:
    check("\n".join(lines))


@given(mutated())
@settings(max_examples=400)
def test_a_damaged_line_spoils_no_other(line: str) -> None:
    """Statements before and after it are read; recovery is at the end of the line."""
    statements = check(f"state drawn\n{line}\ncommon B-\nmeter 1 ohm/V")
    assert type(statements[0]).__name__ == "State"
    assert [type(s).__name__ for s in statements[-2:]] == ["Common", "Meter"]


@given(st.lists(st.sampled_from(sorted(EXAMPLES.values())), max_size=8))
def test_every_line_is_a_statement_in_its_order(lines: list[str]) -> None:
    statements = check("\n".join(lines))
    assert [statement.place.text for statement in statements] == lines


@given(st.lists(st.sampled_from(LINES), max_size=8))
def test_layout_changes_no_statement(lines: list[str]) -> None:
    """Comments, blanks and line ends between statements mean nothing."""
    whole = [line for line in lines if not line.rstrip().endswith(",") and not line.startswith((" ", "#"))]
    plain = parse(Source("a", "\n".join(whole)))[0].statements
    padded = "".join(f'\n# {i}\r\n \t{line}  # x, "\r\n' for i, line in enumerate(whole))
    found = check(padded)
    assert [type(s) for s in found] == [type(s) for s in plain]
    assert [s.place.text for s in found] == [s.place.text for s in plain]


@given(st.text(alphabet=SIGNS + "0123456789.,/½¼¾ohmfdegW", max_size=12), st.sampled_from(Dimension))
@example(".", Dimension.RESISTANCE)
@example("1/0", Dimension.RESISTANCE)
@example("-", Dimension.VOLTAGE)
@example("", Dimension.CAPACITANCE)
def test_any_text_for_a_value_is_read_or_refused(text: str, dimension: Dimension) -> None:
    for found in (bare(text, dimension), quantity(text)):
        assert isinstance(found, Quantity | Flaw)
        if isinstance(found, Quantity):
            assert all(amount.is_finite() for amount in found.amounts)


NUMBERS = st.from_regex(r"[+-]?[0-9]{0,3}[./,½-]?[0-9]{0,3}[ ]?", fullmatch=True)
TAILS = st.sampled_from(
    sorted({word for word, _ in UNITS} | set("MRrKkpnuµm") | {"MF", "R47", "k7", "MH", "V AC", "vdc"})
)


@given(NUMBERS, TAILS)
@settings(max_examples=400)
def test_the_reader_of_values_reads_what_the_grammar_takes_for_one(number: str, tail: str) -> None:
    """What it would read beyond that has no way in, and would be a second definition of the language."""
    text = f"{number}{tail}"
    found = quantity(text)
    parsed, diagnostics = parse(Source("a", f"resistor R1 {text}"))
    values = [item for part in parsed.statements for item in getattr(part, "items", ()) if isinstance(item, Value)]
    if isinstance(found, Quantity):
        assert ([value.quantity for value in values], diagnostics) == ([found], ())
    else:
        assert not [value for value in values if value.quantity is not None and value.quantity.written == text]


@given(st.lists(st.sampled_from(["net A: B,", "  C,", "  D", "# x", "", "E,", 'note "x', "state drawn"]), max_size=12))
def test_logical_lines_follow_one_another(rows: list[str]) -> None:
    text = "\n".join(rows)
    lines = tuple(split(text, STATEMENT_WORDS))
    assert all(a.end <= b.start for a, b in pairwise(lines))
    said = sum(bool(row) and not row.startswith("#") for row in rows)
    assert len(lines) <= said
    assert bool(lines) == bool(said)


HOSTILE = {
    "one endless word": "x" * 5_000_000,
    "quotes": 'title "' + '"' * 100_000,
    "quotes below the limit": 'title "' + '"' * (LONGEST - 100),
    "digits": "resistor R1 " + "1" * (LONGEST - 100),
    "commas": "resistor R1 " + "1," * (LONGEST // 2 - 100),
    "numbers": "resistor R1 " + "1 " * (LONGEST // 2 - 100),
    "blanks": "resistor R1 1" + " " * (LONGEST - 100) + "x",
    "brackets": "net A: " + "(" * (LONGEST - 100),
    "nulls": "\0" * 1_000_000,
    "lines of nulls": "\0\n" * 2_000,
    "a list without end": "net A: B,\n" + "  C,\n" * 20_000,
    "a list without indent": "net A: B,\n" + "C,\n" * 500,
    "comments without end": "net A: B,\n" + "# C,\n" * 20_000,
    "points": "net A: " + "B, " * (LONGEST // 3 - 10) + "C",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_text_is_told_and_not_pondered(text: str) -> None:
    """A run-away expression would take minutes; the limit is generous, so that no slow machine fails it."""
    started = time.process_time()
    check(text)
    assert time.process_time() - started < 30


def test_a_line_over_the_limit_is_refused_unless_it_is_a_comment() -> None:
    long = "x" * (LONGEST + 1)
    assert parse(Source("a", f"# {long}\nstate drawn"))[1] == ()
    (found,) = parse(Source("a", f'state drawn\ntitle "{long}"'))[1]
    assert (str(found.labels[0].place), found.headline) == (
        "a:2:1",
        "a line of more than 20,000 characters can't be read",
    )
