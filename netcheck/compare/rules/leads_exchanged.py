"""Two leads changed places: of one part, or one lead each of two parts, or what hangs on two lugs.

Blue and red of an output transformer, wiper and end of a control, the wires to two lugs. It is one slip, so it is told
once. The two ends of a winding that states its volts are a NOTE: a supply works either way, as long as no other winding
is in series or in parallel with it, directly or through fuses and switches. In parallel, turned round, it is a dead
short.

Original:

    transformer T1 "output"
    winding T1 primary blue red 250 ohm
    resistor R1 470k
    resistor R2 100k
    resistor R3 470k
    net plate: T1.blue, R1.1, R3.1
    net B+: T1.red, R2.1, R3.2
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    move T1.blue to R2.1
    move T1.red to R1.1

Right:

    start from "original.netck"
    move T1.blue to R1.1

Source: the original.
"""

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from netcheck.compare.faults.inserted import inserted_parts
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, labels, listed, net_beside, touched
from netcheck.compare.words.orders import ordered
from netcheck.compare.words.reordered import reordered
from netcheck.compare.words.sections import sections_of
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Lead, Rearranged, Way
from netcheck.core.quantity import Dimension
from netcheck.engine.rule import Finding, Rule
from netcheck.model.points import lead_name

_BETWEEN = 4
"""A net with more leads than this is no place between an inserted part and what it is for."""


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if not isinstance(fault, Rearranged) or sections_of(pair, fault) or reordered(pair, fault):
            continue
        if fault.way is Way.LEADS:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Rearranged) -> Finding:
    one, other = fault.swaps[0], fault.swaps[1]
    ours, theirs = listed([lead.name for lead in one.leads]), listed([lead.name for lead in other.leads])
    belongs = "belongs" if len(one.leads) == 1 else "belong"
    right = net_beside(pair, one.old_net, one.leads)
    found = touched(pair, (*one.leads, *other.leads), one.old_net, other.old_net)
    inserted = _inserted_there(pair, fault)
    if _is_turned_winding(pair, one.leads, other.leads):
        return Finding(
            fitting(f"{ours} and {theirs} changed places: a winding gives its volts either way round"),
            labels(pair, one.leads) + labels(pair, other.leads)[:1],
            why="its sense matters only to what works together with another winding",
            do=f"leave it; or exchange them: {ordered(pair, fault)}",
            mends=fault.mends,
            touched=found,
            grade=Grade.NOTE,
        )
    return Finding(
        fitting(
            f"{ours} changed places with {theirs}: {ours} {belongs} on {right}"
            if len(one.leads) > 1
            else f"{ours} and {theirs} changed places: {ours} {belongs} on {right}",
            f"{ours} and {theirs} changed places",
            f"{one.leads[0].name} and {other.leads[0].name} changed places",
        ),
        labels(pair, one.leads) + labels(pair, other.leads)[:1],
        do=f"exchange them: {ordered(pair, fault)}",
        mends=fault.mends,
        touched=replace(found, leads=(*found.leads, *inserted)),
    )


def _is_turned_winding(pair: Pair, one: Sequence[Lead], other: Sequence[Lead]) -> bool:
    """Whether two leads are the ends of one winding of stated volts that no other winding of the part is joined to."""
    if len(one) != 1 or len(other) != 1 or one[0].old_part != other[0].old_part:
        return False
    circuit = pair.original.circuit
    part, ends = circuit.parts[one[0].old_part], {one[0].old_name, other[0].old_name}
    leads = {name: {lead_name(part, lead) for lead in winding} for name, winding in part.features.windings}
    name = next((name for name, own in leads.items() if own == ends), "")
    if not any(value.dimension is Dimension.VOLTAGE for value in part.features.winding_values.get(name, ())):
        return False
    shared = {circuit.nets[circuit.index[lead]] for lead in ends} - _returns(circuit)
    others = {lead for winding, own in leads.items() if winding != name for lead in own}
    from netcheck.electrical.opposed import closed_loops

    looped = {loop.part.name for loop in pair.real.once(closed_loops)}
    return one[0].part not in looped and shared.isdisjoint(circuit.nets[circuit.index[lead]] for lead in others)


def _returns(circuit: Circuit) -> set[int]:
    """The nets that windings may share and be none the more in series."""
    return {circuit.nets[0], circuit.nets[circuit.index[circuit.common]]}


def _inserted_there(pair: Pair, fault: Rearranged) -> tuple[str, ...]:
    """The leads of inserted parts in series with a lead named: bridged, they can't be told from it."""
    real = pair.real
    named = {lead.new for swap in fault.swaps for lead in swap.leads}
    concerned = {real.circuit.nets[at] for at in named}
    found: list[str] = []
    for part in inserted_parts(real, pair.original.circuit):
        ends = real.terminals(part)
        if any(
            real.circuit.nets[at] in concerned and len(real.leads_on(real.circuit.nets[at])) <= _BETWEEN for at in ends
        ):
            found.extend(real.point(at).name for at in ends)
    return tuple(found)


RULE = Rule("leads-exchanged", Grade.STOP, _check, __doc__, About.MISPLACED | About.STRAY)
