"""A plate of a replaced rectifier tube has no diode: half of the winding is lost.

A full-wave tube has two plates, each on its own end of the winding, and takes two diodes. The set runs on with one,
with twice the ripple at half its frequency, all the current through one half of the winding, and less B+.

Original:

    transformer T1
    winding T1 high red-a red-yellow red-b 300-0-300 V
    winding T1 filament yellow-a yellow-b 5 V
    tube V7 5Y3GT
    electrolytic C1 10 mfd 450 V
    resistor R1 10k 10 W
    net p1: T1.red-a, V7.plate-1
    net p2: T1.red-b, V7.plate-2
    net f: T1.yellow-a, V7.2
    net B+: T1.yellow-b, V7.8, C1+, R1.1
    net ground: chassis, T1.red-yellow, C1-, R1.2

Wrong:

    start from "original.netck"
    remove V7
    lift T1.yellow-a, T1.yellow-b intended "no filament to heat"
    diode D1 1000 V 1 A anode T1.red-a cathode C1+ replaces V7

Right:

    start from "original.netck"
    remove V7
    lift T1.yellow-a, T1.yellow-b intended "no filament to heat"
    diode D1 1000 V 1 A anode T1.red-a cathode C1+ replaces V7.plate-1
    diode D2 1000 V 1 A anode T1.red-b cathode C1+ replaces V7.plate-2

Source: how a full-wave rectifier works (from memory).
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed, net_name
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    graph = pair.original
    for roles, plates in pair.pairing.unseated:
        tube, fitted = roles.old[0], [part.name for part in roles.new]
        names = [graph.spoken(at) for at in plates]
        nets = [net_name(pair, graph.circuit.nets[at]) for at in plates]
        electrode = graph.point(plates[0]).terminal
        word = electrode.key if electrode is not None else ""
        yield Finding(
            fitting(
                f"nothing takes the place of {listed(names)}: {listed(nets)} feeds nothing, half the winding is lost",
                f"nothing takes the place of {listed(names)}: half the winding is lost",
            ),
            (Label(roles.new[0].place), Label(graph.said_at(plates[0]), "in the original")),
            do=f"fit a second diode there, and write it with `replaces {tube.name}.{word}`",
            why=f"{listed(fitted)} {'replace' if len(fitted) > 1 else 'replaces'} only the other plate",
            touched=Touched(tuple(graph.point(at).name for at in plates), (tube.name,), tuple(nets)),
        )


RULE = Rule("plate-left-out", Grade.STOP, _check, __doc__, About.ITSELF)
