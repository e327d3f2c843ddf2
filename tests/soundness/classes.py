"""Supplies with what once was told wrongly: both polarities, tubes on alternating current, pairs, starved doublers."""

from collections.abc import Callable, Mapping
from random import Random

from netcheck.electrical.network.elements import Capacitor, Network, Tube, VoltageSource
from tests.supplies import FRONTS, Bench, Drive, section

__all__ = ["CLASSES", "random_class", "two_sided"]


def random_class(rng: Random) -> tuple[str, Network]:
    """A class and a supply of it; its loads are drawn on both sides of the common."""
    name = rng.choice(sorted(CLASSES))
    bench = Bench(rng, negative=False, hertz=rng.choice((50.0, 60.0)))
    CLASSES[name](bench)
    return name, Network(bench.count, tuple(bench.elements))


def _drive(bench: Bench) -> Drive:
    amperes, peak = bench.between(0.005, 0.1), bench.between(80.0, 500.0)
    return Drive(peak, bench.between(0.01, 0.08) * peak / (5 * amperes), amperes, bench.law(amperes))


def _fed(bench: Bench, front: str = "") -> tuple[int, Drive]:
    drive = _drive(bench)
    return FRONTS[front or bench.rng.choice(("half-wave", "centre-tap", "bridge"))](bench, drive), drive


def _both_sides(bench: Bench) -> None:
    """A plus line and, from a winding of its own, a minus line, each filtered and loaded; a load between."""
    nodes = []
    for negative in (False, True):
        bench.negative = negative
        out, drive = _fed(bench)
        after = bench.node()
        bench.resistor(out, after, bench.value(0.02, 0.2 * drive.peak / drive.amperes))
        bench.capacitor(after, 0, bench.farads())
        bench.load(after, 0, drive.amperes * bench.rng.uniform(0.2, 1.0))
        nodes.append(after)
    bench.negative = False
    if bench.rng.random() < 0.5:
        bench.load(nodes[0], nodes[1], 0.001)


def two_sided(rng: Random) -> Network:
    """A plus line and a minus line of any rectifier circuit, filtered by resistors and chokes, bled or not, loaded."""
    bench = Bench(rng, negative=False, hertz=rng.choice((50.0, 60.0)))
    ends = []
    for negative in (False, True):
        bench.negative = negative
        nodes, drive = _filtered(bench)
        for node in nodes:
            if rng.random() < 0.8:
                bench.load(node, 0, drive.amperes * rng.uniform(0.1, 1.0) / len(nodes))
            if rng.random() < 0.5:
                bench.resistor(node, 0, bench.value(20e3, 500e3))
        ends.append(nodes[-1])
    bench.negative = False
    if rng.random() < 0.5:
        bench.load(ends[0], ends[1], 0.001)
    return Network(bench.count, tuple(bench.elements))


def _filtered(bench: Bench) -> tuple[list[int], Drive]:
    first, drive = _fed(bench, bench.rng.choice(sorted(FRONTS)))
    nodes = [first]
    for _ in range(bench.rng.randint(0, 2)):
        nodes.append(section(bench, nodes[-1], drive))
    return nodes, drive


def _tube_on_the_winding(bench: Bench) -> None:
    """A tube whose plate hangs on the winding through a resistor, its cathode bypassed: it rectifies."""
    _fed(bench)
    live, plate, cathode = bench.node(), bench.node(), bench.node()
    peak = bench.between(20.0, 300.0)
    bench.source(live, 0, peak, bench.between(10.0, 200.0))
    bench.resistor(live, plate, bench.value(500.0, 50e3))
    bench.load(plate, cathode, bench.between(1e-3, 2e-2))
    bench.elements.append(Tube(bench.name("T"), plate, cathode))
    bench.resistor(cathode, 0, bench.value(200.0, 20e3))
    bench.capacitor(cathode, 0, bench.farads())
    if bench.rng.random() < 0.5:
        bench.capacitor(0, plate, bench.value(1e-6, 1e-5))


def _pair(bench: Bench) -> None:
    """Two electrolytics in series across the output, with resistors across them or not, one turned at times."""
    out, drive = _fed(bench)
    middle = bench.node()
    bench.capacitor(out, middle, bench.farads())
    if bench.rng.random() < 0.4:
        bench.capacitor(0, middle, bench.farads())
    else:
        bench.capacitor(middle, 0, bench.farads())
    if bench.rng.random() < 0.6:
        ohms = bench.value(20e3, 200e3)
        bench.resistor(out, middle, ohms)
        bench.resistor(middle, 0, ohms)
    bench.load(out, 0, drive.amperes)


def _across_alternating(bench: Bench) -> None:
    """An electrolytic on a winding through a resistor, and one between two lines."""
    out, drive = _fed(bench)
    live, behind, other = bench.node(), bench.node(), bench.node()
    bench.source(live, 0, bench.between(10.0, 200.0), bench.between(5.0, 100.0))
    bench.resistor(live, behind, bench.value(50.0, 5e3))
    bench.capacitor(behind, 0, bench.farads())
    bench.resistor(out, other, bench.value(500.0, 20e3))
    bench.capacitor(out, other, bench.farads())
    bench.load(other, 0, drive.amperes / 2)


def _starved(bench: Bench) -> None:
    """A doubler whose capacitors are far too small for what is drawn."""
    drive = _drive(bench)
    kind = bench.rng.choice(("full-wave doubler", "half-wave doubler", "tripler"))
    start = len(bench.elements)
    out = FRONTS[kind](bench, drive)
    for at, one in enumerate(bench.elements[start:], start):
        if isinstance(one, Capacitor):
            farads = bench.value(2e-7, 4e-6)
            bench.elements[at] = Capacitor(one.name, one.plus, one.minus, farads, polarised=True)
    bench.load(out, 0, drive.amperes)


def _battery(bench: Bench) -> None:
    """A battery beside the mains, its plus or its minus towards the rectified line."""
    out, drive = _fed(bench)
    pole = bench.node()
    volts = bench.between(5.0, 1.5 * drive.peak) * bench.rng.choice((1, -1))
    bench.elements.append(VoltageSource(bench.name("B"), pole, 0, volts, 0.0, bench.between(1.0, 50.0)))
    bench.resistor(pole, out, bench.value(200.0, 50e3))
    bench.capacitor(out, 0, bench.farads())
    bench.load(out, 0, drive.amperes / 2)


CLASSES: Mapping[str, Callable[[Bench], None]] = {
    "across alternating current": _across_alternating,
    "battery": _battery,
    "both sides of the common": _both_sides,
    "pair in series": _pair,
    "starved doubler": _starved,
    "tube on the winding": _tube_on_the_winding,
}
