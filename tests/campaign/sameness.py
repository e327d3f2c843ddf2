"""Whether two states are the same circuit: by net labels first, by networkx where those agree."""

from collections import Counter, defaultdict
from collections.abc import Mapping

import networkx as nx

from tests.campaign.chassis import CHASSIS, Chassis, Nets, Part
from tests.campaign.sockets import SOCKETS, free_pins

__all__ = ["Labels", "labels_of", "members", "same"]

Labels = Mapping[str, tuple[str, str, str]]
"""Lead to (part's name, part's data, role); roles of ends that may change places are one."""


def labels_of(chassis: Chassis) -> dict[str, tuple[str, str, str]]:
    """The label of every compared lead."""
    found = {CHASSIS: (CHASSIS, CHASSIS, ""), "common": ("common", "common", "")}
    for part in chassis.parts.values():
        data = _data(part)
        found.update({lead: (part.name, data, _role(part, lead)) for lead in part.leads})
    return found


def _data(part: Part) -> str:
    return " ".join((part.kind, part.type, *sorted(part.words)))


def _role(part: Part, lead: str) -> str:
    tail = lead[len(part.name) :].lstrip(".")
    if part.is_free or part.kind == "rheostat":  # which way a rheostat turns is not in a netlist
        return "end"
    if part.kind == "tube":
        pairs = free_pins(part.type)
        one = next((f"{a}/{b}" for a, b in pairs if tail in (a, b)), "")
        return one or SOCKETS[part.type][tail]
    return tail


def members(nets: Nets) -> dict[int, list[str]]:
    """The leads by net."""
    found: dict[int, list[str]] = defaultdict(list)
    for lead, net in nets.items():
        found[net].append(lead)
    return found


def same(one: Nets, its: Labels, other: Nets, others: Labels) -> bool:
    """Whether some correspondence of equal parts makes the two partitions agree."""
    if _signature(one, its) != _signature(other, others):
        return False
    return bool(nx.vf2pp_is_isomorphic(_graph(one, its), _graph(other, others), node_label="label"))


def _signature(nets: Nets, labels: Labels) -> Counter[tuple[tuple[str, str], ...]]:
    return Counter(tuple(sorted(labels[lead][1:] for lead in leads)) for leads in members(nets).values())


def _graph(nets: Nets, labels: Labels) -> "nx.Graph[object]":
    graph: nx.Graph[object] = nx.Graph()
    for lead, net in nets.items():
        part, data, role = labels[lead]
        graph.add_node(("part", part), label=data)
        graph.add_node(("net", net), label="net")
        graph.add_node(("lead", lead), label=f"{data} {role}")
        graph.add_edge(("part", part), ("lead", lead))
        graph.add_edge(("lead", lead), ("net", net))
    return graph
