"""A terminal strip or plug as a row of lugs, seen from below."""

from collections.abc import Mapping, Sequence

from netcheck.core.panel import Lug, Mark, Strip
from netcheck.reports.drawing.card import CardShape, Facing, Port
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, leading
from netcheck.reports.drawing.marks import BODY, CELL, FAINT, GREY, QUIET, cell_look
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words, straight

__all__ = ["MOST_LUGS", "row_shape"]

MOST_LUGS = 14
"""A longer row is drawn as its marked lugs with two neighbours each."""

_CELL = (18.0, 30.0)  # narrowest and usual width of a lug, in points
_HEIGHT = 27.0
_LABEL = 11.0
_NEAR = 2


def row_shape(strip: Strip, marks: Mapping[str, set[Mark]], facing: Facing, room: float) -> CardShape:
    """The strip with its marked lugs' nets on the side that its lines do not leave by."""
    shown = _shown(strip.lugs, marks)
    name = brief(strip.name)
    alone = len(shown) == 1 and strip.lugs[0].label == strip.name
    title = 0.0 if alone else advance(name, NAME, bold=True) + 5
    widths = _widths(shown, room - title)
    body = sum(widths)
    nets, high, left, right = _nets(shown, widths, marks)
    start = max(title, left)
    top = high if facing == "down" else 2.0
    things: list[Thing] = [Box(start - 2, top + 5, body + 4, _HEIGHT - 10, BODY, FAINT, 0.8, 2)]
    ports: dict[str, Port] = {}
    x = start
    for lug, width in zip(shown, widths, strict=True):
        if lug is None:
            things.append(Words(x + width / 2, top + 17, "…", _LABEL, colour=QUIET, anchor="middle"))
        else:
            things += _cell(lug, (x, top, width), marks.get(lug.label, set()))
            edge = top + _HEIGHT if facing == "down" else top
            ports.setdefault(lug.label, Port((x + width / 2, edge)))
        x += width
    over: list[Thing] = [] if alone else [Words(start - 5, top + 17, name, NAME, bold=True, anchor="end")]
    base = high - 4 if facing == "down" else top + _HEIGHT + 10
    for text, at, level in nets:
        y = base - level * leading(SMALL) if facing == "down" else base + level * leading(SMALL)
        over.append(Words(start + at, y, text, SMALL, anchor="middle"))
        if level:
            near = top if facing == "down" else top + _HEIGHT
            over.append(
                Stroke(straight((start + at, y + (2 if facing == "down" else -8)), (start + at, near)), QUIET, 0.6)
            )
    height = high + _HEIGHT + 2
    block = ((start, top), (start + body, top + _HEIGHT))
    return CardShape(max(start + body, start + right) + 2, height, tuple(things), ports, tuple(over), block=block)


def _shown(lugs: Sequence[Lug], marks: Mapping[str, set[Mark]]) -> list[Lug | None]:
    """All lugs of a usual strip; of a longer one the marked with their neighbours, and None for those left out."""
    if len(lugs) <= MOST_LUGS:
        return list(lugs)
    marked = [i for i, lug in enumerate(lugs) if marks.get(lug.label)]
    near = {j for i in marked for j in range(i - _NEAR, i + _NEAR + 1)} | {0, len(lugs) - 1}
    shown: list[Lug | None] = []
    for i, lug in enumerate(lugs):
        if i in near:
            shown.append(lug)
        elif not shown or shown[-1] is not None:
            shown.append(None)
    return shown


def _widths(shown: Sequence[Lug | None], room: float) -> list[float]:
    least = [14.0 if lug is None else max(_CELL[0], advance(brief(lug.label), _LABEL) + 6) for lug in shown]
    spare = max(0.0, room - sum(least))
    usual = [max(least[i], _CELL[1] if lug else least[i]) for i, lug in enumerate(shown)]
    if sum(usual) <= room:
        return usual
    return [width + spare / len(least) for width in least]


def _cell(lug: Lug, at: tuple[float, float, float], marks: set[Mark]) -> list[Thing]:
    x, y, width = at
    colour, weight, dashed = cell_look(marks)
    ink = "black" if marks else QUIET
    middle = x + width / 2
    foot = lug.word == "foot"
    things: list[Thing] = [Box(x + 1.5, y, width - 3, _HEIGHT, CELL, colour, weight, 3, dashed)]
    text = brief(lug.label)
    things.append(Words(middle, y + (12.5 if lug.word else 17.5), text, _LABEL, bool(marks), ink, "middle"))
    if foot and advance("foot", SMALL) > width - 3:
        things += [
            Disc(middle, y + 20, 3.2, "", GREY, 0.8),
            Stroke(straight((middle - 2, y + 22), (middle + 2, y + 18)), GREY),
        ]
    elif lug.word:
        things.append(Words(middle, y + 23, brief(lug.word), SMALL, colour=GREY, anchor="middle"))
    return things


def _nets(
    shown: Sequence[Lug | None], widths: Sequence[float], marks: Mapping[str, set[Mark]]
) -> tuple[list[tuple[str, float, int]], float, float, float]:
    """The nets' names with their middles and levels so that none overlaps; the height, and the reach left and right."""
    placed: list[tuple[str, float, int]] = []
    ends: list[float] = []
    x = 0.0
    reach = (0.0, 0.0)
    for lug, width in zip(shown, widths, strict=True):
        middle = x + width / 2
        x += width
        if lug is None or not lug.net.strip() or not marks.get(lug.label):
            continue
        text = brief(lug.net)
        half = advance(text, SMALL) / 2
        level = next((i for i, end in enumerate(ends) if end < middle - half), len(ends))
        ends[level : level + 1] = [middle + half + 3]
        placed.append((text, middle, level))
        reach = (max(reach[0], half - middle), max(reach[1], middle + half))
    return placed, max(1, len(ends)) * leading(SMALL) + 3, reach[0], reach[1]
