"""Two nets that the original keeps apart are joined now.

A lug bent against its neighbour, a wire to the wrong lug, a lead that touches two. The finding names the joint to
undo: the fewest wires, leads and lugs that part the two nets again.

Original:

    resistor R1 470k
    resistor R2 470k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    wire R1.1 to R1.2 yellow

Right:

    start from "original.netck"
    wire R1.1 to R2.1 yellow

Source: the original.
"""

from collections.abc import Iterator, Sequence

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed, net_beside, net_name, touched, undoing
from netcheck.compare.words.orders import alternatives, ordered
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label
from netcheck.core.difference import Merge, Split
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if isinstance(fault, Merge):
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Merge) -> Finding:
    one, other = sorted((net_name(pair, fault.old_net), net_name(pair, fault.other_net)))
    if one == "chassis":
        one, other = other, one
    first, second = fault.leads[0], fault.others[0]
    inserted = next((j.bridges for j in fault.culprits if j.bridges), "")
    # What another finding's order lays anew is in no file: where that is too much as well, no line has the joint.
    written = [join for join in fault.culprits if join.place.source.name in pair.real.circuit.sources]
    if fault.parted is not None:
        return _astray(pair, fault, fault.parted)
    if inserted:
        headline = f"{inserted} is across {one} and {other}, not in series"
        do = alternatives(pair, fault.mends) or _in_series(pair, inserted)
    else:
        joined = f"{one} is joined to {other}"
        ways = (f"{joined} by {undoing(pair, written)}", joined) if written else (joined,)
        bypassed = [f"{name} is bypassed: " for name in _bypassed(pair, fault)[:1]]
        headline = fitting(*(f"{name}{words}" for name in (*bypassed, "") for words in ways))
        do = ordered(pair, fault)
    return Finding(
        headline,
        (
            *(Label(join.place, "joins them") for join in written[:2]),
            *(() if written else (Label(pair.real.said_at(first.new), "now"),)),
            Label(pair.original.said_at(first.old), f"on {net_name(pair, fault.old_net)} in the original"),
            Label(pair.original.said_at(second.old), f"on {net_name(pair, fault.other_net)} in the original"),
        ),
        do=do,
        mends=fault.mends,
        touched=touched(pair, (first, second), fault.old_net, fault.other_net),
    )


def _bypassed(pair: Pair, fault: Merge) -> Sequence[str]:
    """The fuses and chokes that the original has between the two nets: with these joined, nothing goes through them."""
    ends: dict[str, set[int]] = {}
    for lead in pair.pairing.leads:
        ends.setdefault(lead.part, set()).add(pair.original.circuit.nets[lead.old])
    between = [name for name, nets in ends.items() if nets == {fault.old_net, fault.other_net}]
    return [name for name in between if name and pair.real.circuit.parts[name].kind.family in _IN_SERIES]


_IN_SERIES = (Family.FUSE, Family.INDUCTOR)


def _in_series(pair: Pair, inserted: str) -> str:
    """How a part that lies across two nets comes to lie in series, beside a part that is across the same two."""
    graph = pair.real
    part = graph.circuit.parts[inserted]
    ends = {graph.circuit.nets[at] for at in graph.terminals(part)}
    beside = next(
        (p for p in graph.circuit.parts.values() if p is not part and _spans(graph, p, ends) and not p.kind.place), None
    )
    if beside is None:
        return f"open a joint of one of the two nets, and put {inserted} in its place"
    first, at = graph.point(graph.terminals(part)[0]), graph.terminals(beside)[0]
    return f"it is beside {beside.name}; in series {graph.point(at).name} is off its net and on {first.name} alone"


def _spans(graph: CircuitGraph, part: Part, ends: set[int]) -> bool:
    return len(part.leads) == 2 and {graph.circuit.nets[at] for at in graph.terminals(part)} == ends


def _astray(pair: Pair, fault: Merge, parted: Split) -> Finding:
    """A wire that ends on the wrong net, so that what it was to reach hangs free."""
    lost = [lead.name for lead in parted.leads]
    right = net_beside(pair, parted.old_net, parted.leads)
    wrong = net_name(pair, fault.other_net if parted.old_net == fault.old_net else fault.old_net)
    wire, several = undoing(pair, fault.culprits), len(fault.culprits) > 1
    joins, leaves = ("join", "leave") if several else ("joins", "leaves")
    return Finding(
        fitting(
            f"{wire} {joins} {right} to {wrong} and {leaves} {listed(lost)} free",
            f"{wire} {joins} {right} to {wrong}",
            f"{right} is joined to {wrong}",
        ),
        (
            Label(fault.culprits[0].place, "joins them"),
            Label(pair.real.said_at(parted.leads[0].new), "left free"),
            Label(pair.original.said_at(parted.leads[0].old), "in the original"),
        ),
        do=ordered(pair, fault),
        mends=fault.mends,
        touched=touched(pair, (*parted.leads, fault.leads[0], fault.others[0]), fault.old_net, fault.other_net),
    )


RULE = Rule("extra-connection", Grade.STOP, _check, __doc__, About.MISPLACED | About.BRIDGE)
