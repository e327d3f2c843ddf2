"""What a report format is, and the words that formats share."""

from collections.abc import Callable, Mapping

from msgspec import Struct

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from netcheck.core.visible import visible

__all__ = ["Renderer", "Style", "counted", "shown"]


class Style(Struct, frozen=True):
    """What the reader's screen or file can show; ``width`` is in columns."""

    colour: bool = False
    unicode: bool = True
    width: int = 100


Renderer = Callable[[Report, Style], str]

# Only signs that have a plain spelling of the trade; any other sign is shown by its number.
_PLAIN: Mapping[str, str] = {
    "\N{MINUS SIGN}": "-",
    "\N{MICRO SIGN}": "u",
    "\N{GREEK SMALL LETTER MU}": "u",
    "\N{OHM SIGN}": "ohm",
    "\N{GREEK CAPITAL LETTER OMEGA}": "ohm",
    "\N{VULGAR FRACTION ONE HALF}": "1/2",
    "\N{VULGAR FRACTION ONE QUARTER}": "1/4",
    "\N{VULGAR FRACTION THREE QUARTERS}": "3/4",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{PLUS-MINUS SIGN}": "+/-",
    "\N{HORIZONTAL ELLIPSIS}": "...",
    "\N{EN DASH}": "-",
    "\N{EM DASH}": "-",
}


def shown(text: str, style: Style) -> str:
    """The text as it may be printed: no control or format characters, and plain ASCII where needed."""
    safe = visible(text)
    if style.unicode or safe.isascii():
        return safe
    return "".join(c if c.isascii() else _PLAIN.get(c, f"<U+{ord(c):04X}>") for c in safe)


def counted(report: Report) -> str:
    """One line with the number of findings of each grade, and what it means if nothing was compared."""
    words = [f"{report.count(grade)} {grade.value}" for grade in Grade if report.count(grade)]
    if report.accepted:
        words.append(f"{len(report.accepted)} accepted")
    line = ", ".join(words) or "no findings"
    if report.built:
        return line
    if report.parts:
        unbuilt = sum(1 for part in report.parts if not part.built)
        return f"{line}; {unbuilt} of {len(report.parts)} chassis could not be looked at"
    return f"{line}; mend these lines first: nothing has been checked or compared yet"
