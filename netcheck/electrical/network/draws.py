"""What a file says that is drawn or fed from outside: `draws` and `supply` statements."""

from collections import deque
from collections.abc import Iterable

from netcheck.core.kind import Family
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Rectifier,
    Resistor,
    Tube,
    VoltageSource,
    pair_of,
)

__all__ = ["STATED_LOAD", "enter_draws"]

STATED_LOAD = "draws "  # before the place in the name of what the file states
OUTSIDE_OHMS = 1.0


def enter_draws(draft: Draft) -> None:
    """Adds what `supply` lines feed and what `draws` lines take; a line below the common takes it from there."""
    circuit = draft.graph.circuit
    for said in circuit.supplies:
        if said.value.dimension is Dimension.VOLTAGE and said.value.current is not Current.AC:
            minus = circuit.net_of(said.to) if said.to else draft.reference
            name = f"supply {said.point}"
            draft.elements.append(
                VoltageSource(name, circuit.net_of(said.point), minus, float(said.value.amount), 0.0, OUTSIDE_OHMS)
            )
            draft.default(name, f"{name}: {OUTSIDE_OHMS:g} ohm")
        else:
            draft.left_out.append(f"the supply at {said.point} from outside")
    # A line is below the common by what feeds it, a supply from outside among it.
    for said in circuit.loads:
        net = circuit.net_of(said.point)
        plus, minus = (draft.reference, net) if _is_below(draft, net) else (net, _returns(draft, net))
        draft.elements.append(Load(f"{STATED_LOAD}{said.point}", plus, minus, float(said.value.amount), stated=True))


def _returns(draft: Draft, net: int) -> int:
    """Where the current of a line goes: through a tube to its cathode where it is that of its own plate or screen.

    A net with a filter capacitor on it, or a lead to another chassis, feeds more than the tube there.
    """
    cathodes = {one.cathode for one in draft.elements if isinstance(one, Tube) and one.plate == net}
    feeds = any(isinstance(one, Capacitor) and one.polarised and one.plus == net for one in draft.elements)
    leaves = any(
        part is not None and part.kind.family is Family.PLUG
        for part in map(draft.graph.part_of, draft.graph.leads_on(net))
    )
    return cathodes.pop() if len(cathodes) == 1 and not (feeds or leaves) else draft.reference


def _is_below(draft: Draft, net: int) -> bool:
    """Whether a line lies below the common: the file's chart says so, or the rectifier that feeds it does.

    What a line draws is told without a sign; below the common it flows from there into the line.
    """
    circuit = draft.graph.circuit
    said = (c.volts.amount for c in circuit.charts if circuit.net_of(c.point) == net and not c.to and c.volts.amount)
    charted = next(said, None)
    return charted < 0 if charted is not None else _is_fed_from_below(draft, net)


def _is_fed_from_below(draft: Draft, net: int) -> bool:
    """Whether the nearest rectifier or battery has its minus side there, by way of conductors and windings."""
    conductors = [one for one in draft.elements if isinstance(one, Resistor | Inductor | VoltageSource)]
    ways = [*map(pair_of, conductors), *draft.closed]
    seen, queue = {net, draft.reference}, deque([net])
    while queue:
        at = queue.popleft()
        pole = _pole(draft.elements, at)
        if pole is not None:
            return pole
        fresh = {b if a == at else a for a, b in ways if at in (a, b)} - seen
        seen |= fresh
        queue.extend(sorted(fresh))
    return False


def _pole(elements: Iterable[Element], net: int) -> bool | None:
    """Whether a net is the minus of a rectifier or a battery; None where it is no pole of one.

    What the mains do not drive feeds nothing: the plate of a damper is on B+.
    """
    found: bool | None = None
    for one in elements:
        if isinstance(one, Rectifier) and not one.driven:
            continue
        if isinstance(one, Rectifier) and net == one.cathode:
            return False
        if isinstance(one, Rectifier) and net == one.anode:
            found = True
        elif isinstance(one, VoltageSource) and not one.hertz and net in (one.plus, one.minus):
            return net != one.poles[0]
    return found
