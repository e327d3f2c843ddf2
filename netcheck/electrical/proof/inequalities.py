"""What the mean potentials and currents of a running set obey, written down as inequalities.

Every conductor carries what it carries at the least, as a fixed conductance; what it may carry beyond that, and
the currents of rectifiers and tubes, are variables that are never negative.
"""

from collections.abc import Callable
from itertools import pairwise

from msgspec import Struct, field

from netcheck.electrical.network.elements import (
    WINDING_TOLERANCE,
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Tube,
    VoltageSource,
)
from netcheck.electrical.proof.currents import joined_nodes

__all__ = ["Inequalities", "Inequality", "Sign", "written"]

SUPPLY_TOLERANCE = 0.1
DROP_TOLERANCE = 0.5  # an aged rectifier drops more than its law says
REGULATOR_TOLERANCE = 0.05

CONTACT = 0.1  # ohms that a supply has at the least
MILLIAMPERE = 1e-3

Sign = Callable[[int, int], int]


class Inequality(Struct, frozen=True):
    """The volts across ``ends``, times ``factor``, and the variables times theirs are at most ``limit``."""

    limit: float
    ends: tuple[int, int]
    factor: float
    variables: tuple[tuple[int, float], ...]


class Inequalities(Struct):
    """``conductors`` are (a, b, siemens), ``fixed`` currents (a, b, amperes); ``variables`` (a, b, amperes a unit).

    Potentials lie within ``box`` volts of the reference; nodes are those that stand for the ones ``joined`` to them.
    """

    joined: tuple[int, ...]
    box: float
    conductors: list[tuple[int, int, float]] = field(default_factory=list)
    fixed: list[tuple[int, int, float]] = field(default_factory=list)
    variables: list[tuple[int, int, float]] = field(default_factory=list)
    rows: list[Inequality] = field(default_factory=list)

    def copy(self) -> "Inequalities":
        """The same, to add rows to."""
        return Inequalities(self.joined, self.box, self.conductors, self.fixed, self.variables, list(self.rows))

    def at_most(
        self, limit: float, ends: tuple[int, int] = (0, 0), factor: float = 1.0, *variables: tuple[int, float]
    ) -> None:
        """Add a row."""
        self.rows.append(Inequality(limit, ends, factor, variables))

    def current(self, a: int, b: int, unit: float) -> int:
        """Add a current from a to b, counted in ``unit`` amperes, and tell its number."""
        self.variables.append((a, b, unit))
        return len(self.variables) - 1


def written(network: Network, sign: Sign, box: float) -> Inequalities:
    """The inequalities of a network; ``sign(a, b)`` is 1 or -1 where the order of two nodes is known, else 0."""
    book = Inequalities(joined_nodes(network), box)
    for element in network.elements:
        if isinstance(element, Resistor | Inductor | VoltageSource):
            _write_linear(book, element, sign)
        else:
            _write_valve(book, element, sign)
    return book


def _write_linear(book: Inequalities, element: Resistor | Inductor | VoltageSource, sign: Sign) -> None:
    match element:
        case VoltageSource(hertz=0):
            _write_supply(book, element)
        case Resistor(a=a, b=b, ohms=ohms, tolerance=tolerance) if ohms:
            _write_resistance(book, (a, b), (ohms, tolerance), sign(a, b))
        case Inductor(a=a, b=b, ohms=ohms) | VoltageSource(plus=a, minus=b, ohms=ohms) if ohms:
            _write_resistance(book, (a, b), (ohms, WINDING_TOLERANCE), sign(a, b))
        case _:
            pass


def _write_resistance(book: Inequalities, ends: tuple[int, int], value: tuple[float, float], sign: int) -> None:
    """The current lies between two factors of the volts; where the sign is known that is a wedge, else a band."""
    ohms, tolerance = value
    least, most = 1 / (1 + tolerance), 1 / (1 - tolerance)
    a, b = ends if sign >= 0 else ends[::-1]
    if sign:
        book.conductors.append((a, b, least / ohms))
        book.at_most(0.0, (a, b), least - most, (book.current(a, b, 1 / ohms), 1.0))
        return
    book.conductors.append((a, b, (least + most) / 2 / ohms))
    for way in ((a, b), (b, a)):
        book.at_most((most - least) * book.box, (0, 0), 1.0, (book.current(*way, 1 / ohms), 1.0))


def _write_supply(book: Inequalities, source: VoltageSource) -> None:
    ohms = max(source.ohms, CONTACT)
    plus, minus = source.poles
    volts = abs(source.peak)
    book.conductors.append((plus, minus, 1 / ohms))
    book.fixed.append((minus, plus, volts * (1 - SUPPLY_TOLERANCE) / ohms))
    book.at_most(2 * SUPPLY_TOLERANCE * volts, (0, 0), 1.0, (book.current(minus, plus, 1 / ohms), 1.0))


def _write_valve(book: Inequalities, element: Element, sign: Sign) -> None:
    match element:
        case Rectifier():
            _write_rectifier(book, element)
        case Regulator(anode=a, cathode=b, volts=volts):
            book.current(a, b, MILLIAMPERE)
            book.at_most(volts * (1 + REGULATOR_TOLERANCE), (a, b))
        case Load(plus=a, minus=b, amperes=amperes, tolerance=tolerance):
            book.fixed.append((a, b, amperes * (1 - tolerance)))
            book.at_most(2 * tolerance, (0, 0), 1.0, (book.current(a, b, amperes), 1.0))
        case Tube():
            _write_tube(book, element, sign)
        case Capacitor(plus=a, minus=b, polarised=True) if sign(a, b):
            book.at_most(0.0, (a, b), -float(sign(a, b)))
        case _:
            pass


def _write_rectifier(book: Inequalities, rectifier: Rectifier) -> None:
    current = book.current(rectifier.anode, rectifier.cathode, MILLIAMPERE)
    if not rectifier.driven:
        return
    worse = 1 + DROP_TOLERANCE
    for (volts, amperes), (more_volts, more_amperes) in pairwise(rectifier.law.corners):
        ohms = worse * (more_volts - volts) / (more_amperes - amperes)
        ends = (rectifier.anode, rectifier.cathode)
        book.at_most(worse * volts - ohms * amperes, ends, 1.0, (current, -ohms * MILLIAMPERE))


def _write_tube(book: Inequalities, tube: Tube, sign: Sign) -> None:
    if sign(tube.plate, tube.cathode) >= 0:
        book.current(tube.plate, tube.cathode, MILLIAMPERE)
    if tube.grid is not None:
        book.current(tube.grid, tube.cathode, MILLIAMPERE)
