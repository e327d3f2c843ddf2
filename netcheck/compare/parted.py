"""A group that lost its net, in words: what hangs where, why, and which joint to make."""

from netcheck.compare.describe import belongs_at, fitting, here, labels, listed, net_name, touched
from netcheck.compare.pair import Pair
from netcheck.core.diagnostic import Label
from netcheck.core.difference import Split
from netcheck.core.panel import Panel
from netcheck.engine.rule import Finding

__all__ = ["parted"]


def parted(pair: Pair, fault: Split, shown: str, panel: Panel, why: str = "") -> Finding:
    """The finding for leads that left a net and came to no other."""
    names = [lead.name for lead in fault.leads]
    place = here(pair, fault.leads[0])
    ways: tuple[str, ...]
    if len(names) > 1:
        ways = (
            f"{listed(names)} have lost {shown}{f' (they are on {place})' if place else ''}",
            f"{listed(names)} have lost {shown}",
            f"{listed(names, 2)} have lost {shown}",
        )
    elif place:
        ways = (
            f"{names[0]} is alone on {place}; it belongs on {shown}",
            f"{names[0]} has lost {shown}",
        )
    else:
        ways = (f"{names[0]} hangs free; it belongs on {shown}", f"{names[0]} hangs free")
    return Finding(
        fitting(*ways),
        (*labels(pair, fault.leads), *_taken_off(pair, fault)),
        do=_instruction(pair, fault),
        why="; ".join(reason for reason in (_cause(pair, fault), why) if reason),
        touched=touched(pair, fault.leads, fault.old_net),
        panel=panel,
    )


def _instruction(pair: Pair, fault: Split) -> str:
    graph = pair.rewired
    site = graph.site(fault.leads[0].new)
    right = net_name(pair, fault.old_net)
    target = belongs_at(pair, fault.home, site)
    spoken = graph.spoken(target) if target is not None else ""
    where = f"{spoken} ({right})" if spoken and spoken != right else spoken or f"net {right}"
    if _cause(pair, fault):
        lead = fault.leads[0].name if len(fault.leads) == 1 else "them"
        return f"bond {graph.spoken(site)} to the chassis, or move {lead} to {where}"
    if len(fault.leads) > 1 and not graph.point(site).net_name:
        return f"join {graph.spoken(site)} to {where}"
    return f"solder {fault.leads[0].name} to {where}"


def _taken_off(pair: Pair, fault: Split) -> tuple[Label, ...]:
    """The line that lifted the lead, where one did and it is not the main place already."""
    names = {lead.name for lead in fault.leads}
    shown = {pair.rewired.said_at(lead.new) for lead in fault.leads}
    found = [t for t in pair.rewired.circuit.taken if t.point in names and t.place not in shown]
    return (Label(found[-1].place, "taken off here"),) if found else ()


def _cause(pair: Pair, fault: Split) -> str:
    """Why a return floats: the foot, can or lug that it is on has no bond to the chassis."""
    graph = pair.rewired
    if fault.home != graph.circuit.nets[0]:
        return ""
    for at in graph.members[fault.new_net]:
        part, point = graph.part_of(at), graph.point(at)
        if part is None or point.terminal is None or "insulated" not in part.features.words:
            continue
        if part.kind.word == "strip" and "foot" in point.terminal.aliases:
            return f"the foot of {part.name} is insulated"
        if part.kind.word == "can" and point.terminal.name == "can":
            return f"the can {part.name} sits on an insulating wafer"
        if part.kind.word == "lug":
            return f"the lug {part.name} is insulated"
    return ""
