"""A panel in words, for readers and programs that can't see it."""

from netcheck.core.panel import (
    BareChassis,
    Can,
    Card,
    Cell,
    LeadRow,
    Line,
    Lug,
    Mark,
    NetCard,
    Panel,
    PartBox,
    Socket,
    Strip,
    Value,
)

__all__ = ["lead_told", "line_told", "panel_told", "spot_told"]


def panel_told(panel: Panel) -> tuple[str, ...]:
    """One sentence for each line, each lug of a turned place, each row, each part and each value."""
    sentences = [line_told(panel, line) for line in panel.lines]
    sentences += [_lug_told(card, lug) for card in panel.cards for lug in _lugs(card) if lug.now or lug.off or lug.on]
    sentences += [text for card in panel.cards if isinstance(card, PartBox) and (text := _part_told(card))]
    sentences += [_row_told(row) for row in panel.rows]
    sentences += [_value_told(value) for value in panel.values]
    return tuple(dict.fromkeys(sentences))


def line_told(panel: Panel, line: Line) -> str:
    """What one line of the panel says."""
    cards = (panel.cards[line.a[0]], panel.cards[line.b[0]])
    if isinstance(cards[0], PartBox) or isinstance(cards[1], PartBox):
        lead, place = (line.a, line.b) if isinstance(cards[0], PartBox) else (line.b, line.a)
        said, at = lead_told(panel, lead), spot_told(panel, place)
        by = f" by the {line.label}" if line.label.strip() else ""
        return {
            Mark.OFF: f"{said} is on {at}{by}: take it off.",
            Mark.ON: f"{said} belongs on {at}{by}: put it on.",
            Mark.PLAIN: f"{said} is on {at}{by}, as it should be.",
        }[line.mark]
    here, there = _capital(spot_told(panel, line.a)), spot_told(panel, line.b)
    by = f" ({line.label})" if line.label.strip() else ""
    return {
        Mark.OFF: f"{here} is joined to {there}{by}: take that off.",
        Mark.ON: f"{here} has to be joined to {there}{by}.",
        Mark.PLAIN: f"{here} is joined to {there}{by}, as it should be.",
    }[line.mark]


def lead_told(panel: Panel, spot: Cell) -> str:
    """A part's lead as a restorer writes it."""
    name, label = panel.cards[spot[0]].name, spot[1]
    return f"{name}{label}" if label in ("+", "-", "") else f"{name}.{label}"


def spot_told(panel: Panel, spot: Cell) -> str:
    """A cell of a card with the net that it is on in the original."""
    card, label = panel.cards[spot[0]], spot[1]
    match card:
        case NetCard():
            return f"the net {card.name}"
        case BareChassis():
            return "the chassis"
        case PartBox():
            return lead_told(panel, spot)
        case Socket():
            return f"pin {label} of socket {card.name}{_net(card.lugs, label)}"
        case Can():
            where = f"can {card.name}" if label == "can" else f"lug {label} of can {card.name}"
            return where + _net(card.lugs, label)
        case Strip():
            alone = len(card.lugs) == 1 and card.lugs[0].label == card.name
            where = f"lug {label}" if alone else f"lug {label} of strip {card.name}"
            return where + _net(card.lugs, label)


def _net(lugs: tuple[Lug, ...], label: str) -> str:
    net = next((lug.net for lug in lugs if lug.label == label), "")
    return f" ({net})" if net.strip() else ""


def _lugs(card: Card) -> tuple[Lug, ...]:
    return card.lugs if isinstance(card, Strip | Socket | Can) else ()


def _lug_told(card: Card, lug: Lug) -> str:
    kind = "Pin" if isinstance(card, Socket) else "Lug"
    return (
        f"{kind} {lug.label} of {card.name}: {lug.net or 'nothing'} belongs there, {lug.now or 'nothing'} is there now."
    )


def _part_told(part: PartBox) -> str:
    return {Mark.ON: f"{part.name} is missing.", Mark.OFF: f"{part.name}: take it out.", Mark.PLAIN: ""}[part.mark]


def _row_told(row: LeadRow) -> str:
    off = f" off {row.off}" if row.off else ""
    on = f" onto {row.on}" if row.on else ""
    return f"{row.lead}:{off}{',' if off and on else ''}{on}."


def _value_told(value: Value) -> str:
    return f"{value.part}: {value.now} now, {value.was} in the original."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
