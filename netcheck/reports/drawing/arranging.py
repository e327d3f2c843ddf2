"""The two rows of a panel: which is the upper one, and the order of parts and of their ends."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from netcheck.core.panel import Can, Line, Mark, NetCard, Panel, PartBox, PlaceCard, Socket, Strip
from netcheck.reports.drawing.box import net_card, part_card
from netcheck.reports.drawing.card import Card
from netcheck.reports.drawing.ring import ring_card, upper_pins
from netcheck.reports.drawing.row import row_card

__all__ = ["Arranged", "Seat", "arranged"]

_GAP = 22.0  # the engine's distance of two cards in a row, in points


@dataclass(frozen=True, slots=True)
class Seat:
    """A card under its node's name: ``t0``, ``m0``, ``b0`` for the first of tops, parts, bottoms."""

    name: str
    card: Card
    mark: Mark
    spoken: str


@dataclass(frozen=True, slots=True)
class Arranged:
    """The first row holds the panel's tops; it is drawn below the second where ``turned``."""

    first: tuple[Seat, ...]
    second: tuple[Seat, ...]
    turned: bool


def arranged(panel: Panel) -> Arranged:
    """The panel's cards in their rows, so that the lines to where leads are now cross as little as can be.

    A socket whose marked pins are mostly away from its key goes below what it is joined to.
    """
    turned = _turned(panel)
    touched = _touched(panel)
    first = tuple(
        Seat(f"t{i}", _place(place, above=not turned, touched=touched["t", i]), _mark(place), place.name)
        for i, place in enumerate(panel.tops)
    )
    spots = _spots(first)
    seats: list[tuple[float, int, Seat]] = []
    for i, part in enumerate(panel.parts):
        ends = _ends(part, i, panel.lines, spots)
        seat = Seat(f"m{i}", part_card(part, ends, above=turned), part.mark, part.name)
        seats.append((_pull(i, panel.lines, spots, to_bottom=False), len(seats), seat))
    for i, place in enumerate(panel.bottoms):
        card = _place(place, above=turned, touched=touched["b", i])
        seat = Seat(f"b{i}", card, _mark(place), place.name)
        seats.append((_pull(i, panel.lines, spots, to_bottom=True), len(seats), seat))
    return Arranged(first, tuple(seat for _, _, seat in sorted(seats, key=lambda entry: entry[:2])), turned)


def _turned(panel: Panel) -> bool:
    upper = lower = 0
    for place in panel.tops:
        if isinstance(place, Socket):
            away = upper_pins(place)
            marked = [pin.label for pin in place.pins if pin.mark is not Mark.PLAIN]
            upper += sum(1 for label in marked if label in away)
            lower += sum(1 for label in marked if label not in away)
    return bool(panel.lines) and upper > lower


def _touched(panel: Panel) -> Mapping[tuple[str, int], frozenset[str]]:
    ends = [("t", *line.upper) for line in panel.lines]
    ends += [("b", *line.lower) for line in panel.lines if line.to_bottom]
    places = [("t", i) for i in range(len(panel.tops))] + [("b", i) for i in range(len(panel.bottoms))]
    return {(row, i): frozenset(label for r, at, label in ends if (r, at) == (row, i)) for row, i in places}


def _place(place: PlaceCard, *, above: bool, touched: frozenset[str]) -> Card:
    match place:
        case Strip() | Can():
            return row_card(place, above=above, touched=touched)
        case Socket():
            return ring_card(place, above=above)
        case NetCard():
            return net_card(place)


def _mark(place: PlaceCard) -> Mark:
    """The gravest mark on the card, for its class in the picture."""
    marks = {place.mark} if isinstance(place, NetCard) else _lug_marks(place)
    return next((mark for mark in (Mark.TAKE_OFF, Mark.MOVE, Mark.MAKE, Mark.VALUE) if mark in marks), Mark.PLAIN)


def _lug_marks(place: Strip | Can | Socket) -> set[Mark]:
    return {lug.mark for lug in (place.pins if isinstance(place, Socket) else place.lugs)}


def _spots(first: Sequence[Seat]) -> Mapping[tuple[int, str], float]:
    """About where each cell of the first row lies, in points from the row's left end."""
    spots: dict[tuple[int, str], float] = {}
    start = 0.0
    for i, seat in enumerate(first):
        spots.update({(i, label): start + centre for label, centre in seat.card.centres.items()})
        start += seat.card.width + _GAP
    return spots


def _mean(lines: Sequence[Line], spots: Mapping[tuple[int, str], float]) -> float | None:
    """Where lines come from: those that say where a lead is now, else all."""
    chosen = [line for line in lines if line.mark is Mark.MOVE] or lines
    places = [spots[line.upper] for line in chosen]
    return sum(places) / len(places) if places else None


def _pull(index: int, lines: Sequence[Line], spots: Mapping[tuple[int, str], float], *, to_bottom: bool) -> float:
    own = [line for line in lines if line.lower[0] == index and line.to_bottom is to_bottom]
    mean = _mean(own, spots)
    return float("inf") if mean is None else mean


def _ends(part: PartBox, index: int, lines: Sequence[Line], spots: Mapping[tuple[int, str], float]) -> tuple[int, ...]:
    """The order of the ends: those with lines exchange their seats, the others keep theirs."""
    pulls: dict[int, float] = {}
    for at, end in enumerate(part.ends):
        own = [line for line in lines if line.lower == (index, end.label) and not line.to_bottom]
        mean = _mean(own, spots)
        if mean is not None:
            pulls[at] = mean
    movers = iter(sorted(pulls, key=lambda at: (pulls[at], at)))
    return tuple(next(movers) if at in pulls else at for at in range(len(part.ends)))
