"""Names of nets that a trace takes over: each stays with the leads that had it.

A name is a label: it is put on one lead of the net where most of its leads are now, so that it joins nothing.

With it comes what is said of nets: `common`, `apart`, `volts`, `draws`, `supply`, `spare`. A `net` line of the trace's
own has the last word. Where two nets have as many of the leads, neither has the name, and `net-not-placed` says so.
What is soldered inside a moulded `network` belongs to the part and comes along.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.core.circuit import Chart, How, Join, Point, StatedLoad
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.model.closure import closure
from netcheck.model.intents import Sayings
from netcheck.model.load import Layer
from netcheck.model.messages import look

__all__ = ["Anchored", "Named", "Trace", "anchored", "named_leads", "not_placed"]

CHASSIS = 0

Named = Mapping[str, tuple[int, ...]]
"""The leads under the name of each net of the file that a trace takes its parts from."""


class Anchored(Struct, frozen=True):
    """The joins that put names on nets, and the names for which no net of the trace has the most leads."""

    joins: tuple[Join, ...]
    lost: frozenset[str]


class Trace(Struct, frozen=True):
    """The names that a trace gives to nets itself, and the line that says whose names it takes over."""

    own: frozenset[str]
    place: Place

    @classmethod
    def of(cls, layer: Layer) -> "Trace":
        """What matters of its file once that is read."""
        place = next((s.place for s in layer.of(tree.Base)), layer.source.whole)
        return cls(frozenset(s.name.text for s in layer.of(tree.Net)), place)


def named_leads(points: Sequence[Point], joins: Iterable[Join]) -> Named:
    """The leads under each net's name; the chassis is one of them where it is on the net."""
    nets = closure(len(points), joins)
    leads: dict[int, list[int]] = defaultdict(list)
    for at, point in enumerate(points):
        if at == CHASSIS or point.is_lead:
            leads[nets[at]].append(at)
    return {point.name: tuple(leads[nets[at]]) for at, point in enumerate(points) if point.net_name}


def anchored(points: Sequence[Point], joins: Sequence[Join], named: Named, said: Sayings, trace: Trace) -> Anchored:
    """Puts the names that the trace does not give itself on its nets.

    A name that some line speaks of goes first; others only where a net has none, as two names would be one too many.
    Of two nets with as many leads of a name neither has it: a guess would move a reading, or the common.
    """
    spoken = _spoken(said)
    nets = closure(len(points), joins)
    held = {CHASSIS, *(end for join in joins if join.how is not How.INSIDE for end in (join.a, join.b))}
    hubs = {point.name: at for at, point in enumerate(points) if point.net_name}
    taken = {nets[hubs[name]] for name in trace.own if name in hubs}
    put, lost = list[Join](), set[str]()
    for name in sorted(named.keys() - trace.own, key=lambda name: (name not in spoken, hubs[name])):
        at = _home([lead for lead in named[name] if lead in held], nets)
        if at is None:
            lost.add(name)
        elif name in spoken or nets[at] not in taken:
            taken.add(nets[at])
            put.append(Join(at, hubs[name], How.NAMED, trace.place, trace.place))
    return Anchored(tuple(put), frozenset(lost))


def _home(leads: Sequence[int], nets: Sequence[int]) -> int | None:
    """The first lead on the net that most of them are on; the chassis stays the chassis."""
    if CHASSIS in leads:
        return CHASSIS
    if leads and len({nets[lead] for lead in leads}) == 1:
        return leads[0]
    votes = Counter(nets[lead] for lead in leads).most_common(2)
    if not votes or (len(votes) > 1 and votes[0][1] == votes[1][1]):
        return None
    return next(lead for lead in leads if nets[lead] == votes[0][0])


def not_placed(said: Sayings, lost: frozenset[str]) -> Iterator[Diagnostic]:
    """What is said of a net that the trace does not have is not looked at, and that is told: once a name."""
    told = set[str]()
    for names, place in _statements(said):
        for name in (name for name in names if name in lost and name not in told):
            told.add(name)
            what = f"nothing in this trace says which net is `{name}`: this line is not looked at"
            yield look("net-not-placed", place, what, f"write one of its leads in the trace: `net {name}: LEAD`")


def _spoken(said: Sayings) -> frozenset[str]:
    names = {name for names, _ in _statements(said) for name in names}
    covered = {name for one in said.covers for name in one.points}
    return frozenset({said.common, *names, *covered, *(one.net for one in said.meant)})


def _statements(said: Sayings) -> Iterator[tuple[tuple[str, ...], Place]]:
    pairs: tuple[Chart | StatedLoad, ...] = (*said.charts, *said.loads, *said.supplies)
    yield from (((one.point, one.to), one.place) for one in pairs)
    yield from ((one.points, one.place) for one in said.apart)
