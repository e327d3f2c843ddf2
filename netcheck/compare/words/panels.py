"""The small picture of each difference, as cards and lines; ``reports`` draws it."""

from collections.abc import Sequence
from dataclasses import replace

from netcheck.compare.pair import Pair
from netcheck.compare.words.board import Board
from netcheck.compare.words.describe import belongs_at, net_name
from netcheck.core.circuit import How, Join, Part
from netcheck.core.difference import Lead, Merge, Move, Rearranged, Split
from netcheck.core.panel import End, Mark, Panel, PartBox, PlaceCard

__all__ = ["exchanged", "merged", "mirrored", "moved", "part_only", "split", "value_only"]

_BOXES = 4
"""More parts than this in one finding become one list card."""


def moved(pair: Pair, fault: Move) -> Panel:
    """Where the leads are and where they belong."""
    board = Board(pair)
    wrong, right = net_name(pair, fault.wrong_net), net_name(pair, fault.old_net)
    cells = _boxes(board, pair, fault.leads)
    for lead, cell in cells:
        now = board.site(pair.rewired.site(lead.new), lead, fault.new_net, wrong, Mark.MOVE)
        target = board.target(belongs_at(pair, fault.home, pair.rewired.site(lead.new)), fault.home, right)
        board.line(now, cell, Mark.MOVE)
        board.line(target, cell, Mark.MAKE)
    return board.panel()


def split(pair: Pair, fault: Split) -> Panel:
    """The dead lug, where there is one, and where the leads belong."""
    board = Board(pair)
    right = net_name(pair, fault.old_net)
    for lead, cell in _boxes(board, pair, fault.leads):
        site = pair.rewired.site(lead.new)
        if site != lead.new and not pair.rewired.point(site).net_name and board.is_card(site):
            board.line(board.site(site, lead, fault.new_net, "alone", Mark.MOVE), cell, Mark.MOVE)
        target = board.target(belongs_at(pair, fault.home, site), fault.home, right)
        board.line(target, cell, Mark.MAKE)
    return board.panel()


def merged(pair: Pair, fault: Merge) -> Panel:
    """The two places, or the place and the part, that the culprit joins."""
    board = Board(pair)
    graph = pair.rewired
    for join in fault.culprits[:_BOXES]:
        a, b = (join.a, join.b) if board.is_card(join.a) else (join.b, join.a)
        word = _joint_word(join)
        names = {net: net_name(pair, net) for net in (fault.old_net, fault.other_net)}
        one = board.thick(a, _net_there(pair, fault, a, names))
        if board.share_a_card(a, b):
            board.strap(one, board.thick(b, _net_there(pair, fault, b, names)), word or "bridge")
        elif board.is_card(b) or graph.part_of(b) is None:
            board.bridge(one, board.thick(b, _net_there(pair, fault, b, names), bottom=True), word or "touches")
        else:
            board.line(one, board.box_of_point(b), Mark.TAKE_OFF)
    return board.panel()


def _joint_word(join: Join) -> str:
    """What a joint without a part is called in a picture; empty where it is no wire."""
    colour = " ".join(w for w in join.words.split() if w.isalpha() and w != "AWG")
    return f"{colour} wire".strip() if join.how is How.WIRE else ""


def _net_there(pair: Pair, fault: Merge, at: int, names: dict[int, str]) -> str:
    """Which of the two nets a point of the bridge belonged to, where the original tells."""
    point = pair.rewired.point(at)
    there = pair.original.circuit.index.get(point.name)
    net = pair.original.circuit.nets[there] if there is not None else None
    if net in names:
        return names[net]
    sides = {fault.old_net: fault.leads, fault.other_net: fault.others}
    around = {j.a if j.b == at else j.b for j in pair.rewired.joins_at.get(at, ()) if j not in fault.culprits}
    for side, leads in sides.items():
        if any(lead.new in around for lead in leads):
            return names[side]
    return ""


def exchanged(pair: Pair, fault: Rearranged) -> Panel:
    """The places and the parts: double lines as it is, a dashed cross as it belongs."""
    board = Board(pair)
    leads = [lead for swap in fault.swaps for lead in swap.leads[:_BOXES]]
    cells = dict(_boxes(board, pair, leads))
    for swap in fault.swaps:
        for lead in swap.leads[:_BOXES]:
            cell = cells.get(lead)
            if cell is None:
                continue
            net = pair.rewired.circuit.nets[lead.new]
            wrong, right = net_name(pair, swap.wrong_net), net_name(pair, swap.old_net)
            board.line(board.site(pair.rewired.site(lead.new), lead, net, wrong, Mark.MOVE), cell, Mark.MOVE)
            site = pair.rewired.site(swap.there)
            there = board.site(site, lead, pair.rewired.circuit.nets[swap.there], right, Mark.MOVE)
            board.line(there, cell, Mark.MAKE)
    return board.panel()


def part_only(pair: Pair, part: Part, *, old: bool, mark: Mark) -> Panel:
    """One part with the nets of its ends: dashed where it is missing, thick where it is too many."""
    graph = pair.original if old else pair.real
    points = graph.terminals(part)
    ends = tuple(
        End(_label(graph.point(at).terminal), graph.net_names[graph.circuit.nets[at]]) for at in points[:_BOXES]
    )
    return Panel(parts=(PartBox(part.name, _written(part), ends, mark),))


def value_only(pair: Pair, old: Part, new: Part, then: str, now: str) -> Panel:
    """One part with its new value and its old one."""
    graph = pair.real
    ends = tuple(
        End(_label(graph.point(at).terminal), graph.net_names[graph.circuit.nets[at]])
        for at in graph.terminals(new)[:_BOXES]
    )
    was = f"{then} in the original" if old.name == new.name else f"{old.name} had {then}"
    return Panel(parts=(PartBox(new.name, (f"{now} now", was), ends, Mark.VALUE),))


def _boxes(board: Board, pair: Pair, leads: Sequence[Lead]) -> list[tuple[Lead, tuple[int, str]]]:
    """A box per part with a cell for each lead concerned; one list card where there are too many."""
    leads = [lead for lead in leads if pair.rewired.part_of(lead.new) is not None]
    owner = {lead: pair.rewired.point(lead.new).part for lead in leads}
    parts = dict.fromkeys(owner.values())
    if len(parts) > _BOXES:
        names = [lead.name for lead in leads]
        listed_in = board.list_box(f"{len(names)} leads", names)
        return [(leads[0], listed_in)]
    concerned = {part: [lead.new for lead in leads if owner[lead] == part] for part in parts}
    boxes = {part: board.box(pair.rewired.circuit.parts[part], points) for part, points in concerned.items()}
    return [(lead, cell) for lead in leads if (cell := boxes[owner[lead]].get(lead.new)) is not None]


def _label(terminal: object) -> str:
    return str(getattr(terminal, "name", ""))


def _written(part: Part) -> tuple[str, ...]:
    values = " ".join(q.written for q in part.features.quantities[:2])
    return tuple(v for v in (part.features.type or values,) if v)


def mirrored(pair: Pair, fault: Rearranged) -> Panel:
    """The socket or strip as drawn and as wired: each changed cell with the net that belongs there, or is there."""
    part = pair.rewired.circuit.parts[fault.parts[0]]
    drawn, wired = Board(pair), Board(pair)
    for swap in fault.swaps:
        site = pair.real.site(swap.leads[0].new)
        now = site if pair.real.point(site).part == part.name else swap.leads[0].new
        wired.target_cell(now, net_name(pair, swap.wrong_net), Mark.MOVE)
        drawn.target_cell(now, net_name(pair, swap.old_net), Mark.MAKE)
    one, other = drawn.panel(), wired.panel()
    return Panel(tops=(*_titled(one, "as drawn"), *_titled(other, "as wired")))


def _titled(panel: Panel, word: str) -> tuple[PlaceCard, ...]:
    return tuple(replace(card, name=f"{card.name} {word}") for card in panel.tops[:1])
