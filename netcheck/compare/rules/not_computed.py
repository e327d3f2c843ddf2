"""The rewired supply could not be computed, and so nothing is known of its volts, its heat and its currents.

When nothing is said of a rating, it was looked at and is all right. Where a set with its cord does not say what drives
its supply, or the running set can't be found, nothing was: resistors, capacitors, rectifiers and fuses are then
compared with the original's, and no more.

Original:

    cord P1
    transformer T1
    winding T1 primary black-a black-b
    winding T1 high red-a red-b
    diode D1 1N4007
    electrolytic C1 40 mfd 450 V
    resistor R1 22k 5 W
    net in-a: P1.1, T1.black-a
    net in-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2

Wrong:

    start from "original.netck"
    change C1 47 mfd 450 V

Right:

    start from "original.netck"
    mains 117 V 60 Hz
    change C1 47 mfd 450 V
    remove T1
    transformer T2 replaces T1
    winding T2 primary black-a black-b 117 V
    winding T2 high red-a red-b 250 V
    at P1.1: T2.black-a
    at P1.2: T2.black-b
    at D1.anode: T2.red-a
    at C1-: T2.red-b

Source: none is needed; what was not looked at is said.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.electrical.network.supplies import has_supply, is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

_SAY_MAINS = "say what drives it: `mains 117 V 60 Hz`, and the volts of the windings"


def _check(pair: Pair) -> Iterator[Finding]:
    if pair.faults or pair.pairing.uncovered or not has_supply(pair.real):
        return  # volts come after the joints; of a part of a chassis they are not asked
    missing = _missing(pair.real)
    if missing is None:
        return
    first = _rectifier(pair.real)
    yield Finding(
        "the supply can't be computed: volts, heat and currents were not looked at",
        tuple(Label(pair.real.circuit.parts[name].place, "rectifies") for name in first),
        do=missing,
        why="only what was fitted was compared with the original's ratings",
        touched=Touched(parts=first),
    )


def _missing(graph: CircuitGraph) -> str | None:
    circuit = graph.circuit
    whole = bool(circuit.mains) or circuit.has(Family.CORD)
    unsaid = _unsaid(graph)
    if not whole and (unsaid or not is_driven(graph)):
        return None  # a part of a set, without what drives it: volts are not asked
    if not is_driven(graph) and not circuit.mains:
        return _SAY_MAINS
    if not is_driven(graph):
        return "say the volts of the winding that feeds the rectifier, or where the cord is"
    if unsaid:
        return "; ".join(unsaid) if circuit.mains else _SAY_MAINS
    from netcheck.electrical.study import running

    return None if running(graph) is not None else "look at what is joined to the rectifier; run `supply` on this file"


def _unsaid(graph: CircuitGraph) -> tuple[str, ...]:
    """What to add for the sources whose volts are not stated: a proof has something in their place, a figure not."""
    from netcheck.electrical.network.elements import VoltageSource
    from netcheck.electrical.network.supplies import translated

    translation = translated(graph)
    sources = {one.name for one in translation.network.elements if isinstance(one, VoltageSource)}
    return tuple(dict.fromkeys(gap.say for gap in translation.gaps if not gap.elements.isdisjoint(sources)))


def _rectifier(graph: CircuitGraph) -> tuple[str, ...]:
    from netcheck.electrical.network.elements import Rectifier, part_of
    from netcheck.electrical.network.supplies import translated

    names = [part_of(one.name) for one in translated(graph).network.elements if isinstance(one, Rectifier)]
    return tuple(names[:1]) or tuple(graph.circuit.parts)[:1]


RULE = Rule("not-computed", Grade.LOOK, _check, __doc__, About.ITSELF)
