"""A place that is turned as a whole: at each lug or pin what belongs there and what is there now."""

from collections.abc import Sequence
from math import cos, sin

from netcheck.core.panel import Can, Card, Lug, Mark, Socket, Strip
from netcheck.reports.drawing.card import CardShape
from netcheck.reports.drawing.glyphs import cut_mark, has_glyph
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, leading
from netcheck.reports.drawing.marks import BODY, CELL, FAINT, ON, QUIET, cell_look
from netcheck.reports.drawing.ring import PIN, turns_of
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Tag, Thing, Words, straight

__all__ = ["is_turned", "turned_ring", "turned_row"]

_INSIDE = 12
_OUTSIDE = 20
_CELL = 27.0


def is_turned(card: Card) -> bool:
    """Whether a place is told lug by lug, without lines."""
    return isinstance(card, Strip | Socket | Can) and any(lug.now or lug.off or lug.on for lug in card.lugs)


def _changed(lug: Lug) -> bool:
    return bool(lug.now or lug.off or lug.on)


def _now(lug: Lug) -> str:
    """What is said to be on a lug that changes."""
    return lug.now.strip() or ("something" if lug.off else "nothing")


def _belongs(lug: Lug) -> str:
    """What is said to belong on a lug; nothing of one that does not change and has no name."""
    return lug.net.strip() or ("something" if lug.on else "nothing" if _changed(lug) else "")


def _tags(lug: Lug, mark: Mark) -> tuple[Tag, ...]:
    return tuple(Tag(mark.value, done) for done in (lug.off if mark is Mark.OFF else lug.on))


def _marks(lug: Lug) -> set[Mark]:
    return {Mark.OFF} if lug.off else {Mark.ON} if lug.on else set()


def turned_ring(place: Socket | Can, room: float) -> CardShape:
    """The ring with what belongs on a pin inside it, and what is there now outside."""
    outside = max((advance(brief(lug.now, _OUTSIDE), SMALL, bold=True) for lug in place.lugs), default=0.0)
    radius = max(70.0, min(84.0, (room - 2 * outside) / 2 - PIN - 4))
    x, y = outside + radius + PIN + 4, radius + PIN + leading(SMALL) + leading(NAME) + 8
    what = f"{place.name} {place.type}" if isinstance(place, Socket) else place.name
    heads = [("inside: what belongs on the pin", False), ("outside: what is there now", True)]
    things: list[Thing] = [Disc(x, y, radius, "", FAINT, 0.8)]
    over: list[Thing] = [
        Words(x, y - 2, brief(what.strip()), NAME, bold=True, anchor="middle"),
        Words(x, y + leading(SMALL) - 1, "from below", SMALL, colour=QUIET, anchor="middle"),
    ]
    if isinstance(place, Socket) and place.key:
        over.append(Words(x, y + radius + 4, place.key, SMALL, colour=QUIET, anchor="middle"))
    for lug, turn in zip(place.lugs, turns_of(place), strict=True):
        across, down = (0.0, 0.55) if turn is None else (-sin(turn), cos(turn))
        things += _pin(lug, x + across * radius, y + down * radius)
        over += _inner(lug, (x + across * (radius - PIN - 3), y + down * (radius - 20)), across)
        over += _outer(lug, (x + across * (radius + PIN + 3), y + down * (radius + 18)), across)
    base = y + radius + PIN + leading(SMALL)
    for text, bold in heads:
        base += leading(SMALL)
        over.append(Words(x, base, text, SMALL, bold, "black" if bold else ON, "middle"))
    return CardShape(2 * x, base + 4, tuple(things), {}, tuple(over), (x, y))


def _pin(lug: Lug, x: float, y: float) -> list[Thing]:
    colour, weight, dashed = cell_look(_marks(lug))
    changed = _changed(lug)
    things: list[Thing] = [Disc(x, y, PIN, CELL, colour, weight, dashed)]
    if has_glyph(lug.label):
        return [*things, *cut_mark(lug.label, (x, y))]
    text = brief(lug.label, 4)
    return [*things, Words(x, y + 3.6, text, SMALL, changed, "black" if changed else QUIET, "middle")]


def _inner(lug: Lug, at: tuple[float, float], across: float) -> list[Thing]:
    anchor = "middle" if abs(across) < 0.1 else ("end" if across > 0 else "start")
    belongs = brief(_belongs(lug), _INSIDE)
    if not belongs:
        return []
    colour = ON if lug.on else QUIET
    return [Words(at[0], at[1] + 3, belongs, SMALL, colour=colour, anchor=anchor, tags=_tags(lug, Mark.ON))]


def _outer(lug: Lug, at: tuple[float, float], across: float) -> list[Thing]:
    if not _changed(lug):
        return []
    anchor = "middle" if abs(across) < 0.1 else ("start" if across > 0 else "end")
    return [
        Words(at[0], at[1] + 3, brief(_now(lug), _OUTSIDE), SMALL, bold=True, anchor=anchor, tags=_tags(lug, Mark.OFF))
    ]


def turned_row(strip: Strip, room: float) -> CardShape:
    """The row with what is on a lug above it, and what belongs there below."""
    lead = max(advance(text, SMALL) for text in ("is now", "belongs")) + 6
    lead = max(lead, advance(brief(strip.name), NAME, bold=True) + 6)
    width = max(18.0, min(60.0, (room - lead - 6) / len(strip.lugs)))
    end = max(room, lead + width * len(strip.lugs) + 4)
    above = [brief(_now(lug), _OUTSIDE) if _changed(lug) else "" for lug in strip.lugs]
    below = [brief(_belongs(lug), _OUTSIDE) for lug in strip.lugs]
    up = _levels(above, (lead, width, end), bold=True)
    down = _levels(below, (lead, width, end), bold=False)
    top = (max(level for _, level in up) + 1) * leading(SMALL) + 6
    low = top + _CELL + leading(SMALL)
    things: list[Thing] = [Box(lead - 2, top + 5, width * len(strip.lugs) + 4, 17, BODY, FAINT, 0.8, 2)]
    over: list[Thing] = [
        Words(lead - 6, top - 5, "is now", SMALL, bold=True, anchor="end"),
        Words(lead - 6, top + 17, brief(strip.name), NAME, bold=True, anchor="end"),
        Words(lead - 6, low, "belongs", SMALL, colour=ON, anchor="end"),
    ]
    for i, lug in enumerate(strip.lugs):
        middle = lead + width * (i + 0.5)
        things += _lug(lug, middle, top, width)
        (x, level), (at, depth) = up[i], down[i]
        y, base = top - 5 - level * leading(SMALL), low + depth * leading(SMALL)
        over.append(Words(x, y, above[i], SMALL, bold=True, anchor="middle", tags=_tags(lug, Mark.OFF)))
        ink = ON if lug.on else QUIET
        over.append(Words(at, base, below[i], SMALL, colour=ink, anchor="middle", tags=_tags(lug, Mark.ON)))
        over += [*_tick(middle, y + 2, top, level), *_tick(middle, base - 8, top + _CELL, depth)]
    height = low + max(level for _, level in down) * leading(SMALL) + 8
    over = [thing for thing in over if not isinstance(thing, Words) or thing.text.strip()]
    return CardShape(end if end > room else lead + width * len(strip.lugs) + 4, height, tuple(things), {}, tuple(over))


def _lug(lug: Lug, middle: float, top: float, width: float) -> list[Thing]:
    colour, weight, dashed = cell_look(_marks(lug))
    changed = _changed(lug)
    wide = min(width - 3, _CELL)
    return [
        Box(middle - wide / 2, top, wide, _CELL, CELL, colour, weight, 3, dashed),
        Words(middle, top + 17, brief(lug.label), NAME, changed, "black" if changed else QUIET, "middle"),
    ]


def _tick(x: float, y: float, end: float, level: int) -> list[Thing]:
    return [Stroke(straight((x, y), (x, end)), QUIET, 0.6)] if level else []


def _levels(texts: Sequence[str], cells: tuple[float, float, float], *, bold: bool) -> list[tuple[float, int]]:
    """The middle of each text, and on which line it stands so that none overlaps its neighbour.

    ``cells`` are where the first begins, how wide each is, and what no text may go beyond.
    """
    start, width, end = cells
    ends: list[float] = []
    levels = []
    for i, text in enumerate(texts):
        half = advance(text, SMALL, bold=bold) / 2
        middle = min(start + width * (i + 0.5), end - half)
        level = next((n for n, last in enumerate(ends) if last < middle - half), len(ends)) if text.strip() else 0
        if text.strip():
            ends[level : level + 1] = [middle + half + 4]
        levels.append((middle, level))
    return levels
