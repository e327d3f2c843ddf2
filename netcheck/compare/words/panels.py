"""The picture of a finding, made from the acts of its mend and from nothing else; ``reports`` draws it."""

from netcheck.compare.pair import Pair
from netcheck.compare.words.acts_drawn import ActsDrawn
from netcheck.compare.words.cards import Cards, form_of, written
from netcheck.compare.words.original_names import OriginalNames
from netcheck.compare.words.turned_card import turned_card
from netcheck.core.circuit import Part
from netcheck.core.kind import Terminal
from netcheck.core.mend import Change, Mend
from netcheck.core.panel import Done, End, Mark, Panel, PartBox, Value
from netcheck.model.graph import CircuitGraph

__all__ = ["panel_of", "part_only"]

_LINES_DRAWN = 12
"""More lines than this are told as rows."""
_ENDS = 4


def panel_of(pair: Pair, mend: Mend) -> Panel:
    """What the hands have to do, as marks at the places that the acts name."""
    values = tuple(_value(pair, act) for act in mend if isinstance(act, Change))
    if (place := turned_card(pair, mend)) is not None:
        return Panel((place,), values=values)
    names = OriginalNames(pair, mend)
    cards = Cards(pair.real, names.of_lead, names.of_place)
    drawing = ActsDrawn(pair.real, cards)
    lines = tuple(line for act in mend for line in drawing.lines(act))
    if len(lines) > _LINES_DRAWN:
        return Panel(rows=tuple(drawing.rows(mend, names)), values=values)
    return Panel(cards.made(), lines, values=values)


def _value(pair: Pair, act: Change) -> Value:
    now = pair.real.circuit.parts.get(act.part)
    old = next((p.old for p in pair.pairing.pairs if now in p.new), ())
    was = " and ".join(written(part) for part in old)
    return Value(act.part, written(now) if now else "", was, act.words, Done(act.line, (act.part,)))


def part_only(graph: CircuitGraph, part: Part, mark: Mark) -> Panel:
    """One part with the nets of its ends: dashed where it is missing, heavy where it is too many."""
    points = graph.terminals(part)
    ends = tuple(
        End(_label(graph.point(at).terminal), graph.net_names[graph.circuit.nets[at]]) for at in points[:_ENDS]
    )
    values = (text,) if (text := written(part)) else ()
    return Panel((PartBox(part.name, values, ends, form_of(part), mark),))


def _label(terminal: Terminal | None) -> str:
    return terminal.name if terminal is not None else ""
