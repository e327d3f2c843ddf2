"""Parts with two leads, lying, in shapes that look like what they are."""

from collections.abc import Mapping, Sequence

from netcheck.core.panel import End, Form, Mark, PartBox
from netcheck.reports.drawing.card import CardShape, Port
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, label, leading
from netcheck.reports.drawing.marks import BODY, ON, QUIET
from netcheck.reports.drawing.scene import Box, Disc, Point, Stroke, Tag, Thing, Words, straight

__all__ = ["lying_part", "outline", "part_tags"]

_BODY = 27.0
_LEAD = 17.0
_BAND = 12.0
_DARK = "#555555"
_TURNS = 5
_SIGNED = (Form.ELECTROLYTIC, Form.STACK)
_BANDED = (Form.ELECTROLYTIC, Form.DIODE, Form.STACK)
_FAINT_BAND = "#C9C4B4"
_PLATE = "#8C8674"
_OUT = 4.0  # how far the plates of a stack stand out


def outline(part: PartBox) -> tuple[str, float, bool]:
    """Colour, weight and dash of a part's outline: to be put in, to be taken out, or there."""
    return {Mark.ON: (ON, 2.0, True), Mark.OFF: ("black", 4.0, False), Mark.PLAIN: ("black", 1.4, False)}[part.mark]


def part_tags(part: PartBox) -> tuple[Tag, ...]:
    """What a part's outline is a sign of."""
    return () if part.done is None else (Tag(part.mark.value, part.done),)


def lying_part(part: PartBox, ends: Sequence[End], marks: Mapping[str, set[Mark]]) -> CardShape:
    """A part of one or two leads, the first of ``ends`` at the left; its values stand below it."""
    left, right = (ends[0], ends[-1]) if len(ends) > 1 else (ends[0] if ends else None, None)
    bands = _BAND if part.form in _BANDED else 0.0
    signs = 2 * bands if part.form in _SIGNED else bands
    body = max(46.0, advance(brief(part.name), NAME, bold=True) + 10 + signs)
    values = [brief(value) for value in part.values if value.strip()]
    wide = max([advance(value, SMALL) for value in values], default=0.0)
    lead = [_LEAD if end is not None else 0.0 for end in (left, right)]
    sides = [_side(end, marks) for end in (left, right)]
    reach = [max(side + 3, (wide - body) / 2 - own) for side, own in zip(sides, lead, strict=True)]
    x = reach[0] + lead[0]
    y = 4.0
    middle = y + _BODY / 2
    low = y + _BODY + 7 + leading(SMALL) * len(values)
    things: list[Thing] = []
    over: list[Thing] = []
    ports: dict[str, Port] = {}
    for end, at, edge in ((left, x - _LEAD, x), (right, x + body + _LEAD, x + body)):
        if end is None:
            continue
        things.append(Stroke(straight((at, middle), (edge, middle)), "black", 1.6))
        things.append(Disc(at, middle, 2.4, "black" if marks.get(end.label) else QUIET))
        # A line that would cross the body comes from straight above or below.
        ends_at = (at, middle)
        ways = ((ends_at,), *((ends_at, (at, level)) for level in (y - 5, y + _BODY + 5, low + 2)))
        ports[end.label] = Port(ends_at, ways)
        over += _end_words(end, (at + edge) / 2, at, middle, marks)
    things += _body(part, (x, y, body), ends)
    shift = 0.0 if part.form in _SIGNED else _shift(part, ends) * bands / 2
    sunk = 13 if part.form is Form.COIL else 4
    over.append(Words(x + body / 2 + shift, middle + sunk, brief(part.name), NAME, bold=True, anchor="middle"))
    base = y + _BODY + leading(SMALL) - 2 + (_OUT if part.form is Form.STACK else 0.0)
    for value in values:
        over.append(Words(x + body / 2, base, value, SMALL, anchor="middle"))
        base += leading(SMALL)
    around = max(body / 2 + 4, wide / 2)
    block = ((x + body / 2 - around, y - 3), (x + body / 2 + around, low))
    size = (x + body + lead[1] + reach[1], base - leading(SMALL) + 4)
    return CardShape(*size, tuple(things), ports, tuple(over), block=block)


def _side(end: End | None, marks: Mapping[str, set[Mark]]) -> float:
    """How far an end's words reach beyond its lead."""
    text = "" if end is None else _beyond(end, marks)
    return advance(text, SMALL, bold=True) + 5 if text else 0.0


def _beyond(end: End, marks: Mapping[str, set[Mark]]) -> str:
    """What stands outside of a lead: a label too long to stand over it, and the net of a lead that stays."""
    own = "" if _fits(end) else label(end.label)
    net = "" if marks.get(end.label) else brief(end.net)
    return f"{own}: {net}" if own and net.strip() else own or net


def _fits(end: End) -> bool:
    return end.label in ("+", "-") or advance(label(end.label), SMALL, bold=True) <= _LEAD


def _end_words(end: End, over: float, at: float, y: float, marks: Mapping[str, set[Mark]]) -> list[Thing]:
    """The lead's label over its wire, and outside of it the net of a lead that stays."""
    words: list[Thing] = []
    marked = bool(marks.get(end.label))
    if end.label not in ("+", "-") and _fits(end):
        words.append(Words(over, y - 3, label(end.label), SMALL, bold=marked, anchor="middle"))
    if text := _beyond(end, marks):
        left = at < over
        ink, anchor = "black" if marked else QUIET, "end" if left else "start"
        words.append(Words(at + (-5 if left else 5), y + 3, text, SMALL, marked, ink, anchor))
    return words


def _shift(part: PartBox, ends: Sequence[End]) -> int:
    """Which way the name gives room to a band: the band is at the plus of a capacitor, at a diode's cathode."""
    if not ends:
        return 0
    at_left = _banded(part, ends[0])
    return 1 if at_left else -1


def _banded(part: PartBox, end: End) -> bool:
    if part.form is Form.DIODE:
        return end.label == "cathode"
    return end.label == "+"


def _body(part: PartBox, at: tuple[float, float, float], ends: Sequence[End]) -> list[Thing]:
    """What the part looks like between its leads; ``at`` is its upper left corner and its width."""
    x, y, width = at
    colour, weight, dashed = outline(part)
    if part.form is Form.COIL:
        turns = _turns(x, y + _BODY / 2, width)
        return [Stroke(turns, colour, max(weight, 1.6), dashed=dashed, tags=part_tags(part))]
    radius = _CORNERS.get(part.form, 0.0)
    box = Box(x, y, width, _BODY, _FILLS.get(part.form, BODY), colour, weight, radius, dashed, part_tags(part))
    under = _plates(x, y, width) if part.form is Form.STACK else []
    return [*under, box, *_details(part, at, ends)]


_CORNERS = {
    Form.RESISTOR: _BODY / 2.6,
    Form.ELECTROLYTIC: 4.0,
    Form.DIODE: 2.0,
    Form.CAPACITOR: 2.0,
    Form.FUSE: 4.0,
    Form.LAMP: _BODY / 2,
}
_FILLS = {Form.FUSE: "#FFFFFF"}


def _details(part: PartBox, at: tuple[float, float, float], ends: Sequence[End]) -> list[Thing]:
    x, y, width = at
    match part.form:
        case Form.RESISTOR:
            return [Box(left, y + 1, 2, _BODY - 2, _FAINT_BAND) for left in (x + 5, x + width - 7)]
        case Form.CAPACITOR:
            rims = (x + 4, x + width - 4)
            return [Stroke(straight((at_, y + 1), (at_, y + _BODY - 1)), QUIET, 0.8) for at_ in rims]
        case Form.FUSE:
            return [Box(left, y, 7, _BODY, _DARK, radius=2) for left in (x, x + width - 7)]
        case Form.ELECTROLYTIC | Form.STACK:
            return _plus_band(at, ends)
        case Form.DIODE:
            return _cathode_band(part, at, ends)
        case _:
            return []


def _plus_band(at: tuple[float, float, float], ends: Sequence[End]) -> list[Thing]:
    x, y, width = at
    things: list[Thing] = []
    for i, end in enumerate(ends[:2]):
        left = x if i == 0 else x + width - _BAND
        if end.label == "+":
            things.append(Box(left, y + 0.7, _BAND, _BODY - 1.4, _DARK))
            things.append(Words(left + _BAND / 2, y + 18, "+", 13, bold=True, colour="#FFFFFF", anchor="middle"))
        elif end.label == "-":
            where = x + 6 if i == 0 else x + width - 6
            things.append(Words(where, y + 18, label("-"), 12, bold=True, anchor="middle"))
    return things


def _plates(x: float, y: float, width: float) -> list[Thing]:
    """The cooling plates of a stack stand out above and below."""
    count = max(4, int(width // 12))
    step = width / (count + 1)
    return [Box(x + step * (i + 1) - 1.5, y - _OUT, 3, _BODY + 8, _PLATE) for i in range(count)]


def _cathode_band(part: PartBox, at: tuple[float, float, float], ends: Sequence[End]) -> list[Thing]:
    x, y, width = at
    return [
        Box((x if i == 0 else x + width - 9) + 1.5, y + 1, 6, _BODY - 2, _DARK)
        for i, end in enumerate(ends[:2])
        if _banded(part, end)
    ]


def _turns(x: float, axis: float, width: float) -> tuple[Point, ...]:
    """A coil's turns along the part's axis."""
    step = width / _TURNS
    points = [(x, axis)]
    for i in range(_TURNS):
        left = x + i * step
        points += [(left + step * 0.1, axis - 13), (left + step * 0.9, axis - 13), (left + step, axis)]
    return tuple(points)
