"""What is moulded into a network: its parts' leads can't be reached, what is soldered to its pins can."""

from collections.abc import Mapping

from netcheck.core.circuit import Circuit
from netcheck.core.kind import Family
from netcheck.model.points import lead_name

__all__ = ["pins_of_moulded"]


def pins_of_moulded(circuit: Circuit) -> Mapping[int, int]:
    """Returns the pin of each lead that is inside: of the parts that are on pins of one network with every lead."""
    if not circuit.has(Family.NETWORK):
        return {}
    points, pin_of = circuit.points, dict[int, int]()
    for join in circuit.joins:
        for pin, lead in ((join.a, join.b), (join.b, join.a)):
            hub = circuit.parts.get(points[pin].part)
            if hub is not None and hub.kind.family is Family.NETWORK:
                pin_of.setdefault(lead, pin)
    found: dict[int, int] = {}
    for part in circuit.parts.values():
        leads = [circuit.index[lead_name(part, terminal.name)] for terminal in part.leads]
        pins = [pin_of[lead] for lead in leads if lead in pin_of]
        if len(leads) > 1 and len(pins) == len(leads) and len({points[pin].part for pin in pins}) == 1:
            found.update(zip(leads, pins, strict=True))
    return found
