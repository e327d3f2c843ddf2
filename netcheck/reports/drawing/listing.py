"""What there is too much of to draw: a table of leads, what comes off and what goes on."""

from collections.abc import Sequence

from netcheck.core.panel import Can, Done, LeadRow, Line, Lug, Mark, Panel, PartBox, Socket, Strip
from netcheck.reports.drawing.lettering import SMALL, advance, brief, leading, wrapped
from netcheck.reports.drawing.marks import FAINT, GREY
from netcheck.reports.drawing.scene import Stroke, Tag, Thing, Words, straight
from netcheck.reports.drawing.sentences import lead_told, spot_told

__all__ = ["listed", "rows_of"]

_HEADS = ("lead or wire", "take off", "put on")
_BETWEEN = 10.0


def rows_of(panel: Panel) -> tuple[LeadRow, ...]:
    """The panel's own rows, or its lines, turned lugs and marked parts as rows."""
    rows: list[LeadRow] = list(panel.rows)
    for row in (_row(panel, line) for line in panel.lines):
        last = rows[-1] if rows else None
        if last is not None and _is_one(last, row):
            rows[-1] = LeadRow(row.lead, last.off, row.on, last.taken, row.put)
        else:
            rows.append(row)
    return (*rows, *_turned(panel), *_marked_parts(panel))


def _is_one(first: LeadRow, then: LeadRow) -> bool:
    """Whether two rows are what comes off and what goes on of one act."""
    acts = [{done.act for done in dones} for dones in (first.taken, then.put)]
    return bool(acts[0]) and acts[0] == acts[1] and not first.on


def _turned(panel: Panel) -> tuple[LeadRow, ...]:
    return tuple(
        _turned_lug(card.name, lug)
        for card in panel.cards
        if isinstance(card, Strip | Socket | Can)
        for lug in card.lugs
        if lug.now or lug.off or lug.on
    )


def _turned_lug(place: str, lug: Lug) -> LeadRow:
    """What comes off a lug and goes on; where no order says it, what is there beside what belongs there."""
    is_shown = not (lug.off or lug.on)
    return LeadRow(
        f"{place}.{lug.label}",
        (lug.now or "what is there") if lug.off or is_shown else "",
        (lug.net or "what belongs there") if lug.on or is_shown else "",
        lug.off,
        lug.on,
    )


def _row(panel: Panel, line: Line) -> LeadRow:
    part = isinstance(panel.cards[line.a[0]], PartBox)
    other = isinstance(panel.cards[line.b[0]], PartBox)
    if part or other:
        lead, place = (line.a, line.b) if part else (line.b, line.a)
        said, at = lead_told(panel, lead), spot_told(panel, place)
    else:
        said = line.label or "joint"
        at = f"{spot_told(panel, line.a)} to {spot_told(panel, line.b)}"
    dones = _one(line.done)
    return LeadRow(said, at, "", dones) if line.mark is Mark.OFF else LeadRow(said, "", at, (), dones)


def _one(done: Done | None) -> tuple[Done, ...]:
    return () if done is None else (done,)


def _marked_parts(panel: Panel) -> tuple[LeadRow, ...]:
    return tuple(
        LeadRow(card.name, "the part", "", _one(card.done))
        if card.mark is Mark.OFF
        else LeadRow(card.name, "", "the part", (), _one(card.done))
        for card in panel.cards
        if isinstance(card, PartBox) and card.mark is not Mark.PLAIN
    )


def listed(rows: Sequence[LeadRow], room: float) -> tuple[float, float, tuple[Thing, ...]]:
    """The rows as a table of the room's width: its width, its height, and what it consists of."""
    columns = _columns(rows, room)
    things: list[Thing] = []
    y = leading(SMALL)
    for (x, _), head in zip(columns, _HEADS, strict=True):
        things.append(Words(x, y, head, SMALL, colour=GREY))
    for row in rows:
        things.append(Stroke(straight((0, y + 4), (room, y + 4)), FAINT, 0.6))
        y += 3
        cells = [
            wrapped(text, wide, SMALL, bold=i == 0)
            for i, (text, (_, wide)) in enumerate(zip(_texts(row), columns, strict=True))
        ]
        for i, ((x, _), lines) in enumerate(zip(columns, cells, strict=True)):
            for n, line in enumerate(lines):
                tags = _tags(row, i) if n == 0 else ()
                things.append(Words(x, y + leading(SMALL) * (n + 1), line, SMALL, bold=i == 0, tags=tags))
        y += leading(SMALL) * max(1, *(len(lines) for lines in cells))
    return room, y + 5, tuple(things)


def _texts(row: LeadRow) -> tuple[str, str, str]:
    off, on = row.off.strip(), row.on.strip()
    return (brief(row.lead), off or ("take it off" if row.taken else ""), on or ("put it on" if row.put else ""))


def _tags(row: LeadRow, column: int) -> tuple[Tag, ...]:
    mark = (Mark.OFF if column == 1 else Mark.ON).value
    return tuple(Tag(mark, done) for done in ((), row.taken, row.put)[column])


def _columns(rows: Sequence[LeadRow], room: float) -> list[tuple[float, float]]:
    """Left edge and width of each column: as wide as its words, the last two sharing what is left."""
    first = max([advance(text, SMALL, bold=True) for text in (_HEADS[0], *(brief(row.lead) for row in rows))])
    first = min(first, room / 3)
    rest = (room - first - 2 * _BETWEEN) / 2
    return [(0.0, first), (first + _BETWEEN, rest), (first + 2 * _BETWEEN + rest, rest)]
