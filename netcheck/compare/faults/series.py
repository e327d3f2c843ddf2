"""Which inserted parts are in series: something is on both their ends, and the two ends are apart.

A state in which a fuse or a surge resistor hangs by one end may have all nets of the original, and is not sound.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from netcheck.compare.roles.pairing import Pairing
from netcheck.core.circuit import Circuit, Part
from netcheck.core.groups import reached
from netcheck.model.points import lead_name

__all__ = ["InSeries", "inserted_in"]


def inserted_in(rewired: Circuit, original: Circuit) -> Iterator[Part]:
    """The two-lead parts that a rewired state declares as inserted."""
    for part in rewired.parts.values():
        if part.inserted is not None and part.name not in original.parts and len(part.leads) == 2:
            yield part


class InSeries:
    """The inserted parts of one rewired chassis, looked at in its states.

    What counts at an end is the chassis, or a lead of a part that is compared; one of an added part of which nothing
    says where it belongs does not, nor one of a part that should be out.
    """

    def __init__(self, original: Circuit, rewired: Circuit, pairing: Pairing) -> None:
        self._ends: Mapping[str, tuple[int, ...]] = {
            part.name: tuple(rewired.index[lead_name(part, terminal.name)] for terminal in part.leads)
            for part in inserted_in(rewired, original)
        }
        unsaid = {at for _, points in pairing.unsaid for at in points}
        out = {"", *self._ends, *(part.name for part in (*pairing.extra, *pairing.dead))}
        points = enumerate(rewired.points) if self._ends else ()
        counting = [at for at, point in points if point.is_lead and point.part not in out and at not in unsaid]
        added = {part.name for part in rewired.parts.values() if part.added is not None}
        self._counting = (0, *counting)
        self._drawn = (0, *(at for at in counting if rewired.points[at].part not in added))

    def idle(self, circuit: Circuit) -> Mapping[str, frozenset[int]]:
        """The parts that are not in series, each with those of its ends that nothing is on."""
        return self._not_between(circuit, self._counting)

    def waiting(self, circuit: Circuit, idle: Mapping[str, frozenset[int]]) -> Mapping[str, frozenset[int]]:
        """Those that are ``idle`` there, and parts that feed nothing of the drawing: its lead belongs there first.

        An added part may be on that end by what the file means, as a bleeder behind the resistor that was inserted.
        """
        return idle if self._drawn == self._counting else {**self._not_between(circuit, self._drawn), **idle}

    def _not_between(self, circuit: Circuit, counting: Iterable[int]) -> Mapping[str, frozenset[int]]:
        nets, live = circuit.nets, {circuit.nets[at] for at in counting} if self._ends else set()
        found = {}
        for name, (a, b) in self._ends.items():
            others = [(nets[c], nets[d]) for other, (c, d) in self._ends.items() if other != name]
            sides = ((a, b), (b, a))
            loose = frozenset(end for end, far in sides if live.isdisjoint(_behind(nets[end], nets[far], others)))
            if loose or nets[a] == nets[b]:
                found[name] = loose
        return found


def _behind(net: int, far: int, ways: Sequence[tuple[int, int]]) -> frozenset[int]:
    """The nets that lie behind one end of a part, through other inserted parts and not round to its far end."""
    both = [*ways, *((b, a) for a, b in ways)]
    return reached(net, lambda here: (there for one, there in both if one == here and there != far))
