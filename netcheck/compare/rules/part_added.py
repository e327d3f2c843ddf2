"""A part that the original does not have, and nothing says what it is there for or where its leads belong.

It ``replaces`` an old part, is ``inserted "why"`` in series where a joint was, or ``added "why"``. Where the leads of
an added part belong is written with ``meant``, as the drawing would list them had it been drawn with the part; they
are compared like any other then. Leads that nothing gives a place are named, each with the line to write.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    resistor R3 220k from R1.1 to chassis

Right:

    start from "original.netck"
    resistor R3 220k from R1.1 to chassis added "bleeder"
    meant grid: R3.1
    meant chassis: R3.2

Source: the original.
"""

from collections.abc import Iterator, Sequence

from netcheck.compare.by_itself.backwards import against_their_filters
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed, net_at
from netcheck.compare.words.pictures import part_too_many
from netcheck.compare.words.said import meant_lines
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(pair: Pair) -> Iterator[Finding]:
    yield from _extra(pair)
    backwards = against_their_filters(pair)
    for part, points in pair.pairing.unsaid:
        if backwards is not None and part in backwards.parts:
            continue  # which is told as such
        if len(points) > 1 and points == pair.real.terminals(part) and _is_across_itself(pair, points):
            continue  # which is told as such
        held = tuple(at for at in points if not pair.real.is_bare(at))
        alone = tuple(at for at in held if _is_alone(pair, at))
        if alone:
            yield _idle(pair, part, alone)
        elif held:
            yield _unsaid(pair, part, held)


def _extra(pair: Pair) -> Iterator[Finding]:
    graph = pair.real
    for part in pair.pairing.extra:
        points = graph.terminals(part)
        nets = list(dict.fromkeys(net_at(pair, at, (graph.point(at).name,)) for at in points if _is_joined(graph, at)))
        where = f"it is on {listed(nets)}" if nets else "it is joined to nothing"
        yield Finding(
            f"{part.name} is not in the original; {where}",
            (Label(part.place),),
            do='say what it is for: `replaces PART`, `inserted "why"` or `added "why"`; or take it out',
            mends=pair.whole.get(part.name, ()),
            touched=Touched(tuple(graph.point(at).name for at in points), (part.name,), tuple(nets)),
            panel=part_too_many(pair, part),
        )


def _is_joined(graph: CircuitGraph, at: int) -> bool:
    """Whether a lead is on a net that has a name, or another part's lead or lug."""
    return not graph.is_bare(at) or any(graph.point(on).net_name for on in graph.members[graph.circuit.nets[at]])


def _is_across_itself(pair: Pair, points: Sequence[int]) -> bool:
    return len({pair.real.circuit.nets[at] for at in points}) == 1


def _is_alone(pair: Pair, at: int) -> bool:
    """Whether a lead is on a lug where no other lead is, nor anything that leads to one."""
    net = pair.real.circuit.nets[at]
    return net != pair.real.circuit.nets[0] and pair.real.leads_on(net) == (at,)


def _idle(pair: Pair, part: Part, alone: Sequence[int]) -> Finding:
    graph = pair.real
    names = [graph.point(at).name for at in alone]
    site = graph.spoken(graph.site(alone[0]))
    where = f" on {site}" if site != names[0] else ""
    return Finding(
        f"{listed(names)} {'are' if len(names) > 1 else 'is'} alone{where}, and {part.name} does nothing",
        tuple(Label(graph.said_at(at)) for at in alone),
        do=f"solder it where it belongs, and write that as `meant NET: {names[0]}`",
        touched=Touched(tuple(names), (part.name,)),
    )


def _unsaid(pair: Pair, part: Part, points: Sequence[int]) -> Finding:
    graph = pair.real
    names = [graph.point(at).name for at in points]
    places = [f"{name} is on {net_at(pair, at, (name,))}" for name, at in zip(names, points, strict=True)]
    what = f"nothing says that {'they belong' if len(names) > 1 else 'it belongs'} there"
    return Finding(
        fitting(
            f"{', '.join(places)}: {what}",
            f"{', '.join(places)}: not compared",
            f"nothing says where {listed(names)} belong{'' if len(names) > 1 else 's'}",
            f"nothing says where the leads of {part.name} belong",
        ),
        tuple(Label(graph.said_at(at)) for at in points[:2]),
        do=f"if that is right, write {listed([f'`{line}`' for line in meant_lines(pair, points)], 99)}",
        why="without that line these joints are not compared",
        touched=Touched(tuple(names), (part.name,), tuple(dict.fromkeys(net_at(pair, at) for at in points))),
        grade=Grade.LOOK,
    )


RULE = Rule("part-added", Grade.STOP, _check, __doc__, About.ITSELF)
