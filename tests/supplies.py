"""Random power supplies of the kinds found under old chassis, made without the engines that they try."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from random import Random

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)

VALUES = (1.0, 1.5, 2.2, 3.3, 4.7, 6.8)  # the E6 steps
PERVEANCE_CORNERS = ((0.02, 0.0), (0.19, 0.07), (0.53, 0.37), (1.0, 1.0))  # a 3/2-power law in rough chords


@dataclass
class Bench:
    """A supply under construction; ``negative`` turns every polarity round, as in a bias supply."""

    rng: Random
    negative: bool
    hertz: float
    count: int = 1
    elements: list[Element] = field(default_factory=list)

    def node(self) -> int:
        self.count += 1
        return self.count - 1

    def name(self, letter: str) -> str:
        return f"{letter}{len(self.elements) + 1}"

    def between(self, low: float, high: float) -> float:
        return math.exp(self.rng.uniform(math.log(low), math.log(high)))

    def value(self, low: float, high: float) -> float:
        rough = self.between(low, high)
        decade = 10.0 ** math.floor(math.log10(rough))
        return float(f"{max(step * decade for step in VALUES if step * decade <= rough):.3g}")

    def source(self, plus: int, minus: int, peak: float, ohms: float) -> None:
        self.elements.append(VoltageSource(self.name("W"), plus, minus, peak, self.hertz, ohms, rise=0.05))

    def rectifier(self, anode: int, cathode: int, law: Conduction) -> None:
        ends = (cathode, anode) if self.negative else (anode, cathode)
        self.elements.append(Rectifier(self.name("CR"), *ends, law))

    def capacitor(self, high: int, low: int, farads: float) -> None:
        ends = (low, high) if self.negative else (high, low)
        self.elements.append(Capacitor(self.name("C"), *ends, farads, polarised=True, volts=450.0))

    def resistor(self, a: int, b: int, ohms: float) -> None:
        self.elements.append(Resistor(self.name("R"), a, b, ohms))

    def choke(self, a: int, b: int, henries: float, ohms: float) -> None:
        self.elements.append(Inductor(self.name("L"), a, b, henries, ohms, self.between(50e3, 300e3)))

    def load(self, high: int, low: int, amperes: float) -> None:
        ends = (low, high) if self.negative else (high, low)
        self.elements.append(Load(self.name("V"), *ends, amperes, self.between(5.0, 50.0)))

    def law(self, amperes: float) -> Conduction:
        kind = self.rng.randrange(3)
        if kind == 0:
            return Conduction(((0.7, 0.0), (0.75, 1.0)))
        if kind == 1:
            plates = self.rng.randint(3, 12)
            return Conduction(((1.0 * plates, 0.0), (4.0 * plates, 1.0)))
        volts = self.between(40.0, 250.0)
        return Conduction(tuple((volts * drop, 6 * amperes * share) for drop, share in PERVEANCE_CORNERS))

    def farads(self) -> float:
        return self.value(4e-6, 100e-6)


@dataclass(frozen=True)
class Drive:
    """``peak`` volts behind ``ohms`` for a supply that is to give ``amperes``; one law for all its rectifiers."""

    peak: float
    ohms: float
    amperes: float
    law: Conduction


def random_supply(rng: Random) -> Network:
    """Returns a supply with one of six rectifier circuits, up to four filter sections, bleeders and loads.

    Every capacitor is polarised and the right way round, if its supply is not so loaded that its ripple reverses it.
    """
    bench = Bench(rng, negative=rng.random() < 0.25, hertz=rng.choice((50.0, 60.0)))
    amperes, peak = bench.between(0.005, 0.15), bench.between(60.0, 600.0)
    drive = Drive(peak, bench.between(0.01, 0.1) * peak / (5 * amperes), amperes, bench.law(amperes))
    first = FRONTS[rng.choice(sorted(FRONTS))](bench, drive)
    nodes = [first]
    for _ in range(rng.randint(0, 4)):
        nodes.append(section(bench, nodes[-1], drive))
    shares = [rng.random() for _ in nodes]
    for node, share in zip(nodes, shares, strict=True):
        if rng.random() < 0.8:
            bench.load(node, 0, amperes * share / sum(shares))
        if rng.random() < 0.3:
            bench.resistor(node, 0, bench.value(20e3, 500e3))
    return Network(bench.count, tuple(bench.elements))


def section(bench: Bench, before: int, drive: Drive) -> int:
    after = bench.node()
    if bench.rng.random() < 0.4:
        bench.choke(before, after, bench.between(2.0, 20.0), bench.between(0.01, 0.1) * drive.peak / drive.amperes)
    else:
        bench.resistor(before, after, bench.value(0.02, 0.3 * drive.peak / drive.amperes))
    bench.capacitor(after, 0, bench.farads())
    if bench.rng.random() < 0.2:
        bench.capacitor(after, 0, bench.farads())
    return after


def _reservoir(bench: Bench, node: int, drive: Drive) -> int:
    """A first filter capacitor, behind a surge resistor now and then."""
    if bench.rng.random() < 0.3:
        behind = bench.node()
        bench.resistor(node, behind, bench.value(10.0, 200.0))
        node = behind
    bench.capacitor(node, 0, bench.farads())
    if bench.rng.random() < 0.3:
        bench.resistor(node, 0, bench.value(5.0, 100.0) * drive.peak / drive.amperes)
    return node


def _half_wave(bench: Bench, drive: Drive) -> int:
    line, out = bench.node(), bench.node()
    bench.source(line, 0, drive.peak, drive.ohms)
    bench.rectifier(line, out, drive.law)
    return _reservoir(bench, out, drive)


def _input(bench: Bench, node: int, drive: Drive) -> int:
    """What a full-wave rectifier feeds: a capacitor or a choke."""
    return section(bench, node, drive) if bench.rng.random() < 0.2 else _reservoir(bench, node, drive)


def _centre_tap(bench: Bench, drive: Drive) -> int:
    top, bottom, out = bench.node(), bench.node(), bench.node()
    bench.source(top, 0, drive.peak, drive.ohms)
    bench.source(0, bottom, drive.peak, drive.ohms)
    bench.rectifier(top, out, drive.law)
    bench.rectifier(bottom, out, drive.law)
    return _input(bench, out, drive)


def _bridge(bench: Bench, drive: Drive) -> int:
    top, bottom, out = bench.node(), bench.node(), bench.node()
    bench.source(top, bottom, drive.peak, drive.ohms)
    for winding in (top, bottom):
        bench.rectifier(winding, out, drive.law)
        bench.rectifier(0, winding, drive.law)
    return _input(bench, out, drive)


def _full_wave_doubler(bench: Bench, drive: Drive) -> int:
    top, middle, out = bench.node(), bench.node(), bench.node()
    bench.source(top, middle, drive.peak, drive.ohms)
    bench.rectifier(top, out, drive.law)
    bench.rectifier(0, top, drive.law)
    bench.capacitor(out, middle, bench.farads())
    bench.capacitor(middle, 0, bench.farads())
    return out


def _cascade(bench: Bench, drive: Drive) -> tuple[int, int, int]:
    """Returns line, the middle of the two rectifiers, and the output of a half-wave doubler."""
    line, middle, out = bench.node(), bench.node(), bench.node()
    bench.source(line, 0, drive.peak, drive.ohms)
    bench.capacitor(middle, line, bench.farads())
    bench.rectifier(0, middle, drive.law)
    bench.rectifier(middle, out, drive.law)
    bench.capacitor(out, 0, bench.farads())
    return line, middle, out


def _half_wave_doubler(bench: Bench, drive: Drive) -> int:
    return _cascade(bench, drive)[2]


def _tripler(bench: Bench, drive: Drive) -> int:
    _, middle, out = _cascade(bench, drive)
    top = bench.node()
    bench.capacitor(top, middle, bench.farads())
    bench.rectifier(out, top, drive.law)
    last = bench.node()
    bench.resistor(top, last, bench.value(100.0, 2000.0))
    return last


FRONTS: Mapping[str, Callable[[Bench, Drive], int]] = {
    "half-wave": _half_wave,
    "centre-tap": _centre_tap,
    "bridge": _bridge,
    "full-wave doubler": _full_wave_doubler,
    "half-wave doubler": _half_wave_doubler,
    "tripler": _tripler,
}
