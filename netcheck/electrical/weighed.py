"""What was calculated and held against ratings, counted: so that silence says what it rests on."""

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from netcheck.core.kind import Family
from netcheck.core.wording import listed, number_of
from netcheck.electrical.network.supplies import is_driven
from netcheck.electrical.network.unrated import is_set_by_hand
from netcheck.electrical.proof.judgement import Surety
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.duties import Demand, Duty

__all__ = ["weighed"]

_KNOWN = (Surety.PROVEN, Surety.COMPUTED)


def weighed(graph: CircuitGraph) -> tuple[str, ...]:
    """The closing line that says how many parts were judged by calculated figures; none where none was."""
    said = [*_judged(graph)] if is_driven(graph) else []
    return (f"calculated, and held against what is stated: {listed(said)}",) if said else ()


def _judged(graph: CircuitGraph) -> Iterator[str]:
    from netcheck.electrical.duties import Demand, duties
    from netcheck.electrical.polarities import polarities
    from netcheck.electrical.stress import stresses

    parts, rated = graph.circuit.parts.values(), duties(graph)
    known = {one.capacitor for one in polarities(graph).verdicts.values() if one.surety in _KNOWN}
    volts = {one.name for one in stresses(graph).capacitors if one.mean is not None}
    rows = (
        ("polarity", known, "electrolytic", {Family.ELECTROLYTIC}),
        ("volts", volts, "capacitor", {Family.CAPACITOR, Family.ELECTROLYTIC}),
        ("ripple current", _parts(rated, (Demand.RIPPLE,)), "electrolytic", {Family.ELECTROLYTIC}),
        ("current", _parts(rated, (Demand.MEAN, Demand.PEAK)), "rectifier", {Family.RECTIFIER, Family.TUBE}),
        ("heat", _parts(rated, (Demand.WATTS,)), "resistor", {Family.RESISTOR}),
    )
    for what, judged, noun, families in rows:
        every = [part.name for part in parts if part.kind.family in families and not is_set_by_hand(part)]
        held = [name for name in every if name in judged]
        if held:
            # Which tubes rectify is not asked here, so rectifiers are counted alone.
            counted = number_of(len(held), noun) if noun == "rectifier" else _of(len(held), len(every), noun)
            yield f"the {what} of {counted}"


def _parts(rated: "Collection[Duty]", asked: "Collection[Demand]") -> frozenset[str]:
    return frozenset(one.part for one in rated if one.asked in asked)


def _of(held: int, every: int, noun: str) -> str:
    """``all 5 electrolytics``, ``both electrolytics``, ``4 of 6 electrolytics``, ``the one electrolytic``."""
    if held < every:
        return f"{held} of {every} {noun}s"
    return {1: f"the one {noun}", 2: f"both {noun}s"}.get(held, f"all {held} {noun}s")
