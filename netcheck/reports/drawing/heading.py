"""The words above and below a sheet's pictures: its title, the marks, the cautions, the end."""

from collections.abc import Iterable, Sequence

from netcheck.core.caution import BEFORE
from netcheck.core.panel import Can, Line, Mark, Panel, PartBox, Socket, Strip
from netcheck.core.report import Report
from netcheck.reports.drawing.block import Block, paragraph, stacked
from netcheck.reports.drawing.lettering import advance, spoken
from netcheck.reports.drawing.marks import drawn_line
from netcheck.reports.drawing.scene import Thing, Words, moved, straight
from netcheck.reports.renderer import counted

__all__ = ["ending", "heading", "marks_of"]

_SAMPLE = 30.0
_SIZE = 10.0
_SAID = {Mark.OFF: "take this off", Mark.ON: "put this on", Mark.PLAIN: "leave this"}
NEXT = (
    "Measure next, plug out and filter capacitors discharged: from every B+ line to its return (no short), from each"
    " pin of the line plug to the chassis."
)


def marks_of(panels: Iterable[Panel]) -> tuple[Mark, ...]:
    """The marks that a sheet has to explain."""
    found: set[Mark] = set()
    for panel in panels:
        found |= {line.mark for line in panel.lines}
        found |= {card.mark for card in panel.cards if isinstance(card, PartBox)} - {Mark.PLAIN}
        for card in panel.cards:
            for lug in card.lugs if isinstance(card, Strip | Socket | Can) else ():
                found |= {mark for mark, acts in ((Mark.OFF, lug.off or lug.now), (Mark.ON, lug.on)) if acts}
    return tuple(mark for mark in (Mark.OFF, Mark.ON, Mark.PLAIN) if mark in found)


def heading(report: Report, panels: Sequence[Panel], room: float) -> Block:
    """The title, the count, the marks that occur, what is dangerous about this set."""
    blocks = [paragraph(report.title, room, 14, bold=True)]
    marks = marks_of(panels)
    if report.diagnostics or not report.built:
        count = f"{spoken(counted(report))}."
        blocks.append(_legend(count, marks, room))
    if marks:
        blocks.append(paragraph(BEFORE, room, _SIZE, colour="#333333"))
    blocks += [paragraph(line, room, _SIZE, bold=True) for line in report.cautions[:-1]]
    made = stacked(blocks, gap=3.0)
    return Block(made.height, made.things, 8.0)


def _legend(count: str, marks: Sequence[Mark], room: float) -> Block:
    """The count, and after it the marks that occur, each with what it asks for."""
    first = paragraph(count, room, _SIZE, colour="#333333")
    things: list[Thing] = list(first.things)
    x, y = advance(count, _SIZE) + 16, max(0.0, first.height - 16)
    for mark in marks:
        wide = _SAMPLE + 5 + advance(_SAID[mark], _SIZE) + 18
        if x and x + wide > room:
            x, y = 0.0, y + 16
        line = drawn_line(straight((0, 8), (_SAMPLE, 8)), Line((0, ""), (0, ""), mark))
        things += moved((line, Words(_SAMPLE + 5, 11.5, _SAID[mark], _SIZE)), x, y)
        x += wide
    return Block(y + 16, tuple(things))


def ending(report: Report, room: float) -> Block:
    """What was compared, in bold what was not, what comes next, and the general caution."""
    blocks: list[Block] = []
    clean = report.built and not any(d.grade.rank < 2 for d in report.diagnostics)
    if clean:
        blocks.append(paragraph("No difference between the two that was not declared.", room, 13, bold=True))
    said = [line for line in report.closing if line not in report.unchecked]
    blocks += [paragraph(f"{spoken(line)}.", room, _SIZE) for line in said]
    blocks += [paragraph(f"{spoken(line)}.", room, _SIZE, bold=True) for line in report.unchecked]
    if clean:
        blocks.append(paragraph(NEXT, room, _SIZE))
    blocks += [paragraph(line, room, _SIZE, colour="#333333") for line in report.cautions[-1:]]
    made = stacked(blocks, gap=3.0)
    return Block(made.height + 6, moved(made.things, 0.0, 6.0))
