"""What is said for safety, in one place: which dangers a set has, and the sentences for them.

Sources: IEC 61010-1 (60 V DC as the limit of what may be touched); service manuals of televisions (discharge of the
anode to the outer coating of the picture tube, goggles, leakage checks); manufacturers' safety sheets on selenium; the
discharge through 10 kilohm for 30 s is common practice of the trade: 30 time constants of 100 mfd.
"""

import re
from collections.abc import Iterator

from msgspec import Struct

__all__ = ["ANODE", "BEFORE", "DISCHARGE", "ISOLATED", "Dangers", "cautions", "says_television"]

BEFORE = "Before touching anything: pull the plug, discharge every filter capacitor, measure."
"""The first words on a sheet that is drawn."""

DISCHARGE = "10 kilohm, 5 W, on insulated clips, 30 s a section, then measure; never a screwdriver"

ANODE = "to its own outer coating, through an insulated lead with a resistor in it, twice"
"""Where a picture tube's anode is discharged, and through what."""

ISOLATED = "from a 1:1 isolation transformer; instruments stay earthed"
"""How a set is run whose metal may be on the line."""

_PAPER = (
    "This checks paper, not the chassis. Pull the plug, discharge every filter capacitor "
    f"({DISCHARGE}). Power up through a lamp limiter first, with one hand in your pocket. "
    "Local electrical codes and a licensed technician have the last word."
)
_HOT = (
    f"Metal of this set can be at line voltage. Run the set, not the instruments, {ISOLATED}. "
    "A variac or a lamp limiter does not isolate. Until then, connect no antenna or ground. Keep knobs, screws and "
    "cabinet insulated."
)
_TELEVISION = (
    f"Television: the picture tube holds thousands of volts for days. Discharge its anode {ANODE}, "
    "and wear goggles: the tube can implode. Boost and sweep voltages need a high-voltage probe. Don't run it for long "
    "at reduced line voltage."
)
_SELENIUM = (
    "If a selenium stack smokes: pull the plug, then leave the room and air it. The fumes are poisonous, and so is the "
    "burnt stack."
)

_SAYS_TELEVISION = re.compile(r"\b(television|televisor|TV)\b", re.IGNORECASE)


class Dangers(Struct, frozen=True):
    """What a set has that can hurt: metal on the line, a picture tube, a selenium stack."""

    hot: bool = False
    television: bool = False
    selenium: bool = False

    def __or__(self, other: "Dangers") -> "Dangers":
        """What either of two states has: hands that go from the one to the other meet both."""
        return Dangers(
            self.hot or other.hot, self.television or other.television, self.selenium or other.selenium
        )  # fmt: skip


def says_television(text: str) -> bool:
    """Whether a title or a remark calls the set a television."""
    return _SAYS_TELEVISION.search(text) is not None


def cautions(dangers: Dangers) -> tuple[str, ...]:
    """The sentences to print, what is peculiar to the set first and the common one last."""
    return (*_peculiar(dangers), _PAPER)


def _peculiar(dangers: Dangers) -> Iterator[str]:
    if dangers.hot:
        yield _HOT
    if dangers.television:
        yield _TELEVISION
    if dangers.selenium:
        yield _SELENIUM
