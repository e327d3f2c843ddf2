"""Rules about the difference of two states, a module each; the order is the order of ``why``."""

from collections.abc import Callable

from netcheck.compare.pair import Pair
from netcheck.core.difference import Fault, Merge, Move, Rearranged, Split
from netcheck.core.kind import Junction
from netcheck.electrical.network.supplies import has_supply
from netcheck.engine.rule import Listed

__all__ = ["RULES"]


def _anywhere(_: Pair) -> bool:
    return True


def _has(kind: type[Fault]) -> Callable[[Pair], bool]:
    """Where a fault of that kind was found."""
    return lambda pair: any(isinstance(fault, kind) for fault in pair.faults)


def _is_altered(pair: Pair) -> bool:
    """Where values, ratings and kinds are held up against each other: all parts may be what they were."""
    return pair.is_altered


def _has_several_for_one(pair: Pair) -> bool:
    return any(len(roles.new) > 1 for roles in pair.pairing.pairs)


def _has_new_silicon(pair: Pair) -> bool:
    new = pair.real.circuit.parts.items()
    return any(part.kind.junction is Junction.SILICON and name not in pair.source.parts for name, part in new)


def _has_intents(pair: Pair) -> bool:
    """Where the rewired file says of something what it is there for."""
    if pair.idle or pair.bridged or pair.pairing.irreducible:
        return True
    return any(part.replaces or part.electrodes for part in pair.real.circuit.parts.values())


def _of(name: str, where: Callable[[Pair], bool] = _anywhere) -> Listed[Pair]:
    return Listed(__name__, name, where)


RULES: tuple[Listed[Pair], ...] = (
    _of("missing-connection", _has(Split)),
    _of("extra-connection", _has(Merge)),
    _of("lead-on-wrong-net", _has(Move)),
    _of("leads-exchanged", _has(Rearranged)),
    _of("went-round", _has(Rearranged)),
    _of("sections-exchanged", _has(Rearranged)),
    _of("pins-mirrored", _has(Rearranged)),
    _of("pins-shifted", _has(Rearranged)),
    _of("parts-exchanged", _has(Rearranged)),
    _of("units-exchanged", _has(Rearranged)),
    _of("floating-ground", _has(Split)),
    _of("return-on-wrong-common", _has(Move)),
    _of("reversed-electrolytic", _has(Rearranged)),
    _of("reversed-rectifier", lambda pair: bool(pair.faults or pair.pairing.unsaid)),
    _of("dead-section-in-circuit", lambda pair: bool(pair.pairing.dead)),
    _of("plate-left-out", lambda pair: bool(pair.pairing.unseated)),
    _of("heater-missed", lambda pair: bool(pair.real.circuit.removals)),
    _of("not-in-series", lambda pair: any(p.inserted is not None for p in pair.real.circuit.parts.values())),
    _of("part-missing", lambda pair: bool(pair.pairing.missing or pair.pairing.unjoined)),
    _of("part-added", lambda pair: bool(pair.pairing.extra or pair.pairing.unsaid)),
    _of("value-changed", _is_altered),
    _of("rating-too-low", _is_altered),
    _of("kind-unsuitable", _is_altered),
    _of("first-capacitor-too-large", _is_altered),
    _of("balancing-missing", _has_several_for_one),
    _of("several-for-one", _has_several_for_one),
    _of("silicon-raises-volts", _has_new_silicon),
    _of("renamed", lambda pair: bool(pair.permuted or pair.pairing.recognised or pair.pairing.undecided)),
    _of("unused-intent", _has_intents),
    _of("not-compared", lambda pair: bool(pair.pairing.uncovered)),
    _of("not-computed", lambda pair: has_supply(pair.real)),
)
