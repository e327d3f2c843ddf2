"""What a file says that is drawn or fed from outside: `draws` and `supply` statements."""

from collections import deque
from collections.abc import Iterable

from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.network.draft import Draft, ends_of
from netcheck.electrical.network.elements import Element, Inductor, Load, Rectifier, Resistor, VoltageSource

__all__ = ["STATED_LOAD", "enter_draws"]

STATED_LOAD = "draws "  # what the name of a load begins with that the file states
OUTSIDE_OHMS = 1.0


def enter_draws(draft: Draft) -> None:
    """Adds what `draws` lines take and what `supply` lines feed; a line below the common takes it from there."""
    circuit = draft.graph.circuit
    for said in circuit.loads:
        net, other = circuit.net_of(said.point), circuit.net_of(said.to) if said.to else draft.reference
        plus, minus = (other, net) if _is_below(draft, net) else (net, other)
        draft.elements.append(Load(f"{STATED_LOAD}{said.point}", plus, minus, float(said.value.amount)))
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
    ways = [*(ends_of(one)[:2] for one in conductors), *draft.closed]
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
    """Whether a net is the minus of a rectifier or a battery; None where it is no pole of one."""
    found: bool | None = None
    for one in elements:
        if isinstance(one, Rectifier) and net == one.cathode:
            return False
        if isinstance(one, Rectifier) and net == one.anode:
            found = True
        elif isinstance(one, VoltageSource) and not one.hertz and net in (one.plus, one.minus):
            return (net == one.minus) is (one.peak >= 0)
    return found
