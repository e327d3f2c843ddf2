"""What can't be judged because the part does not state what it is rated for: told in one line, counted."""

from collections.abc import Iterator

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.electrical.network.supplies import is_driven
from netcheck.model.graph import CircuitGraph
from netcheck.parts.capacitor import ADJUSTABLE

__all__ = ["is_set_by_hand", "unrated"]

ADD = "add what is printed on the part, as in `1/2 W`, `180 mA`, `450 V`"


def unrated(graph: CircuitGraph) -> tuple[str, ...]:
    """The closing line of a set whose figures are calculated; none where every part says what it is rated for."""
    if not is_driven(graph):
        return ()
    said = [*_counted(graph)]
    return (f"NOT CHECKED: {', '.join(said)}: {ADD}",) if said else ()


def _counted(graph: CircuitGraph) -> Iterator[str]:
    parts = graph.circuit.parts.values()
    stores = [part for part in parts if part.kind.family.stores and not is_set_by_hand(part)]
    groups = (
        ("resistor", [part for part in parts if part.kind.family is Family.RESISTOR], Dimension.POWER, "watts"),
        (
            "electrolytic",
            [part for part in stores if part.kind.family is Family.ELECTROLYTIC],
            Dimension.CURRENT,
            "ripple current",
        ),
        ("capacitor", stores, Dimension.VOLTAGE, "volts"),
    )
    for noun, every, dimension, rating in groups:
        silent = sum(1 for part in every if not _states(part, dimension))
        if silent:
            several = f"{silent} of {len(every)} {noun}s" if len(every) > 1 else f"the one {noun}"
            yield f"{several} {'states' if silent == 1 else 'state'} no {rating}"


def is_set_by_hand(part: Part) -> bool:
    """Whether it is a capacitor that turns: nobody says what volts it is rated for."""
    return not set(ADJUSTABLE).isdisjoint(part.features.words)


def _states(part: Part, dimension: Dimension) -> bool:
    return part.features.first(dimension) is not None
