"""The picture of a finding, made from the acts of its mend and from nothing else; ``reports`` draws it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from netcheck.compare.pair import Pair
from netcheck.compare.words.acts_drawn import ActsDrawn
from netcheck.compare.words.cards import Cards, form_of, place_card, written
from netcheck.compare.words.describe import belongs_at, net_name
from netcheck.compare.words.original_names import OriginalNames
from netcheck.compare.words.turned import turned
from netcheck.core.circuit import How, Part
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.difference import Lead, Merge, Move, Rearranged, Split
from netcheck.core.kind import Terminal
from netcheck.core.mend import Act, Change, Cut, Insulate, Mend, Put, Remove
from netcheck.core.panel import Done, End, Mark, Panel, PartBox, Value
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["exchanged", "merged", "mirrored", "moved", "panel_of", "part_only", "pictured", "split", "value_only"]

_MOST = 12
"""More lines than this are told as rows."""
_ENDS = 4


def panel_of(pair: Pair, mend: Mend) -> Panel:
    """What the hands have to do, as marks at the places that the acts name."""
    values = tuple(_value(pair, act) for act in mend if isinstance(act, Change))
    if (place := turned(pair, mend)) is not None:
        return Panel((place,), values=values)
    names = OriginalNames(pair, mend)
    cards = Cards(pair.real, names.of_lead, names.of_place)
    drawing = ActsDrawn(pair.real, cards)
    lines = tuple(line for act in mend for line in drawing.lines(act))
    if len(lines) > _MOST:
        return Panel(rows=tuple(drawing.rows(mend, names)), values=values)
    return Panel(cards.made(), lines, values=values)


def pictured(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Every finding that has a mend with the picture of its first; what its rule knows of values stays."""
    return tuple(replace(d, panel=_pictured(pair, d)) if d.mends else d for d in found)


def _pictured(pair: Pair, diagnostic: Diagnostic) -> Panel:
    panel = panel_of(pair, diagnostic.mends[0])
    known = diagnostic.panel.values if diagnostic.panel else ()
    return replace(panel, values=panel.values or known)


def _value(pair: Pair, act: Change) -> Value:
    now = pair.real.circuit.parts.get(act.part)
    old = next((p.old for p in pair.pairing.pairs if now in p.new), ())
    was = " and ".join(written(part) for part in old)
    return Value(act.part, written(now) if now else "", was, act.words, Done(act.line, (act.part,)))


def moved(pair: Pair, fault: Move) -> Panel:
    """Where the leads are and where they belong."""
    return panel_of(pair, tuple(_home(pair, fault.leads, fault.home)))


def split(pair: Pair, fault: Split) -> Panel:
    """The dead lug, where there is one, and where the leads belong."""
    return panel_of(pair, tuple(_home(pair, fault.leads, fault.home)))


def _home(pair: Pair, leads: Iterable[Lead], home: int) -> Iterator[Act]:
    for lead in leads:
        to = belongs_at(pair, home, pair.rewired.site(lead.new))
        if to is not None and pair.rewired.part_of(lead.new) is not None:
            yield Put(lead.name, pair.rewired.point(to).name)


def merged(pair: Pair, fault: Merge) -> Panel:
    """The two places, or the place and the part, that the culprit joins."""
    acts: list[Act] = []
    for join in fault.culprits:
        a, b = pair.rewired.point(join.a), pair.rewired.point(join.b)
        if join.words.startswith("inserted "):
            acts.append(Remove(join.words.removeprefix("inserted ")))
        elif join.how is How.BOND:
            acts.append(Insulate(b.part or a.part))
        else:
            acts.append(Cut(a.name, b.name))
    return panel_of(pair, tuple(acts))


def exchanged(pair: Pair, fault: Rearranged) -> Panel:
    """The places and the parts: as it is, and as it belongs."""
    graph = pair.rewired
    sites = [(lead, _stand(graph, swap.there)) for swap in fault.swaps for lead in swap.leads]
    return panel_of(pair, tuple(Put(lead.name, graph.point(site).name) for lead, site in sites if lead.part))


def _stand(graph: CircuitGraph, at: int) -> int:
    """Where a lead is soldered, be that a pin."""
    site = graph.site(at)
    held = [join for join in graph.joins_at.get(at, ()) if join.how not in (How.INSIDE, How.BOND)]
    return site if site != at or not held else held[0].a if held[0].b == at else held[0].b


def mirrored(pair: Pair, fault: Rearranged) -> Panel:
    """The socket or strip with the net that belongs on each changed lug, and the one that is there."""
    part = pair.rewired.circuit.parts[fault.parts[0]]
    belongs: dict[int, str] = {}
    now: dict[int, str] = {}
    for swap in fault.swaps:
        site = pair.real.site(swap.leads[0].new)
        at = site if pair.real.point(site).part == part.name else swap.leads[0].new
        now[at], belongs[swap.there] = net_name(pair, swap.wrong_net), net_name(pair, swap.old_net)
        if part.kind.word != "strip":
            belongs[at] = belongs.pop(swap.there)
        else:
            now[at] = net_name(pair, swap.old_net)
    index = pair.real.circuit.index
    card = place_card(pair.real, part, lambda at: belongs.get(at, ""))
    points = [index[lead_name(part, t.name)] for t in (part.shape.terminals if part.shape else ())]
    lugs = tuple(replace(lug, now=now.get(at, "")) for lug, at in zip(card.lugs, points, strict=True))
    return Panel((replace(card, lugs=lugs),))


def part_only(pair: Pair, part: Part, *, old: bool, mark: Mark) -> Panel:
    """One part with the nets of its ends: dashed where it is missing, heavy where it is too many."""
    graph = pair.original if old else pair.real
    points = graph.terminals(part)
    ends = tuple(
        End(_label(graph.point(at).terminal), graph.net_names[graph.circuit.nets[at]]) for at in points[:_ENDS]
    )
    values = (text,) if (text := written(part)) else ()
    return Panel((PartBox(part.name, values, ends, form_of(part), mark),))


def _label(terminal: Terminal | None) -> str:
    return terminal.name if terminal is not None else ""


def value_only(_: Pair, old: Part, new: Part, then: str, now: str) -> Panel:
    """One part with its new value and its old one."""
    was = then if old.name == new.name else f"{then} ({old.name})"
    return Panel(values=(Value(new.name, now, was),))
