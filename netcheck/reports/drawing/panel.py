"""One panel as a small graph for the drawing engine: its nodes, its lines, and where the engine put them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from netcheck.core.panel import Line, Mark, Panel
from netcheck.reports.drawing.arranging import Arranged, Seat, arranged
from netcheck.reports.drawing.lettering import brief, lettered, tip
from netcheck.reports.drawing.marks import FONT, LOOKS
from netcheck.reports.drawing.telling import line_told

if TYPE_CHECKING:
    from graphviz import Graph

__all__ = ["Joint", "Node", "add_joint", "add_node", "add_panel", "graph_of", "joints", "nodes", "panel_dot"]

PANEL_LAYOUT = {"rankdir": "TB", "newrank": "true", "nodesep": "0.3", "ranksep": "0.5", "splines": "line"}
# The dashed lines first: a double line hides what is under its white middle.
_DRAWN_LAST = (Mark.PLAIN, Mark.VALUE, Mark.MAKE, Mark.MOVE, Mark.TAKE_OFF)


@dataclass(frozen=True, slots=True)
class Node:
    """A node as the engine gets it; names and classes are our own, never the user's words."""

    name: str
    label: str
    tooltip: str
    classes: str


@dataclass(frozen=True, slots=True)
class Joint:
    """A line as the engine gets it: ``key`` finds it again in the answer, whose order is another one."""

    key: str
    tail: str
    head: str
    mark: Mark
    label: str
    tooltip: str
    classes: str


def graph_of(name: str, **attributes: str) -> Graph:
    """An empty graph with the picture's lettering; paper is white always, in dark mode too."""
    from graphviz import Graph

    return Graph(
        name,
        graph_attr={"bgcolor": "white", "fontname": FONT, "pad": "0.1", **attributes},
        node_attr={"shape": "plain", "fontname": FONT, "fontsize": "13"},
        edge_attr={"fontname": FONT, "fontsize": "11"},
    )


def nodes(rows: Arranged, number: int) -> tuple[tuple[Node, ...], tuple[Node, ...]]:
    """The nodes of the upper and the lower row, left to right."""
    first = tuple(_node(seat, number) for seat in rows.first)
    second = tuple(_node(seat, number) for seat in rows.second)
    return (second, first) if rows.turned else (first, second)


def _node(seat: Seat, number: int) -> Node:
    word = "" if seat.mark is Mark.PLAIN else f" {LOOKS[seat.mark].word}"
    return Node(f"f{number}{seat.name}", seat.card.label, tip(seat.spoken), f"f{number}{word}")


def joints(panel: Panel, rows: Arranged, number: int) -> tuple[Joint, ...]:
    """The lines in the order of drawing, each from the upper row's cell to the lower row's."""
    indexed = sorted(enumerate(panel.lines), key=lambda entry: (_DRAWN_LAST.index(entry[1].mark), entry[0]))
    return tuple(_joint(panel, rows, number, entry) for entry in indexed)


def _joint(panel: Panel, rows: Arranged, number: int, entry: tuple[int, Line]) -> Joint:
    index, line = entry
    ports = {seat.name: seat.card.ports for seat in (*rows.first, *rows.second)}
    upper = f"t{line.upper[0]}"
    lower = f"{'b' if line.to_bottom else 'm'}{line.lower[0]}"
    ends = [(upper, ports[upper][line.upper[1]]), (lower, ports[lower][line.lower[1]])]
    tail, head = reversed(ends) if rows.turned else ends
    return Joint(
        f"e{index}",
        f"f{number}{tail[0]}:{tail[1]}:s",
        f"f{number}{head[0]}:{head[1]}:n",
        line.mark,
        line.label,
        tip(line_told(panel, line)),
        f"f{number} {LOOKS[line.mark].word}",
    )


def add_panel(graph: Graph, panel: Panel, number: int) -> tuple[str, str]:
    """Put the panel into a graph that the engine is to lay out; returns a node of its first and of its last row."""
    rows = arranged(panel)
    for row in nodes(rows, number):
        with graph.subgraph() as rank:
            rank.attr(rank="same")
            for node in row:
                add_node(rank, node)
            for left, right in pairwise(row):
                rank.edge(left.name, right.name, style="invis")
    for joint in joints(panel, rows, number):
        add_joint(graph, joint, number)
    names = [node.name for row in nodes(rows, number) for node in row]
    return names[0], names[-1]


def add_node(graph: Graph, node: Node, **places: str) -> None:
    """Put one card into a graph."""
    tooltip = _plain(node.tooltip)
    graph.node(node.name, node.label, tooltip=tooltip, id=node.name, **{"class": node.classes}, **places)


def _plain(words: str) -> str:
    """Words that are never taken for markup, though they may begin and end with angle brackets."""
    from graphviz import nohtml

    plain: str = nohtml(words)
    return plain


def add_joint(graph: Graph, joint: Joint, number: int, **places: str) -> None:
    """Put one line into a graph."""
    look = LOOKS[joint.mark]
    label = lettered(brief(joint.label), 11, color=look.line.get("fontcolor", "black"))
    graph.edge(
        joint.tail,
        joint.head,
        label=f"<{label}>" if label else None,
        comment=joint.key,
        tooltip=_plain(joint.tooltip),
        id=f"f{number}{joint.key}",
        **{"class": joint.classes},
        **look.line,
        **places,
    )


def panel_dot(panel: Panel, number: int) -> str:
    """The panel as a graph of its own, under its finding's number; nothing else of the report acts on it."""
    graph = graph_of(f"f{number}", layout="dot", **PANEL_LAYOUT)
    add_panel(graph, panel, number)
    return str(graph.source)
