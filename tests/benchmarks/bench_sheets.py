"""What a measuring plan and diagnoses from ohms and from volts cost on the largest sample, beside importing numpy.

Run it from the project's folder: ``python -m tests.benchmarks.bench_sheets``.
"""

import statistics
import sys
import time
from collections.abc import Callable
from random import Random

from netcheck.bench.explain import explained
from netcheck.bench.plan import plan_of
from netcheck.bench.power_up import power_up
from netcheck.bench.readings import Reading, Unit
from netcheck.bench.volts_explain import volts_explained
from netcheck.bench.volts_read import VoltsRead
from netcheck.model.graph import CircuitGraph
from tests.bench_campaign.__main__ import SAMPLES, loaded, written
from tests.bench_campaign.nodal import Real, read, real_of
from tests.benchmarks.whole_run import seconds

RUNS = 7
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
    kinds: tuple[tuple[str, Callable[[], object]], ...] = (
        ("plan", lambda: plan_of(CircuitGraph(circuit))),
        ("one fault", diagnosis(single)),
        ("two faults", diagnosis(single.valued(part, 1e12))),
    )
    kinds += (("volts", _volts(plan.chassis.graph)),)
    sys.stdout.write(f"{len(plan.steps)} steps; importing numpy takes {base * 1000:.0f} ms\n")
    for word, run in kinds:
        took = statistics.median(_timed(run) for _ in range(RUNS))
        sys.stdout.write(f"{word:12} {took * 1000:6.0f} ms   ratio {took / base:5.2f}\n")


def _volts(graph: CircuitGraph) -> Callable[[], object]:
    """Every supply line read, from the second on at a third of its volts."""
    found = power_up(graph)
    read = [
        VoltsRead(one.point, Reading("", volts, volts, Unit.VOLTS), at_half=False)
        for at, one in enumerate(found.lines)
        if one.full is not None
        for volts in (one.full / 3 if at else one.full,)
    ]
    return lambda: volts_explained(CircuitGraph(graph.circuit), found, read)


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
