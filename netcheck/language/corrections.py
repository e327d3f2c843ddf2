"""What a message proposes: the user's own line put right, or a line of that sort."""

import re

from netcheck.language.examples import EXAMPLES
from netcheck.language.grammar import clause_words
from netcheck.language.situation import Situation

__all__ = [
    "colon_after", "comma_before", "example", "in_two", "intended_before", "not_here", "one_lug", "partner", "quoted",
    "side_after", "to_before", "usual_unit", "without_it",
]  # fmt: skip

_REASON = frozenset({"inserted", "added", "intended", "remove", "accept", "spare", "apart", "supply"})
_PARTNER = {
    "from": "to",
    "plus": "minus",
    "minus": "plus",
    "anode": "cathode",
    "cathode": "anode",
}
_LISTS = frozenset({"covers", "spare", "apart", "remove", "lift", "accept"})
_UNITS = {"mains": "V", "volts": "V", "supply": "V", "draws": "mA", "meter": "ohm/V", "leakage": "mA"}


def example(line: Situation) -> str:
    """A right line of the same statement."""
    return f"like this: `{EXAMPLES[line.first]}`"


def colon_after(line: Situation) -> str:
    """The colon put in, in place of a comma if there is one."""
    if not line.here.text:
        return example(line)
    until = line.here.end if line.here.text == "," else line.before.end
    return _write(line, line.with_inserted(line.before.end, ":", until))


def comma_before(line: Situation) -> str:
    """The comma put in, and those that are missing further on."""
    if line.first == "basing":
        return _write(line, line.with_inserted(line.before.end, ","))
    return _write(line, line.with_commas(clause_words()))


def without_it(line: Situation) -> str:
    """The line without the word."""
    return _write(line, line.with_inserted(line.before.end, "", line.here.end))


def in_two(line: Situation) -> str:
    """What goes on behind a reason, in a line of its own."""
    return f"a reason ends its line: begin another one with `{line.first}` for what follows"


def one_lug(line: Situation) -> str:
    """A position in which nothing is closed: it names a lug alone."""
    start = line.with_inserted(line.before.end, " 1", len(line.text))
    return f"like this: `{EXAMPLES[line.first]}`; where nothing is closed, name one lug alone: `{start}`"


def side_after(line: Situation) -> str:
    """The word that belongs to ``each``, put in."""
    until = line.here.end if line.here.is_word else line.before.end
    return _write(line, line.with_inserted(line.before.end, " side", until))


def quoted(line: Situation) -> str:
    """What stands there put into quotes, or a text to write."""
    rest = line.text[line.here.start :].strip()
    if rest and re.fullmatch(r'[^"#\n]+', rest):
        return _write(line, line.with_inserted(line.here.start, f'"{rest}"', len(line.text)))
    if line.here.text or (line.before.text not in _REASON and line.first not in _REASON):
        return example(line)
    return _write(line, line.with_inserted(line.before.end, ' "reason"'))


def to_before(line: Situation) -> str:
    """The ``to`` put in, in place of a comma if there is one; a ``from`` that is no point taken out."""
    if line.before.text == "from":
        return _write(line, line.with_inserted(line.before.start, "", line.here.start))
    if line.first == "supply" or not (line.after.text or line.here.is_word):
        return example(line)
    until = line.here.end if line.here.text == "," else line.before.end
    return _write(line, line.with_inserted(line.before.end, " to", until))


def partner(line: Situation) -> str:
    """The word for the other lead."""
    role = line.last_of(_PARTNER)
    word = role.text if role else "from"
    return f"`{word} POINT` goes with `{_PARTNER[word]} POINT`: give both leads, one after the other"


def usual_unit(line: Situation) -> str:
    """The unit that such a statement usually has, put after a bare number."""
    if not line.here.is_number:
        return example(line)
    unit = "Hz" if line.first == "mains" and line.index > 1 else _UNITS[line.first]
    return _write(line, line.with_inserted(line.here.end, f" {unit}"))


def intended_before(line: Situation) -> str:
    """The word of the clause put before its reason."""
    return _write(line, line.with_inserted(line.here.start, "intended "))


def not_here(line: Situation) -> str:
    """The line without it, where values go on; a line of that sort where something else is amiss."""
    if line.here.text[0] == '"':
        return f"say it in a comment, or in a line of its own: `{EXAMPLES['note']}`"
    if "QUANTITY" not in line.expected or line.first in _LISTS:
        return example(line)
    return _write(line, line.with_inserted(line.here.start, "", line.here.end))


def _write(line: Situation, corrected: str) -> str:
    return f"write `{corrected}`" if corrected else example(line)
