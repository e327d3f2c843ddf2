"""The page of the language: complete, and every line on it is right."""

import re

import pytest

from netcheck.api import why
from netcheck.core.source import Source
from netcheck.engine.language_page import STATEMENTS, language_page
from netcheck.language.examples import EXAMPLES
from netcheck.language.parser import parse
from netcheck.parts import KINDS
from netcheck.reports.manual_page import MOST, manual_page
from tests.paper import checked

PAGE = language_page()
LINES = [line.strip() for line in PAGE.splitlines() if re.match(r" {4}[a-z]", line)]
NOT_A_LINE = {"chassis"}


def test_it_is_a_page_of_why() -> None:
    assert why("language") == PAGE


def test_every_first_word_of_the_language_has_its_line() -> None:
    first = {line.split()[0] for line in LINES}
    assert first - NOT_A_LINE == set(EXAMPLES)
    assert set(KINDS) | set(STATEMENTS) == set(EXAMPLES)


@pytest.mark.parametrize("line", [line for line in LINES if line not in NOT_A_LINE])
def test_every_line_can_be_read(line: str) -> None:
    assert parse(Source("page", line + "\n"))[1] == ()


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_every_kind_has_its_line_and_its_words(kind: object) -> None:
    from netcheck.core.kind import PartKind

    assert isinstance(kind, PartKind)
    chapter = PAGE.partition(f"    {kind.example}\n")[2].partition("\n    ")[2]
    own = chapter if chapter.startswith("    ") else ""
    assert kind.notes or kind.words or not own
    for word in kind.words:
        assert re.search(rf"words: .*\b{re.escape(word)}\b", PAGE)


FILAMENTS = """
transformer T1 grounded
winding T1 filament yellow-a yellow-b 5 V 3 A
winding T1 filament-2 green-a green-b 6.3 V 4 A
coil L1 240 uH
winding L1 all 1 2 3
capacitor C1A 365 mmfd variable
capacitor C1B 365 mmfd variable
tube V1 12AX7
tube V2 6SN7
net a: T1.yellow-a, T1.green-a, L1.1, C1A.1, V1.plate-a, V2.plate-b
net b: T1.yellow-b, T1.green-b, L1.2, C1B.1, V1.plate-b, V2.plate-a
net ground: chassis, L1.3, C1A.2, C1B.2
net same: V1.6, V2.2
net other: V1.1, V2.5
"""


def test_what_it_says_of_windings_taps_gangs_and_twin_tubes_is_so() -> None:
    told = checked(FILAMENTS).diagnostics
    # The pins that the page names are those of the electrodes: the nets with the numbers are those with the words.
    joined = {d.touched.nets for d in told if d.rule == "two-names"}
    assert joined == {("a", "same"), ("b", "other")}
    assert not [d for d in told if d.rule in ("syntax", "broken-declaration", "no-such-terminal")]


@pytest.mark.parametrize("width", [40, 60, 200])
def test_a_page_is_wrapped_but_its_examples_are_not(width: int) -> None:
    text = manual_page(f"{'word ' * 40}``code``\n\n    {'resistor ' * 12}\n        {'remark ' * 20}\n", width)
    prose, example = text.split("\n\n")
    assert max(map(len, prose.splitlines())) <= min(width, MOST)
    assert "`code`" in prose
    assert "``" not in prose
    lines = example.splitlines()
    assert lines[0].strip() == ("resistor " * 12).strip()
    assert max(map(len, lines[1:])) <= min(width, MOST)
    assert " ".join(" ".join(lines[1:]).split()) == ("remark " * 20).strip()
