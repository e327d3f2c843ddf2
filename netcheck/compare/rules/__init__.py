"""Rules about the difference of two states, a module each; the order is the order of ``why``."""

from collections.abc import Callable

from netcheck.compare.pair import Pair
from netcheck.core.difference import Fault, Merge, Move, Rearranged, Split
from netcheck.engine.rule import Listed

__all__ = ["RULES"]


def _anywhere(_: Pair) -> bool:
    return True


def _has(kind: type[Fault]) -> Callable[[Pair], bool]:
    """Where a fault of that kind was found."""
    return lambda pair: any(isinstance(fault, kind) for fault in pair.faults)


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
    _of("value-changed"),
    _of("rating-too-low"),
    _of("kind-unsuitable"),
    _of("first-capacitor-too-large"),
    _of("balancing-missing"),
    _of("several-for-one", lambda pair: any(len(roles.new) > 1 for roles in pair.pairing.pairs)),
    _of("silicon-raises-volts"),
    _of("renamed", lambda pair: bool(pair.permuted or pair.pairing.recognised or pair.pairing.undecided)),
    _of("unused-intent"),
    _of("not-compared", lambda pair: bool(pair.pairing.uncovered)),
    _of("not-computed"),
)
