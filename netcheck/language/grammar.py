"""The grammar file: found, compiled, and asked for its words; the only place that knows where it lies."""

import re
from functools import cache
from typing import TYPE_CHECKING

from netcheck.core.shipped import shipped

if TYPE_CHECKING:
    from lark import Lark

__all__ = ["clause_words", "compiled", "first_words", "grammar_text", "spellings", "unit_terminals"]

_DEFINITION = re.compile(r"^[?]?(_?\w+)(?:\.\d)?:((?:.|\n(?=[ \t]))*)", re.MULTILINE)
_QUOTED = re.compile(r'"([^"]+)"(i?)')
_SYMBOL = re.compile(r"\b_?[A-Za-z]\w*")


def grammar_text() -> str:
    """The normative grammar: beside the package in a checkout, inside it once installed."""
    try:
        return shipped("netcheck", "grammar/netlist.lark")
    except FileNotFoundError:
        return shipped("netcheck", "../grammar/netlist.lark")


@cache
def compiled() -> "Lark":
    """The LALR parser of one logical line."""
    from lark import Lark  # only a run with a line that is not recognised pays for the import

    return Lark(grammar_text(), parser="lalr", lexer="contextual", start="statement", maybe_placeholders=True)


@cache
def first_words() -> tuple[str, ...]:
    """The words that a statement can begin with, kinds of parts included, in the order of the grammar."""
    rules = _SYMBOL.findall(_definitions()["statement"])
    openers = (_SYMBOL.findall(_definitions()[rule])[0] for rule in rules)
    return tuple(word for opener in openers for word, _ in spellings(opener))


@cache
def clause_words() -> tuple[str, ...]:
    """The words inside a statement that can't be a descriptive word of a part."""
    clauses = ("leads", "replaces", "inserted", "added", "intended", "past", "remove")
    symbols = {symbol for rule in clauses for symbol in _SYMBOL.findall(_definitions()[rule])}
    keywords = sorted(symbols & _definitions().keys() - {"TEXT"})
    return tuple(word for symbol in keywords if symbol[0] != "_" for word, _ in spellings(symbol))


def spellings(terminal: str) -> tuple[tuple[str, bool], ...]:
    """The quoted words of a terminal's definition, each with whether any case will do."""
    return tuple((word, bool(flag)) for word, flag in _QUOTED.findall(_definitions()[terminal]))


def unit_terminals() -> tuple[str, ...]:
    """The terminals of units that have one reading."""
    return tuple(name for name in _SYMBOL.findall(_definitions()["UNIT"]) if not name.startswith("UNSURE"))


@cache
def _definitions() -> dict[str, str]:
    text = re.sub(r"^//.*\n|[ \t]+//.*", "", grammar_text(), flags=re.MULTILINE)
    return {match[1]: match[2] for match in _DEFINITION.finditer(text)}
