"""Which way round the electrolytics of one state are, judged once for all rules that ask."""

from collections.abc import Mapping

from msgspec import Struct

from netcheck.core.circuit import Chart, StatedLoad
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Load, Network
from netcheck.electrical.network.readings import Charted, as_stated, charted, figures
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.judgement import Verdict
from netcheck.electrical.study import computed, judged
from netcheck.model.graph import CircuitGraph

__all__ = ["Doubt", "Polarities", "polarities"]


class Doubt(Struct, frozen=True):
    """Statements that can't all be true of the circuit: readings, or stated currents where there are no readings.

    With ``each`` leaving out any one of them mends it; otherwise more than one is off.
    """

    readings: tuple[Chart, ...]
    currents: tuple[StatedLoad, ...]
    each: bool = False


class Polarities(Struct, frozen=True):
    """The verdicts by capacitor, the readings they rest on, and what contradicts the circuit."""

    translation: Translation
    verdicts: Mapping[str, Verdict]
    readings: tuple[Charted, ...]
    doubt: Doubt | None


def polarities(graph: CircuitGraph) -> Polarities:
    """The verdicts of a state with what it says of volts and currents."""
    return graph.once(_polarities)


def _polarities(graph: CircuitGraph) -> Polarities:
    translation = translated(graph)
    network = as_stated(translation.network)
    readings = charted(graph, translation)
    verdicts = judged(graph)  # first: what they prove makes the bounds of the readings narrower
    doubt = None if translation.gaps else _doubt(graph, network, readings)
    return Polarities(translation, verdicts, readings, doubt)


def _doubt(graph: CircuitGraph, network: Network, readings: tuple[Charted, ...]) -> Doubt | None:
    loads = any(isinstance(one, Load) for one in network.elements)
    if not (readings or loads):
        return None
    from netcheck.electrical.proof.bounds import StatedReading

    known = computed(graph)
    taken = {StatedReading(*figure): one.chart for one, figure in zip(readings, figures(readings), strict=True)}
    found = known.bounds(network, tuple(taken)).contradiction()
    if found is None:
        return None
    if found.readings:
        return Doubt(tuple(taken[reading] for reading in found.readings), (), each=True)
    if not taken or not known.bounds(network, ()).feasible:
        return Doubt((), graph.circuit.loads)
    return Doubt(tuple(taken.values()), ())
