"""Whether two states are the same circuit: by net labels first, by networkx where those agree."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from itertools import combinations

import networkx as nx

from tests.campaign.chassis import CHASSIS, Chassis, Nets, Part
from tests.campaign.sockets import SOCKETS, free_pins

__all__ = [
    "Labels", "equal", "labels_of", "members", "reordered", "same", "stated_windings", "units_exchanged",
    "windings_turned",
]  # fmt: skip

Labels = Mapping[str, tuple[str, str, str]]
"""Lead to (part's name, part's data, role); roles of ends that may change places are one."""


def labels_of(chassis: Chassis) -> dict[str, tuple[str, str, str]]:
    """The label of every compared lead."""
    found = {CHASSIS: (CHASSIS, CHASSIS, ""), "common": ("common", "common", "")}
    for part in chassis.parts.values():
        data = _data(part)
        found.update({lead: (part.name, data, _role(part, lead)) for lead in part.leads})
        found[f"{part.name}!"] = (f"{part.name}!", data, "bridged")
    return found


_MARKS = frozenset({"half-moon", "square", "triangle", "plain"})


def _data(part: Part) -> str:
    """What tells parts of one kind apart; the mark of a can's section only says which lug is which."""
    return " ".join((part.kind, part.type, *sorted(set(part.words) - _MARKS)))


def _role(part: Part, lead: str) -> str:
    tail = lead[len(part.name) :].lstrip(".")
    if part.is_free or part.kind == "rheostat":  # which way a rheostat turns is not in a netlist
        return "end"
    if part.kind == "tube":
        pairs = free_pins(part.type)
        one = next((f"{a}/{b}" for a, b in pairs if tail in (a, b)), "")
        return one or SOCKETS[part.type][tail]
    winding = next((pair for pair in stated_windings(part) if tail in pair), None)
    return tail if winding is None else f"{tail} of {' and '.join(winding)}"


def stated_windings(part: Part) -> list[tuple[str, str]]:
    """The two ends of each winding of two leads whose volts are stated, without the part's name."""
    rows = [line.split() for line in part.members]
    return [(w[3], w[4]) for w in rows if w[0] == "winding" and w[5:] and w[5][0].isdigit() and "V" in w]


def windings_turned(nets: Nets, labels: Labels) -> Iterator[Labels]:
    """The labels with the ends of one winding of stated volts in each other's place, for each that works alone.

    A supply works either way round: a rectifier tube's heater has B+ at its one end or its other, half of 5 V apart.
    In series or in parallel with another winding of its part the sense counts; both ending on the chassis is neither.
    """
    ends: dict[tuple[str, str], list[str]] = defaultdict(list)
    for lead in nets:
        name, _, role = labels[lead]
        if " of " in role:
            ends[name, role.partition(" of ")[2]].append(lead)
    for (name, _), own in ends.items():
        here = {nets[lead] for lead in own} - {nets.get(CHASSIS), nets.get("common")}
        others = {nets[lead] for lead in nets if labels[lead][0] == name and lead not in own}
        if len(own) == 2 and here.isdisjoint(others):
            one, other = own
            yield {**labels, one: labels[other], other: labels[one]}


def units_exchanged(labels: Labels) -> Iterator[Labels]:
    """The labels with the two units of a double tube in each other's place, for each such tube."""
    other = {"a": "b", "b": "a"}
    doubles = {name for name, data, role in labels.values() if data.startswith("tube ") and role[-2:] in ("-a", "-b")}
    for double in sorted(doubles):
        yield {
            lead: (name, data, role[:-1] + other[role[-1]] if name == double and role[-2:] in ("-a", "-b") else role)
            for lead, (name, data, role) in labels.items()
        }


def reordered(nets: Nets, labels: Labels) -> Iterator[Nets]:
    """The nets with two parts of one series branch in each other's place, for each such pair.

    A branch is of parts with two free ends, with nothing else on the nets between them.
    """
    ends: dict[str, list[str]] = defaultdict(list)
    for lead in nets:
        if labels[lead][2] == "end":
            ends[labels[lead][0]].append(lead)
    links = [
        tuple(labels[lead][0] for lead in leads)
        for leads in members(nets).values()
        if len(leads) == 2 and all(len(ends[labels[lead][0]]) == 2 for lead in leads)
    ]
    branches = nx.Graph([link for link in links if len(set(link)) == 2])
    for branch in nx.connected_components(branches):
        for one, other in combinations(sorted(branch), 2):
            pairs = list(zip(ends[one], ends[other], strict=True))
            yield {**nets, **{a: nets[b] for a, b in pairs}, **{b: nets[a] for a, b in pairs}}


def equal(one: Nets, other: Nets, labels: Labels, others: Labels) -> bool:
    """Whether two states are equal as far as a report may say so: by themselves, or with no more than a note.

    Of the other one the units of a double tube may have changed places, or two parts of a series branch, or the ends
    of a winding that works alone.
    """
    noted = (*units_exchanged(others), *windings_turned(other, others))
    ways = [(other, other_labels) for other_labels in (others, *noted)]
    ways += [(nets, others) for nets in reordered(other, others)]
    return any(same(one, labels, nets, their) for nets, their in ways)


def members(nets: Nets) -> dict[int, list[str]]:
    """The leads by net."""
    found: dict[int, list[str]] = defaultdict(list)
    for lead, net in nets.items():
        found[net].append(lead)
    return found


def same(one: Nets, its: Labels, other: Nets, others: Labels) -> bool:
    """Whether some correspondence of equal parts makes the two partitions agree.

    Partitions that agree by name are the same, what sizes or refined colours tell apart can't be; networkx judges the
    rest.
    """
    if _by_name(one, its) == _by_name(other, others):
        return True
    pair = (one, its, other, others)
    if Counter(Counter(one.values()).values()) != Counter(Counter(other.values()).values()):
        return False
    return _agree(*pair, _FEW) and _agree(*pair, _MANY) and _judged(*pair)


def _agree(one: Nets, its: Labels, other: Nets, others: Labels, rounds: int) -> bool:
    colours = _colours(one, its, rounds), _colours(other, others, rounds)
    return Counter(colours[0].values()) == Counter(colours[1].values())


def _judged(one: Nets, its: Labels, other: Nets, others: Labels) -> bool:
    graphs = _graph(one, its, _colours(one, its, _MANY)), _graph(other, others, _colours(other, others, _MANY))
    return bool(nx.vf2pp_is_isomorphic(*graphs, node_label="label"))


def _by_name(nets: Nets, labels: Labels) -> Counter[tuple[tuple[str, str, str], ...]]:
    return Counter(tuple(sorted(labels[lead] for lead in leads)) for leads in members(nets).values())


_FEW, _MANY = 3, 12  # rounds: what a fault changes shows early, what looks the same is looked at long


def _colours(nets: Nets, labels: Labels, rounds: int) -> dict[tuple[str, object], int]:
    """A colour for every net and part: in each round a net is coloured by its leads and a part by its nets."""
    by_net = members(nets)
    by_part: dict[str, list[str]] = defaultdict(list)
    for lead in nets:
        by_part[labels[lead][0]].append(lead)
    part = {name: hash(labels[leads[0]][1]) for name, leads in by_part.items()}
    net: dict[int, int] = {}
    for _ in range(rounds):
        net = {
            number: hash(tuple(sorted((labels[lead][2], part[labels[lead][0]]) for lead in leads)))
            for number, leads in by_net.items()
        }
        part = {
            name: hash((part[name], tuple(sorted((labels[lead][2], net[nets[lead]]) for lead in leads))))
            for name, leads in by_part.items()
        }
    return {**{("net", n): c for n, c in net.items()}, **{("part", n): c for n, c in part.items()}}


def _graph(nets: Nets, labels: Labels, colours: Mapping[tuple[str, object], int]) -> "nx.Graph[object]":
    graph: nx.Graph[object] = nx.Graph()
    for lead, net in nets.items():
        name, _, role = labels[lead]
        ends = ("part", name), ("net", net)
        for end in ends:
            graph.add_node(end, label=colours[end])
            graph.add_edge(end, ("lead", lead))
        graph.nodes["lead", lead]["label"] = (role, *(colours[end] for end in ends))
    return graph
