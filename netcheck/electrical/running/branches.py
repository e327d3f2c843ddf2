"""An electrical network taken apart into the few things that the engine calculates with."""

import itertools
from enum import Enum

from msgspec import Struct, field

from netcheck.electrical.network.elements import (
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

__all__ = ["Branch", "Condition", "Mains", "Parts", "take_apart"]

LEAST_OHMS = 1e-3  # what is written as nothing still has a wire
LOOP_OHMS = 0.05  # in a capacitor that closes a loop of capacitors
INSULATION = 1e-13  # siemens across a capacitor: without it the charge of a floating one is undetermined
REGULATOR_OHMS = 1.0
LEAST_VOLTS = 1e-3


class Mains(Enum):
    """What the sources do: give their volts, give none but stay, or all but windings are unplugged."""

    ON = "on"
    DEAD = "dead"
    UNPLUGGED = "unplugged"


class Condition(Struct, frozen=True):
    """What the network is asked in: with warm tubes, at ``line`` times the nominal volts, with the mains on.

    Cold, nothing draws current, a rectifier that needs heat blocks, and a winding gives its no-load volts.
    ``leak`` is in siemens across a blocked rectifier.
    """

    warm: bool = True
    line: float = 1.0
    mains: Mains = Mains.ON
    leak: float = 1e-9


class Branch(Struct, frozen=True):
    """A path for current from ``a`` to ``b``: ``on`` siemens above ``threshold`` volts, ``off`` siemens below.

    ``off`` is None for a path that never switches. ``source`` says whose volts stand against the current.
    ``owner`` is the element's place in the network, None for what the engine added.
    """

    a: int
    b: int
    on: float
    off: float | None = None
    threshold: float = 0.0
    source: VoltageSource | None = None
    owner: int | None = None


class Parts(Struct):
    """``held`` are the sources without resistance; ``drains`` are (node, amperes drawn); owners as in Branch."""

    count: int
    branches: list[Branch] = field(default_factory=list)
    capacitors: list[tuple[int, Capacitor]] = field(default_factory=list)
    inductors: list[tuple[int, Inductor]] = field(default_factory=list)
    held: list[tuple[int, VoltageSource]] = field(default_factory=list)
    drains: list[tuple[int, float]] = field(default_factory=list)


def take_apart(network: Network, condition: Condition) -> Parts:
    """Returns the network's branches and stores; rectifiers, loads and regulators are switched branches."""
    parts = Parts(network.count)
    for owner, element in enumerate(network.elements):
        _add(parts, owner, element, condition)
    return parts


def _add(parts: Parts, owner: int, element: Element, condition: Condition) -> None:
    match element:
        case Resistor():
            parts.branches.append(Branch(element.a, element.b, 1 / max(element.ohms, LEAST_OHMS), owner=owner))
        case Capacitor():
            parts.capacitors.append((owner, element))
            parts.branches.append(Branch(element.plus, element.minus, INSULATION))
        case Inductor():
            parts.inductors.append((owner, element))
            parts.branches.append(Branch(element.a, element.b, 1 / element.core_ohms))
        case VoltageSource():
            _add_source(parts, owner, element, condition)
        case Rectifier():
            _add_rectifier(parts, owner, element, condition)
        case _:
            _add_tube(parts, owner, element, condition)


def _add_source(parts: Parts, owner: int, source: VoltageSource, condition: Condition) -> None:
    if condition.mains is Mains.UNPLUGGED and not source.stays:
        return
    volts = _volts(source, condition)
    held = VoltageSource(source.name, source.plus, source.minus, volts, source.hertz, source.ohms)
    if source.ohms:
        parts.branches.append(Branch(source.plus, source.minus, 1 / source.ohms, source=held, owner=owner))
    else:
        parts.held.append((owner, held))


def _volts(source: VoltageSource, condition: Condition) -> float:
    if condition.mains is not Mains.ON:
        return 0.0
    return source.peak * condition.line * (1.0 if condition.warm else 1.0 + source.rise)


def _add_rectifier(parts: Parts, owner: int, rectifier: Rectifier, condition: Condition) -> None:
    """A law whose slope never falls is a set of straight laws side by side, one for each corner."""
    ends = (rectifier.anode, rectifier.cathode)
    leak = max(condition.leak, INSULATION)
    corners = rectifier.law.corners
    if not (condition.warm or rectifier.cold):
        parts.branches.append(Branch(*ends, leak, owner=owner))
        return
    slope = 0.0
    for (low, i_low), (high, i_high) in itertools.pairwise(corners):
        steeper = (i_high - i_low) / max(high - low, LEAST_OHMS * 1e-3 * (i_high - i_low)) - slope
        if steeper > 0:
            parts.branches.append(Branch(*ends, steeper, leak if slope == 0 else 0.0, low, owner=owner))
            slope += steeper


def _add_tube(parts: Parts, owner: int, element: Load | Regulator | Tube, condition: Condition) -> None:
    match element:
        case Load():
            _add_load(parts, owner, element, condition)
        case Regulator(anode=a, cathode=b, volts=volts):
            leak = max(condition.leak, INSULATION)
            parts.branches.append(Branch(a, b, 1 / REGULATOR_OHMS, leak, volts, owner=owner))
        case Tube():  # what it draws is a load's
            pass


def _add_load(parts: Parts, owner: int, load: Load, condition: Condition) -> None:
    """A constant current, and below the knee a path back that takes away what is no longer drawn.

    Some insulation stays where nothing is drawn: a cathode that is cut off hangs on nothing else.
    """
    if not condition.warm or load.amperes <= 0:
        parts.branches.append(Branch(load.minus, load.plus, INSULATION))
        return
    knee = max(load.knee_volts, LEAST_VOLTS)
    parts.drains += [(load.plus, load.amperes), (load.minus, -load.amperes)]
    parts.branches.append(Branch(load.minus, load.plus, load.amperes / knee, INSULATION, -knee, owner=owner))
