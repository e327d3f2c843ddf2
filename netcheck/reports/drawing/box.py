"""The card of a part, with an end cell per lead, and of a net of which no lug is known."""

from collections.abc import Sequence

from netcheck.core.panel import End, Mark, NetCard, PartBox
from netcheck.reports.drawing.card import Card, ports, table
from netcheck.reports.drawing.lettering import MINUS, advance, brief, lettered
from netcheck.reports.drawing.marks import border

__all__ = ["net_card", "part_card"]

MOST_LEADS = 6
_LEADS_A_LINE = 3
_AT_SIDES = 2
_BODY = "#F2F2F2"
_END = "#DDDDDD"


def part_card(part: PartBox, ends: Sequence[int], *, above: bool) -> Card:
    """A part; ``ends`` is the order of its end cells, which stand at the sides of two-lead parts.

    More leads stand in a row at the side that faces the places: below where the part is ``above`` them.
    """
    port_of = ports(end.label for end in part.ends)
    cells = [_end(part.ends[i], f"c{i}") for i in ends]
    widths = [_end_width(part.ends[i]) for i in ends]
    body = _body(part)
    if len(cells) <= _AT_SIDES:
        before, after = cells[:-1], cells[-1:]
        rows = [f'{"".join(before)}<TD BGCOLOR="{_BODY}">{body}</TD>{"".join(after)}']
        width = _body_width(part) + sum(widths)
        starts = [*(0.0 for _ in before), *(width - widths[-1] for _ in after)]
    else:
        middle = f'<TD COLSPAN="{len(cells)}" BGCOLOR="{_BODY}">{body}</TD>'
        rows = [middle, "".join(cells)] if above else ["".join(cells), middle]
        starts = [sum(widths[:at]) for at in range(len(widths))]
        width = max(sum(widths), _body_width(part))
    centres = {part.ends[i].label: start + own / 2 for i, start, own in zip(ends, starts, widths, strict=True)}
    return Card(_framed(part.mark, rows), width, centres, port_of)


def _framed(mark: Mark, rows: Sequence[str]) -> str:
    if mark is Mark.VALUE:
        inner = table(rows, border(mark))[1:-1]
        return table([f"<TD>{inner}</TD>"], border(mark))
    # A part that is drawn is concerned by the finding, so even an unmarked one has a black border.
    frame = 'BORDER="2" COLOR="black"' if mark is Mark.PLAIN else border(mark)
    return table(rows, frame)


def _end(end: End, port: str) -> str:
    label = MINUS if end.label == "-" else end.label
    lines = (lettered(brief(label), 13, bold=True), lettered(brief(end.net), 9, color="#444444"))
    text = "<BR/>".join(line for line in lines if line)
    return f'<TD PORT="{port}" BGCOLOR="{_END}" WIDTH="18">{text}</TD>'


def _end_width(end: End) -> float:
    return max(18, advance(brief(end.label), 13, bold=True) + 4, advance(brief(end.net), 9) + 4)


def _body(part: PartBox) -> str:
    lines = [lettered(brief(part.name), 14, bold=True), *(lettered(brief(value), 11) for value in part.values)]
    return "<BR/>".join(line for line in lines if line)


def _body_width(part: PartBox) -> float:
    values = [advance(brief(value), 11) for value in part.values]
    return max([advance(brief(part.name), 14, bold=True), *values]) + 4


def net_card(net: NetCard) -> Card:
    """A net: its name and the first leads on it, or only how many there are."""
    lines = [lettered(brief(net.name), 13, bold=net.mark is not Mark.PLAIN)]
    lines += [lettered(line, 9, color="#444444") for line in _leads(net)]
    text = "<BR/>".join(line for line in lines if line)
    body = f'<TD PORT="c0" CELLPADDING="6">{text}</TD>'
    width = max([advance(brief(net.name), 13, bold=True), *(advance(line, 9) for line in _leads(net))]) + 16
    return Card(table([body], border(net.mark, "rounded")), width, {"": width / 2}, {"": "c0"})


def _leads(net: NetCard) -> list[str]:
    shown = [brief(lead) for lead in net.leads[:MOST_LEADS]]
    if not shown:
        return [f"{net.count} lead{'' if net.count == 1 else 's'}"]
    lines = [", ".join(shown[at : at + _LEADS_A_LINE]) for at in range(0, len(shown), _LEADS_A_LINE)]
    rest = net.count - len(shown)
    return [*lines, f"and {rest} more"] if rest > 0 else lines
