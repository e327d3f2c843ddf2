"""How differences are put into words: where a lead is, where it belongs, what to undo. One voice for all rules."""

from collections.abc import Collection, Iterable, Sequence

from netcheck.compare.pair import Pair
from netcheck.core import wording
from netcheck.core.circuit import How, Join, Part
from netcheck.core.diagnostic import Label, Touched
from netcheck.core.difference import Lead
from netcheck.engine.headline import HEADLINE, fitting
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import is_bundle

__all__ = [
    "HEADLINE",
    "called",
    "fitting",
    "here",
    "labels",
    "listed",
    "net_at",
    "net_beside",
    "net_name",
    "said_first",
    "touched",
    "undoing",
    "with_place",
]  # fmt: skip


def listed(names: Sequence[str], most: int = 3) -> str:
    """``A``, ``A and B``, ``A, B and C``, ``A, B and 4 more``."""
    return wording.listed(names, most)


def net_name(pair: Pair, old_net: int) -> str:
    """What the original calls a net; its chassis and common by those words."""
    return pair.original.net_names[old_net]


def net_beside(pair: Pair, old_net: int, leads: Iterable[Lead]) -> str:
    """The same where leads belong: a net that has no name and is called by one of them is called by another lead."""
    return called(pair.original, old_net, (lead.old for lead in leads))


def called(graph: CircuitGraph, net: int, own: Iterable[int]) -> str:
    """What a net is called beside some of its points: by another one, where its own name is one of these."""
    # The chassis and a net's name are no terminals: what has a name keeps it.
    mine, name = {at for at in own if graph.point(at).terminal is not None}, graph.net_names[net]
    others = [at for at in graph.members[net] if at not in mine]
    if not others or name not in map(graph.spoken, mine):
        return name
    return graph.name_of([at for at in others if graph.point(at).is_lead] or others)


def net_at(pair: Pair, at: int, beside: Collection[str] = ()) -> str:
    """The net that belongs at a point of the rewired state, by the original's name; where none does, the one there.

    ``beside`` are points that are spoken of in the same breath: a net without a name is called by another one.
    """
    old = None if pair.left is None else pair.left.right_net(at)
    graph, net = (pair.real, pair.real.circuit.nets[at]) if old is None else (pair.original, old)
    return called(graph, net, (own for own in graph.members[net] if graph.point(own).name in beside))


def here(pair: Pair, lead: Lead) -> str:
    """The place that a lead is soldered to now; empty where it is its own, on a net's name only, or in the air."""
    site = pair.real.site(lead.new)
    point = pair.real.point(site)
    if site == lead.new or point.net_name or is_bundle(point, site):
        return ""
    return pair.real.spoken(site)


def undoing(pair: Pair, joins: Iterable[Join]) -> str:
    """What to take off, joint by joint: ``the yellow wire from SP1.2 to SP2.5``."""
    return listed([_joint(pair.as_shown, join) for join in joins], most=3)


def _joint(graph: CircuitGraph, join: Join) -> str:
    a, b = graph.point(join.a), graph.point(join.b)
    if join.bridges:
        return join.bridges
    if join.how is How.WIRE:
        colour = " ".join(w for w in join.words.split() if w.isalpha() and w != "AWG")
        return f"the {colour + ' ' if colour else ''}wire from {a.name} to {b.name}"
    if join.how is How.NET:
        return f"{b.name} on net {a.name}"
    if join.how is How.BOND:
        return f"{b.name} on the chassis"
    return f"{b.name} on {a.name}"


def labels(pair: Pair, leads: Sequence[Lead], now: str = "now", then: str = "in the original") -> tuple[Label, ...]:
    """Where the first lead is said in both files, the rewired one first."""
    lead = leads[0]
    new = Label(pair.real.said_at(lead.new), now)
    old = Label(pair.original.said_at(lead.old), then)
    return (new, old)


def said_first(pair: Pair, lead: Lead) -> tuple[object, ...]:
    """The order of leads as they are said: what the rewired file itself says before what it takes over."""
    place = pair.real.said_at(lead.new)
    return place.source is not pair.real.circuit.source, place.order


def touched(pair: Pair, leads: Sequence[Lead], *nets: int) -> Touched:
    """The names that a finding is about, those of both files."""
    names = dict.fromkeys(n for lead in leads for n in (lead.name, lead.old_name))
    parts = dict.fromkeys(p for lead in leads for p in (lead.part, lead.old_part) if p)
    return Touched(tuple(names), tuple(parts), tuple(net_name(pair, net) for net in nets))


def with_place(found: Touched, moved: Iterable[str], place: Part) -> Touched:
    """The same with a strip or socket and the leads that go to another place of it, each once."""
    leads, parts = dict.fromkeys((*found.leads, *moved)), dict.fromkeys((place.name, *found.parts))
    return Touched(tuple(leads), tuple(parts), found.nets)
