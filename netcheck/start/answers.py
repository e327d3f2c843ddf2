"""What a first chassis is, as asked: its kind, rectifier, can, common and line; what does not go together is told.

All that comes of any answer beside any other is without STOP and LOOK, which a test holds. Metal at line voltage is
never accepted for the user: a table set with B- on the chassis is told as it is, and its settings are not strict.
"""

import re
from collections.abc import Mapping

from msgspec import Struct

from netcheck.core.errors import UsageFault
from netcheck.parts.made import RESISTOR_WATTS, next_made, preferred

__all__ = ["CANS", "KINDS", "RECTIFIERS", "Answers"]

KINDS: Mapping[str, str] = {
    "table": "a table set on the line, without a power transformer",
    "console": "a console with a power transformer",
    "amplifier": "an amplifier with two output tubes in push-pull",
    "doubler": "a supply that doubles, behind a transformer",
    "can": "one filter capacitor and what hangs on it",
}
RECTIFIERS: Mapping[str, str] = {"tube": "a tube", "dry": "a dry one: selenium"}
CANS: Mapping[str, str] = {
    "grounded": "a can that is joined to the chassis",
    "insulated": "a can on a wafer",
    "single": "single capacitors, no can",
}

_LINE = re.compile(r"\s*(\d{2,3})(?:\s*V)?(?:\s+(\d{2})\s*(?:Hz|c/s|cycles))?\s*", re.IGNORECASE)
_HERTZ_FROM = 200  # volts from which the line has 50 Hz where nothing is said
_VOLTS = (90, 260)
_VOLTS_OF_TABLE = (100, 130)  # its heaters alone take 98
_STRING_AMPERES = 0.15
_WIRE_WOUND = 5  # watts, from which resistors are wire-wound
_TUBES = {"tube": 35 + 50 + 12.6, "dry": 50 + 12.6}  # volts of the heaters of the table set


class Answers(Struct, frozen=True):
    """The answers, which go together."""

    title: str
    kind: str = "console"
    rectifier: str = "tube"
    can: str = "grounded"
    on_chassis: bool = True
    line: str = "117 V 60 Hz"

    def __post_init__(self) -> None:
        """Raises UsageFault where they don't."""
        if not self.name:
            raise UsageFault(f"`{self.title}` has no Latin letter or digit to name a folder by")
        if '"' in self.title or not self.title.isprintable():
            raise UsageFault("a title is one line without quotes")
        if not self.on_chassis and self.can == "grounded":
            raise UsageFault(
                "a can that is joined to the chassis joins B- to it; say `insulated`, or B- on the chassis"
            )
        if self.kind == "can" and self.can == "single":
            raise UsageFault("the kind `can` is about a can: say `grounded` or `insulated`")
        volts, _ = self.volts_and_hertz
        least, most = _VOLTS_OF_TABLE if self.kind == "table" else _VOLTS
        if not least <= volts <= most:
            raise UsageFault(f"the line of this kind has {least} to {most} V, not {volts} V")

    @property
    def name(self) -> str:
        """The chassis's name in settings and folders."""
        return re.sub(r"[^a-z0-9]+", "-", self.title.lower()).strip("-")

    @property
    def volts_and_hertz(self) -> tuple[int, int]:
        """The line."""
        said = _LINE.fullmatch(self.line)
        if not said:
            raise UsageFault(f"`{self.line}` is no line voltage; write it as `117 V 60 Hz`")
        volts = int(said.group(1))
        return volts, int(said.group(2) or (50 if volts >= _HERTZ_FROM else 60))

    @property
    def values(self) -> dict[str, object]:
        """What the templates are filled with."""
        volts, hertz = self.volts_and_hertz
        said = {
            "title": self.title, "name": self.name, "kind": self.kind, "rectifier": self.rectifier, "can": self.can,
            "on_chassis": self.on_chassis, "mains": volts, "hertz": hertz,
        }  # fmt: skip
        return said | (self._dropper(volts) if self.kind == "table" else {})

    def _dropper(self, volts: int) -> dict[str, object]:
        """What is in series with the heaters of a table set."""
        ohms = round(preferred((volts - _TUBES[self.rectifier]) / _STRING_AMPERES, "E12"))
        watts = ohms * _STRING_AMPERES**2
        return {"dropper_ohms": ohms, "dropper_watts": next_made(max(1.5 * watts, _WIRE_WOUND), RESISTOR_WATTS)}
