"""What silicon in place of selenium or tubes does to the volts of the set, and the resistor that brings them back."""

from msgspec import Struct

from netcheck.compare.pair import Pair
from netcheck.core.circuit import Part
from netcheck.core.kind import Family, Junction
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Rectifier, part_of
from netcheck.electrical.network.supplies import is_driven, translated
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.study import known
from netcheck.electrical.table.swap import SiliconSwap, swapped
from netcheck.model.graph import CircuitGraph

__all__ = ["RaisedCapacitor", "raised"]

MUCH = 0.1  # of the volts: what a line that is 10 % high does as well

LEAST_VOLTS = 50.0


class RaisedCapacitor(Struct, frozen=True):
    """The capacitor whose volts rise most, before and now; what was taken out and put in; the way back.

    ``held`` is the capacitor that ``swap`` brings back to its volts, by its name now.
    """

    old: Part
    new: Part
    before: float
    now: float
    gone: tuple[Part, ...]
    fitted: tuple[Part, ...]
    swap: SiliconSwap
    held: str


def raised(pair: Pair) -> RaisedCapacitor | None:
    """What rises by more than a tenth; None where nothing does, or where joints are wrong and volts say nothing."""
    if pair.faults or pair.pairing.uncovered:
        return None
    source = CircuitGraph(pair.source)
    if not (is_driven(source) and is_driven(pair.real)):
        return None
    gone, fitted = _gone(source, pair.real), _fitted(source, pair.real)
    before, now = (known(source), known(pair.real)) if gone and fitted else (None, None)
    if before is None or now is None:
        return None
    most = max(_rises(pair, before, now), key=lambda each: each[3] / each[2], default=None)
    if most is None or most[3] <= most[2] * (1 + MUCH):
        return None
    swap = swapped(translated(source).network, before, [part.name for part in gone], {})
    return RaisedCapacitor(*most, gone, fitted, swap, _name_now(pair, swap.held))


def _name_now(pair: Pair, name: str) -> str:
    return next((roles.new[0].name for roles in pair.pairing.pairs if roles.old and roles.old[0].name == name), name)


def _rises(pair: Pair, before: Steady, now: Steady) -> list[tuple[Part, Part, float, float]]:
    """The filter capacitors of both states, with their volts; those of a few volts follow a tube, not the rectifier."""
    was, is_now = ({duty.name: duty.volts.mean for duty in run.capacitors} for run in (before, now))
    shared = shared_out(pair.real).capacitors
    return [
        (roles.old[0], roles.new[0], was[roles.old[0].name], is_now[roles.new[0].name])
        for roles in pair.pairing.pairs
        if roles.old
        and roles.old[0].kind.family is Family.ELECTROLYTIC
        and was.get(roles.old[0].name, 0.0) > LEAST_VOLTS
        and roles.new[0].name in is_now.keys() - shared
    ]


def _gone(source: CircuitGraph, real: CircuitGraph) -> tuple[Part, ...]:
    """The tubes and stacks that rectified in the original and are no part of the supply any more."""
    old, new = _rectifying(source, translated(source)), _rectifying(real, translated(real))
    return tuple(part for name, part in old.items() if part.kind.junction is not Junction.SILICON and name not in new)


def _fitted(source: CircuitGraph, real: CircuitGraph) -> tuple[Part, ...]:
    """The diodes that rectify now and did not."""
    old, new = _rectifying(source, translated(source)), _rectifying(real, translated(real))
    return tuple(part for name, part in new.items() if part.kind.junction is Junction.SILICON and name not in old)


def _rectifying(graph: CircuitGraph, translation: Translation) -> dict[str, Part]:
    names = [part_of(one.name) for one in translation.network.elements if isinstance(one, Rectifier)]
    return {name: graph.circuit.parts[name] for name in names}
