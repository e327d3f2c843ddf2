"""Parts with leads in a row: a transformer by the windings concerned, a switch, a control, whatever has many leads."""

from collections.abc import Mapping, Sequence

from msgspec import Struct

from netcheck.core.panel import End, Mark, PartBox, Winding
from netcheck.reports.drawing.bodies import outline, part_tags
from netcheck.reports.drawing.card import CardShape, Facing, Port
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, label, leading
from netcheck.reports.drawing.marks import BODY, QUIET
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words, straight

__all__ = ["standing_part"]

_LEAD = 10.0
_BETWEEN = 10.0
_LEAST = 26.0
_TURNS = 10.0
_CLEAR = 4.0  # from the words of a lead that stays to a line


class _Standing(Struct):
    """A part in the making: the edge that its leads come out at, which way they point, how far out a line may turn."""

    edge: float
    down: bool
    clear: float
    things: list[Thing]
    over: list[Thing]
    ports: dict[str, Port]


def standing_part(part: PartBox, marks: Mapping[str, set[Mark]], facing: Facing) -> CardShape:
    """A part whose leads come out at the side that its lines leave by; under a winding's leads its turns."""
    groups = _groups(part)
    widths = {end.label: _width(end, marks) for end in part.ends}
    rooms = [max(sum(widths[end.label] for end in ends), _words(winding)) for winding, ends in groups]
    own = sum(rooms) + _BETWEEN * (len(groups) - 1)
    inner = max(own, _title_width(part))
    coil = any(winding is not None for winding, _ in groups)
    depth = leading(SMALL) + (_TURNS + 2 + leading(SMALL) if coil else 0) + leading(NAME) + 8
    down = facing == "down"
    nets = leading(SMALL) if any(_says_net(end, marks) for end in part.ends) else 0.0
    top = 2.0 if down else _LEAD + nets + 2
    colour, weight, dashed = outline(part)
    box = Box(2, top, inner + 12, depth, BODY, colour, weight, 2, dashed, part_tags(part))
    made = _Standing(top + depth if down else top, down, _LEAD + nets + _CLEAR, [box], [], {})
    x = 8.0 + (inner - own) / 2
    for (winding, ends), room in zip(groups, rooms, strict=True):
        _group(made, winding, [(end, widths[end.label], marks) for end in ends], (x, room))
        x += room + _BETWEEN
    made.over += _title(part, 8 + inner / 2, top + leading(NAME) - 2 if down else top + depth - 4)
    size = (inner + 16, depth + _LEAD + nets + 5)
    over, under = (0.0, made.clear) if down else (made.clear, 0.0)
    block = ((2.0, top - over), (inner + 14, top + depth + under))
    return CardShape(*size, tuple(made.things), made.ports, tuple(made.over), block=block)


_Lead = tuple[End, float, Mapping[str, set[Mark]]]


def _group(made: _Standing, winding: Winding | None, leads: Sequence[_Lead], place: tuple[float, float]) -> None:
    x, room = place
    at = x + (room - sum(width for _, width, _ in leads)) / 2
    centres = []
    for end, width, marks in leads:
        centres.append(at + width / 2)
        _lead(made, end, at + width / 2, marks)
        at += width
    if winding is not None:
        step = leading(SMALL)
        line = made.edge + (-step - _TURNS - 2 if made.down else step + 2 + _TURNS)
        made.things += _turns(centres, line, up=not made.down)
        base = line - 4 if made.down else line + step - 2
        made.over.append(Words(x + room / 2, base, _said(winding), SMALL, colour="#444444", anchor="middle"))


def _lead(made: _Standing, end: End, x: float, marks: Mapping[str, set[Mark]]) -> None:
    step = leading(SMALL)
    tip = made.edge + (_LEAD if made.down else -_LEAD)
    marked = bool(marks.get(end.label))
    made.things.append(Stroke(straight((x, made.edge), (x, tip)), "black", 1.6))
    made.things.append(Disc(x, tip, 2.4, "black" if marked else QUIET))
    turn = made.edge + (made.clear if made.down else -made.clear)
    made.ports.setdefault(end.label, Port((x, tip), (((x, tip), (x, turn)),)))
    base = made.edge - 3 if made.down else made.edge + step - 2
    made.over.append(Words(x, base, label(end.label), SMALL, marked, anchor="middle"))
    if _says_net(end, marks):
        away = tip + (step if made.down else -4)
        made.over.append(Words(x, away, brief(end.net, 12), SMALL, colour=QUIET, anchor="middle"))


def _says_net(end: End, marks: Mapping[str, set[Mark]]) -> bool:
    return bool(end.net.strip()) and not marks.get(end.label)


def _title_width(part: PartBox) -> float:
    values = " ".join(brief(value) for value in part.values if value.strip())
    return advance(brief(part.name), NAME, bold=True) + (advance(values, SMALL) + 4 if values else 0.0)


def _title(part: PartBox, middle: float, base: float) -> list[Thing]:
    name = brief(part.name)
    values = " ".join(brief(value) for value in part.values if value.strip())
    wide = advance(name, NAME, bold=True)
    left = middle - _title_width(part) / 2
    words: list[Thing] = [Words(left, base, name, NAME, bold=True)]
    if values:
        words.append(Words(left + wide + 4, base, values, SMALL))
    return words


def _groups(part: PartBox) -> list[tuple[Winding | None, list[End]]]:
    """The ends winding by winding; those of none in a group of their own."""
    left = {end.label: end for end in part.ends}
    groups: list[tuple[Winding | None, list[End]]] = []
    for winding in part.windings:
        own = [left.pop(lead) for lead in winding.leads if lead in left]
        if own:
            groups.append((winding, own))
    if left or not groups:
        groups.append((None, list(left.values())))
    return groups


def _width(end: End, marks: Mapping[str, set[Mark]]) -> float:
    net = 0.0 if marks.get(end.label) else advance(brief(end.net, 12), SMALL)
    return max(_LEAST, advance(label(end.label), SMALL, bold=True) + 6, net + 4)


def _words(winding: Winding | None) -> float:
    return advance(_said(winding), SMALL) if winding is not None else 0.0


def _said(winding: Winding) -> str:
    return brief(" ".join(text for text in (winding.name, winding.values) if text))


def _turns(centres: Sequence[float], y: float, *, up: bool) -> list[Thing]:
    """A winding's turns from its first lead to its last, with a tail to every tap."""
    things: list[Thing] = []
    high = -_TURNS if up else _TURNS
    if len(centres) > 1:
        start, end = centres[0], centres[-1]
        count = max(3, round((end - start) / 9))
        step = (end - start) / count
        points = [(start, y)]
        for i in range(count):
            left = start + i * step
            points += [(left + step * 0.1, y + high * 0.9), (left + step * 0.9, y + high * 0.9), (left + step, y)]
        things.append(Stroke(tuple(points), "black", 1.4))
    return things
