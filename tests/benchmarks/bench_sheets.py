"""What a measuring plan and diagnoses from ohms and from volts cost on the largest sample, beside importing numpy.

Run it from the project's folder: ``python -m tests.benchmarks.bench_sheets``; it fails where a ratio is above its goal.
The goals are 0.3 s for the plan, 0.5 s for one fault and 2 s for two, on a machine that imports numpy in a tenth.
"""

import statistics
import sys
import time
from collections.abc import Callable, Sequence
from random import Random

from msgspec.structs import replace

from netcheck.bench.explain import explained
from netcheck.bench.plan import plan_of
from netcheck.bench.power_up import Volts, power_up
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_explain import volts_explained
from netcheck.bench.volts_read import VoltsRead
from netcheck.electrical.network.elements import Resistor
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.steady import steady
from netcheck.model.graph import CircuitGraph
from tests.bench_campaign.__main__ import SAMPLES, loaded, written
from tests.bench_campaign.nodal import Real, read, real_of
from tests.benchmarks.whole_run import seconds

RUNS = 7
PLAN, ONE, TWO = 3.0, 5.0, 20.0
NUMPY, NOTHING = (sys.executable, "-c", "import numpy"), (sys.executable, "-c", "pass")


def main() -> None:
    """Prints seconds and ratios: the plan, a chassis with one bridge, one with a bridge and an open part."""
    circuit, plan = max((loaded(name) for name in SAMPLES), key=lambda one: len(one[1].steps))
    names = plan.chassis.names
    real = real_of(circuit)
    part = next(way.name for way in real.ways if way.part.startswith("R") and way.ohms < 1e5)
    lugs = next(pair for pair in _neighbours(plan.chassis.graph, names) if pair[0].startswith("SP"))
    single = real.joined(lugs)

    def diagnosis(chassis: Real) -> Callable[[], object]:
        random = Random(1)  # noqa: S311 - the meter's error
        readings = [written(read(chassis, names[step.red], names[step.black]), random) for step in plan.steps]
        return lambda: explained(plan.chassis, plan.steps, readings)

    base = statistics.median(seconds(NUMPY, 0) - seconds(NOTHING, 0) for _ in range(RUNS))
    kinds: tuple[tuple[str, float, Callable[[], object]], ...] = (
        ("plan", PLAN, lambda: plan_of(CircuitGraph(circuit))),
        ("one fault", ONE, diagnosis(single)),
        ("two faults", TWO, diagnosis(single.valued(part, 1e12))),
        ("volts, one", ONE, _volts(plan.chassis.graph, _after_one)),
        ("volts, two", TWO, _volts(plan.chassis.graph, _after_no_one)),
    )
    sys.stdout.write(f"{len(plan.steps)} steps; importing numpy takes {base * 1000:.0f} ms\n")
    slow = False
    for word, most, run in kinds:
        ratio = statistics.median(_timed(run) for _ in range(RUNS)) / base
        sys.stdout.write(f"{word:12} {ratio * base * 1000:6.0f} ms   ratio {ratio:5.2f}, at most {most:g}\n")
        slow = slow or ratio > most
    sys.exit(slow)


def _volts(graph: CircuitGraph, after: Callable[[CircuitGraph, Sequence[Volts]], list[float]]) -> Callable[[], object]:
    """Every supply line read after a failure; what is told of it."""
    found = power_up(graph)
    lines = [one for one in found.lines if one.full is not None]
    read = [
        VoltsRead(one.point, Reading("", volts, volts, Unit.VOLTS), at_half=False)
        for one, volts in zip(lines, after(graph, lines), strict=True)
    ]
    if volts_explained(graph, found, read) is None:
        raise SystemExit("the failure changes no reading")
    return lambda: volts_explained(CircuitGraph(graph.circuit), found, read)


def _after_one(graph: CircuitGraph, lines: Sequence[Volts]) -> list[float]:
    """A short-circuit of 500 ohm on the line of the second most volts, by the engine."""
    translation = network_of(graph)
    at = translation.nodes[graph.circuit.net_of(lines[1].point)]
    more = (*translation.network.elements, Resistor("short", at, 0, 500.0))
    before, now = (steady(replace(translation.network, elements=e)) for e in (translation.network.elements, more))
    nodes = [translation.nodes[graph.circuit.net_of(one.point)] for one in lines]
    return [(one.said or 0.0) * now.nodes[n] / before.nodes[n] for one, n in zip(lines, nodes, strict=True)]


def _after_no_one(_: CircuitGraph, lines: Sequence[Volts]) -> list[float]:
    """A third of the volts on all lines but the first: no failure alone does that."""
    return [(one.full or 0.0) / (3 if at else 1) for at, one in enumerate(lines)]


def _neighbours(graph: CircuitGraph, names: tuple[str, ...]) -> list[tuple[str, str]]:
    circuit = graph.circuit
    found = []
    for name in names:
        at = circuit.index.get(name, 0)
        found += [(name, circuit.points[o].name) for o in graph.beside(at) if circuit.nets[o] != circuit.nets[at]]
    return found


def _timed(run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


if __name__ == "__main__":
    main()
