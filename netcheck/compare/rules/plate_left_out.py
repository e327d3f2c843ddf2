"""A plate of a replaced rectifier tube has no diode: half of the winding is lost.

A full-wave tube has two plates, each on its own end of the winding, and takes two diodes. The set runs on with one,
with twice the ripple at half its frequency, all the current through one half of the winding, and less B+. A cathode
that feeds a net of its own is told too.

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
from netcheck.compare.roles.electrodes import ANODES
from netcheck.compare.roles.part_pair import PartPair
from netcheck.compare.words.describe import called, fitting, listed
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for roles, left in pair.pairing.unseated:
        plates = [at for at in left if _key(pair, at).startswith(ANODES)]
        if plates:
            yield _told(pair, roles, plates, "feeds nothing, half the winding is lost", "half the winding is lost")
        cathodes = [at for at in left if at not in plates]
        if cathodes:
            yield _told(pair, roles, cathodes, "is fed by nothing", "what it fed has no supply")


def _told(pair: Pair, roles: PartPair, left: list[int], lost: str, short: str) -> Finding:
    graph = pair.original
    fitted = [part.name for part in roles.new]
    nets = [called(graph, graph.circuit.nets[at], left) for at in left]
    nothing = f"nothing takes the place of {listed([graph.spoken(at) for at in left])}"
    tube, word = graph.point(left[0]).part, _key(pair, left[0])
    return Finding(
        fitting(f"{nothing}: {listed(nets)} {lost}", f"{nothing}: {short}"),
        (Label(roles.new[0].place), Label(graph.said_at(left[0]), "in the original")),
        do=f"fit a second diode there, and write it with `replaces {tube}.{word}`",
        why=f"{listed(fitted)} {'replace' if len(fitted) > 1 else 'replaces'} only the other {word.partition('-')[0]}",
        touched=Touched(tuple(graph.point(at).name for at in left), (tube,), tuple(nets)),
    )


def _key(pair: Pair, at: int) -> str:
    terminal = pair.original.point(at).terminal
    return terminal.key if terminal is not None else ""


RULE = Rule("plate-left-out", Grade.STOP, _check, __doc__, About.ITSELF)
