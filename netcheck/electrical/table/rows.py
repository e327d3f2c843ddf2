"""The rows of the supply table, as data: volts, amperes, watts, seconds."""

from msgspec import Struct

from netcheck.electrical.divided import Divided
from netcheck.electrical.proof.judgement import Verdict

__all__ = [
    "CapacitorRow",
    "ChargeRow",
    "Emptying",
    "FirstFilter",
    "RectifierRow",
    "ResistorRow",
    "SupplyRail",
    "TouchRow",
]

IN_USE, COLD, COLD_HIGH = "in use", "cold", "cold on a high line"
WITHIN_TOLERANCE = 1.2  # of a first capacitor's limit: 22 mfd for 20 is the same part


class SupplyRail(Struct, frozen=True):
    """A supply line against the common; ``ripple`` is from peak to peak, ``chart`` what the file's chart says.

    ``divided`` is between what it lies where leakage alone decides; there is no figure then. The running ones are not
    a number (nan) where they depend on how a stated current divides among tubes.
    """

    name: str
    running: float
    ripple: float
    cold: float
    cold_high: float
    chart: float | None = None
    divided: Divided | None = None


class Emptying(Struct, frozen=True):
    """Seconds from ``volts``, the most that it ever sees, until it stays below 60 V and below 50 V; None is never.

    ``volts`` are infinite where nothing bounds them.
    ``opened`` is the part (switch, fuse, resistor, choke, winding) whose opening makes that last longest, empty where
    none changes anything;
    ``opened_seconds`` is how long it then lasts.
    """

    volts: float
    seconds: tuple[float | None, float | None]
    opened: str = ""
    opened_seconds: tuple[float | None, float | None] = (None, None)


class ChargeRow(Struct, frozen=True):
    """A capacitor of any kind that can hold more than 60 V, and how it is emptied."""

    name: str
    emptying: Emptying


class TouchRow(Struct, frozen=True):
    """Metal that a hand can reach, and the line current that it gets there at the worst: amperes.

    ``amperes`` is infinite where nothing holds it back, not a number where it depends on a missing value. ``hot`` is
    the cord's lead that is on the hot side of the outlet then, ``switched`` how a switch stands where that matters;
    ``direct`` is the part of it that is direct current. ``through`` are the parts that let most of it pass.
    """

    metal: str
    amperes: float
    limit: float
    hot: str
    switched: str
    direct: float
    through: tuple[str, ...]
    on_neutral: bool


class CapacitorRow(Struct, frozen=True):
    """An electrolytic in volts from plus to minus; ``ripple`` is from peak to peak.

    ``peak`` is the farthest from 0 in use; ``cold`` and ``cold_high`` are before the tubes draw current, at nominal
    and at high line. ``amperes`` is the effective value of its ripple current, ``rated_amperes`` what it stands.
    Figures are not a number (nan) where they depend on a value that the file does not state, on how a stated current
    divides among tubes (the running ones), or on leakage alone;
    there ``divided`` is between what they lie.
    """

    name: str
    net: str
    rated: float | None
    running: float
    ripple: float
    peak: float
    cold: float
    cold_high: float
    amperes: float
    rated_amperes: float | None
    verdict: Verdict
    divided: Divided | None = None

    @property
    def over(self) -> str:
        """When it sees more than its rating: ``in use``, ``cold``, ``cold at high line``, ``ripple`` or nothing."""
        cases = ((IN_USE, self.peak), (COLD, self.cold), (COLD_HIGH, self.cold_high))
        rated = self.rated
        volts = next((word for word, volts in cases if rated is not None and abs(volts) > rated), "")
        hot = self.rated_amperes is not None and self.amperes > self.rated_amperes
        return volts or ("ripple" if hot else "")


class RectifierRow(Struct, frozen=True):
    """A rectifier in amperes and volts, running at nominal line; the rated ones are None where not known.

    ``surge`` is the highest current after switching on at high line, None for one that has to warm up first.
    ``inverse_high`` are the inverse volts with nothing drawn at high line; None where that could not be computed.
    """

    name: str
    mean: float
    rms: float
    peak: float
    surge: float | None
    inverse: float
    inverse_high: float | None
    rated_mean: float | None
    rated_peak: float | None
    rated_inverse: float | None

    @property
    def over(self) -> str:
        """What is over: ``mean``, ``peak``, ``inverse`` in use, ``inverse cold`` at high line, or nothing."""
        cases = (
            ("mean", self.mean, self.rated_mean),
            ("peak", self.peak, self.rated_peak),
            ("inverse", self.inverse, self.rated_inverse),
            ("inverse cold", self.inverse_high or 0.0, self.rated_inverse),
        )
        return next((word for word, seen, rated in cases if rated and seen > rated), "")


class FirstFilter(Struct, frozen=True):
    """The capacitance, in farads, that a rectifier tube charges directly, against the most that its type takes."""

    tube: str
    type: str
    capacitors: tuple[str, ...]
    farads: float
    most: float
    source: str
    terms: str

    @property
    def over(self) -> str:
        """``too large``, ``within tolerance`` or nothing."""
        if self.farads <= self.most * (1 + 1e-9):
            return ""
        return "within tolerance" if self.farads <= self.most * WITHIN_TOLERANCE else "too large"


class ResistorRow(Struct, frozen=True):
    """A resistor of the supply: its mean and effective current, and its heat.

    ``rated`` watts are None where unsaid, figures not a number where they depend on how a stated current divides.
    """

    name: str
    amperes: float
    rms: float
    watts: float
    rated: float | None

    @property
    def over(self) -> str:
        """``yes`` above its rating, ``above half`` from half of it: new resistors are run at half (common practice)."""
        if self.rated is None or not self.watts > self.rated / 2:
            return ""
        return "yes" if self.watts > self.rated else "above half"
