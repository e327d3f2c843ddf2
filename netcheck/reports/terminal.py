"""The report to read at the bench: each finding numbered, with its lines, its reason and what to do."""

from collections.abc import Iterator, Mapping
from functools import partial

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.report import Accepted, Report
from netcheck.reports.excerpt import Excerpt, cells, excerpt
from netcheck.reports.renderer import Style, counted, shown
from netcheck.reports.wrapping import in_lines

__all__ = ["render"]

_HEADING = "  "
_SOURCE = "      "
_WORD = 7  # the width of "  why: "

_BOLD = "1"
_FAINT = "2"
_COLOURS: Mapping[Grade, str] = {Grade.STOP: "1;31", Grade.LOOK: "1;33", Grade.NOTE: "1;36"}


def render(report: Report, style: Style) -> str:
    """The findings in the report's order, then what was accepted, what was looked at, and the count last."""
    blocks = [[*_wrapped(f"netcheck {report.command}: {', '.join(report.files)}", "", "  ", style)]]
    blocks += [[*_finding(number, diagnostic, style)] for number, diagnostic in report.numbered]
    blocks.append([line for accepted in report.accepted for line in _accepted(accepted, style)])
    blocks.append([line for text in report.last_words for line in _wrapped(text, "", "  ", style)])
    blocks.append([_paint(shown(counted(report), style), _BOLD, style)])
    return "\n".join("".join(line.rstrip() + "\n" for line in block) for block in blocks if block)


def _finding(number: int, diagnostic: Diagnostic, style: Style) -> Iterator[str]:
    yield from _headline(number, diagnostic, style)
    for piece, marks in _lines(diagnostic.labels, style):
        yield from _line(piece, style)
        for marked, label in marks:
            yield from _mark(marked, label, _COLOURS[diagnostic.grade], style)
    yield from _said("why", diagnostic.why, style)
    yield from _said("do", diagnostic.do, style)


def _lines(labels: tuple[Label, ...], style: Style) -> Iterator[tuple[Excerpt, list[tuple[Excerpt, Label]]]]:
    """The labels by the line that they stand on; a line comes where its first label does."""
    room = max(style.width - len(_SOURCE), 20)
    lines: dict[tuple[str, int, str], list[tuple[Excerpt, Label]]] = {}
    for label in labels:
        piece = excerpt(label.place, room, partial(shown, style=style), _gap(style))
        lines.setdefault((piece.name, piece.line, piece.text), []).append((piece, label))
    for marks in lines.values():
        yield max((piece for piece, _ in marks), key=lambda piece: piece.last_line), marks


def _headline(number: int, diagnostic: Diagnostic, style: Style) -> Iterator[str]:
    word = f"{number}  {diagnostic.grade.value}  "
    first, *more = [*_wrapped(diagnostic.headline, word, " " * len(word), style)]
    lines = [_paint(word.rstrip(), _COLOURS[diagnostic.grade], style) + first[len(word) - 2 :], *more]
    rule = shown(f"[{diagnostic.rule}]", style)
    if cells(([first, *more])[-1]) + 3 + cells(rule) <= style.width:
        lines[-1] += "   " + _paint(rule, _FAINT, style)
    else:
        lines.append(" " * len(word) + _paint(rule, _FAINT, style))
    yield from lines


def _line(piece: Excerpt, style: Style) -> Iterator[str]:
    if not piece.line:
        where = f"in {piece.name}"
    elif piece.last_line > piece.line:
        where = f"lines {piece.line} to {piece.last_line} of {piece.name}"
    else:
        where = f"line {piece.line} of {piece.name}"
    yield _HEADING + _paint(where, _FAINT, style)
    if piece.text:
        yield _SOURCE + piece.text


def _mark(piece: Excerpt, label: Label, colour: str, style: Style) -> Iterator[str]:
    """The underline with the label's text beside it, or below where there is no room."""
    if not piece.text:
        yield from _wrapped(label.text, _SOURCE, _SOURCE, style)
        return
    indent = len(_SOURCE) + cells(piece.before)
    sign = "\N{OVERLINE}" if style.unicode else "^"
    marks = sign * max(cells(piece.marked), 1)
    row = " " * indent + _paint(marks, colour, style)
    text = shown(label.text, style)
    if indent + len(marks) + 1 + cells(text) <= style.width:
        yield f"{row} {text}"
        return
    yield row
    start = " " * max(min(indent, style.width // 2, style.width - cells(text)), len(_SOURCE))
    yield from _wrapped(label.text, start, start, style)


def _said(word: str, text: str, style: Style) -> Iterator[str]:
    if not text.strip():
        return
    lead = f"{_HEADING}{word}:".ljust(_WORD)
    first, *more = [*_wrapped(text, lead, " " * _WORD, style)]
    yield _paint(lead, _BOLD, style) + first[_WORD:]
    yield from more


def _accepted(accepted: Accepted, style: Style) -> Iterator[str]:
    found = accepted.diagnostic
    yield shown(f'accepted: {found.headline}   [{found.rule}] "{accepted.reason}"', style)


def _wrapped(text: str, first: str, other: str, style: Style) -> Iterator[str]:
    return in_lines(shown(text, style).split(), style.width, first, other)


def _gap(style: Style) -> str:
    return "\N{HORIZONTAL ELLIPSIS}" if style.unicode else "..."


def _paint(text: str, colour: str, style: Style) -> str:
    return f"\033[{colour}m{text}\033[0m" if style.colour and text else text
