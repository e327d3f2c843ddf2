"""The whole circuit on one sheet as large as it needs, or in sections on pages; what is to be done comes first."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from netcheck.core.panel import Line, Mark, Panel
from netcheck.core.report import Report
from netcheck.model.graph import CircuitGraph
from netcheck.reports.drawing.block import Block, paragraph, stacked
from netcheck.reports.drawing.heading import heading
from netcheck.reports.drawing.lettering import spoken
from netcheck.reports.drawing.marks import GREY
from netcheck.reports.drawing.paper import POSTER, Paper
from netcheck.reports.drawing.scene import Stroke, moved, straight
from netcheck.reports.drawing.sheet import DrawnPages, paged
from netcheck.reports.drawing.whole.drawn import drawn, number_tags, size_of
from netcheck.reports.drawing.whole.laid import Layout, Placement, laid
from netcheck.reports.drawing.whole.order import directed, sections
from netcheck.reports.drawing.whole.plan import DrawingPlan, planned
from netcheck.reports.drawing.whole.signs import Sign, changes, signs_of, without

__all__ = ["whole_sheet"]

_FOOT = 14.0
_HEAD = 16.0
_SIZE = 10.0
_READ = 640.0  # how wide words are set on a poster
_FULL = 0.3  # of a page's area: nodes alone never filled more of it


def whole_sheet(report: Report, graph: CircuitGraph, layout: Layout, paper: Paper = POSTER) -> DrawnPages:
    """The rewired state as ``graph`` has it, with the signs of every finding's first mend."""
    signs = signs_of(report, graph)
    state = CircuitGraph(without(report, graph.circuit))
    plan = planned(state, signs, changes(report))
    if paper.height is None:
        found = _best(plan, layout)
        paper = replace(paper, width=max(paper.width, found.width + 2 * paper.margin))
        return paged([*_words(report, plan, signs, paper.room, {}), _picture(plan, found)], paper, report.title)
    room = (paper.room, paper.height - 2 * paper.margin - _FOOT - _HEAD)
    parts = sections(plan, lambda part: _fits(part, layout, room))
    pages = [_piece(part, number, len(parts), layout, room) for number, part in enumerate(parts, 1)]
    return paged([*_words(report, plan, signs, paper.room, _where(parts)), *pages], paper, report.title)


def _where(parts: Sequence[DrawingPlan]) -> dict[int, list[int]]:
    """By finding: the sections that have a sign of it, else those with the part that it changes."""
    lines: dict[int, list[int]] = defaultdict(list)
    nodes: dict[int, list[int]] = defaultdict(list)
    for section, part in enumerate(parts, 1):
        for number in {tie.sign.number for tie in part.ties if tie.sign is not None}:
            lines[number].append(section)
        for number in {number for node in part.nodes for number in node.numbers}:
            nodes[number].append(section)
    return {**nodes, **lines}


def _sizes(plan: DrawingPlan) -> dict[str, tuple[float, float]]:
    return {node.key: size_of(node) for node in plan.nodes}


def _best(plan: DrawingPlan, layout: Layout) -> Placement:
    """Whichever way round is nearer to a square."""
    return min(_both(plan, layout), key=lambda found: max(found.width, found.height))


def _both(plan: DrawingPlan, layout: Layout) -> Iterator[Placement]:
    ordered, sizes = directed(plan), _sizes(plan)
    yield laid(ordered, sizes, layout)
    yield laid(ordered, sizes, layout, across=True)


def _fits(plan: DrawingPlan, layout: Layout, room: tuple[float, float]) -> bool:
    area = sum(wide * tall for wide, tall in _sizes(plan).values())
    if area > _FULL * room[0] * room[1]:
        return False
    return any(found.width <= room[0] and found.height <= room[1] for found in _both(plan, layout))


def _piece(plan: DrawingPlan, number: int, count: int, layout: Layout, room: tuple[float, float]) -> Block:
    """A section under its number; of the ways round that fit, the lower one."""
    tried = list(_both(plan, layout))
    found = min(tried, key=lambda one: (max(one.width / room[0], one.height / room[1], 1.0), one.height))
    head = paragraph(f"Section {number} of {count}", room[0], _SIZE, bold=True)
    made = stacked([head, _picture(plan, found)], gap=3.0)
    line = Stroke(straight((0.0, -6.0), (room[0], -6.0)), "#AAAAAA", 0.8)
    return Block(made.height, (line, *made.things), 16.0)


def _picture(plan: DrawingPlan, found: Placement) -> Block:
    return Block(found.height, drawn(directed(plan), found))


def _words(
    report: Report, plan: DrawingPlan, signs: Sequence[Sign], room: float, where: Mapping[int, Sequence[int]]
) -> list[Block]:
    """The title, the signs' meaning, every finding by its number, what is in no line of the picture."""
    room = min(room, _READ)
    marks = [mark for mark in (Mark.OFF, Mark.ON) if any(sign.mark is mark for sign in signs)]
    legend = Panel(lines=tuple(Line((0, ""), (0, ""), mark) for mark in marks))
    title = replace(report, title=f"{report.title}, the whole circuit")
    blocks = [heading(title, [legend], room)]
    marked = {one.number for one in changes(report)}
    for number, finding in report.numbered:
        said = spoken(finding.headline, finding.touched.nets)
        if number in where:
            said = f"{said} (section {', '.join(map(str, where[number]))})"
        if not any(sign.number == number for sign in signs) and number not in marked:
            said = f"{said} (no sign in the picture)"
        words = paragraph(said, room - 24, _SIZE)
        blocks.append(Block(words.height + 2, (*number_tags((number,), 0, 0), *moved(words.things, 24, 0)), 1.0))
    blocks += [paragraph(line, room, 9, colour=GREY) for line in _asides(plan)]
    blocks += [paragraph(f"{spoken(line)}.", room, _SIZE, bold=True) for line in report.unchecked]
    blocks += [paragraph(line, room, _SIZE, colour="#333333") for line in report.cautions[-1:]]
    return [*blocks[:-1], replace(blocks[-1], after=12.0)]


def _asides(plan: DrawingPlan) -> Iterator[str]:
    yield "A round card is a net, a box a part with its leads; a line between two nets is the part written at it."
    if plan.aside:
        yield f"Between rails, in no line: {'; '.join(plan.aside)}."
