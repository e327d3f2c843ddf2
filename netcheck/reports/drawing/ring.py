"""The card of a tube socket: its pins in a ring, seen from below."""

from collections.abc import Mapping, Sequence

from netcheck.core.panel import Lug, Mark, Socket
from netcheck.reports.drawing.card import Card, lug_cell, ports, table
from netcheck.reports.drawing.lettering import advance, brief, lettered

__all__ = ["ring_card", "upper_pins"]

PIN = 26
_SPACING = 3
_NET_SIZE = 10
_KEYS: Mapping[str, str] = {"key": "▲ key", "gap": "gap"}


def upper_pins(socket: Socket) -> frozenset[str]:
    """The labels of the pins in the half that is away from the key."""
    ring, _ = _parted(socket)
    quarter = len(ring) / 4
    return frozenset(pin.label for at, pin in enumerate(ring, 1) if quarter < at - 0.5 < 3 * quarter)


def ring_card(socket: Socket, *, above: bool) -> Card:
    """A socket from below; the nets of the marked pins stand outside the ring, one a line."""
    ring, outside = _parted(socket)
    port_of = ports(pin.label for pin in socket.pins)
    margin = _margin(socket)
    # Left pin, margin, two inner cells (with an odd pin or the gap between them), margin, right pin.
    columns = (PIN, margin, *(PIN,) * (2 + len(ring) % 2), margin, PIN)
    rows = _rows(ring, _middle(socket), margin, port_of)
    key = _KEYS.get(socket.key, socket.key)
    if key.strip():
        rows.append(f'<TD COLSPAN="{len(columns)}">{lettered(brief(key), 8, color="#444444")}</TD>')
    rows += [f"<TD></TD><TD></TD>{_boxed(pin, port_of, len(columns) - 4)}<TD></TD><TD></TD>" for pin in outside]
    nets = _nets(socket)
    if nets:
        rows.insert(0 if above else len(rows), f'<TD COLSPAN="{len(columns)}">{nets}</TD>')
    width = sum(columns) + _SPACING * (len(columns) + 1)
    return Card(table(rows, spacing=_SPACING), width, _centres(socket, width), port_of)


def _parted(socket: Socket) -> tuple[tuple[Lug, ...], tuple[Lug, ...]]:
    """The pins of the ring, and what is no pin of the socket: the cap at the envelope's top."""
    ring = tuple(pin for pin in socket.pins if pin.label != "cap")
    return ring, tuple(pin for pin in socket.pins if pin.label == "cap")


def _margin(socket: Socket) -> int:
    """How much wider than its pins the middle has to be, a side."""
    texts = (
        advance(brief(socket.name), 14, bold=True),
        advance(brief(socket.type), 10),
        advance("from below", 9),
    )
    return max(1, round((max(texts) - 2 * PIN + 2 * _SPACING) / 2))


def _middle(socket: Socket) -> str:
    lines = (
        lettered(brief(socket.name), 14, bold=True),
        lettered(brief(socket.type), 10, color="#444444"),
        lettered("from below", 9, color="#444444"),
    )
    return "<BR/>".join(line for line in lines if line)


def _rows(ring: Sequence[Lug], middle: str, margin: int, port_of: Mapping[str, str]) -> list[str]:
    """Top, sides and bottom; clockwise from the key means up on the left and down on the right."""
    count = len(ring)
    half = count // 2
    odd = count % 2 == 1
    side = f'<TD WIDTH="{PIN}"></TD><TD WIDTH="{margin}"></TD>'
    tail = f'<TD WIDTH="{margin}"></TD><TD WIDTH="{PIN}"></TD>'

    def pin(number: int) -> str:
        return _boxed(ring[number - 1], port_of) if 0 < number <= count else "<TD></TD>"

    top = f"<TD></TD>{pin(half + 1)}<TD></TD>" if odd else f"{pin(half)}{pin(half + 1)}"
    rows = [f"{side}{top}{tail}"]
    lefts = range(half if odd else half - 1, 1, -1)
    centre = f'<TD COLSPAN="{5 if odd else 4}" ROWSPAN="{max(1, len(lefts))}">{middle}</TD>'
    for at, left in enumerate(lefts):
        rows.append(f"{pin(left)}{centre if at == 0 else ''}{pin(count + 1 - left)}")
    if not lefts:
        rows.append(f"<TD></TD>{centre}<TD></TD>")
    bottom = f"{pin(1)}<TD></TD>{pin(count)}" if odd else f"{pin(1)}{pin(count)}"
    rows.append(f"{side}{bottom}{tail}")
    return rows


def _boxed(pin: Lug, port_of: Mapping[str, str], columns: int = 1) -> str:
    cell = lug_cell(pin, port_of[pin.label], (PIN, PIN), "rounded")
    return cell.replace("<TD ", f'<TD COLSPAN="{columns}" ', 1) if columns > 1 else cell


def _nets(socket: Socket) -> str:
    named = [pin for pin in socket.pins if pin.net.strip() and pin.mark is not Mark.PLAIN]
    return "<BR/>".join(lettered(f"pin {brief(pin.label)}: {brief(pin.net)}", _NET_SIZE) for pin in named)


def _centres(socket: Socket, width: float) -> dict[str, float]:
    """The first pin of the left side is a little inside, like the last of the right: the ring is round."""
    ring, outside = _parted(socket)
    count = len(ring)
    centres = {pin.label: width / 2 for pin in outside}
    for at, pin in enumerate(ring, 1):
        left = at <= count // 2
        inner = at in {1, count, count // 2, count // 2 + 1}
        place = width * (0.35 if inner else 0.1)
        centres.setdefault(pin.label, place if left else width - place)
    return centres
