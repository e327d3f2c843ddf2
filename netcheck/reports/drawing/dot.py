"""A sheet as a graph whose places are settled, so that any Graphviz engine draws the same picture from it."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from netcheck.core.visible import visible
from netcheck.reports.drawing.lettering import advance
from netcheck.reports.drawing.scene import Box, Disc, Point, Stroke, Words
from netcheck.reports.drawing.sheet import DrawnPages

if TYPE_CHECKING:
    from graphviz import Graph

__all__ = ["sheet_dot"]

_INCH = 72
_FONT = "Arial"


def sheet_dot(made: DrawnPages) -> str:
    """Shapes and words as nodes, strokes as edges, all with their positions (`layout=nop2`)."""
    from graphviz import Graph

    graph = Graph(
        "sheet",
        graph_attr={"bgcolor": "white", "layout": "nop2", "pad": "0", "outputorder": "nodesfirst", "fontname": _FONT},
        node_attr={"fontname": _FONT, "label": "", "margin": "0"},
        edge_attr={"fontname": _FONT},
    )
    _box(graph, "paper", Box(0, 0, made.width, made.height, "white"))
    number = 0
    for group in made.groups:
        for thing in group.things:
            number += 1
            name = f"f{group.number}n{number}"
            match thing:
                case Box():
                    _box(graph, name, thing)
                case Disc():
                    _disc(graph, name, thing)
                case Words():
                    _words(graph, name, thing)
                case Stroke():
                    _stroke(graph, name, thing)
    return str(graph.source)


def _at(x: float, y: float) -> str:
    """A place as the engine wants it: it counts upwards, a sheet is filled downwards."""
    return f"{x:.2f},{-y:.2f}"


def _ink(thing: Box | Disc, *styles: str) -> dict[str, str]:
    style = [*styles, *(["filled"] if thing.fill else []), *(["dashed"] if thing.dashed else [])]
    ink = {"penwidth": f"{thing.weight:g}", "color": thing.stroke} if thing.stroke else {"penwidth": "0"}
    fill = {"fillcolor": thing.fill} if thing.fill else {}
    return {**ink, **fill, **({"style": ",".join(style)} if style else {})}


def _size(width: float, height: float) -> dict[str, str]:
    return {"width": f"{width / _INCH:.4f}", "height": f"{height / _INCH:.4f}", "fixedsize": "true"}


def _box(graph: Graph, name: str, thing: Box) -> None:
    middle = _at(thing.x + thing.width / 2, thing.y + thing.height / 2)
    ink = _ink(thing, *(["rounded"] if thing.radius else []))
    graph.node(name, shape="box", pos=middle, **_size(thing.width, thing.height), **ink)


def _disc(graph: Graph, name: str, thing: Disc) -> None:
    size = _size(2 * thing.radius, 2 * thing.radius)
    graph.node(name, shape="circle", pos=_at(thing.x, thing.y), **size, **_ink(thing))


def _words(graph: Graph, name: str, thing: Words) -> None:
    if not thing.text.strip():
        return
    wide = advance(visible(thing.text), thing.size, bold=thing.bold) * 1.05
    left = thing.x - {"start": 0.0, "middle": wide / 2, "end": wide}[thing.anchor]
    align = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}[thing.anchor]
    text = _escaped(thing.text)
    text = f"<B>{text}</B>" if thing.bold else text
    run = f'<FONT POINT-SIZE="{thing.size:g}" COLOR="{thing.colour}">{text}</FONT>'
    cell = f'<TR><TD ALIGN="{align}" WIDTH="{wide:.0f}">{run}</TD></TR>'
    label = f'<<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">{cell}</TABLE>>'
    graph.node(
        name, label, shape="plain", pos=_at(left + wide / 2, thing.y - thing.size * (0.26 if thing.bold else 0.33))
    )


def _stroke(graph: Graph, name: str, thing: Stroke) -> None:
    ends = (("a", thing.points[0]), ("b", thing.points[-1]))
    for side, point in ends:
        graph.node(f"{name}{side}", shape="point", style="invis", pos=_at(*point), **_size(0.01, 0.01))
    colour, weight = thing.colour, thing.weight
    if thing.core and not thing.dashed:
        colour, weight = f"{thing.colour}:{thing.core}:{thing.colour}", thing.weight / 3
    style = {"style": "dashed"} if thing.dashed else {}
    tip = {"tooltip": _plain(thing.title)} if thing.title else {}
    graph.edge(
        f"{name}a", f"{name}b", pos=_spline(thing.points), color=colour, penwidth=f"{weight:.2f}", **style, **tip
    )


def _spline(points: tuple[Point, ...]) -> str:
    return " ".join(_at(*point) for point in points)


def _plain(words: str) -> str:
    """Words that are never taken for markup or for an escape of the engine's."""
    from graphviz import nohtml

    plain: str = nohtml(visible(words).replace("\\", "").replace("&", "&amp;"))
    return plain


def _escaped(text: str) -> str:
    r"""Text for an HTML-like label; the engine would replace ``\N`` and ``\G`` there, so backslashes are doubled.

    Graphviz 2.42 takes a lone ``]`` for the end of something and refuses the label.
    """
    return html.escape(visible(text), quote=False).replace("\\", "\\\\").replace("]", "&#93;")
