"""A part that is ``inserted`` and does not lie in series with anything.

An inserted part stands where a joint was: one end on what was one side of it, the other end on the other. A fuse that
is joined to nothing protects nothing, and a surge resistor with one end on an empty lug lets the full surge through.

Original:

    cord P1
    selenium CR1 130 V 100 mA
    electrolytic C1 40 mfd 150 V
    resistor R1 22k
    net line: P1.1, CR1-
    net B+: CR1+, C1+, R1.1
    net B-: P1.2, C1-, R1.2

Wrong:

    start from "original.netck"
    strip SP1 3 lugs foot 3
    resistor R9 47 ohm 5 W from CR1+ to SP1.1 inserted "silicon gives more"

Right:

    start from "original.netck"
    strip SP1 3 lugs foot 3
    move CR1+ to SP1.1
    resistor R9 47 ohm 5 W from SP1.1 to C1+ inserted "silicon gives more"

Source: the file's own word.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import net_at
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    told = {lead.part for fault in pair.faults for lead in _leads(fault)} | {one.part.name for one in pair.bridged}
    for part in pair.real.circuit.parts.values():
        if part.inserted is None or part.name in pair.source.parts or len(part.leads) != 2 or part.name in told:
            continue
        ends = pair.real.terminals(part)
        loose = [at for at in ends if not _leads_on(pair, part, at)]
        if len(loose) == 2:
            yield _joined_to_nothing(pair, part)
        elif loose and not _is_in_trouble(pair, ends) and not _is_put_in(pair, part):
            held = next(at for at in ends if at != loose[0])
            if not _waits_for_a_missing_part(pair, held):
                yield _one_end(pair, part, loose[0], held)


def _is_put_in(pair: Pair, part: Part) -> bool:
    """Whether what was told leaves the part in series."""
    return part.name not in pair.still_idle


def _leads_on(pair: Pair, part: Part, at: int) -> tuple[int, ...]:
    """The leads of other parts on an end's net; the chassis counts as one."""
    net = pair.real.circuit.nets[at]
    others = tuple(o for o in pair.real.leads_on(net) if pair.real.point(o).part != part.name)
    return others or ((0,) if net == pair.real.circuit.nets[0] else ())


def _is_in_trouble(pair: Pair, ends: tuple[int, ...]) -> bool:
    """Whether something that hangs free on one of its nets was told: the part waits for that joint."""
    nets = pair.as_shown.circuit.nets
    free = {net for fault in pair.faults if isinstance(fault, Split) for net in (fault.home, fault.new_net)}
    return not free.isdisjoint(nets[at] for at in ends)


def _waits_for_a_missing_part(pair: Pair, held: int) -> bool:
    """Whether a part that is not there has a lead on that net: fitted, it may be what the loose end is for."""
    net = None if pair.left is None else pair.left.right_net(held)
    original = pair.original
    return any(original.circuit.nets[at] == net for part in pair.pairing.missing for at in original.terminals(part))


def _joined_to_nothing(pair: Pair, part: Part) -> Finding:
    return Finding(
        f"{part.name} is inserted and joined to nothing",
        (Label(part.place),),
        do="open the joint that it is to stand in, and solder its two ends to the two sides",
        touched=Touched(tuple(pair.real.point(at).name for at in pair.real.terminals(part)), (part.name,)),
    )


def _one_end(pair: Pair, part: Part, loose: int, held: int) -> Finding:
    graph = pair.real
    name, site = graph.point(loose).name, graph.spoken(graph.site(loose))
    where = f"alone on {site}" if site != name else "on nothing"
    net = net_at(pair, held)
    return Finding(
        f"{part.name} is not in series: {name} is {where}, and the old joint is still made",
        (Label(graph.said_at(loose)), Label(part.place)),
        do=f"take what {part.name} is to feed, or what feeds it, off {net} and put it on {site}",
        touched=Touched((name, graph.point(held).name), (part.name,), (net,)),
    )


def _leads(fault: Fault) -> tuple[Lead, ...]:
    match fault:
        case Move() | Split() | Merge():
            return fault.leads
        case Rearranged():
            return tuple(lead for swap in fault.swaps for lead in swap.leads)


RULE = Rule("not-in-series", Grade.STOP, _check, __doc__, About.ITSELF)
