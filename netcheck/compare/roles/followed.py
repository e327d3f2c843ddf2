"""Which point of the original a point of the rewired file is: the same one, its role, or the net that it leads to.

A new lug that a declared change ends on stands for the net that most of the original's leads on it come from, those of
declared changes left out. The closing lines say what it was taken for, since a wire from there to a wrong net is then
what was intended. With nothing of the original on it, or two nets alike, it is a STOP: a guess would make the change
true whatever it is.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator

from msgspec import Struct

from netcheck.compare.roles.changing import Changing
from netcheck.core.circuit import Circuit, Part
from netcheck.model.closure import closure
from netcheck.model.points import lead_name

__all__ = ["Followed", "Leading", "Unclear", "in_original"]

# A lead says where it is; of a part whose ends are free, the other end's net is nearly as good an answer.
_LEAD, _OTHER_END = 3, 2


class Followed(Struct, frozen=True):
    """A new lug that leads to a net of the original: ``at`` is a point of that net there."""

    at: int


class Unclear(Struct, frozen=True):
    """A new lug that leads to no one net; ``nets`` are those that speak for themselves equally, by name."""

    nets: tuple[str, ...] = ()


def in_original(original: Circuit, rewired: Circuit, name: str) -> int | None:
    """The original's point for a point of the rewired file: the same, or the one whose role it has."""
    at = original.index.get(name)
    if at is not None:
        return at
    here = rewired.index.get(name)
    part = rewired.parts.get(rewired.points[here].part) if here is not None else None
    terminal = rewired.points[here].terminal if here is not None else None
    if part is None or terminal is None or len(part.replaces) != 1:
        return None
    return next((o for o, n in _replaced(original, part) if n == terminal.name), None)


def _replaced(original: Circuit, part: Part) -> Iterator[tuple[int, str]]:
    old = original.parts.get(part.replaces[0])
    if old is None:
        return
    for mine, theirs in zip(part.polarity or (), old.polarity or (), strict=False):
        yield original.index[lead_name(old, theirs)], mine
    for mine_lead, their_lead in zip(part.leads, old.leads, strict=False):
        if mine_lead.key == their_lead.key:
            yield original.index[lead_name(old, their_lead.name)], mine_lead.name


class Leading:
    """Where the points of the rewired state lead, whose inserted parts are bridged.

    The declared changes themselves are left out, else a lead that is moved to a lug would say where it came from.
    """

    def __init__(self, rewired: Circuit) -> None:
        self._rewired = rewired
        declared = {intent.place for intent in rewired.intended}
        joins = tuple(join for join in rewired.joins if join.statement not in declared)
        self._nets = closure(len(rewired.points), joins) if declared else rewired.nets
        self._leads: defaultdict[int, list[int]] = defaultdict(list)
        for at, net in enumerate(self._nets if declared else ()):
            if rewired.points[at].is_lead:
                self._leads[net].append(at)

    def follow(self, original: Circuit, changing: Changing, name: str) -> Followed | Unclear:
        """Where a point that the original does not have leads to, by the original's leads that are on its net.

        The net that most leads come from is meant, the chassis before all.
        """
        here = self._rewired.index.get(name)
        if here is None:
            return Unclear()
        if self._nets[here] == self._nets[0]:
            return Followed(0)
        said: Counter[int] = Counter()
        seat: dict[int, int] = {}
        for at in self._leads[self._nets[here]]:
            for old, weight in _votes(original, self._rewired, at):
                said[changing.net(old)] += weight
                seat.setdefault(changing.net(old), old)
        best = [net for net, weight in said.items() if weight == max(said.values())]
        if len(best) == 1:
            return Followed(seat[best[0]])
        return Unclear(tuple(sorted(changing.name_at(seat[net]) for net in best)))


def _votes(original: Circuit, rewired: Circuit, at: int) -> Iterator[tuple[int, int]]:
    """The points of the original that one lead of the rewired state may be, with how much speaks for each."""
    point = rewired.points[at]
    same = in_original(original, rewired, point.name)
    part = rewired.parts.get(point.part)
    if same is None or part is None or point.terminal is None:
        return
    yield same, _LEAD
    for pair in part.free:
        if point.terminal.name in pair:
            other = next(name for name in pair if name != point.terminal.name)
            end = in_original(original, rewired, lead_name(part, other))
            if end is not None:
                yield end, _OTHER_END
