"""One state from below: each strip, socket and can as it looks, and beside it what sits on each lug.

Of a comparison only the places that a finding touches, with what is to be done on each lug under the finding's number.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.kind import Seat
from netcheck.core.panel import Can, Done, Lug, Mark, Panel, Socket, Strip
from netcheck.core.report import Report
from netcheck.model.places import HeldBy, PlaceListing, Spot
from netcheck.reports.drawing.block import Block, paragraph, stacked
from netcheck.reports.drawing.card import CardShape
from netcheck.reports.drawing.chassis_map import chassis_map
from netcheck.reports.drawing.heading import heading
from netcheck.reports.drawing.lettering import NAME, advance, brief, label, leading, spoken, wrapped
from netcheck.reports.drawing.marks import FAINT, GREY
from netcheck.reports.drawing.paper import A4, Paper
from netcheck.reports.drawing.ring import ring_shape
from netcheck.reports.drawing.row import row_shape
from netcheck.reports.drawing.scene import Box, Thing, Words, moved
from netcheck.reports.drawing.sheet import DrawnPages, filling, paged
from netcheck.reports.soldered import COPIED, DRAWN_ONLY, said

__all__ = ["underside"]

_TEXT = 9.0
_SIZE = 10.0
_INSIDE = 6.0
_GAP = 8.0
_LEAST = 240.0  # a card's width, so that its list can be read; a phone has one to a row
_MOST_LINES = 40  # of one lug: half a page, so that a bus with all its leads is read whole
_WANTED = {Mark.OFF: "take off", Mark.ON: "put on", Mark.PLAIN: "leave"}
_ROWS = (Seat.STRIP, Seat.LUG, Seat.PLUG)


class _Task(Struct, frozen=True):
    """What a finding wants at a lug: its number, whether something comes off or goes on, the act."""

    number: int
    mark: Mark
    act: str

    @property
    def words(self) -> str:
        """``2 take off: move C19.2 to SP2.2``."""
        return f"{self.number} {_WANTED[self.mark]}: {self.act}"


Work = Mapping[str, Sequence[_Task]]


class _Card(Struct, frozen=True):
    """A place as it is drawn, with its list."""

    height: float
    things: tuple[Thing, ...]


def underside(report: Report, listing: Sequence[PlaceListing], paper: Paper = A4) -> DrawnPages:
    """The places, two to a row where the paper is wide enough, on pages that cut none.

    They are in the order of the file, where that leaves no page empty below the map.
    All of them; of a comparison those that a finding touches.
    """
    room = paper.room
    count = max(1, int((room + _GAP) // (_LEAST + _GAP)))
    width = (room - _GAP * (count - 1)) / count
    work = _work_at(report)
    shown = [place for place in listing if place.spots and (not work or _numbers(place, work))]
    cards = [_card(place, width, work) for place in shown]
    rows = [_row(cards[at : at + count], width) for at in range(0, len(cards), count)]
    numbers = {place.name: found for place in listing if (found := _numbers(place, work))}
    standing = chassis_map(listing, room, lambda place: _lugs(place, work), numbers)
    around = [replace(standing, after=8.0)] if standing.things else []
    filled = filling([_heading(report, listing, room), *around], rows, paper)
    return paged([*filled, _ending(report, room)], paper, report.title)


def _numbers(place: PlaceListing, work: Work) -> list[int]:
    """Of the findings that have something to do at a place."""
    return sorted({task.number for spot in place.spots for task in work.get(spot.point, ())})


def _row(cards: Sequence[_Card], width: float) -> Block:
    height = max(card.height for card in cards)
    things: list[Thing] = []
    for i, card in enumerate(cards):
        frame = Box(0.5, 0.5, width - 1, height - 1, "", FAINT, 0.8)
        things += moved((frame, *card.things), i * (width + _GAP), 0.0)
    return Block(height, tuple(things), _GAP)


def _work_at(report: Report) -> Work:
    """By point: what the findings' pictures mark there, each with its finding's number."""
    found: dict[str, list[_Task]] = defaultdict(list)
    for number, diagnostic in report.numbered:
        for mark, done in _done(diagnostic.panel or Panel()):
            task = _Task(number, mark, done.act)
            for point in done.at:
                if task not in found[point]:
                    found[point].append(task)
    for tasks in found.values():
        tasks.sort(key=lambda task: (task.number, task.mark is Mark.ON))  # a lug is cleared before anything is put on
    return found


def _done(panel: Panel) -> Iterator[tuple[Mark, Done]]:
    """All acts that a picture marks: on lines, on the lugs of a turned place, in rows."""
    yield from ((line.mark, line.done) for line in panel.lines if line.done is not None)
    for card in panel.cards:
        for lug in card.lugs if isinstance(card, Strip | Socket | Can) else ():
            yield from ((Mark.OFF, done) for done in lug.off)
            yield from ((Mark.ON, done) for done in lug.on)
    for row in panel.rows:
        yield from ((Mark.OFF, done) for done in row.taken)
        yield from ((Mark.ON, done) for done in row.put)


def _card(place: PlaceListing, width: float, work: Work) -> _Card:
    """The name, what it is, its picture, and the list of its lugs."""
    inner = width - 2 * _INSIDE
    head = stacked([paragraph(place.name, inner, NAME, bold=True), *_about(place, inner)])
    shape = _shape(place, inner, work)
    beside = shape is not None and place.seat not in _ROWS and inner - shape.width >= _LEAST / 2
    left = shape.width + _GAP if shape is not None and beside else 0.0
    top = head.height + 3 + (shape.height + 2 if shape is not None and not beside else 0.0)
    rows = stacked([_spot(spot, inner - left, work.get(spot.point, ())) for spot in place.spots])
    things = [*head.things, *moved(rows.things, left, top)]
    if shape is not None:
        things += moved((*shape.things, *shape.over), 0.0, head.height + 3)
    tall = top + rows.height
    height = max(tall, head.height + 3 + shape.height) if shape is not None else tall
    return _Card(height + 2 * _INSIDE, moved(things, _INSIDE, _INSIDE))


def _about(place: PlaceListing, room: float) -> Iterator[Block]:
    yield paragraph(place.about, room, _TEXT, colour=GREY)
    for note in place.notes:
        yield paragraph(f"Note: {note}", room, _TEXT)


def _shape(place: PlaceListing, room: float, work: Work) -> CardShape | None:
    """A place that looks like something; what is soldered to is black, what is empty faint, what is to do marked."""
    lugs, marks = _lugs(place, work)
    if place.seat in _ROWS:
        return row_shape(Strip("", lugs), marks, "down", room)
    if place.seat is Seat.CAN:
        return ring_shape(Can("", lugs), marks, "down")
    if place.seat is Seat.SOCKET and place.key:
        return ring_shape(Socket("", "", place.key, lugs), marks, "down")
    return None


def _lugs(place: PlaceListing, work: Work) -> tuple[tuple[Lug, ...], Mapping[str, set[Mark]]]:
    """The lugs, and what is to do at those that hold something or are to."""
    lugs = tuple(Lug(_label(place, spot), spot.word if spot.word == "foot" else "") for spot in place.spots)
    marks = {
        lug.label: {task.mark for task in work.get(spot.point, ())} or {Mark.PLAIN}
        for lug, spot in zip(lugs, place.spots, strict=True)
        if spot.is_held or spot.point in work
    }
    return lugs, marks


def _label(place: PlaceListing, spot: Spot) -> str:
    """A can's lug by its cut mark."""
    mark = spot.word.partition(",")[0]
    return mark if place.seat is Seat.CAN and mark not in ("", "common", "section out") else spot.label or place.name


def _spot(spot: Spot, room: float, tasks: Sequence[_Task]) -> Block:
    """A lug's lines: its label in bold, what it is and its net, what sits on it, what is to be done there."""
    name = label(spot.label) if spot.label else ""
    indent = max(16.0, advance(name, _TEXT, bold=True) + 6) if name else 0.0
    what = ", ".join(text for text in (spot.word, brief(spot.net)) if text)
    items = ", ".join(said(spot))
    text = f"{what}: {items}" if what and items else what or items
    lines = [(line, False) for line in wrapped(text, room - indent, _TEXT, most=_MOST_LINES)]
    for task in tasks:
        lines += [(line, True) for line in wrapped(task.words, room - indent, _TEXT, bold=True)]
    step = leading(_TEXT)
    ink = "black" if spot.is_held or tasks else GREY
    things = [Words(indent, step * (i + 1) - 3, line, _TEXT, bold, ink) for i, (line, bold) in enumerate(lines)]
    if name:
        things.append(Words(0.0, step - 3, name, _TEXT, bold=True, colour=ink))
    return Block(step * max(1, len(lines)) + 1, tuple(things))


def _heading(report: Report, listing: Sequence[PlaceListing], room: float) -> Block:
    """The title, what the signs say, what is dangerous about this set."""
    items = [item for place in listing for spot in place.spots for item in spot.items]
    signs = [DRAWN_ONLY] if any(item.put is HeldBy.DRAWN for item in items) else []
    if any(item.inherited and item.put is not HeldBy.DRAWN for item in items):
        signs.insert(0, COPIED)
    panels = [d.panel for _, d in report.numbered if d.panel is not None]
    head = heading(replace(report, title=f"{report.title}, from below"), panels, room)
    made = stacked([head, *(paragraph(f"{sign}.", room, _TEXT, colour=GREY) for sign in signs)], gap=3.0)
    return Block(made.height, made.things, 8.0)


def _ending(report: Report, room: float) -> Block:
    blocks = [paragraph(f"{spoken(line)}.", room, _SIZE, bold=line in report.unchecked) for line in report.closing]
    blocks += [paragraph(line, room, _SIZE, colour="#333333") for line in report.cautions[-1:]]
    made = stacked(blocks, gap=3.0)
    return Block(made.height + 6, moved(made.things, 0.0, 6.0))
