"""An electrical network as the engines take it: elements between numbered nodes. SI units throughout."""

from msgspec import Struct

__all__ = [
    "USUAL_AMPERES",
    "WINDING_TOLERANCE",
    "Capacitor",
    "Conduction",
    "Element",
    "Inductor",
    "Load",
    "Network",
    "Rectifier",
    "Regulator",
    "Resistor",
    "Tube",
    "VoltageSource",
    "ends_of",
    "pair_of",
    "part_of",
]  # fmt: skip

WINDING_TOLERANCE = 0.2  # of a winding whose ohms the sheet gives (common practice)
USUAL_AMPERES = 0.1  # drawn from a supply whose loads are not stated (common practice)


def part_of(element: str) -> str:
    """The part that an element is of, by their names: one that makes several elements is named before each.

    ``T1 primary``, ``RV1 ccw to wiper``; a part that is one element gives it its name. No name of a part has a blank.
    """
    return element.partition(" ")[0]


class Resistor(Struct, frozen=True):
    """A linear resistance between two nodes; a winding's or a lamp's resistance is one too. ``tolerance`` as 0.2."""

    name: str
    a: int
    b: int
    ohms: float
    tolerance: float = 0.2


class Capacitor(Struct, frozen=True):
    """``polarised`` capacitors are electrolytics; ``volts`` is the rating, None where unsaid."""

    name: str
    plus: int
    minus: int
    farads: float
    polarised: bool = False
    volts: float | None = None


class Inductor(Struct, frozen=True):
    """A choke or winding with its series resistance; ``core_ohms`` damp it in parallel (100 kilohm unless said)."""

    name: str
    a: int
    b: int
    henries: float
    ohms: float
    core_ohms: float = 100_000.0


class Conduction(Struct, frozen=True):
    """The forward law of a rectifier as straight segments: (volts, amperes) corners from (threshold, 0) upward.

    Beyond the last corner the last segment goes on. Below the threshold it blocks. The law is continuous and
    its slope never falls (a 3/2-power law in chords; silicon and selenium as threshold and resistance).
    """

    corners: tuple[tuple[float, float], ...]


class Rectifier(Struct, frozen=True):
    """Anode to cathode; ``cold`` is True where it conducts without a heated cathode.

    ``driven`` is False where what drives it is not the mains (a damper, a sweep or signal diode): every bound
    above it is then infinite. ``inverse_volts``, ``peak_amperes`` and ``mean_amperes`` are its limits, None where
    they are not known.
    """

    name: str
    anode: int
    cathode: int
    law: Conduction
    cold: bool = True
    driven: bool = True
    inverse_volts: float | None = None
    peak_amperes: float | None = None
    mean_amperes: float | None = None


class VoltageSource(Struct, frozen=True):
    """A mains line or a loaded winding: ``peak`` volts of a sine (``hertz``), or of DC where ``hertz`` is 0.

    ``plus`` is positive for phase 0; ``ohms`` are in series. ``rise`` is the no-load rise as 0.05. A winding
    ``stays`` in the circuit when the plug is pulled.
    """

    name: str
    plus: int
    minus: int
    peak: float
    hertz: float
    ohms: float
    rise: float = 0.0
    stays: bool = False

    @property
    def poles(self) -> tuple[int, int]:
        """Of direct current, the node that it makes positive, and the other."""
        return (self.minus, self.plus) if self.peak < 0 else (self.plus, self.minus)


class Load(Struct, frozen=True):
    """A current drawn from ``plus`` to ``minus``: constant above the knee voltage, resistive below it. Warm only.

    ``part`` is the tube that draws it; ``stated`` is what a file says that a line gives, and no figure of a type.
    """

    name: str
    plus: int
    minus: int
    amperes: float
    knee_volts: float = 20.0
    tolerance: float = 0.3
    part: str = ""
    stated: bool = False


class Tube(Struct, frozen=True):
    """A tube's current path for the prover: plate (or screen) to cathode, any current >= 0, zero when cold.

    ``grid`` may act as a diode to the cathode where a proof has to reckon with it; None where it has none.
    """

    name: str
    plate: int
    cathode: int
    grid: int | None = None


class Regulator(Struct, frozen=True):
    """A cold-cathode gas regulator: open below striking, ``volts`` from anode to cathode above."""

    name: str
    anode: int
    cathode: int
    volts: float


Element = Resistor | Capacitor | Inductor | Rectifier | VoltageSource | Load | Tube | Regulator


def ends_of(element: Element) -> tuple[int, ...]:
    """An element's nodes, the plus or anode first; a tube's grid is the third."""
    grid = element.grid if isinstance(element, Tube) else None
    return pair_of(element) if grid is None else (*pair_of(element), grid)


def pair_of(element: Element) -> tuple[int, int]:
    """The two nodes between which an element lies, the plus or anode first."""
    match element:
        case Resistor(a=a, b=b) | Inductor(a=a, b=b):
            return a, b
        case Capacitor(plus=a, minus=b) | VoltageSource(plus=a, minus=b) | Load(plus=a, minus=b):
            return a, b
        case Rectifier(anode=a, cathode=b) | Regulator(anode=a, cathode=b):
            return a, b
        case Tube(plate=a, cathode=b):
            return a, b


class Network(Struct, frozen=True):
    """Elements over ``count`` nodes; node 0 is the reference. ``names`` are the nodes' names for messages.

    ``swinging`` are tubes and loads that alternating current reaches by a way that is no part of the network: through
    a small capacitor, or through what hangs on it by one node.
    """

    count: int
    elements: tuple[Element, ...]
    names: tuple[str, ...] = ()
    swinging: frozenset[str] = frozenset()
