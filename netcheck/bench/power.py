"""What a set takes from the line, as far as it is known: for the limiter lamp and the fuse."""

from collections.abc import Collection, Iterator

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.electrical.network.elements import Inductor, Load, Network, Resistor
from netcheck.electrical.network.heaters import is_heater
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.table.heaters import HeaterString
from netcheck.electrical.tube_data import heater_of
from netcheck.model.graph import CircuitGraph

__all__ = ["LinePower", "fuse_for", "lamps_for", "taken"]

FUSE_TIMES = (1.5, 2.0)  # of the running current (common practice)
POWER_FACTOR = 0.8  # of a rectifier with a capacitor (common practice)
TRANSFORMER_LOSS = 1.15  # of what the windings give (common practice)
LEAST_WATTS = 0.5  # what capacitors leak is less: it says nothing of the set, and rounds to none
FUSES = (
    0.1,
    0.125,
    0.16,
    0.2,
    0.25,
    0.315,
    0.4,
    0.5,
    0.63,
    0.8,
    1.0,
    1.25,
    1.6,
    2.0,
    2.5,
    3.15,
    4.0,
    5.0,
    6.3,
    8.0,
    10.0,
)
LAMPS = (25, 40, 60, 75, 100, 150, 200, 300, 500)


class LinePower(Struct, frozen=True):
    """Watts and amperes from the line; ``unknown`` are the parts whose share is not in them."""

    watts: float
    amperes: float
    unknown: tuple[str, ...]


def taken(
    graph: CircuitGraph, volts: float, network: Network, running: Steady, strings: tuple[HeaterString, ...]
) -> LinePower | None:
    """What a set takes at its nominal line of so many ``volts``; None where nothing that draws is stated."""
    heat, unknown = _heaters(graph, strings)
    string = {one.name for each in strings for one in each.droppers}
    watts = heat + _direct(network, running, string)
    if watts < LEAST_WATTS:
        return None
    watts *= TRANSFORMER_LOSS if _has_transformer(graph) else 1.0
    return LinePower(watts, watts / volts / POWER_FACTOR, unknown)


def _heaters(graph: CircuitGraph, strings: tuple[HeaterString, ...]) -> tuple[float, tuple[str, ...]]:
    """The watts of all heaters and lamps; a string on the mains takes its current from the whole line."""
    on_mains = {row.tube for string in strings for row in string.heaters}
    dropped = {one.name for string in strings for one in string.droppers}
    watts = sum(string.mains * string.amperes for string in strings)
    unknown = []
    for part in graph.circuit.parts.values():
        if part.name in on_mains or part.name in dropped or part.kind.family not in (Family.TUBE, Family.LAMP):
            continue
        share = _rated(part)
        if share is None:
            unknown.append(part.name)
        watts += share or 0.0
    return watts, tuple(unknown)


def _rated(part: Part) -> float | None:
    if part.kind.family is Family.TUBE:
        heater = heater_of(part.features.type)
        return None if heater is None else heater.volts * heater.amperes
    volts, amperes = part.features.first(Dimension.VOLTAGE), part.features.first(Dimension.CURRENT)
    return float(volts.amount * amperes.amount) if volts and amperes else None


def _direct(network: Network, running: Steady, string: Collection[str]) -> float:
    """What the rectified side takes: loads by their volts, and heat; the rectifiers' own is left out.

    So are heaters and the droppers of their ``string``, which a tap makes part of the supply.
    """
    loads = sum(
        abs(running.nodes[one.plus] - running.nodes[one.minus]) * one.amperes
        for one in network.elements
        if isinstance(one, Load)
    )
    resistances = (one.name for one in network.elements if isinstance(one, Resistor | Inductor))
    names = {name for name in resistances if name not in string and not is_heater(name)}
    heats: Iterator[float] = (
        one.watts
        for one in (*running.resistors, *running.inductors, *running.sources)
        if one.name in names or one in running.sources
    )
    return loads + sum(heats)


def _has_transformer(graph: CircuitGraph) -> bool:
    return any(
        part.kind.family is Family.TRANSFORMER and len([n for n, v in part.features.winding_values.items() if v]) > 1
        and any(q.dimension is Dimension.VOLTAGE for values in part.features.winding_values.values() for q in values)
        for part in graph.circuit.parts.values()
    )  # fmt: skip


def fuse_for(amperes: float) -> tuple[float, float]:
    """The fuses made from one and a half times to twice the running current; the next above where none is between."""
    low, high = (times * amperes for times in FUSE_TIMES)
    fit = [size for size in FUSES if low <= size <= high] or [next((s for s in FUSES if s >= low), FUSES[-1])]
    return fit[0], fit[-1]


def lamps_for(watts: float) -> tuple[int, int]:
    """Limiter lamps from the set's own watts to twice as much (common practice)."""
    least = next((size for size in LAMPS if size >= watts), LAMPS[-1])
    return least, max(least, *(size for size in LAMPS if size <= 2 * watts), LAMPS[0])
