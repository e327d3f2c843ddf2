"""A line about a change that was not needed, or that can't be what was done.

An intended change, an `accept` or a `replaces` that matches nothing hides the next real fault behind a line that looks
right.

Original:

    resistor R1 470k
    resistor R2 10k
    resistor R3 10k
    net grid: R1.1, R2.1, R3.1
    net ground: chassis, R1.2, R2.2, R3.2

Wrong:

    start from "original.netck"
    wire R1.1 to R2.1 white intended "grid return"

Right:

    start from "original.netck"
    move R3.2 to R1.1 intended "R3 is out of use"

Source: what the file says itself.
"""

from collections.abc import Iterator, Mapping

from netcheck.compare.pair import Pair
from netcheck.compare.roles.electrodes import answers_to
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.orders import UNTRIED, alternatives
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule

_WITH_TAPS = (Family.RECTIFIER, Family.RESISTOR)


def _check(pair: Pair) -> Iterator[Finding]:
    yield from pair.idle
    yield from _replaces(pair)
    yield from _inserted(pair)
    for group in pair.pairing.irreducible:
        names = [part.name for part in group.new]
        olds = [part.name for part in group.old]
        said, do = "they are neither in series nor in parallel", "check the joints between them, or "
        if any(part.kind.family in _WITH_TAPS and len(part.leads) > 2 for part in group.old):
            said, do = "where each lead belongs is not said", ""
        yield Finding(
            f"{listed(names)} can't replace {listed(olds)}: {said}",
            (Label(group.new[0].place), Label(group.old[0].place, "in the original")),
            do=f"{do}say where their leads belong with `meant NET: LEADS`",
            touched=Touched((), (*names, *olds)),
            grade=Grade.STOP,
        )


def _replaces(pair: Pair) -> Iterator[Finding]:
    known = pair.source.parts
    for part in pair.real.circuit.parts.values():
        yield from _no_electrode(part, known)
        for name in part.replaces:
            inherited = part.name in known and name in known[part.name].replaces
            if name not in known and not inherited:
                yield Finding(
                    f"{part.name} replaces `{name}`, which the original does not have",
                    (Label(part.place),),
                    do="name the part of the original that it replaces",
                    touched=Touched((), (part.name, name)),
                    grade=Grade.STOP,
                )


def _no_electrode(part: Part, known: Mapping[str, Part]) -> Iterator[Finding]:
    for name, words in part.electrodes.items():
        old = known.get(name)
        for word in words:
            if old is not None and not answers_to(old, word):
                has = dict.fromkeys(t.key for t in old.leads)
                yield Finding(
                    f"{part.name} replaces `{name}.{word}`, and {name} has no {word}",
                    (Label(part.place), Label(old.place, "in the original")),
                    do=f"it has {', '.join(has)}",
                    touched=Touched((), (part.name, name)),
                    grade=Grade.STOP,
                )


def _inserted(pair: Pair) -> Iterator[Finding]:
    """A part in series whose two ends are one net does nothing: it is bridged."""
    graph = pair.real
    for idle in pair.bridged:
        part, behind = idle.part, idle.behind
        points = graph.terminals(part)
        net = graph.net_names[graph.circuit.nets[points[0]]]
        left = () if behind is None else tuple(lead.name for lead in behind.leads)
        free = f"; {listed(left)} {'hang' if len(left) > 1 else 'hangs'} free" if left else ""
        yield Finding(
            fitting(
                f"{part.name} is inserted but bridged: both its ends are on {net}{free}",
                f"{part.name} is inserted but bridged: both its ends are on {net}",
            ),
            tuple(Label(graph.said_at(at)) for at in points),
            do=alternatives(pair, idle.mends) or UNTRIED,
            mends=idle.mends,
            touched=Touched((*(graph.point(at).name for at in points), *left), (part.name,), (net,)),
            grade=Grade.STOP,
        )


RULE = Rule("unused-intent", Grade.LOOK, _check, __doc__, About.ITSELF)
