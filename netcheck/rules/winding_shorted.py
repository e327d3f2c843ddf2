"""A winding is shorted: by rectifiers every half wave, as the line itself may be, or by another winding.

Where rectifiers in a loop all point one way, with nothing in it but a winding, the winding's whole short-circuit
current flows once a period: the rectifiers, the fuse or the transformer burn within seconds. A bridge with one diode
turned round is such a loop, and so are two diodes in series across a winding, or a full-wave pair of which one points
the other way. It follows from the wiring alone. A resistor below 100 ohm in the loop does not help: it burns first.

Windings of one transformer may be in parallel only where they have the same volts and the same sense. Turned round
against each other, as two primaries or two halves of a secondary, they are a dead short. What counts as the sense is
the order of the leads in the `winding` line. Volts that differ by more than 2 % are told (LOOK): copper that drops 3 %
in each winding at full load then lets a third of that load go round and heat it. Over 20 % is STOP. Where the file
does not state the volts, windings named alike, as `primary-1` and `primary-2`, are taken as equal; of others the
volts are asked for.

In series across the line, as two primaries for half its volts each, they have to add. One turned round takes back what
the other makes: no flux, and nothing but copper limits the current. It is STOP where the line is a quarter above what
they make together; less is a winding that bucks on purpose.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V
    winding T1 high red-a red-b 250 V 60 ohm
    diode D1 1N4007
    diode D2 1N4007
    diode D3 1N4007
    diode D4 1N4007
    electrolytic C1 40 mfd 450 V
    resistor R1 10k 20 W
    net a: P1.1, T1.black-a
    net b: P1.2, T1.black-b
    net x: T1.red-a, D1.anode, D3.anode
    net y: T1.red-b, D2.anode, D4.cathode
    net B+: D1.cathode, D2.cathode, C1+, R1.1
    net ground: chassis, D3.cathode, D4.anode, C1-, R1.2

Right:

    start from "wrong.netck"
    move D3.anode to D4.anode
    move D3.cathode to T1.red-a

Source: Kirchhoff's voltage law: a winding's volts stand across rectifiers that all conduct, and nothing else; round a
loop of windings they add up to nothing.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.wording import listed
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.opposed import Chain, Loop

_BY_ORDER = "proven (without power, by the order of leads in the `winding` lines)"


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if graph.circuit.has(Family.TRANSFORMER):
        from netcheck.electrical.opposed import closed_loops, opposed_chains

        yield from (_looped(graph, loop) for loop in graph.once(closed_loops))
        yield from (_in_series(graph, chain) for chain in graph.once(opposed_chains))
    yield from _rectified(graph)


def _looped(graph: CircuitGraph, loop: "Loop") -> Finding:
    part, names = loop.part, listed(loop.windings)
    ends = dict(part.features.windings)[loop.turned or loop.windings[-1]]
    leads = tuple(f"{part.name}.{lead}" for lead in loop.leads)
    return Finding(
        _headline(part.name, loop),
        tuple(Label(graph.said_at(graph.circuit.index[f"{part.name}.{lead}"])) for lead in (ends[0], ends[-1])),
        do=_order(part.name, ends, loop),
        why=f"state the volts of {names} in the `winding` lines" if loop.share is None else _reason(loop),
        touched=Touched(leads, (part.name,)),
        grade=Grade.STOP if loop.is_short else Grade.LOOK,
    )


def _headline(name: str, loop: "Loop") -> str:
    names = listed(loop.windings, 3)
    if len(loop.windings) == 1:
        return f"the winding {name} {names} is shorted: a wire joins two of its leads"
    if loop.share is None:
        return fitting(f"{names} of {name} are in parallel: whether their volts agree is not known")
    if loop.share > 1.0:
        return fitting(f"{names} of {name} work against each other: a dead short")
    return fitting(f"{names} of {name} are in parallel, and their volts differ")


def _order(name: str, ends: Sequence[str], loop: "Loop") -> str:
    if len(loop.windings) == 1:
        return f"don't power it: part {listed([f'{name}.{lead}' for lead in loop.leads])}"
    if not loop.is_short:
        return f"join only windings of the same volts: measure {listed(loop.windings)} of {name} apart"
    return _turn_or_part(name, ends, loop.windings, loop.turned)


def _turn_or_part(name: str, ends: Sequence[str], windings: tuple[str, ...], turned: str) -> str:
    if turned:
        return (
            f"don't power it: exchange {name}.{ends[0]} and {name}.{ends[-1]}; if the winding begins at {ends[-1]}, "
            "correct the order in its `winding` line"
        )
    return f"don't power it: part {listed(windings)} of {name} and measure each alone"


def _reason(loop: "Loop") -> str:
    left = "their volts add" if loop.volts is None else f"{loop.volts:g} V are left round the loop"
    return f"{_BY_ORDER}: {left}, and only copper limits that"


def _in_series(graph: CircuitGraph, chain: "Chain") -> Finding:
    name, leads = chain.part.name, dict(chain.part.features.windings)
    first, *_, last = leads[chain.turned or chain.windings[-1]]
    return Finding(
        _against(name, chain),
        tuple(Label(graph.said_at(graph.circuit.index[f"{name}.{lead}"])) for lead in (first, last)),
        do=_turn_or_part(name, (first, last), chain.windings, chain.turned),
        why=_made_together(chain),
        touched=Touched(tuple(f"{name}.{lead}" for each in chain.windings for lead in leads[each]), (name,)),
        grade=Grade.STOP if chain.shorts else Grade.LOOK,
    )


def _against(name: str, chain: "Chain") -> str:
    words = "work against each other across the line: a dead short" if chain.shorts else "may work against each other"
    return fitting(f"{listed(chain.windings)} of {name} {words}", f"{name}'s windings {words}")


def _made_together(chain: "Chain") -> str:
    if not chain.shorts:
        return f"state the volts of {listed(chain.windings)} in the `winding` lines, and `mains`"
    made_for = f"{chain.volts:g} V" if chain.volts else "nothing"
    line = "the line" if chain.line is None else f"the line's {chain.line:g} V"
    return f"{_BY_ORDER}: in series they make {made_for}, and only copper limits what {line} drives"


def _rectified(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.shorts import shorts

    for short in graph.once(shorts):
        names = short.rectifiers
        through = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
        parts = graph.circuit.parts
        line = parts[short.source].kind.family is Family.CORD
        what = "the line" if line else f"the winding {short.source} {' '.join(short.leads)}"
        yield Finding(
            fitting(f"{what} is shorted through {through} each half wave", f"{what} is shorted through {names[0]}"),
            tuple(Label(parts[name].place, "" if at else "in the loop") for at, name in enumerate(names)),
            do="don't power it: find which of them is turned round, or on the wrong end",
            why=f"proven (without power): {_conducts(names)}, and nothing in that loop limits the current",
            touched=Touched(parts=(*names, short.source)),
        )


def _conducts(names: Sequence[str]) -> str:
    return "it conducts every half wave" if len(names) == 1 else "all of them conduct in the same half wave"


RULE = Rule("winding-shorted", Grade.STOP, _check, __doc__, About.ITSELF, burns=True)
