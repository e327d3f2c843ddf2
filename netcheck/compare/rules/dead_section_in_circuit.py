"""A part that was replaced is still wired in, in parallel with the new one.

The old can "still reads", so it stays. It leaks, hums and takes the new part with it. Lift its lug, or take it out.

Original:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Wrong:

    start from "original.netck"
    electrolytic C51 22 mfd 500 V plus C1+ minus C1- replaces C1

Right:

    start from "original.netck"
    lift C1+
    electrolytic C51 22 mfd 500 V plus R1.1 minus C1- replaces C1

Source: common practice of the trade.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.roles.electrodes import claimed_pins
from netcheck.compare.words.describe import listed, net_at
from netcheck.compare.words.orders import alternatives
from netcheck.compare.words.pictures import part_too_many
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.difference import Merge
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule
from netcheck.model.points import lead_name

_HARMS = {
    Family.ELECTROLYTIC: "an old electrolytic in parallel leaks, hums and takes the new one with it",
    Family.CAPACITOR: "an old capacitor in parallel goes on leaking, whatever the new one is worth",
    Family.RECTIFIER: "an old rectifier in parallel leaks backwards; when it shorts, the new one can't help",
    Family.RESISTOR: "two in parallel are less ohms than either",
}


def _check(pair: Pair) -> Iterator[Finding]:
    graph = pair.real
    for part in pair.pairing.dead:
        if any(part.name in new.electrodes for new in graph.circuit.parts.values()):
            yield from _electrodes(pair, part)
            continue
        points = graph.terminals(part)
        names = _across(pair, part)
        if not names:
            continue
        mends = pair.whole.get(part.name, ())
        new = next((p for p in graph.circuit.parts.values() if part.name in p.replaces), part)
        yield Finding(
            f"{part.name} is still wired in across {listed(names)}, although {new.name} replaces it",
            (Label(new.place, "replaces it"), Label(part.place, "the old one")),
            do=f"{alternatives(pair, mends) or f'lift one end of {part.name}'}; "
            f"or write `remove {part.name}` if it is out already",
            mends=mends,
            why=_HARMS.get(part.kind.family, "the two work at once, which the original does not have"),
            touched=Touched(tuple(graph.point(at).name for at in points), (part.name, new.name), tuple(names)),
            panel=part_too_many(pair, part),
        )


def _electrodes(pair: Pair, tube: Part) -> Iterator[Finding]:
    """A tube in its socket of which only some electrodes have given way: those must be off their nets."""
    graph, circuit = pair.real, pair.real.circuit
    news = [part for part in circuit.parts.values() if tube.name in part.electrodes]
    for pin in sorted(claimed_pins(tube, news)):
        at = circuit.index[lead_name(tube, pin)]
        if all(graph.point(o).part == tube.name for o in graph.leads_on(circuit.nets[at])):
            continue
        names = listed([part.name for part in news])
        yield Finding(
            f"{graph.spoken(at)} is still wired in, although {names} {'replace' if len(news) > 1 else 'replaces'} it",
            (Label(graph.said_at(at)), Label(news[0].place, "replaces it")),
            do=f"take what is soldered to {graph.point(at).name} off it, or write `remove {tube.name}` when it is out",
            why="the two share the current, and the old one fails first",
            touched=Touched((graph.point(at).name,), (tube.name,), (net_at(pair, at),)),
        )


def _across(pair: Pair, part: Part) -> list[str]:
    """What a replaced part is across, the chassis last; nothing where it is out of the circuit."""
    graph, nets = pair.real, pair.real.circuit.nets
    # A net is called by what else is on it: where the part itself belongs is no longer asked, it is coming off.
    beside = [[o for o in graph.leads_on(nets[at]) if graph.point(o).part != part.name] for at in graph.terminals(part)]
    live = [others[0] for others in beside if others]
    there = {nets[at]: at for at in live}
    if len(live) > 1 and len(there) == 1 and _is_bridged(pair, live[0]):
        # Once the bridge is taken off, the part is across two nets again.
        old = pair.original
        names = {old.net_names[old.circuit.nets[at]] for at in old.terminals(old.circuit.parts[part.name])}
    else:
        names = {net_at(pair, at) for at in there.values()}
    return sorted(names, key=lambda name: (name == "chassis", name)) if len(names) > 1 else []


def _is_bridged(pair: Pair, at: int) -> bool:
    nets = pair.as_shown.circuit.nets
    return any(isinstance(fault, Merge) and nets[fault.culprits[0].a] == nets[at] for fault in pair.faults)


RULE = Rule("dead-section-in-circuit", Grade.STOP, _check, __doc__, About.ITSELF)
