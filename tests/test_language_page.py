"""The page of the language: complete, and every line on it is right."""

import re
from pathlib import Path

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


def test_it_is_printed_as_it_was_read_last() -> None:
    """After a change of its words: ``netcheck why language > tests/pages/language.txt``, and read the difference."""
    last = (Path(__file__).parent / "pages" / "language.txt").read_text(encoding="utf-8")
    assert f"{manual_page(language_page(), MOST).rstrip()}\n" == last
    assert {*KINDS, *STATEMENTS} == {*EXAMPLES}


def test_every_first_word_of_the_language_has_its_line() -> None:
    first = {line.split()[0] for line in LINES}
    assert first - NOT_A_LINE == set(EXAMPLES)
    assert set(KINDS) | set(STATEMENTS) == set(EXAMPLES)


@pytest.mark.parametrize("line", [line for line in LINES if line not in NOT_A_LINE])
def test_every_line_can_be_read(line: str) -> None:
    assert parse(Source("page", line + "\n"))[1] == ()


GRAMMAR = (Path(__file__).parents[1] / "grammar" / "netlist.lark").read_text(encoding="utf-8")
SNIPPETS = [code for code in re.findall(r"`([^`]+)`", PAGE) if code.split()[0] in EXAMPLES and " " in code]


def test_every_word_of_the_grammar_is_used_in_a_line_of_the_page() -> None:
    words = {
        word
        for line in re.findall(r"^[A-Z_.1]+: (.*) END$", GRAMMAR, flags=re.MULTILINE)
        for word in re.findall(r'"(\w+)"', line)
    }
    assert len(words) >= 54
    shown = set(re.findall(r"[\w-]+", " ".join((*LINES, *SNIPPETS))))
    assert words <= shown, words - shown


def test_every_unit_of_the_grammar_is_on_the_page() -> None:
    units = dict(re.findall(r'^([A-Z_]+): ("[^/\n]*)$', GRAMMAR.partition("UNIT: OHM")[2], flags=re.MULTILINE))
    values = {unit.lower() for unit in re.findall(r"\d ?([A-Za-z%/]+)", PAGE)}
    missing = {
        name
        for name, said in units.items()
        if not name.startswith("UNSURE") and not set(re.findall(r'"([^"]+)"', said.lower())) & values
    }
    # What a service sheet never has, and the two words that may follow a voltage.
    assert missing == {"NANOFARAD", "FARAD", "MILLIVOLT", "VOLT_DC", "MICROAMPERE", "MILLIWATT", "AC", "DC"}


@pytest.mark.parametrize("snippet", SNIPPETS)
def test_every_statement_in_the_words_of_the_page_can_be_read(snippet: str) -> None:
    assert parse(Source("page", snippet + "\n"))[1] == ()


ITSELF = """
strip SP1 3 lugs foot 2
strip SP2 3 lugs foot 2 insulated
lug G1 grounded
can C30 insulated
section C30A 20 mfd 450 V half-moon
tube V1 6SJ7
tube V2 50C5
switch S1
net a: SP1.2, V1.2
net b: SP2.2, V1.3
net c: G1, V1.4
net d: C30.can, V1.5
net e: V1.1, V1.6
net f: V2.2, V1.7
net g: V2.5, V1.8
net h: S1.1, V2.1
net i: S1.2, V2.7
wire SP1.1 to SP1.3 past SP2.1
net j: SP1.1, V2.3
net k: SP2.1, V2.4
"""


def test_what_it_says_of_joints_that_are_not_written_is_so() -> None:
    from tests.paper import circuit

    made = circuit(ITSELF)
    net = {name: made.net_of(name) for name in "abcdefghijk"}
    chassis = made.net_of("chassis")
    assert {name for name, at in net.items() if at == chassis} == {"a", "c"}
    assert net["f"] == net["g"]
    assert net["h"] != net["i"]
    assert net["j"] != net["k"]


RECTIFIED = """
transformer T1 grounded
winding T1 high red-a tap red-b 310-0-310 V 90 ohm each side
winding T1 filament yellow-a yellow-b 5 V 3 A
electrolytic C1 20 mfd 450 V
tube V7 5Y3GT
net ha: T1.red-a, V7.plate-1
net hb: T1.red-b, V7.plate-2
net f: T1.yellow-a, V7.filament-1
net B+: T1.yellow-b, V7.filament-2, C1+
net ground: chassis, T1.tap, C1-
"""


def test_diodes_for_a_tube_as_the_page_has_them_are_no_difference() -> None:
    from tests.paper import compared

    chapter = PAGE.partition("its pins are lugs:")[2].partition("A change of the circuit")[0]
    lines = [line.strip() for line in chapter.strip().splitlines() if "V7" in line]
    assert len(lines) == 3
    told = compared(RECTIFIED, "\n".join(("state rewired", 'start from "original.netck"', *lines, "")))
    assert not [d for d in told.diagnostics if d.grade.value == "STOP"]
    turned = [lines[0], lines[1].replace("V7.6", "V7.4"), lines[2]]
    wrong = compared(RECTIFIED, "\n".join(("state rewired", 'start from "original.netck"', *turned, "")))
    assert [d for d in wrong.diagnostics if d.grade.value == "STOP"]


def test_two_names_that_differ_in_capitals_are_refused_and_so_is_a_can_that_may_be_grounded() -> None:
    def told(text: str) -> set[str]:
        return {d.rule for d in checked(text).diagnostics}

    assert "broken-declaration" in told("can C30\nsection C30A 20 mfd 450 V\n")
    assert told("resistor R1 1k\nresistor r1 1k\n") - told("resistor R1 1k\nresistor R2 1k\n")


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
