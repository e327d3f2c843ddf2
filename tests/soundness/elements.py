"""A supply between numbered nodes as the oracle takes it; node 0 is the reference. SI units, no value by default."""

from dataclasses import dataclass

__all__ = ["Coil", "Drain", "OneWay", "Piece", "Resistance", "Storage", "Wave", "Wiring"]


@dataclass(frozen=True, slots=True)
class Resistance:
    """Ohms between two nodes."""

    a: int
    b: int
    ohms: float


@dataclass(frozen=True, slots=True)
class Storage:
    """A capacitor, its volts counted from ``a`` to ``b``."""

    name: str
    a: int
    b: int
    farads: float


@dataclass(frozen=True, slots=True)
class Coil:
    """An inductance with ``ohms`` in series and ``beside`` across both."""

    a: int
    b: int
    henries: float
    ohms: float
    beside: float


@dataclass(frozen=True, slots=True)
class Wave:
    """A sine of ``peak`` volts, direct volts where ``hertz`` is 0; ``rise`` is the part by which it rises unloaded."""

    a: int
    b: int
    peak: float
    hertz: float
    ohms: float
    rise: float


@dataclass(frozen=True, slots=True)
class OneWay:
    """A rectifier: (volts, amperes) corners of straight segments; ``cold`` ones need no heated cathode."""

    name: str
    a: int
    b: int
    corners: tuple[tuple[float, float], ...]
    cold: bool


@dataclass(frozen=True, slots=True)
class Drain:
    """What a warm tube draws: ``amperes`` above the knee, in proportion below it, and nothing backwards."""

    a: int
    b: int
    amperes: float
    knee: float


Piece = Resistance | Storage | Coil | Wave | OneWay | Drain


@dataclass(frozen=True, slots=True)
class Wiring:
    """Pieces over ``count`` nodes."""

    count: int
    pieces: tuple[Piece, ...]
