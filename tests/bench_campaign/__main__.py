"""Runs the campaign: ``python -m tests.bench_campaign --trials 200 --seed 1``; its last line is one JSON object."""

import argparse
import json
import math
import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from random import Random

from netcheck.bench.explain import Diagnosis, Explanation, explained
from netcheck.bench.plan import Plan, plan_of
from netcheck.bench.readings import Reading, reading_of
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Flaw
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read as read_file
from netcheck.system.files import reader
from tests.bench_campaign.nodal import Real, read, real_of
from tests.bench_campaign.planting import KINDS, Planted, planted

SAMPLES = ("harrow-point", "marram", "sallow-street", "skerry", "one-can")
SPREAD, METER = 0.05, 0.01


def main() -> None:
    """Prints a line for each miss, then the figures."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--trials", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    random = Random(asked.seed)  # noqa: S311 - trials are repeated
    sets = [loaded(name) for name in SAMPLES]
    counts: Counter[str] = Counter()
    for trial in range(asked.trials):
        circuit, plan = sets[trial % len(sets)]
        one(counts, circuit, plan, random)
    sys.stdout.write(json.dumps(figures(counts)) + "\n")


def loaded(name: str) -> tuple[Circuit, Plan]:
    """A sample's rewired state and its full plan."""
    source = read_file(Path(__file__).parents[2] / "samples" / name / "rewired.netck")
    circuit, _ = build(source, reader(source))
    if circuit is None:
        raise SystemExit(name)
    return circuit, plan_of(CircuitGraph(circuit))


def one(counts: Counter[str], circuit: Circuit, plan: Plan, random: Random) -> None:
    """A clean chassis, one with a fault and one with two; every chassis with parts of its own."""
    spread = real_of(circuit)
    spread = replace(
        spread, ways=tuple(replace(way, ohms=way.ohms * random.uniform(1 - SPREAD, 1 + SPREAD)) for way in spread.ways)
    )
    clean = diagnosed(plan, spread, random)
    counts["clean"] += 1
    counts["clean alarms"] += bool(clean.wrong)
    first = planted(circuit, spread, random.choice(KINDS), random)
    if first is None:
        return
    judge(counts, "single", [first], diagnosed(plan, first.real, random))
    second = planted(circuit, first.real, random.choice(KINDS), random)
    alone = None if second is None else second.alone(spread)
    if second is None or alone is None:
        return
    both, one_only, other_only = (ohms(plan, real) for real in (second.real, first.real, alone))
    felt = [fault for fault, without in ((first, other_only), (second, one_only)) if is_felt(both, without)]
    counts["double masked"] += len(felt) < 2
    found = diagnosed(plan, second.real, random)
    if felt:
        judge(counts, "double", felt, found)
    else:  # each by itself reads as both do: the same fault twice, so either is the truth
        certainly(counts, [first, second], found)


def ohms(plan: Plan, real: Real) -> list[float]:
    """Every reading of the plan by a perfect meter."""
    names = plan.chassis.names
    return [min(read(real, names[step.red], names[step.black]), 20e6) for step in plan.steps]


def is_felt(both: list[float], without: list[float]) -> bool:
    """Whether a fault changes a reading at all by as much as good parts differ, beside the other fault."""
    return any(abs(math.log((a + 1) / (b + 1))) > math.log(1.3) for a, b in zip(both, without, strict=True))


def diagnosed(plan: Plan, real: Real, random: Random) -> Diagnosis:
    """All readings of the plan as somebody would write them, explained."""
    names = plan.chassis.names
    readings = [written(read(real, names[step.red], names[step.black]), random) for step in plan.steps]
    return explained(plan.chassis, plan.steps, readings)


def written(ohms: float, random: Random) -> Reading:
    """Three figures with the meter's error; above 20 megohm the meter shows nothing."""
    seen = ohms * random.uniform(1 - METER, 1 + METER) + random.uniform(0.05, 0.3)
    text = "OL" if seen > 20e6 else f"{seen:.3g}" if seen < 999 else f"{float(f'{seen:.3g}') / 1000:g} k"
    reading = reading_of(text)
    if reading is None or isinstance(reading, Flaw):
        raise SystemExit(text)
    return reading


def judge(counts: Counter[str], word: str, faults: list[Planted], found: Diagnosis) -> None:
    """Counts where the truth is among the explanations: ties that hold it count as one place."""
    counts[word] += 1
    if not found.wrong:
        counts[f"{word} silent"] += 1
        return
    counts[f"{word} seen"] += 1
    places = [at for at, group in enumerate(found.groups) if any(names(one, faults) for one in group)]
    counts[f"{word} top1"] += bool(places) and places[0] == 0
    counts[f"{word} top3"] += bool(places) and places[0] < 3
    certainly(counts, faults, found)
    counts[f"{word} certain"] += found.certain
    if not places or places[0] >= 3:
        told(f"{word} missed", faults, found)


def certainly(counts: Counter[str], faults: list[Planted], found: Diagnosis) -> None:
    """Counts what is named for certain and is none of the faults."""
    if found.certain and not all(any(hits(slip.words, fault) for fault in faults) for slip in found.ranked[0].slips):
        counts["certain and wrong"] += 1
        told("CERTAIN AND WRONG", faults, found)


def told(word: str, faults: list[Planted], found: Diagnosis) -> None:
    """Says a miss, to look into."""
    truth = "; ".join(f"{fault.kind} {sorted(fault.names)}" for fault in faults)
    said = " | ".join(one.words for one in found.ranked[:4])
    sys.stdout.write(f"{word}: {truth}\n    {len(found.wrong)} wrong; {said}\n")


def names(one: Explanation, faults: list[Planted]) -> bool:
    """Whether an explanation names every fault."""
    return all(any(hits(slip.words, fault) for slip in one.slips) for fault in faults)


def hits(words: str, fault: Planted) -> bool:
    """Whether a sentence has the names of a fault: for a moved lead that lead and one of its lugs."""
    said = set(words.replace(",", " ").replace(";", " ").split())
    found = [name for name in fault.names if name in said or (" " in name and name in words)]
    return len(found) >= min(len(fault.names), 2)


def figures(counts: Counter[str]) -> dict[str, object]:
    """Shares of what could be seen; silent ones as a share of all."""
    found: dict[str, object] = {}
    for word in ("single", "double"):
        seen = max(counts[f"{word} seen"], 1)
        found[word] = {
            "top1": round(counts[f"{word} top1"] / seen, 3),
            "top3": round(counts[f"{word} top3"] / seen, 3),
            "certain": round(counts[f"{word} certain"] / seen, 3),
            "silent": round(counts[f"{word} silent"] / max(counts[word], 1), 3),
        }
    return {**found, "clean_false_alarms": counts["clean alarms"], "certain_and_wrong": counts["certain and wrong"]}


if __name__ == "__main__":
    main()
