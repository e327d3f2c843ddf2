"""What to say of a line that begins like no statement."""

import re
from collections.abc import Mapping
from types import MappingProxyType

from netcheck.core.diagnostic import Flaw
from netcheck.language.examples import EXAMPLES, kinds_of
from netcheck.language.grammar import compiled
from netcheck.language.near import near
from netcheck.language.situation import Situation
from netcheck.language.slip import clipped

__all__ = ["first_word_flaw"]

_PART_NAME = re.compile(r"[A-Z]{1,3}[0-9]+[A-Za-z]?")
_MEANT_BEYOND = 0.65
"""Shorter words differ by more of their letters; below this, proposals are guesses."""

# Words of the trade, and of other trades, for what a statement of the language says.
_OTHER_WORDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "cap": ("capacitor",), "condenser": ("capacitor", "electrolytic"), "filter": ("electrolytic", "can"),
        "res": ("resistor",), "valve": ("tube",), "socket": ("tube",), "xfmr": ("transformer",),
        "trafo": ("transformer",), "inductor": ("coil", "choke"), "rectifier": ("selenium", "diode"),
        "potentiometer": ("pot",), "control": ("pot",), "volume": ("pot",), "pilot": ("lamp",), "bulb": ("lamp",),
        "line": ("mains",), "loudspeaker": ("speaker",), "terminal": ("strip",), "tiepoint": ("strip",),
        "screw": ("lug",), "connector": ("plug",), "jack": ("plug",), "couplate": ("network",),
        "jumper": ("wire",), "lead": ("wire", "at"), "connect": ("wire", "net"), "join": ("wire", "net"),
        "joint": ("at",), "solder": ("at",), "node": ("net",), "delete": ("remove",), "omit": ("remove",),
        "gone": ("remove",), "unsolder": ("lift",), "disconnect": ("lift", "cut"), "replace": ("change",),
        "substitute": ("change",), "voltage": ("volts",), "reading": ("volts",), "current": ("draws",),
        "load": ("draws",), "ignore": ("accept",), "except": ("accept",), "allow": ("accept",),
        "unused": ("spare",), "expected": ("meant",),
        "comment": ("note",), "remark": ("note",), "name": ("title",), "status": ("state",),
        "import": ("include",), "base": ("start",), "original": ("start",), "scope": ("covers",),
        "pins": ("basing",), "contact": ("position",), "separate": ("apart",),
    }
)  # fmt: skip
_STATES = {
    **{word: f"state {word}" for word in ("drawn", "found", "rewired")},
    **dict.fromkeys(("unfinished", "wip", "todo"), "state rewired unfinished"),
}
_GROUNDS = frozenset({"ground", "gnd", "earth", "chassis", "grounded"})


def first_word_flaw(line: Situation, *, indented: bool) -> Flaw:
    """The message on a first word that is none, with the statement that was meant where that can be told."""
    word = line.first
    glued = _glued(word)
    if glued:
        return Flaw(
            f"a blank is missing after `{glued}`", f"write `{line.with_inserted(len(glued), ' ') or EXAMPLES[glued]}`"
        )
    headline = f"no statement begins with {clipped(word)}"
    whole = _whole_line(line)
    if whole:
        return Flaw(headline, f"write {whole}")
    meant = _meant(word)
    if meant:
        said = " or ".join(f"`{known}`" for known in meant)
        written = line.with_inserted(0, meant[0], len(word))
        return Flaw(headline, f"here it is called {said}: `{written if _is_read(written) else EXAMPLES[meant[0]]}`")
    if _PART_NAME.fullmatch(word):
        kinds = (*(kinds_of(word) or ("resistor",)), *(("change",) if len(line.marks) > 1 else ()))
        said = " or ".join(f"`{line.with_inserted(0, f'{kind} ') or EXAMPLES[kind]}`" for kind in kinds)
        return Flaw(f"a statement begins with what it is; what is {clipped(word)}?", f"write {said}")
    if indented:
        return Flaw(headline, "if this goes on from the line above, that line must end in a comma")
    return Flaw(headline, f"a line begins with what it is, as in `{EXAMPLES['net']}` or `{EXAMPLES['resistor']}`")


def _is_read(line: str) -> bool:
    """Whether a line is one of the language, so that what is proposed leads to no next message."""
    from lark.exceptions import UnexpectedInput

    try:
        compiled().parse(line)
    except UnexpectedInput:
        return False
    return True


def _whole_line(line: Situation) -> str:
    """What to write instead of a word that only stands inside a line."""
    word = line.first.lower()
    if word in _STATES:
        return f"`{_STATES[word]}`"
    if word in _GROUNDS:
        what = next((mark.text for mark in line.marks[1:] if mark.is_word), "C30C+")
        return f"`net ground: chassis, {what}` or `wire {what} to chassis`"
    return ""


def _glued(word: str) -> str:
    """The statement's word that a name is glued to: ``netB+1``."""
    fits = (known for known in EXAMPLES if word.startswith(known) and word[len(known)].isupper())
    return max(fits, key=len, default="")


def _meant(word: str) -> tuple[str, ...]:
    lower = word.lower()
    if lower in EXAMPLES:
        return (lower,)
    if lower in _OTHER_WORDS:
        return _OTHER_WORDS[lower]
    if _PART_NAME.fullmatch(word) or lower in _GROUNDS:
        return ()
    found = near(lower, EXAMPLES, _MEANT_BEYOND)
    return (found,) if found else ()
