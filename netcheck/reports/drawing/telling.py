"""A panel in words, for readers and programs that can't see it."""

from dataclasses import replace

from netcheck.core.panel import Can, Line, Lug, Mark, NetCard, Panel, PartBox, PlaceCard, Socket, Strip

__all__ = ["line_told", "place_told", "told"]


def told(panel: Panel) -> tuple[str, ...]:
    """One sentence for each line of the panel, or for each marked lug where it has no line, and each new value."""
    leads = list(dict.fromkeys((line.to_bottom, line.lower) for line in panel.lines))
    sentences = [
        text for lead in leads for text in _lead_told([x for x in panel.lines if (x.to_bottom, x.lower) == lead], panel)
    ]
    if not panel.lines:
        sentences += [_lug_told(place, lug) for place in (*panel.tops, *panel.bottoms) for lug in _marked(place)]
    sentences += [text for part in panel.parts if (text := _part_told(part))]
    return tuple(dict.fromkeys(sentences))


def line_told(panel: Panel, line: Line) -> str:
    """What one line of the panel says."""
    here = place_told(panel.tops[line.upper[0]], line.upper[1])
    if line.to_bottom:
        return _joint_told(line, here, place_told(panel.bottoms[line.lower[0]], line.lower[1]))
    if panel.parts[line.lower[0]].is_joint:
        return _strap_told(panel, line)
    lead = _lead(panel, line)
    if line.mark is Mark.MAKE:
        return f"{lead} belongs on {here}."
    ending = {Mark.TAKE_OFF: ", which is to be undone", Mark.PLAIN: ", as it should be"}.get(line.mark, "")
    return f"{lead} is on {here}{ending}."


def _strap_told(panel: Panel, line: Line) -> str:
    """A joint drawn as a box, from its first lug to its last; both its lines say the same."""
    own = [x for x in panel.lines if not x.to_bottom and x.lower[0] == line.lower[0]]
    here, there = (place_told(panel.tops[x.upper[0]], x.upper[1]) for x in (own[0], own[-1]))
    return _joint_told(replace(line, label=panel.parts[line.lower[0]].name), here, there)


def _lead(panel: Panel, line: Line) -> str:
    return f"Lead {line.lower[1]} of {panel.parts[line.lower[0]].name}"


def _lead_told(lines: list[Line], panel: Panel) -> list[str]:
    """The sentences on one lead, first where it is; from the second on it is ``it``."""
    ordered = sorted(lines, key=lambda line: line.mark is Mark.MAKE)
    texts = [line_told(panel, line) for line in ordered]
    if ordered[0].to_bottom or panel.parts[ordered[0].lower[0]].is_joint:
        return texts
    name = _lead(panel, ordered[0])
    return [texts[0], *(f"It{text.removeprefix(name)}" for text in texts[1:])]


def _joint_told(line: Line, here: str, there: str) -> str:
    by = f" ({line.label})" if line.label.strip() else ""
    match line.mark:
        case Mark.MAKE:
            return f"{_capital(here)} has to be joined to {there}{by}."
        case Mark.TAKE_OFF:
            return f"{_capital(here)} is joined to {there}{by}, which is to be undone."
        case Mark.PLAIN:
            return f"{_capital(here)} is joined to {there}{by}, as it should be."
        case Mark.MOVE | Mark.VALUE:
            return f"{_capital(here)} is joined to {there}{by}."


def place_told(place: PlaceCard, label: str) -> str:
    """A cell of a place with the net that it is on."""
    match place:
        case NetCard():
            return f"the net {place.name}"
        case Socket():
            return f"pin {label} of socket {place.name}{_net(place.pins, label)}"
        case Can():
            return f"lug {label} of can {place.name}{_net(place.lugs, label)}"
        case Strip():
            alone = len(place.lugs) == 1 and place.lugs[0].label == place.name
            where = f"lug {label}" if alone else f"lug {label} of strip {place.name}"
            return where + _net(place.lugs, label)


def _net(lugs: tuple[Lug, ...], label: str) -> str:
    net = next((lug.net for lug in lugs if lug.label == label), "")
    return f" ({net})" if net.strip() else ""


def _marked(place: PlaceCard) -> tuple[Lug, ...]:
    return tuple(lug for lug in _lugs(place) if lug.mark is not Mark.PLAIN)


def _lugs(place: PlaceCard) -> tuple[Lug, ...]:
    match place:
        case NetCard():
            return (Lug("", place.mark),)
        case Socket():
            return place.pins
        case Strip() | Can():
            return place.lugs


def _lug_told(place: PlaceCard, lug: Lug) -> str:
    say = {
        Mark.MAKE: "to be made",
        Mark.MOVE: "what is there now",
        Mark.TAKE_OFF: "to be undone",
        Mark.VALUE: "another value",
    }.get(lug.mark, "as it should be")
    word = f", {lug.word}" if lug.word.strip() else ""
    kind = f", {place.type}" if isinstance(place, Socket) and place.type.strip() else ""
    return f"{_capital(place_told(place, lug.label))}{kind}{word}: {say}."


def _part_told(part: PartBox) -> str:
    values = ", ".join(part.values)
    if part.is_joint:
        return ""
    match part.mark:
        case Mark.VALUE:
            return f"{part.name}: {values}."
        case Mark.MAKE:
            return f"{part.name} is missing."
        case Mark.TAKE_OFF:
            return f"{part.name} is not in the original."
        case Mark.MOVE | Mark.PLAIN:
            return ""


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
