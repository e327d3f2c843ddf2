"""A part of the original is not under the chassis, or is there but connected to nothing.

For a part that is left out on purpose write `remove NAME "why"`; for one that is replaced, `replaces`.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    remove R2

Right:

    start from "original.netck"
    remove R2 "bleeder, was added by an earlier repair"

Source: the original.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import listed
from netcheck.compare.words.orders import alternatives
from netcheck.compare.words.pictures import missing_part
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(pair: Pair) -> Iterator[Finding]:
    removals = {r.part: r.place for r in pair.as_shown.circuit.removals}
    for parts in _side_by_side(pair):
        part, names = parts[0], listed([part.name for part in parts])
        gone = ", ".join(part.name for part in parts)
        is_, it, its, left = ("is", "it", "its", "it is") if len(parts) == 1 else ("are", "them", "their", "they are")
        labels = [Label(part.place, "in the original") for part in parts]
        labels[:0] = [Label(removals[part.name], "taken out here") for part in parts if part.name in removals]
        yield Finding(
            f"{names} {is_} missing; the original has {it} between {_between(pair.original, part)}",
            tuple(labels),
            do=f'fit {it}, or say why {left} left out: `remove {part.name} "why"`; '
            f"a part in {its} place `replaces {gone}`",
            touched=_touched(pair.original, part, *(other.name for other in parts[1:])),
            panel=missing_part(pair, part),
        )
    for part in pair.pairing.unjoined:
        olds = [p for q in pair.pairing.pairs if part in q.new for p in q.old]
        mends = pair.whole.get(part.name, ())
        yield Finding(
            f"{part.name} is connected to nothing; it belongs between {_between(pair.original, olds[0])}",
            tuple(dict.fromkeys((Label(part.place), Label(olds[0].place)))),
            do=f"{alternatives(pair, mends) or 'solder its leads in'}; or write where they are soldered",
            mends=mends,
            touched=_touched(pair.original, olds[0], part.name),
            panel=missing_part(pair, olds[0]),
        )


def _side_by_side(pair: Pair) -> Iterator[tuple[Part, ...]]:
    """The missing parts, those of one kind between the same two nets together: one new part was to stand for them."""
    groups: dict[tuple[object, ...], list[Part]] = {}
    for part in pair.pairing.missing:
        nets = frozenset(pair.original.circuit.nets[at] for at in pair.original.terminals(part))
        groups.setdefault((part.kind.word, nets), []).append(part)
    yield from map(tuple, groups.values())


def _between(graph: CircuitGraph, part: Part) -> str:
    nets = dict.fromkeys(graph.net_names[graph.circuit.nets[at]] for at in graph.terminals(part))
    return listed(list(nets))


def _touched(graph: CircuitGraph, part: Part, *others: str) -> Touched:
    points = graph.terminals(part)
    nets = dict.fromkeys(graph.net_names[graph.circuit.nets[at]] for at in points)
    return Touched(tuple(graph.point(at).name for at in points), (part.name, *others), tuple(nets))


RULE = Rule("part-missing", Grade.STOP, _check, __doc__, About.NOT_DONE)
