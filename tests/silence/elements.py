"""The as-wired circuit between numbered nets, as the tests' own engine takes it. SI units."""

from dataclasses import dataclass

__all__ = ["Capacitor", "Choke", "Diode", "Element", "Resistor", "Sink", "Source", "Wired"]


@dataclass(frozen=True, slots=True)
class Resistor:
    """``rated`` watts where the part states them."""

    name: str
    a: int
    b: int
    ohms: float
    rated: float | None = None


@dataclass(frozen=True, slots=True)
class Capacitor:
    """``rated`` volts; ``polar`` for an electrolytic; ``ripple`` effective amperes where the part states them."""

    name: str
    a: int
    b: int
    farads: float
    polar: bool
    rated: float | None
    ripple: float | None = None


@dataclass(frozen=True, slots=True)
class Choke:
    """Inductance with its resistance in series."""

    name: str
    a: int
    b: int
    henries: float
    ohms: float


@dataclass(frozen=True, slots=True)
class Source:
    """A sine of ``peak`` volts, or direct volts where ``hertz`` is 0, behind ``ohms``."""

    name: str
    a: int
    b: int
    peak: float
    hertz: float
    ohms: float


@dataclass(frozen=True, slots=True)
class Diode:
    """Current from ``a`` to ``b`` alone; ``inverse`` volts and ``mean`` amperes are what it is rated for."""

    name: str
    a: int
    b: int
    volts: float
    ohms: float
    inverse: float | None = None
    mean: float | None = None


@dataclass(frozen=True, slots=True)
class Sink:
    """What a tube draws: ``amperes`` from ``a`` to ``b`` above the knee, fewer below it, never any backwards."""

    name: str
    a: int
    b: int
    amperes: float
    knee: float


Element = Resistor | Capacitor | Choke | Source | Diode | Sink


@dataclass(frozen=True, slots=True)
class Wired:
    """The circuit over ``count`` nets; ``chassis`` is the metal that is touched, ``line`` are the two blades.

    ``fuses`` are those in the line, by name, with the amperes that they let through.
    """

    count: int
    elements: tuple[Element, ...]
    chassis: int
    line: tuple[int, int]
    polarized: bool = False
    fuses: tuple[tuple[str, float], ...] = ()
