"""Where a line makes a mistake, judged by what stands there and what the parser could have gone on with."""

from collections.abc import Callable
from types import MappingProxyType

from netcheck.language.colours import is_colour
from netcheck.language.situation import LineToken, Situation

__all__ = [
    "after_reason", "anything", "colour_of_lead", "early_colon", "no_colon", "no_comma", "no_from", "no_in", "no_leads",
    "no_name_after", "no_nth_name", "no_quotes", "no_state", "no_text", "no_to", "no_value", "one_lead", "sign",
]  # fmt: skip

_ROLES = ("from", "plus", "minus", "anode", "cathode")
_PARTNERS = frozenset({"TO", "PLUS", "MINUS", "ANODE", "CATHODE"})
_REASONED = frozenset({"remove", "accept", "spare"})
_FIRST_OF_LIST = MappingProxyType(
    {"net": 3, "meant": 3, "at": 3, "covers": 1, "spare": 1, "apart": 1, "remove": 1, "lift": 1, "accept": 2}
)

Where = Callable[[Situation], LineToken | None]


def no_colon(line: Situation) -> LineToken | None:
    """The name after which a colon is missing."""
    return line.before if "_COLON" in line.expected else None


def no_in(line: Situation) -> LineToken | None:
    """What is written where the word ``in`` belongs."""
    return line.here if "IN" in line.expected else None


def no_side(line: Situation) -> LineToken | None:
    """The word ``each`` without the ``side`` that belongs to it."""
    return line.before if "_SIDE" in line.expected else None


def early_colon(line: Situation) -> LineToken | None:
    """A colon right after the first word."""
    return line.here if line.here.text == ":" and line.index == 1 else None


def no_comma(line: Situation) -> LineToken | None:
    """The second of two names of a list side by side.

    The parser may have closed the list by then, and expect no comma any more.
    """
    first = _FIRST_OF_LIST.get(line.first)
    listed = first is not None and line.index > first and line.before.is_word
    fits = line.here.is_word and line.here.text != "to" and ("_COMMA" in line.expected or listed)
    return line.here if fits else None


def colour_of_lead(line: Situation) -> LineToken | None:
    """A colour behind a lead in a list, as it stands behind a lead in a part's own line."""
    return line.here if line.first in ("net", "at", "meant") and is_colour(line.here.text) and no_comma(line) else None


def after_reason(line: Situation) -> LineToken | None:
    """A comma behind the reason that ends a list."""
    return line.here if line.here.text == "," and line.before.text.startswith('"') else None


def no_quotes(line: Situation) -> LineToken | None:
    """A reason without its quotes, where a text may stand but need not."""
    word = line.here.text
    fits = "TEXT" in line.expected and line.first in _REASONED and word.isalpha() and word.islower()
    return line.here if fits else None


def no_text(line: Situation) -> LineToken | None:
    """Something else, or nothing, where only a text fits."""
    fits = "TEXT" in line.expected and not line.expected & {"QUANTITY", "KIND"}
    return line.here if fits and line.here.text not in (",", ":") else None


def no_from(line: Situation) -> LineToken | None:
    """``start`` or ``parts`` without ``from``."""
    return line.here if "FROM" in line.expected and "PLUS" not in line.expected else None


def no_leads(line: Situation) -> LineToken | None:
    """A ``fit`` that does not say where the leads go."""
    return line.here if "FROM" in line.expected and "QUANTITY" not in line.expected else None


def no_to(line: Situation) -> LineToken | None:
    """No ``to`` between two points."""
    return line.here if "TO" in line.expected and "QUANTITY" not in line.expected else None


def one_lead(line: Situation) -> LineToken | None:
    """The word that says where one lead goes, where nothing says it of the other."""
    partners = line.expected & _PARTNERS
    return line.last_of(_ROLES) if len(partners) == 1 and "QUANTITY" not in line.expected else None


def no_value(line: Situation) -> LineToken | None:
    """Something else, or nothing, where a quantity fits."""
    return line.here if "QUANTITY" in line.expected else None


def no_state(line: Situation) -> LineToken | None:
    """None of the words that ``state`` takes."""
    return line.here if "STATE_WORD" in line.expected else None


def sign(mark: str) -> Where:
    """A comma, a colon or a text where none fits."""
    return lambda line: line.here if line.here.text.startswith(mark) else None


def no_name_after(*words: str) -> Where:
    """A name is missing after one of these words; after any word where none is given."""

    def where(line: Situation) -> LineToken | None:
        fits = "NAME" in line.expected and (not words or line.before.text in words)
        return line.here if fits and not line.here.is_word else None

    return where


def no_nth_name(count: int) -> Where:
    """A statement's word of this number, counted from 0, is missing."""
    return lambda line: line.here if line.index == count and "NAME" in line.expected else None


def anything(line: Situation) -> LineToken | None:
    """What no other row tells of."""
    return line.here
