"""What a sheet is put together from, each at its place: blocks of text, frames, numbers, panels."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import Grade
from netcheck.core.panel import Panel
from netcheck.reports.drawing.arranging import arranged
from netcheck.reports.drawing.lettering import advance, brief, lettered, wrapped
from netcheck.reports.drawing.marks import FAINT
from netcheck.reports.drawing.panel import Joint, add_joint, add_node, joints, nodes, panel_dot
from netcheck.reports.drawing.placing import Laid, Spot, curve, laid

if TYPE_CHECKING:
    from graphviz import Graph

__all__ = ["NUMBER", "SLACK", "Text", "add_frame", "add_number", "add_placed", "add_text", "at", "place", "text"]

NUMBER = 27  # a finding's number stands in a square of these points
# A block grows from its middle, so it gets room for machines whose letters are wider than Arial's.
SLACK = 1.15
_DIGITS = 2
_MOST_LINES = 8
_LABEL_SIZE = 11
_INCH = 72


@dataclass(frozen=True, slots=True)
class Text:
    """Lines of text as (text, size, bold, colour), in a block of fixed width; sizes in points."""

    lines: tuple[tuple[str, int, bool, str], ...]
    width: float

    @property
    def height(self) -> float:
        """In points."""
        return sum(_leading(size) for _, size, _, _ in self.lines)

    def __add__(self, other: Text) -> Text:
        """The other block's lines below these."""
        return Text(self.lines + other.lines, self.width)


def text(words: str, width: float, size: int, *, bold: bool = False, color: str = "black") -> Text:
    """A paragraph, wrapped to a width; one that is longer than a sheet has room for ends in an ellipsis."""
    lines = wrapped(words, width, size, bold=bold, most=_MOST_LINES)
    return Text(tuple((line, size, bold, color) for line in lines), width * SLACK)


def at(x: float, y: float) -> str:
    """A place as the engine wants it: it counts upwards, a sheet is filled downwards."""
    return f"{x:.2f},{-y:.2f}"


def _leading(size: int) -> int:
    return round(size * 1.4)


def add_text(graph: Graph, name: str, block: Text, corner: Spot) -> None:
    """Put a block's upper left corner at a place; a block without lines leaves no trace."""
    if not block.lines:
        return
    rows = "".join(
        f'<TR><TD ALIGN="LEFT" WIDTH="{block.width:.0f}" HEIGHT="{_leading(size)}">'
        f"{lettered(line, size, bold=bold, color=color)}</TD></TR>"
        for line, size, bold, color in block.lines
    )
    label = f'<<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">{rows}</TABLE>>'
    middle = at(corner[0] + block.width / 2, corner[1] + block.height / 2)
    graph.node(name, label, id=name, pos=middle)


def add_frame(graph: Graph, name: str, corner: Spot, size: Spot) -> None:
    """A thin frame round one finding."""
    graph.node(
        name,
        "",
        id=name,
        shape="box",
        fixedsize="true",
        color=FAINT,
        width=f"{size[0] / _INCH:.4f}",
        height=f"{size[1] / _INCH:.4f}",
        pos=at(corner[0] + size[0] / 2, corner[1] + size[1] / 2),
    )


def add_number(graph: Graph, number: int, grade: Grade, corner: Spot) -> None:
    """The finding's number: white on black for STOP, black on white for what is less."""
    grave = grade is Grade.STOP
    graph.node(
        f"f{number}number",
        str(number),
        id=f"f{number}number",
        shape="box",
        fixedsize="true",
        style="filled",
        fillcolor="black" if grave else "white",
        fontcolor="white" if grave else "black",
        fontsize="15" if len(str(number)) <= _DIGITS else "11",
        width=f"{NUMBER / _INCH:.4f}",
        height=f"{NUMBER / _INCH:.4f}",
        pos=at(corner[0] + NUMBER / 2, corner[1] + NUMBER / 2),
    )


@dataclass(frozen=True, slots=True)
class Placed:
    """A panel that the engine has laid out, with the room that its lines' labels need at the right."""

    panel: Panel
    number: int
    laid: Laid
    labels: dict[str, Spot]
    width: float

    @property
    def height(self) -> float:
        """In points."""
        return self.laid.height


def place(panel: Panel, number: int, lay_out: Callable[[str], str]) -> Placed:
    """Have a panel laid out, straighten its lines, and put each label beside its own line."""
    found = laid(lay_out(panel_dot(panel, number)))
    labelled = [joint for joint in _joints(panel, number) if joint.label.strip()]
    labels: dict[str, Spot] = {}
    width = found.width
    for order, joint in enumerate(labelled):
        # The engine keeps a height between the rows free for labels; several share it one below the other.
        height = found.labels[joint.key][1] + (order - (len(labelled) - 1) / 2) * _LABEL_SIZE * 1.3
        room = advance(brief(joint.label), _LABEL_SIZE)
        left = _right_of(found.lines[joint.key], height)
        labels[joint.key] = (left + room / 2, height)
        width = max(width, left + room)
    return Placed(panel, number, found, labels, width)


def _right_of(line: tuple[Spot, Spot], height: float) -> float:
    """Where a label at a height may begin so that the line does not cross it."""
    (x, y), (end, bottom) = line
    slope = (end - x) / max(bottom - y, 1.0)
    return x + slope * (min(max(height, y), bottom) - y) + 7 + min(abs(slope), 4) * _LABEL_SIZE / 2


def _joints(panel: Panel, number: int) -> tuple[Joint, ...]:
    return joints(panel, arranged(panel), number)


def add_placed(graph: Graph, placed: Placed, corner: Spot) -> None:
    """Put a laid-out panel's upper left corner at a place."""
    dx, dy = corner
    for row in nodes(arranged(placed.panel), placed.number):
        for node in row:
            x, y = placed.laid.nodes[node.name]
            add_node(graph, node, pos=at(x + dx, y + dy))
    for joint in _joints(placed.panel, placed.number):
        start, end = ((x + dx, y + dy) for x, y in placed.laid.lines[joint.key])
        places = {"pos": curve(start, end)}
        if joint.key in placed.labels:
            x, y = placed.labels[joint.key]
            places["lp"] = at(x + dx, y + dy)
        add_joint(graph, joint, placed.number, **places)
