"""A laid plan as it looks: cards with round corners, boxes of parts, lines, signs, the findings' numbers."""

from collections.abc import Iterator, Sequence

from netcheck.core.panel import Done, Line, Mark
from netcheck.reports.drawing.lettering import advance, brief
from netcheck.reports.drawing.marks import BODY, CELL, FAINT, GREY, ON, drawn_line
from netcheck.reports.drawing.scene import Box, Point, Stroke, Thing, Words
from netcheck.reports.drawing.whole.laid import SIZE, Placement
from netcheck.reports.drawing.whole.plan import DrawingPlan, Node, Tie
from netcheck.reports.drawing.whole.signs import Sign

__all__ = ["drawn", "number_tags", "size_of"]

_HEAD = 10.0
_STEP = 12.0
_INSIDE = 5.0
_TAG = 12.0
_PALE = "#8A8A8A"


def size_of(node: Node) -> tuple[float, float]:
    """How wide and how tall a node is, in points."""
    tags = sum(_tag_width(number) + 2 for number in node.numbers)
    head = advance(node.head, _HEAD, bold=True) + (tags + 3 if tags else 0.0)
    lines = [advance(line, SIZE) for line in node.lines]
    return max([head, *lines]) + 2 * _INSIDE, _STEP * (1 + len(node.lines)) + _INSIDE + 3


def drawn(plan: DrawingPlan, at: Placement) -> tuple[Thing, ...]:
    """Lines first, then what they join, then their words, each on white, so that no line runs through a word."""
    things: list[Thing] = []
    plain = [i for i, tie in enumerate(plan.ties) if tie.sign is None]
    signed = [i for i, tie in enumerate(plan.ties) if tie.sign is not None]
    things += [Stroke(at.curves[i], _PALE, 1.0) for i in plain]
    things += [_sign(at.curves[i], sign) for i in signed if (sign := plan.ties[i].sign) is not None]
    for node in plan.nodes:
        things += _node(node, at.middles[node.key])
    for i, tie in enumerate(plan.ties):
        things += _words(tie, at.words[i])
    return tuple(things)


def _sign(points: Sequence[Point], sign: Sign) -> Stroke:
    wire = sign.words if sign.words != "bond" else ""
    done = Done(sign.act)
    line = Line((0, ""), (0, ""), sign.mark, wire, wire, done)
    verb = "take off" if sign.mark is Mark.OFF else "put on"
    return drawn_line(tuple(points), line, f"{sign.number} {verb}: {sign.act}")


def _words(tie: Tie, at: Point | None) -> Iterator[Thing]:
    if at is None or not tie.words:
        return
    bold = tie.sign is not None
    wide = advance(tie.words, SIZE, bold=bold)
    ink = ON if bold and tie.sign is not None and tie.sign.mark is Mark.ON else "black" if bold else GREY
    yield Box(at[0] - wide / 2, at[1] - 4.2, wide, 8.4, "white")
    yield Words(at[0], at[1] + 3.2, tie.words, SIZE, bold, ink, "middle")


def _node(node: Node, middle: Point) -> Iterator[Thing]:
    wide, tall = size_of(node)
    left, top = middle[0] - wide / 2, middle[1] - tall / 2
    if node.kind != "rail":
        yield _frame(node, (left, top, wide, tall))
    else:
        yield Box(left, top, wide, tall, "white")
    y = top + _HEAD + 2
    far = node.kind == "far"
    yield Words(left + _INSIDE, y, brief(node.head, 60), _HEAD, not far, GREY if far else "black")
    yield from number_tags(node.numbers, left + _INSIDE + advance(node.head, _HEAD, bold=True) + 3, top + 2.5)
    for line in node.lines:
        y += _STEP
        indent = 8.0 if line.startswith("   ") else 0.0
        yield Words(left + _INSIDE + indent, y, line.strip(), SIZE, colour=GREY)


def _frame(node: Node, at: tuple[float, float, float, float]) -> Box:
    left, top, wide, tall = at
    colour, weight, dashed = (FAINT, 1.0, True) if node.kind == "far" else (_PALE, 1.0, False)
    if node.numbers:
        colour, weight = "black", 3.0 if node.mark is Mark.OFF else 2.0
    fill = BODY if node.kind == "box" else CELL
    return Box(left, top, wide, tall, fill, colour, weight, 0.0 if node.kind == "box" else 6.0, dashed)


def number_tags(numbers: Sequence[int], left: float, top: float) -> Iterator[Thing]:
    """The findings' numbers, white on black."""
    for number in numbers:
        wide = _tag_width(number)
        yield Box(left, top, wide, _TAG, "black", radius=1.5)
        yield Words(left + wide / 2, top + 9.3, str(number), SIZE, bold=True, colour="white", anchor="middle")
        left += wide + 2


def _tag_width(number: int) -> float:
    return advance(str(number), SIZE, bold=True) + 6
