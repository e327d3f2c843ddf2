"""What the running set asks of its parts, each figure beside what the part is rated for."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family, Junction
from netcheck.core.quantity import Dimension
from netcheck.core.wording import significant
from netcheck.electrical.network.draft import first
from netcheck.electrical.network.elements import Rectifier, part_of
from netcheck.electrical.network.supplies import is_driven, translated
from netcheck.electrical.running.measure import Heat, RectifierDuty
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.running.switch_on import FIRST_PULSES, switch_on
from netcheck.electrical.shared_out import SharedOut, shared_out
from netcheck.electrical.study import HIGH_LINE, known, running_as_stated
from netcheck.electrical.table.whole import whole
from netcheck.model.graph import CircuitGraph
from netcheck.parts.diode_types import diode_type_of
from netcheck.parts.resistor_types import most_volts

__all__ = ["Demand", "Duty", "duties"]

_TIMES = 2.0  # of a rating: what is told as so many times it


class Demand(Enum):
    """What is asked of a part, and the unit it is told in."""

    WATTS = "W"
    VOLTS = "V"
    MEAN = "A mean"
    PEAK = "A peak"
    SURGE = "A at switch-on"
    RIPPLE = "A of ripple"


class Duty(Struct, frozen=True):
    """One figure beside its rating, in watts, volts or amperes.

    ``surely`` is False where the figure is over only by currents that the file does not state. ``remembered`` is True
    where the rating is neither on the part nor read anywhere.
    """

    part: str
    asked: Demand
    seen: float
    rated: float
    surely: bool = True
    remembered: bool = False

    @property
    def share(self) -> float:
        """1.0 is the whole rating."""
        return self.seen / self.rated

    @property
    def of_rating(self) -> str:
        """``140 % of its rating``, ``2.7 times its rating``."""
        said = f"{self.share * 100:.0f} % of" if self.share < _TIMES else f"{significant(self.share, 2)} times"
        return f"{said} its rating"


def duties(graph: CircuitGraph) -> tuple[Duty, ...]:
    """Every rated part of the supply; nothing where the running set could not be computed.

    What depends on how a stated current divides among tubes is left out.
    """
    return graph.once(_known_duties)


def _known_duties(graph: CircuitGraph) -> tuple[Duty, ...]:
    found = _duties(graph)
    shared = shared_out(graph) if is_driven(graph) else SharedOut()
    open_ = shared.capacitors | {part_of(name) for name in shared.resistances}
    return tuple(one for one in found if one.part not in open_)


def _duties(graph: CircuitGraph) -> tuple[Duty, ...]:
    heated = graph.once(whole)
    hot = list(_of_resistors(graph.circuit.parts, heated.heats.values())) if heated else []
    seen = known(graph) if is_driven(graph) else None
    if seen is None:
        return tuple(hot)
    found = [*hot, *_asked(graph, seen)]
    if any(one.share > 1 for one in found):
        stated = running_as_stated(graph)
        least = [*_of_resistors(graph.circuit.parts, stated.resistors), *_asked(graph, stated)] if stated else []
        sure = {(one.part, one.asked): one.seen for one in least}
        found = [_judged(one, sure.get((one.part, one.asked), 0.0)) for one in found]
    return (*found, *_surges(graph))


def _judged(one: Duty, as_stated: float) -> Duty:
    return one if one.share <= 1 or as_stated > one.rated else Duty(
        one.part, one.asked, one.seen, one.rated, surely=False, remembered=one.remembered
    )  # fmt: skip


def _asked(graph: CircuitGraph, seen: Steady) -> Iterator[Duty]:
    parts = graph.circuit.parts
    ran = {duty.name: duty for duty in seen.rectifiers}
    most: dict[tuple[str, Demand], Duty] = {}
    for rectifier in (one for one in translated(graph).network.elements if isinstance(one, Rectifier)):
        for one in _of_rectifier(parts, rectifier, ran[rectifier.name]):
            key = (one.part, one.asked)
            most[key] = max(most.get(key, one), one, key=lambda each: each.seen)
    yield from most.values()
    for capacitor in seen.capacitors:
        rated = first(parts[capacitor.name], Dimension.CURRENT)
        if rated:
            yield Duty(capacitor.name, Demand.RIPPLE, capacitor.amperes.rms, rated)


def _of_resistors(parts: Mapping[str, Part], heats: Iterable[Heat]) -> Iterator[Duty]:
    """The heat of a part is that of all its stretches."""
    watts, volts = defaultdict[str, float](float), defaultdict[str, float](float)
    for heat in heats:
        name = part_of(heat.name)
        if name in parts and parts[name].kind.family.resists:
            watts[name] += heat.watts
            ohms = heat.watts / heat.amperes.rms**2 if heat.amperes.rms else 0.0
            volts[name] = max(volts[name], ohms * max(abs(heat.amperes.low), abs(heat.amperes.high)))
    for name, heat_of in watts.items():
        rated = first(parts[name], Dimension.POWER)
        if rated:
            yield Duty(name, Demand.WATTS, heat_of, rated)
            stands = first(parts[name], Dimension.VOLTAGE) or _composition_volts(parts[name], rated)
            if stands:
                yield Duty(name, Demand.VOLTS, volts[name], stands)


def _composition_volts(part: Part, watts: float) -> float | None:
    if part.kind.family is not Family.RESISTOR or part.kind.is_chain or "wirewound" in part.features.words:
        return None
    return most_volts(Decimal(str(watts)))


def _of_rectifier(parts: Mapping[str, Part], one: Rectifier, duty: RectifierDuty) -> Iterator[Duty]:
    name = part_of(one.name)
    tube = parts[name].kind.family is Family.TUBE
    if one.mean_amperes:
        yield Duty(name, Demand.MEAN, duty.amperes.mean, one.mean_amperes, remembered=tube)
    if one.peak_amperes:
        yield Duty(name, Demand.PEAK, duty.amperes.high, one.peak_amperes, remembered=tube)


def _surges(graph: CircuitGraph) -> Iterator[Duty]:
    """The first pulse on a high line through diodes whose type says what they stand once."""
    network = translated(graph).network
    rated = {
        part.name: known
        for part in graph.circuit.parts.values()
        if part.kind.junction is Junction.SILICON and (known := diode_type_of(part.features.type)) is not None
    }
    if not any(isinstance(one, Rectifier) and one.name in rated for one in network.elements):
        return
    for surge in switch_on(network, line=HIGH_LINE, cycles=FIRST_PULSES).rectifiers:
        known = rated.get(surge.name)
        if known is not None and math.isfinite(surge.amperes):
            yield Duty(surge.name, Demand.SURGE, surge.amperes, float(known.surge_amperes))
