"""Leads that are on a wrong net, in words: which, where they belong, and what to move."""

from collections.abc import Callable
from dataclasses import dataclass

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import belongs_at, fitting, here, labels, net_name, placed, touched, undoing
from netcheck.compare.words.panels import moved
from netcheck.core.circuit import How, Join
from netcheck.core.difference import Move
from netcheck.engine.rule import Finding

__all__ = ["Strayed", "strayed"]


@dataclass(frozen=True, slots=True)
class Strayed:
    """The leads and the two nets by name; ``at`` is the lug they are on, in brackets, where that says more."""

    names: tuple[str, ...]
    right: str
    wrong: str
    at: str


def strayed(pair: Pair, fault: Move, ways: Callable[[Strayed], tuple[str, ...]], why: str = "") -> Finding:
    """The finding for leads that left a net and are on another; ``ways`` are its headlines, the longest first."""
    right, wrong = net_name(pair, fault.old_net), net_name(pair, fault.wrong_net)
    place = here(pair, fault.leads[0])
    at = f" ({place})" if place and place != wrong else ""
    return Finding(
        fitting(*ways(Strayed(tuple(lead.name for lead in fault.leads), right, wrong, at))),
        labels(pair, fault.leads),
        do=_instruction(pair, fault),
        why=why,
        touched=touched(pair, fault.leads, fault.old_net, fault.wrong_net),
        panel=moved(pair, fault),
    )


def _instruction(pair: Pair, fault: Move) -> str:
    graph = pair.rewired
    site = graph.site(fault.leads[0].new)
    target = belongs_at(pair, fault.home, site)
    where = placed(pair, target, fault.old_net)
    on_lug = not graph.point(site).net_name
    if len(fault.leads) > 1:
        start = graph.spoken(site) if on_lug else fault.leads[0].name
        return f"take off {undoing(pair, fault.culprits)}; join {start} to {where}"
    exchanged = _or_exchanged(pair, fault)
    if not on_lug or site == fault.leads[0].new:
        return f"take off {undoing(pair, fault.culprits)}; join {fault.leads[0].name} to {where}{exchanged}"
    hint = ", the lug beside it" if target in graph.beside(site) else ""
    wires = _wires(fault)
    other = f"; or, if the wire is astray, take off {undoing(pair, wires)}" if wires else ""
    return f"move {fault.leads[0].name} from {graph.spoken(site)} to {where}{hint}{other}{exchanged}"


def _or_exchanged(pair: Pair, fault: Move) -> str:
    """The two leads that may have changed places instead: one lead is left on the right net, one on the wrong."""
    old, new = pair.original.circuit.nets, pair.rewired.circuit.nets
    leads = [lead for lead in pair.pairing.leads if lead not in fault.leads]
    stayed = [lead for lead in leads if new[lead.new] == fault.home and old[lead.old] == fault.old_net]
    there = [lead for lead in leads if new[lead.new] == fault.new_net and old[lead.old] == fault.wrong_net]
    if len(stayed) != 1 or len(there) != 1 or not (stayed[0].part and there[0].part):
        return ""
    parts = pair.rewired.circuit.parts
    one, other = parts[stayed[0].part], parts[there[0].part]
    return f"; or {stayed[0].name} and {there[0].name} changed places" if one.kind is other.kind else ""


def _wires(fault: Move) -> list[Join]:
    """The wires among the culprits that are not soldered to the lead itself."""
    own = {lead.new for lead in fault.leads}
    return [join for join in fault.culprits if join.how is How.WIRE and own.isdisjoint((join.a, join.b))]
