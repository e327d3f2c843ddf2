"""The lug list: what is soldered where, as a table to hang over the bench, and as a document for programs."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.model.places import HeldBy, Item, PlaceListing, Spot
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, shown
from netcheck.reports.soldered import COPIED, DRAWN_ONLY, said
from netcheck.reports.wrapping import in_lines

__all__ = ["lug_document", "lug_list"]

_TICK = "[ ] "
_PAPER = 80  # columns of a sheet at ten to the inch, Letter or A4
_WITH_MARGIN = 60  # columns from which the nets stand in a column of their own
_LEGEND = (
    COPIED,
    DRAWN_ONLY,
)


def lug_list(report: Report, listing: Sequence[PlaceListing], style: Style) -> str:
    """The table in plain text: for each place its lugs in order, what is on each, and its net at the right margin.

    No line is wider than a sheet of paper, and no colour says anything.
    """
    style = replace(style, width=min(style.width, _PAPER))
    names = (spot.net for place in listing for spot in place.spots)
    net = _widest(names, style, style.width // 5) if style.width >= _WITH_MARGIN else 0
    blocks = [[*_head(report, listing, style)]]
    blocks += [[*_place(place, _columns(place, net, style))] for place in listing]
    blocks.append([line for text in report.last_words for line in _wrapped(text.split(), "", "  ", style)])
    return "\n".join("".join(f"{line.rstrip()}\n" for line in block) for block in blocks if block)


class _Columns(Struct, frozen=True):
    """How wide the columns of one place are; ``net`` is the same for all, so that the nets stand at one margin."""

    label: int
    word: int
    net: int
    style: Style


def _columns(place: PlaceListing, net: int, style: Style) -> _Columns:
    label = _widest((spot.label for spot in place.spots), style, 12)
    word = _widest((spot.word for spot in place.spots), style, 22) if style.width >= _WITH_MARGIN else 0
    return _Columns(label, word, net, style)


def _widest(texts: Iterable[str], style: Style, most: int) -> int:
    return max((w for text in texts if (w := cells(shown(text, style))) <= most), default=0)


def _head(report: Report, listing: Sequence[PlaceListing], style: Style) -> Iterator[str]:
    yield from _wrapped(f"netcheck lugs: {', '.join(report.files)}".split(), "", "  ", style)
    yield from _wrapped(report.title.split(), "", "  ", style)
    items = [item for place in listing for spot in place.spots for item in spot.items]
    for sign, needed in zip(
        _LEGEND,
        (
            any(item.inherited and item.put is not HeldBy.DRAWN for item in items),
            any(item.put is HeldBy.DRAWN for item in items),
        ),
        strict=True,
    ):
        if needed:
            yield from _wrapped(sign.split(), "", "  ", style)


def _place(place: PlaceListing, columns: _Columns) -> Iterator[str]:
    yield from _wrapped(f"{place.name}: {place.about}".split(), "", "    ", columns.style)
    for note in place.notes:
        yield from _wrapped(f"note: {note}".split(), " " * len(_TICK), " " * len(_TICK), columns.style)
    for spot in place.spots:
        yield from _spot(spot, columns)


def _spot(spot: Spot, columns: _Columns) -> Iterator[str]:
    style = columns.style
    net = shown(spot.net, style)
    at_margin = bool(net) and cells(net) <= columns.net
    words = [*_with_commas([shown(piece, style) for piece in said(spot)])]
    label, word = shown(spot.label, style), shown(spot.word, style)
    if cells(word) > columns.word:
        words, word = [f"{word}:", *words], ""
    if net and not at_margin:
        words += [f"net {net}"]
    cols = [_padded(text, width) for text, width in ((label, columns.label), (word, columns.word)) if width]
    start = _TICK + "".join(f"{text}  " for text in cols)
    # The margin's own two blanks are spared where no net stands in it.
    room = max(style.width - cells(start) - (columns.net + 2 if at_margin else 0), 16)
    lines = [*_filled(words, room)]
    if at_margin:
        lines[0] = f"{_padded(lines[0], room)}  {net}"
    yield start + lines[0]
    yield from (" " * cells(start) + line for line in lines[1:])


def _with_commas(pieces: Sequence[str]) -> Iterator[str]:
    for number, piece in enumerate(pieces, 1):
        yield piece if number == len(pieces) else f"{piece},"


def _filled(pieces: Sequence[str], room: int) -> Iterator[str]:
    """Pieces in lines; a piece too long for what is left of a line begins a new one and is broken at its blanks."""
    line = ""
    for piece in pieces:
        if line and cells(line) + 1 + cells(piece) > room and cells(piece) <= room:
            yield line
            line = ""
        for word in piece.split():
            if line and cells(line) + 1 + cells(word) > room:
                yield line
                line = ""
            line = f"{line} {word}" if line else word
    yield line


def _wrapped(words: Sequence[str], first: str, other: str, style: Style) -> Iterator[str]:
    room = max(style.width - len(other), 16)
    for number, line in enumerate(in_lines([shown(word, style) for word in words], room)):
        yield (other if number else first) + line


def _padded(text: str, width: int) -> str:
    return text + " " * max(width - cells(text), 0)


def lug_document(report: Report, listing: Sequence[PlaceListing], style: Style) -> str:
    """The list as one JSON document; ``version`` grows when a key changes its meaning or goes."""
    import json  # only this format pays for it
    from io import StringIO

    made = cache(_item_object)  # on a long net each lug tells of the same others
    document = {
        "generator": "netcheck",
        "version": 1,
        "command": report.command,
        "title": visible(report.title),
        "files": [visible(name) for name in report.files],
        "places": [_place_object(place, made) for place in listing],
        "closing": [visible(line) for line in report.closing],
        "cautions": [visible(line) for line in report.cautions],
    }
    text = StringIO()  # not by `dumps`, which keeps every word of it apart until the end
    json.dump(document, text, indent=2, ensure_ascii=not style.unicode)
    text.write("\n")
    return text.getvalue()


def _place_object(place: PlaceListing, made: Callable[[Item], dict[str, object]]) -> dict[str, object]:
    return {
        "name": visible(place.name),
        "kind": place.kind,
        "about": visible(place.about),
        "notes": [visible(note) for note in place.notes],
        "spots": [
            {
                "point": visible(spot.point),
                "label": visible(spot.label),
                "word": visible(spot.word),
                "net": visible(spot.net),
                "empty": not spot.is_held,
                "spare": None if spot.spare is None else visible(spot.spare),
                "items": [made(item) for item in spot.items],
            }
            for spot in place.spots
        ],
    }


def _item_object(item: Item) -> dict[str, object]:
    return {
        "put": item.put.value,
        "name": visible(item.name),
        "words": visible(item.words),
        "inherited": item.inherited,
        "past": [visible(name) for name in item.past],
    }
