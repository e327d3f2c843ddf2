"""A line that does not parse, to the one message that tells why."""

from collections.abc import Iterator

from netcheck.core.diagnostic import Flaw
from netcheck.language.first_word import first_word_flaw
from netcheck.language.grammar import first_words, spellings
from netcheck.language.near import near
from netcheck.language.refused import refusal
from netcheck.language.situation import LineToken, Situation
from netcheck.language.slip import CHARACTER, VALUE, PlacedFlaw, clipped
from netcheck.language.syntax_errors import MISTAKES
from netcheck.language.values import unknown_unit

__all__ = ["diagnosis"]

_SIGNS = frozenset('.+-/_ \t\r\n,:"#%½¼¾µΩ')
_SAME_WORD = 0.75


def diagnosis(line: Situation, start: int, *, indented: bool) -> PlacedFlaw:
    """The slip of a line that begins at an offset of its source."""
    mark, flaw, rule = _found(line, indented=indented)
    return PlacedFlaw(start + mark.start, start + mark.end, flaw, rule)


def _found(line: Situation, *, indented: bool) -> tuple[LineToken, Flaw, str]:
    first = line.marks[0]
    odd = _odd(line.text, first.start, first.end) or _odd(line.text, line.at, line.at + 1)
    if odd:
        return odd, refusal(odd.text), CHARACTER
    if not first.is_word:
        return first, Flaw("a line begins with a word that says what it is", "like `net B+1: C30A+, L3.1`"), "syntax"
    if first.text not in first_words():
        return first, first_word_flaw(line, indented=indented), "syntax"
    return _unit(line) or _misspelt(line) or _by_table(line)


def _odd(text: str, start: int, end: int) -> LineToken | None:
    """The first sign that no name, text or value is made of."""
    signs = ((at, text[at]) for at in range(start, min(end, len(text))))
    return next((LineToken(sign, at, at + 1) for at, sign in signs if not sign.isalnum() and sign not in _SIGNS), None)


def _unit(line: Situation) -> tuple[LineToken, Flaw, str] | None:
    """A number with an unknown unit where a value is expected."""
    number, unit = line.here, line.after
    if "QUANTITY" not in line.expected or not number.is_number or not unit.is_word:
        return None
    return unit, unknown_unit(number.text, unit.text), VALUE


def _misspelt(line: Situation) -> tuple[LineToken, Flaw, str] | None:
    """A word that is nearly one of those that could go on from here."""
    word = line.here
    meant = near(word.text, _words(line), _SAME_WORD) if word.is_word else ""
    if not meant or meant == word.text:
        return None
    corrected = line.with_inserted(word.start, meant, word.end)
    headline = f"{clipped(word.text)} does not belong here"
    return word, Flaw(headline, f"did you mean `{corrected or meant}`?"), "syntax"


def _words(line: Situation) -> Iterator[str]:
    for terminal in line.expected - {"KIND", "TUBE"}:
        if terminal.isidentifier() and terminal not in ("NAME", "TEXT", "QUANTITY"):
            yield from (word for word, _ in spellings(terminal) if word.isalpha())


def _by_table(line: Situation) -> tuple[LineToken, Flaw, str]:
    mistake, place = next((row, place) for row in MISTAKES if (place := row.applies(line)) is not None)
    words = {"here": line.here.text, "before": line.before.text, "first": line.first, "place": place.text}
    shown = {name: clipped(word) if word else "the end of the line" for name, word in words.items()}
    headline = mistake.headline.format(**shown)
    return place, Flaw(headline, mistake.do(line)), "syntax"
