"""A statement of the language is more than read: what the file comes to differs for it, and a slip in it is told."""

from collections.abc import Mapping

import pytest
from msgspec import Struct

from netcheck.core.source import Place, Source
from netcheck.engine.language_page import STATEMENTS
from netcheck.language.examples import EXAMPLES
from tests.malformed import MALFORMED
from tests.paper import built
from tests.test_syntax import CASES

RESISTOR = "resistor R99 1k\nnet edge: R99.1, chassis\n"
# What two statements are there for: a base of a type that is not known, and a value without its unit.
BEFORE = {"basing": "tube V99 X99\n", "all": "capacitor C99 5\n"}


def comes_to(text: str) -> tuple[object, ...]:
    """The circuit and the headlines; where in the text something is said is left out, since one more line moves it."""
    circuit, told = built(text)
    return (without_places(circuit), *((found.rule, found.headline) for found in told))


def without_places(thing: object) -> object:
    if isinstance(thing, Place | Source):
        return None
    if isinstance(thing, Struct):
        return (type(thing).__name__, *(without_places(getattr(thing, field)) for field in thing.__struct_fields__))
    if isinstance(thing, Mapping):
        return tuple((key, without_places(value)) for key, value in thing.items())
    return tuple(map(without_places, thing)) if isinstance(thing, tuple) else repr(thing)


def test_a_comment_comes_to_nothing() -> None:
    assert comes_to(RESISTOR) == comes_to(f"# of five watts\n{RESISTOR}")


@pytest.mark.parametrize("word", EXAMPLES)
def test_no_statement_is_read_and_forgotten(word: str) -> None:
    text = BEFORE.get(word, "") + RESISTOR
    assert comes_to(text) != comes_to(f"{text}{EXAMPLES[word]}\n")


ONE_A_FILE = {"title", "state", "mains", "meter", "leakage", "common", "covers"}


@pytest.mark.parametrize("word", EXAMPLES)
def test_a_file_has_one_of_what_holds_for_all_of_it(word: str) -> None:
    line = f"{EXAMPLES[word]}\n"
    _, told = built(BEFORE.get(word, "") + RESISTOR + line + line)
    assert (f"a file has one `{word}` line" in [found.headline for found in told]) is (word in ONE_A_FILE)


TYPED_WRONG = {line.split()[0] for _, text, _ in CASES for line in text.splitlines() if line.strip()}
TYPED_WRONG |= {line.split()[0] for _, lines in MALFORMED for line in lines}


@pytest.mark.parametrize("word", STATEMENTS)
def test_every_statement_has_a_slip_that_is_told(word: str) -> None:
    assert word in TYPED_WRONG
