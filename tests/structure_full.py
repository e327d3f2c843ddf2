"""The matcher against the whole graph atlas and against igraph on random circuits: too long for every run, run once.

``python -m tests.structure_full`` builds every graph of the atlas as netlists of equal resistors, six of each with
names, lines and ends scrambled, and recognises every pair of equal order (of seven nodes: of equal degrees).
"""

import random
import sys
import time
from collections import Counter
from collections.abc import Callable, Hashable, Iterator
from itertools import combinations

import igraph
import networkx as nx

from netcheck.compare.roles.recognise import recognised
from netcheck.core.circuit import Circuit, Part
from netcheck.core.source import Source
from netcheck.matching.structure import Match, Structure, StructurePart, match
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph

RELABELLINGS = 5
RANDOM_CIRCUITS = 20_000


def of_graph(graph: "nx.Graph[Hashable]", seed: int | None = None) -> Structure:
    """A graph as equal resistors between nets; with a seed, nets, parts and ends are in another order."""
    nodes, edges = list(graph), list(graph.edges)
    if seed is not None:
        dice = random.Random(seed)  # noqa: S311 (repeatable, and no secret)
        dice.shuffle(nodes)
        dice.shuffle(edges)
        edges = [edge if dice.random() < 0.5 else edge[::-1] for edge in edges]
    at = {node: number for number, node in enumerate(nodes)}
    parts = tuple(StructurePart("resistor", (("end", at[u]), ("end", at[v]))) for u, v in edges)
    return Structure(parts, len(nodes))


def netlist(graph: "nx.Graph[Hashable]", seed: int) -> CircuitGraph:
    """A graph as a netlist with scrambled names, read as any other."""
    dice = random.Random(seed)  # noqa: S311 (repeatable, and no secret)
    names = [f"R{n}" for n in dice.sample(range(1, 1_000), graph.number_of_edges())]
    nets: dict[Hashable, list[str]] = {node: [] for node in graph}
    for name, edge in zip(names, graph.edges, strict=True):
        ends = dice.sample(edge, 2)
        nets[ends[0]].append(f"{name}.1")
        nets[ends[1]].append(f"{name}.2")
    words = dice.sample(range(100, 1_000), len(nets))
    lines = ["net ground: chassis", *(f"resistor {name} 1k 1/2 W" for name in names)]
    lines += [f"net n{w}: {', '.join(ends)}" for w, ends in zip(words, nets.values(), strict=True) if ends]
    dice.shuffle(lines)
    circuit, problems = build(Source("graph.netck", "\n".join(["state drawn", *lines, ""])), no_file)
    assert circuit is not None, problems
    return CircuitGraph(circuit)


def no_file(name: str, _: str) -> Source:
    """The reader of files that include nothing."""
    raise FileNotFoundError(name)


def same(old: CircuitGraph, new: CircuitGraph) -> bool:
    """Whether two netlists are the same but for names; two without a part are."""
    parts = [list(_parts(graph.circuit)) for graph in (old, new)]
    if not parts[0] and not parts[1]:
        return True
    return recognised(old, new, parts[0], parts[1], ()).same


def _parts(circuit: Circuit) -> Iterator[Part]:
    yield from (part for part in circuit.parts.values() if part.leads)


def rook() -> "nx.Graph[Hashable]":
    """The 4 by 4 rook's graph."""
    return nx.line_graph(nx.complete_bipartite_graph(4, 4))


def shrikhande() -> "nx.Graph[Hashable]":
    """Shrikhande's graph, strongly regular with the rook's figures: (16, 6, 2, 2)."""
    graph: nx.Graph[Hashable] = nx.Graph()
    for a in range(4):
        for b in range(4):
            graph.add_edges_from(((a, b), ((a + x) % 4, (b + y) % 4)) for x, y in ((1, 0), (0, 1), (1, 1)))
    return graph


def twisted(base: "nx.Graph[int]", twists: int) -> "nx.Graph[Hashable]":
    """Cai, Fürer and Immerman's graph over a base, so many of its edges twisted."""
    graph: nx.Graph[Hashable] = nx.Graph()
    for v in base:
        ports = [frozenset(edge) for edge in base.edges(v)]
        for size in range(0, len(ports) + 1, 2):
            for chosen in combinations(ports, size):
                graph.add_edges_from(((v, chosen), (v, port, port in chosen)) for port in ports)
    for number, (u, v) in enumerate(base.edges):
        edge = frozenset((u, v))
        for bit in (False, True):
            graph.add_edge((u, edge, bit), (v, edge, bit ^ (number < twists)))
    return graph


def atlas_pairs(graphs: "list[nx.Graph[Hashable]]") -> Iterator[tuple[int, int]]:
    """All pairs of equal order, of seven nodes those of equal degrees; a graph is paired with itself too."""
    kinds = [(len(g), sorted(d for _, d in g.degree) if len(g) > 6 else []) for g in graphs]
    return (
        (i, j) for i in range(len(graphs)) for j in range(i, len(graphs)) if kinds[i] == kinds[j] and len(graphs[i])
    )


def random_circuit(dice: random.Random) -> Structure:
    """A few resistors, electrolytics and triodes on a few nets; twins and symmetries are frequent."""
    nets = dice.randint(2, 8)
    roles = {"100k": ("end", "end"), "22k": ("end", "end"), "20 mfd": ("plus", "minus"), "6J5": ("p", "g", "k")}
    parts = []
    for _ in range(dice.randint(1, 12)):
        colour = dice.choice(list(roles))
        parts.append(StructurePart(colour, tuple((role, dice.randrange(nets)) for role in roles[colour])))
    return Structure(tuple(parts), nets)


def rewired(structure: Structure, dice: random.Random, faults: int) -> Structure:
    """The same in another order, with so many ends exchanged."""
    parts = [[list(end) for end in part.ends] for part in structure.parts]
    for _ in range(faults):
        one, other = (dice.choice(dice.choice(parts)) for _ in range(2))
        one[1], other[1] = other[1], one[1]
    nets = dice.sample(range(structure.nets), structure.nets)
    made = []
    for part, ends in zip(structure.parts, parts, strict=True):
        moved = [(role, nets[int(str(net))]) for role, net in ends]
        dice.shuffle(moved)
        made.append(StructurePart(part.colour, tuple(moved)))
    dice.shuffle(made)
    return Structure(tuple(made), structure.nets)


def reference(a: Structure, b: Structure) -> bool:
    """What igraph says: every part, end and net a vertex, coloured by what it is."""
    colours: dict[Hashable, int] = {}
    graphs = []
    for structure in (a, b):
        marks: list[Hashable] = ["net"] * structure.nets
        edges = []
        for part in structure.parts:
            body = len(marks)
            marks.append(("part", part.colour))
            for role, net in part.ends:
                edges += [(body, len(marks)), (len(marks), net)]
                marks.append(("end", role))
        numbers = [colours.setdefault(mark, len(colours)) for mark in marks]
        graphs.append((igraph.Graph(len(marks), edges), numbers))
    (one, first), (other, second) = graphs
    if Counter(first) != Counter(second):
        return False
    return bool(one.isomorphic_bliss(other, color1=first, color2=second))


def atlas() -> Counter[str]:
    """The whole atlas; counts pairs, answers and mistakes."""
    graphs = nx.graph_atlas_g()
    count: Counter[str] = Counter()
    first = [netlist(graph, number) for number, graph in enumerate(graphs)]
    second = [netlist(graph, -1 - number) for number, graph in enumerate(graphs)]
    for i, j in atlas_pairs(graphs):
        count["pairs"] += 1
        count["mistakes"] += same(first[i], second[j]) != (i == j)
    for number, graph in enumerate(graphs):
        for copy in range(RELABELLINGS):
            count["relabelled"] += 1
            count["mistakes"] += not same(first[number], netlist(graph, 10_000 * (copy + 1) + number))
    return count


def circuits(number: int = RANDOM_CIRCUITS) -> Counter[str]:
    """Random circuits and what igraph says of them."""
    dice = random.Random(1)  # noqa: S311 (repeatable, and no secret)
    count: Counter[str] = Counter()
    for _ in range(number):
        one = random_circuit(dice)
        other = rewired(one, dice, dice.choice((0, 1, 1, 2)))
        answer = isinstance(match(one, other), Match)
        count["same" if answer else "different"] += 1
        count["mistakes"] += answer != reference(one, other)
    return count


def main() -> None:
    """Runs everything and prints what came out; ends with 1 where anything is wrong."""
    runs: tuple[Callable[[], Counter[str]], ...] = (atlas, circuits)
    mistakes = 0
    for run in runs:
        start = time.perf_counter()
        count = run()
        mistakes += count["mistakes"]
        told = ", ".join(f"{number} {what}" for what, number in sorted(count.items()) if what != "mistakes")
        sys.stdout.write(f"{run.__name__}: {told}; {count['mistakes']} mistakes, {time.perf_counter() - start:.0f} s\n")
    sys.exit(bool(mistakes))


if __name__ == "__main__":
    main()
