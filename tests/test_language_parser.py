"""Each statement to its node, lines to statements, and the grammar itself."""

import logging
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import lark
import pytest
from msgspec import Struct

from netcheck.core.source import Source
from netcheck.language import tree
from netcheck.language.examples import EXAMPLES
from netcheck.language.grammar import first_words, grammar_text
from netcheck.language.lines import LONGEST
from netcheck.language.parser import parse
from tests import grammar_words as words

SAMPLES = sorted((Path(__file__).parents[1] / "samples").glob("**/*.netck"))


def only(text: str) -> tree.Statement:
    parsed, diagnostics = parse(Source("one.netck", text))
    assert diagnostics == ()
    (statement,) = parsed.statements
    return statement


def shown(node: object) -> object:
    """A node as plain tuples and texts, without its places."""
    if isinstance(node, tree.Word):
        return node.text
    if isinstance(node, tree.Value):
        return None if node.quantity is None else f"<{node.quantity.written}>"
    assert not isinstance(node, str | list)  # every word has its place
    if isinstance(node, tuple):
        return tuple(shown(piece) for piece in node)
    if isinstance(node, Struct):
        kept = (getattr(node, field) for field in node.__struct_fields__ if field != "place")
        return (type(node).__name__, *(shown(piece) for piece in kept))
    return node


NONE = ("Clauses", (), (), None, None)
NODES = {
    'title "Harrow Point 7 console receiver"': ("Title", "Harrow Point 7 console receiver"),
    "state rewired": ("State", "rewired", None),
    "state rewired unfinished": ("State", "rewired", "unfinished"),
    "mains 117 V 60 Hz": ("Mains", ("<117 V>", "<60 Hz>")),
    "mains 117 V DC": ("Mains", ("<117 V DC>",)),
    'note C30 "lug cracked"': ("Note", "C30", "lug cracked"),
    'note "lug cracked"': ("Note", None, "lug cracked"),
    'include "parts/basings.netck"': ("Include", "parts/basings.netck"),
    'start from "original.netck"': ("Base", "original.netck", True),
    'parts from "original.netck"': ("Base", "original.netck", False),
    "covers C30, L3, R41, V7.8": ("Covers", ("C30", "L3", "R41", "V7.8")),
    "resistor R41 2.7k 1 W 10%": ("Part", "resistor", "R41", ("<2.7k>", "<1 W>", "<10%>"), NONE),
    "resistor R41 470": ("Part", "resistor", "R41", ("470",), NONE),
    "tube V7 6K7": ("Part", "tube", "V7", ("6K7",), NONE),
    'tube V7 80 "rectifier"': ("Part", "tube", "V7", ("80", "rectifier"), NONE),
    'strip SP1 5 lugs foot 3 "by the fuse"': ("Part", "strip", "SP1", ("<5 lugs>", "foot", "3", "by the fuse"), NONE),
    "section C30A 20 mfd 450 V half-moon": ("Section", "C30A", ("<20 mfd>", "<450 V>", "half-moon"), NONE),
    "section C30A 20 mfd minus black": ("Section", "C30A", ("<20 mfd>", "minus", "black"), NONE),
    "section C30A plus SP1.1 minus SP1.2": (
        "Section", "C30A", (),
        ("Clauses", (("Lead", "plus", "SP1.1", None), ("Lead", "minus", "SP1.2", None)), (), None, None),
    ),
    "winding T1 high red-a red-yellow red-b 310-0-310 V 180 ohm": (
        "Winding", "T1", "high", ("red-a", "red-yellow", "red-b"), ("<310-0-310 V>", "<180 ohm>"), False,
    ),
    "winding L2 main 1 2 3 3 ohm": ("Winding", "L2", "main", ("1", "2", "3"), ("<3 ohm>",), False),
    "winding L2 each 1 2 3 4 ohm each side": ("Winding", "L2", "each", ("1", "2", "3"), ("<4 ohm>",), True),
    "position S2 phono: 1 3, 4 6": ("Position", "S2", "phono", (("1", "3"), ("4", "6"))),
    "basing X99: 1 grid, 2 cathode, 6 none, cap plate": (
        "Basing", "X99", tuple(("PinOf", *p.split()) for p in ("1 grid", "2 cathode", "6 none", "cap plate")),
    ),
    "net B+1: C30A+, V7.8, L3.1": ("Net", "B+1", ("C30A+", "V7.8", "L3.1"), None),
    "net 6.3V: V1.7": ("Net", "6.3V", ("V1.7",), None),
    "meant B+2: R70.1, C9+": ("Meant", "B+2", ("R70.1", "C9+")),
    'net B+1: C30A+ intended "why"': ("Net", "B+1", ("C30A+",), ("Intent", "intended", "why")),
    "at SP1.3: C51-, R7.2": ("At", "SP1.3", ("C51-", "R7.2"), None, ()),
    "at SP1: 1 C51- R7.2, 3 C53+": (
        "At", "SP1", (), None, (("Spot", "1", ("C51-", "R7.2")), ("Spot", "3", ("C53+",))),
    ),
    "all capacitors in mfd": ("Convention", "capacitors", "mfd"),
    "wire SP1.4 to SP3.6 to SP5.6 black 20 AWG past SP2.3": (
        "Wire", ("SP1.4", "SP3.6", "SP5.6"), ("black", "<20 AWG>"), ("SP2.3",), None,
    ),
    'wire A to B past C, D red intended "x" past E': (
        "Wire", ("A", "B"), ("red",), ("C", "D", "E"), ("Intent", "intended", "x"),
    ),
    "fit R41 from C30.A to C30.B": (
        "Fit", "R41", (("Lead", "from", "C30.A", None), ("Lead", "to", "C30.B", None)), None,
    ),
    'spare V4.5, C40.A "bare on purpose"': ("Spare", ("V4.5", "C40.A"), "bare on purpose"),
    "spare V4.5": ("Spare", ("V4.5",), None),
    "common B-": ("Common", "B-"),
    'apart B-, chassis "line set"': ("Apart", ("B-", "chassis"), "line set"),
    "place SP1 120 85": ("Stand", "SP1", "120", None, "85", None, False),
    "place V5 4-1/2 in 60 mm turned": ("Stand", "V5", "4-1/2", "in", "60", "mm", True),
    "volts V5.plate to B- 110 V": ("Volts", "V5.plate", "B-", "<110 V>"),
    "volts minus -20 V": ("Volts", "minus", None, "<-20 V>"),
    "draws B+2 65 mA": ("Draws", "B+2", "<65 mA>"),
    'supply boost to B+1 280 V "declared"': ("Supply", "boost", "B+1", "<280 V>", "declared"),
    "supply boost to B+1 280 V": ("Supply", "boost", "B+1", "<280 V>", None),
    "meter 20000 ohm/V": ("Meter", "<20000 ohm/V>"),
    "leakage 0.75 mA": ("Leakage", "<0.75 mA>"),
    "remove C30A, C30B": ("Remove", ("C30A", "C30B"), None, None),
    'remove L3 bridged "field open"': ("Remove", ("L3",), "bridged", "field open"),
    "lift T1.black-a, T1.black-b": ("Lift", ("T1.black-a", "T1.black-b"), None),
    "move R14.2 to SP2.1": ("Move", "R14.2", "SP2.1", None),
    'move S1.1 to P1.1 intended "hot side"': ("Move", "S1.1", "P1.1", ("Intent", "intended", "hot side")),
    "cut SP1.2 to SP1.3": ("Cut", "SP1.2", "SP1.3", None),
    "change C28 .047 mfd 275 V X2": ("Change", "C28", None, ("<.047 mfd>", "<275 V>", "X2")),
    "change C28 electrolytic 22 mfd": ("Change", "C28", "electrolytic", ("<22 mfd>",)),
    "change V1 tube 6K7": ("Change", "V1", "tube", ("6K7",)),
    'accept value-changed C61, C62 "one value bought"': ("Accept", "value-changed", ("C61", "C62"), "one value bought"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), NODES.items())
def test_a_statement_to_its_node(text: str, expected: object) -> None:
    assert shown(only(text)) == expected


def test_every_kind_of_node_is_tried() -> None:
    assert {type(only(text)) for text in NODES} == set(tree.Statement.__args__)


@pytest.mark.parametrize("word", first_words())
def test_the_example_of_every_first_word_is_right(word: str) -> None:
    assert EXAMPLES[word].split()[0] == word
    assert isinstance(only(EXAMPLES[word]), tree.Statement)


def test_the_tables_of_words_are_those_of_the_language() -> None:
    assert set(EXAMPLES) == set(words.STATEMENT_WORDS)
    assert set(words.KIND_WORDS) < set(words.STATEMENT_WORDS)
    assert words.STATE_WORDS == ("drawn", "found", "planned", "rewired")
    clauses = "from to plus minus anode cathode replaces inserted added intended past bridged"
    assert sorted(words.CLAUSE_WORDS) == sorted(clauses.split())
    assert ("mfd", True) in words.UNITS
    assert not {"M", "MF", "mF"} & {spelling for spelling, _ in words.UNITS}


CLAUSES = ("22 mfd", "500 V", "plus C30.A minus SP1.1", "replaces C5, C6", 'added "why"', "film")


@pytest.mark.parametrize("turn", range(len(CLAUSES)))
def test_items_and_clauses_stand_in_any_order(turn: int) -> None:
    part = only(" ".join(("electrolytic C51", *CLAUSES[turn:], *CLAUSES[:turn])))
    assert isinstance(part, tree.Part)
    assert set(map(str, map(shown, part.items))) == {"<22 mfd>", "<500 V>", "film"}
    assert shown(part.clauses) == (
        "Clauses", (("Lead", "plus", "C30.A", None), ("Lead", "minus", "SP1.1", None)), ("C5", "C6"), None,
        ("Intent", "added", "why"),
    )  # fmt: skip


@pytest.mark.parametrize("roles", ["from to", "plus minus", "minus plus", "anode cathode", "cathode anode"])
def test_the_leads_clause_in_every_form(roles: str) -> None:
    one, other = roles.split()
    part = only(f"diode D1 {one} A {other} B")
    assert isinstance(part, tree.Part)
    assert shown(part.clauses.leads) == (("Lead", one, "A", None), ("Lead", other, "B", None))


@pytest.mark.parametrize("word", [*words.STATEMENT_WORDS, *words.CLAUSE_WORDS, *words.STATE_WORDS])
def test_words_of_the_language_are_names_elsewhere(word: str) -> None:
    texts = (
        f"net {word}: {word}, {word}.1", f"at {word}: {word}+", f"wire {word} to {word} to {word}",
        f"volts {word} to {word} 5 V", f"resistor {word} 1k from {word} to {word} replaces {word}",
        f"move {word} to {word}", f"tube {word} {word}", f"winding {word} {word} {word} {word} 5 V",
        f"position {word} {word}: {word}", f"common {word}", f"remove {word}", f'note {word} "x"',
        f'accept {word} {word} "x"', f"basing {word}: {word} {word}", f"fit {word} plus {word} minus {word}",
    )  # fmt: skip
    for text in texts:
        assert word in str(shown(only(text)))


FORMS = {
    "continued": "net A: B,\n    C,\n\tD",
    "with comments": "net A: B,  # one, two\n# between\n  # and indented\n    C, # three\n    D # end",
    "Windows": "net A: B,\r\n    C,\r\n    D\r\n",
    "old habit": "net A: B,\r\n    C,\r\n    D\r",
    "no last newline": "net A: B, C, D",
    "blanks everywhere": "\n\n   net   A  :B  ,C,\t D   \n\n",
    "no blanks": "net A:B,C,D#",
    "byte order mark": "\ufeffnet A: B, C, D\n",
}


@pytest.mark.parametrize("text", FORMS.values(), ids=FORMS)
def test_layout_means_nothing_else(text: str) -> None:
    assert shown(only(text)) == ("Net", "A", ("B", "C", "D"), None)


@pytest.mark.parametrize("more", [0, 1])
def test_a_line_may_be_as_long_as_the_limit_in_several_rows(more: int) -> None:
    """A limit that counted row by row would let any length pass."""
    row = "    " + "A," * 4000 + "\n"
    text = f"net B: A,\n{row}{row}    "
    text += "C" * (LONGEST + more - len(text))
    parsed, diagnostics = parse(Source("x.netck", text))
    assert len(parsed.statements) == 1 - more
    assert [d.headline for d in diagnostics] == ["a line of more than 20,000 characters can't be read"] * more


@pytest.mark.parametrize("word", EXAMPLES)
def test_each_word_of_a_statement_has_its_place_in_the_line(word: str) -> None:
    text = EXAMPLES[word]
    assert shown(only(text))
    for name in _words(only(text)):
        assert name.text in name.place.text
        assert (name.place.text, name.place.line) == (text[name.place.start : name.place.end], 1)


def _words(node: object) -> Iterator[tree.Word]:
    if isinstance(node, tree.Word):
        yield node
    elif isinstance(node, tuple | Struct):
        for piece in node if isinstance(node, tuple) else [getattr(node, field) for field in node.__struct_fields__]:
            yield from _words(piece)


def test_signs_that_look_alike_are_one_name() -> None:
    net = only("net B\u2212: C30\u2212, B-")
    assert shown(net) == ("Net", "B-", ("C30-", "B-"), None)
    assert shown(only("capacitor C1 1 \u03bcF")) == shown(only("capacitor C1 1 \u00b5F"))
    assert shown(only("resistor R1 1 \u2126")) == shown(only("resistor R1 1 \u03a9"))


def test_a_comment_sign_inside_quotes_is_text() -> None:
    assert shown(only('note "lug #3, the \u201cfoot\u201d \u2013 left" # comment')) == (
        "Note", None, "lug #3, the \u201cfoot\u201d \u2013 left",
    )  # fmt: skip


def test_statements_stand_in_the_order_of_the_text() -> None:
    parsed, diagnostics = parse(Source("x.netck", "net A: B\nnonsense\nstate drawn\n\ncommon A\n"))
    assert [type(s).__name__ for s in parsed.statements] == ["Net", "State", "Common"]
    assert [str(d.labels[0].place) for d in diagnostics] == ["x.netck:2:1"]


def test_places_are_those_of_the_text() -> None:
    text = '# first\r\nstate drawn\r\n  net B+: C1+,  # here\r\n      C2- intended "why"  # end\r\n'
    source = Source("x.netck", text)
    state, net = parse(source)[0].statements
    assert isinstance(net, tree.Net)
    assert net.intended is not None
    found = [net.name, *net.points, net.intended.word, net.intended.reason]
    assert [word.place.text for word in found] == ["B+", "C1+", "C2-", "intended", '"why"']
    assert [(w.place.line, w.place.column) for w in found] == [(3, 7), (3, 11), (4, 7), (4, 11), (4, 20)]
    assert (state.place.text, state.place.line) == ("state drawn", 2)
    assert (net.place.line, net.place.column, net.place.text[-5:]) == (3, 3, '"why"')


def test_a_value_that_cannot_be_read_keeps_its_place_in_the_part() -> None:
    (part,) = parse(Source("x.netck", "resistor R1 50M 1 W"))[0].statements
    assert shown(part) == ("Part", "resistor", "R1", (None, "<1 W>"), NONE)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_every_sample_is_well_formed(path: Path) -> None:
    parsed, diagnostics = parse(Source(path.name, path.read_text(encoding="utf-8")))
    assert diagnostics == ()
    assert all(a.place.end < b.place.start for a, b in pairwise(parsed.statements))


def test_there_are_samples() -> None:
    assert SAMPLES


def test_the_grammar_has_no_conflict(caplog: pytest.LogCaptureFixture) -> None:
    """Lark logs a shift/reduce conflict that it has settled by itself; a grammar with one is logged here too."""
    lark.logger.setLevel(logging.DEBUG)
    try:
        with caplog.at_level(logging.DEBUG, logger=lark.logger.name):
            lark.logger.addHandler(caplog.handler)
            lark.Lark(grammar_text(), parser="lalr", lexer="contextual", start="statement", debug=True)
            own = [record.getMessage() for record in caplog.records]
            caplog.clear()
            lark.Lark('start: "x" start | start "x" | "x"', parser="lalr", lexer="contextual", debug=True)
            ambiguous = [record.getMessage() for record in caplog.records]
    finally:
        lark.logger.removeHandler(caplog.handler)
        lark.logger.setLevel(logging.CRITICAL)
    assert not [message for message in own if "onflict" in message]
    assert [message for message in ambiguous if "onflict" in message]


@pytest.mark.parametrize("line", ["net B+1: R41.1", "at SP1.3: R41.1", "wire SP1.3 to R41.1 red", "lift R41.1, C1.2"])
def test_a_name_is_one_object_wherever_it_is_written(line: str) -> None:
    """Thousands of names are held against each other, which takes a look where they are one."""
    first, second = (parse(Source(name, f"{line}\n"))[0].statements[0] for name in ("a.netck", "b.netck"))
    assert isinstance(first, tree.Net | tree.At | tree.Wire | tree.Lift)
    assert isinstance(second, type(first))
    assert [word.text for word in first.points].count("R41.1") == 1
    assert all(one.text is other.text for one, other in zip(first.points, second.points, strict=True))
