"""Ordinary lines are read without Lark exactly as Lark reads them; Lark judges all others."""

import importlib
import random
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from lark import Token as LarkToken
from lark.exceptions import UnexpectedInput

from netcheck.language import units
from netcheck.language.characters import legible
from netcheck.language.examples import EXAMPLES
from netcheck.language.grammar import compiled, first_words, spellings, unit_terminals
from netcheck.language.lines import split
from netcheck.language.recognise import Token, recognised
from netcheck.language.units import _numpy_left_out
from tests.steps import STEPS, Walk, table

ROOT = Path(__file__).parents[1]
MUTATIONS = 4_000
PIECES = re.compile(r'"[^"]*"|[^\s,:"]+|[,:]|\s+')
SIGNS = 'aR1k.+-/#,:"½µΩ \tVm0'  # what turns a word into another sort of token, or into two
ODD = "kilovolt"


def logical(text: str) -> Iterator[str]:
    for line in split(text, first_words()):
        if line.slip is None:
            yield text[line.start : line.end]


def ordinary() -> list[str]:
    """Every different line of the samples, the trials and the language's own examples."""
    files = [path for folder in ("samples", "tests/trials") for path in sorted((ROOT / folder).rglob("*.netck"))]
    texts = [*(path.read_text(encoding="utf-8") for path in files), *EXAMPLES.values()]
    return sorted({line for text in texts for line in logical(legible(text))})


LINES = ordinary()
WORDS = sorted({word for line in LINES for word in PIECES.findall(line)})


def shown(parsed: object) -> object:
    """A parse tree of either kind as plain tuples."""
    if isinstance(parsed, LarkToken | Token):
        return (parsed.type, str(parsed), parsed.start_pos, parsed.end_pos)
    children = getattr(parsed, "children", None)
    return None if children is None else (str(getattr(parsed, "data", "")), *map(shown, children))


def by_lark(line: str) -> object:
    """What Lark makes of a line; None where it refuses it."""
    try:
        return shown(compiled().parse(line))
    except UnexpectedInput:
        return None


def mutated(line: str, rng: random.Random) -> str:
    """The line with a word or a sign too many, too few, changed or exchanged, or gone over into another line."""
    words = PIECES.findall(line)
    for _ in range(rng.randint(1, 3)):
        at = rng.randrange(len(words))
        way = rng.randrange(5)
        if way == 0:
            words[at] = f" {rng.choice(WORDS)} "
        elif way == 1:
            words[at] = words[at] + f" {rng.choice(WORDS)} "
        elif way == 2:
            other = rng.randrange(len(words))
            words[at], words[other] = words[other], words[at]
        elif way == 3:
            rest = PIECES.findall(rng.choice(LINES))
            words[at:] = [" ", *rest[rng.randrange(len(rest)) :]]
        else:
            cut = rng.randrange(len(words[at]) + 1)
            words[at] = words[at][:cut] + rng.choice(SIGNS) + words[at][cut + rng.randrange(2) :]
    return "".join(words)


def test_the_table_is_made_of_the_grammar_as_it_is() -> None:
    """After a change of the grammar: ``python -m tests.steps``."""
    assert STEPS.read_text(encoding="utf-8") == table()


def test_a_keyword_is_its_words_and_nothing_else() -> None:
    for name, terminal in Walk().terminals.items():
        words = [word for word, _ in spellings(name)]
        if words and all(word.isalpha() for word in words):
            end = '(?![^ \t\r\n,:"#])'
            said = terminal.pattern.to_regexp().removesuffix(end).removeprefix("(?:").removesuffix(")")
            assert sorted(said.split("|")) == sorted(words), name


@pytest.mark.parametrize("line", LINES)
def test_every_ordinary_line_is_recognised(line: str) -> None:
    read = recognised(f"first {line}\n last", 6, 6 + len(line))
    assert read is not None
    assert shown(read) == by_lark(line)


@pytest.mark.parametrize("seed", range(3))
def test_no_mutated_line_is_read_otherwise_than_by_lark(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 -- not for secrets
    good = left = 0
    for _ in range(MUTATIONS):
        line = mutated(rng.choice(LINES), rng)
        read, judged = recognised(line, 0, len(line)), by_lark(line)
        good += judged is not None
        left += judged is not None and read is None
        assert read is None or shown(read) == judged, line
    assert good > MUTATIONS / 8  # mutations that leave sense, else little is compared
    assert left < good / 100


def test_the_ordinary_units_are_what_pint_makes_of_them() -> None:
    worked_out = units.worked_out()
    assert set(worked_out) == set(unit_terminals())
    assert {name: worked_out[name] for name in units.ORDINARY} == units.ORDINARY
    rest = set(worked_out) - set(units.ORDINARY)
    assert ODD.upper() in rest
    assert all(units.measure(name) == worked_out[name] for name in worked_out)


def test_pint_is_loaded_without_numpy_and_forgotten_unless_a_host_has_either(monkeypatch: pytest.MonkeyPatch) -> None:
    """A host that has loaded them keeps what it has; else nothing is left for a later import to find."""
    for name in [name for name in sys.modules if name == "numpy" or name.partition(".")[0] == "pint"]:
        monkeypatch.delitem(sys.modules, name)
    loaded = {name: ModuleType(name) for name in ("pint", "pint.registry")}
    with _numpy_left_out():
        with pytest.raises(ImportError):
            importlib.import_module("numpy")
        sys.modules.update(loaded)
    assert not {"numpy", *loaded} & sys.modules.keys()
    assert "pathlib" in sys.modules
    for host in ("numpy", "pint"):
        monkeypatch.setitem(sys.modules, host, ModuleType(host))
        with _numpy_left_out():
            assert sys.modules.get("numpy", "to be looked for") is not None
        assert host in sys.modules
        monkeypatch.delitem(sys.modules, host)
