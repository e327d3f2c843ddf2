"""The basings of common tube types: which electrode is on which pin, seen from below; the table is ``basings.txt``.

What a manual prints once is written once, and a basing is put together only for the types of a file. Types from memory
alone stay the minority: 200 rare ones of one memory went out (military and series-string versions, late television
types, rare loctals and battery types); who has one declares its basing in a line. A base whose idle pins may or may not
be connected inside (1B3-GT, 7591) is left out: what is a tie point there is a question of the glass. Two pages were
read and not followed: one gives the plate of the ECH81's heptode on pin 1, one the cathode of the 6BH6 on pin 7.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Basing, Pin
from netcheck.core.type_table import TypeRow, TypeTable, table_of

__all__ = ["basing_flaw", "basing_of", "known_types", "unknown_type"]

_SHORT = r"(Su|IS|IC|[HFPKGDTSJO-])(\d+|T)?([ab])?"
_NAMES: Mapping[str, str] = {
    "H": "heater",
    "F": "filament",
    "P": "plate",
    "K": "cathode",
    "G": "grid",
    "Su": "suppressor",
    "D": "diode",
    "T": "target",
    "S": "shell",
    "IS": "shield",
    "IC": "internal",
    "J": "jumper",
    "O": "grid-2",
    "-": "none",
}
# Grids by the numbers of the manual: a second grid is the screen, and so are two that are joined.
_GRIDS: Mapping[str, tuple[str, ...]] = {
    "1": ("grid",),
    "2": ("screen",),
    "24": ("screen", "grid-4"),
    "35": ("screen", "grid-3", "grid-5"),
}
_ELECTRODE = (
    r"(plate|anode|cathode|grid|screen|suppressor|diode|target|deflector|starter)(-[1-9])?(-[a-d])?"
    r"|(heater|filament)-([1-9]|tap)|shell|shield|jumper|none|internal"
)
_LABEL = r"[1-9]|1[0-4]|cap"
_WORDS = (
    "plate", "cathode", "grid", "grid-1", "grid-3", "screen", "suppressor", "diode-1", "heater-1", "heater-2",
    "heater-tap", "filament-1", "shell", "shield", "target", "none", "internal",
)  # fmt: skip


def basing_of(type: str) -> Basing | None:  # noqa: A002 - the word of the trade
    """The basing of a type as printed on the glass; hyphens and blanks don't count, ``6BQ5/EL84`` names one tube."""
    row = _table().find(type)
    if row is None:
        return None
    return Basing(row.type, row.cells[0], tuple(_pins(row)), row.standing, row.source, socket=row.section)


def known_types() -> tuple[str, ...]:
    """Every type with a basing, as printed, in the order of the table."""
    return _table().types()


def basing_flaw(basing: Basing) -> Flaw | None:
    """The first thing that is wrong with a basing that a file declares."""
    labels = [pin.label for pin in basing.pins]
    for pin in basing.pins:
        if not re.fullmatch(_LABEL, pin.label):
            return Flaw(f"basing `{basing.type}`: a tube has no pin `{pin.label}`", "pins are 1 to 14 and `cap`")
        if labels.count(pin.label) > 1:
            return Flaw(f"basing `{basing.type}`: pin {pin.label} is given twice", "keep the one that is right")
        for name in pin.electrode.split("+"):
            if not re.fullmatch(_ELECTRODE, name):
                help_ = _guess(name, _WORDS) or f"electrodes are {', '.join(_WORDS)}"
                return Flaw(f"basing `{basing.type}`: `{name}` is no electrode", help_)
    return None


def unknown_type(printed: str) -> Flaw:
    """What to say of a tube whose basing is neither in the table nor declared."""
    guess = _guess(printed, known_types())
    declare = f"write which electrode is on which pin, as in `basing {printed}: 1 shell, 2 heater-1, 3 plate`"
    return Flaw(f"netcheck does not know the base of a `{printed}`", f"{guess} if not, {declare}" if guess else declare)


def _guess(word: str, words: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(word, words)
    return f"did you mean {' or '.join(f'`{name}`' for name in near)}?" if near else ""


@cache
def _table() -> TypeTable:
    return table_of("netcheck.parts", "basings.txt")


def _pins(row: TypeRow) -> Iterator[Pin]:
    """Every place of the socket; a row ends before a cap that its types don't have."""
    for label, short in zip(row.labels, row.cells[1:], strict=False):
        yield Pin(label, _electrodes(short))


@cache
def _electrodes(short: str) -> str:
    """``K+G5`` of the table in full: ``cathode+grid-5``."""
    return "+".join(name for part in short.split("+") for name in _in_full(part))


def _in_full(short: str) -> tuple[str, ...]:
    found = re.fullmatch(_SHORT, short)
    if found is None:
        raise ValueError(short)
    letters, number, unit = found.groups()
    tail = f"-{unit}" if unit else ""
    if letters == "G" and number in _GRIDS:
        return tuple(grid + tail for grid in _GRIDS[number])
    middle = "" if number is None else f"-{number.replace('T', 'tap')}"
    return (_NAMES[letters] + middle + tail,)
