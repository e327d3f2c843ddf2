"""A plan as a graph for the engine, with the true sizes of its nodes, and what the engine makes of it.

The engine gets boxes and no words but those at lines; all is drawn here. It ranks from left to right or from above,
whichever comes nearer to a square. On paper nothing is scaled: a section is cut off where few lines run, and a net that
goes on elsewhere is drawn in both and says where.
"""

import json
from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct

from netcheck.core.errors import EnvironmentFault
from netcheck.core.visible import visible
from netcheck.reports.drawing.scene import Point
from netcheck.reports.drawing.whole.plan import DrawingPlan

__all__ = ["SIZE", "Layout", "Placement", "laid"]

SIZE = 9.0
"""Of the words at a line, in points."""

_INCH = 72
_NOT_JSON = "the drawing engine's answer is not JSON as expected"

Layout = Callable[[str], str]
"""A graph's text to where everything lies, in the format ``json0``."""


class Placement(Struct, frozen=True):
    """Middles of nodes by key, and for each line of the plan its curve and the middle of its words."""

    width: float
    height: float
    middles: Mapping[str, Point]
    curves: tuple[tuple[Point, ...], ...]
    words: tuple[Point | None, ...]


def laid(
    plan: DrawingPlan, sizes: Mapping[str, tuple[float, float]], layout: Layout, *, across: bool = False
) -> Placement:
    """Where an engine puts everything; ``across`` ranks from left to right.

    Raises EnvironmentFault where it leaves something out.
    """
    ids = {node.key: f"k{at}" for at, node in enumerate(plan.nodes)}
    answer = _read(layout(_graph(plan, ids, sizes, across=across)))
    _, _, width, height = answer.box
    middles = {key: _up(answer.nodes[own], height) for key, own in ids.items() if own in answer.nodes}
    found = [answer.edges.get(f"e{at}") for at in range(len(plan.ties))]
    lines = [edge for edge in found if edge is not None]
    if len(middles) < len(ids) or len(lines) < len(plan.ties):
        drawn = f"{len(middles)} of {len(ids)} nodes and {len(lines)} of {len(plan.ties)} lines"
        raise EnvironmentFault(f"the drawing engine placed {drawn}")
    curves = tuple(tuple(_up(point, height) for point in curve) for curve, _ in lines)
    words = tuple(_up(at, height) if at is not None else None for _, at in lines)
    return Placement(width, height, middles, curves, words)


def _graph(plan: DrawingPlan, ids: Mapping[str, str], sizes: Mapping[str, tuple[float, float]], *, across: bool) -> str:
    from graphviz import Graph, escape

    graph = Graph(
        "whole",
        graph_attr={
            "nodesep": "0.15",
            "ranksep": "0.3",
            "rankdir": "LR" if across else "TB",
            "newrank": "true",
            "outputorder": "edgesfirst",
        },
        node_attr={"shape": "box", "label": "", "fixedsize": "true"},
        edge_attr={"fontname": "Arial", "fontsize": f"{SIZE:g}"},
    )
    for key, own in ids.items():
        wide, tall = sizes[key]
        graph.node(own, width=f"{wide / _INCH:.4f}", height=f"{tall / _INCH:.4f}")
    for at, tie in enumerate(plan.ties):
        said = {"label": escape(f"  {visible(tie.words)}  ")} if tie.words else {}
        graph.edge(ids[tie.a], ids[tie.b], comment=f"e{at}", **said)
    return str(graph.source)


class _Answer(Struct, frozen=True):
    box: tuple[float, ...]
    nodes: Mapping[str, Point]
    edges: Mapping[str, tuple[tuple[Point, ...], Point | None]]


def _read(text: str) -> _Answer:
    try:
        answer = json.loads(text)
        objects = [found for found in answer.get("objects", ()) if "pos" in found]
        nodes = {found["name"]: _point(found["pos"]) for found in objects}
        edges = {
            found["comment"]: (_curve(found["pos"]), _point(found["lp"]) if "lp" in found else None)
            for found in answer.get("edges", ())
            if "pos" in found
        }
        box = tuple(map(float, answer["bb"].split(",")))
    except (ValueError, KeyError, AttributeError, TypeError) as fault:
        raise EnvironmentFault(_NOT_JSON) from fault
    return _Answer(box, nodes, edges)


def _point(text: str) -> Point:
    x, y = text.split(",")
    return float(x), float(y)


def _curve(text: str) -> tuple[Point, ...]:
    points: Sequence[Point] = [_point(pair) for pair in text.split() if pair[0] not in "es"]
    return tuple(points)


def _up(point: Point, height: float) -> Point:
    """The engine counts upwards, a sheet is filled downwards."""
    return point[0], height - point[1]
