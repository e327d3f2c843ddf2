"""Runs the campaign: ``python -m tests.bench_volts_campaign --trials 100 --seed 1``; its last line is one JSON object.

A failure is seen where a voltage is outside its limits; figures are shares of those. What would cool a heater is not
planted: the tests' engine has its tubes hot.
"""

import argparse
import json
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from random import Random

from netcheck.bench.filled_in import filled_in
from netcheck.bench.volts_explain import VoltsTold, volts_explained
from netcheck.bench.volts_read import VoltsRead, wrong_volts
from netcheck.core.source import Source
from tests.bench_volts_campaign.planting import KINDS, Planted, planted
from tests.bench_volts_campaign.sets import SAMPLES, Measured, Set, measured, set_of, spread

__all__ = ["clean", "figures", "one"]

METER = 0.01
COOLER = 0.05  # of a heater's volts


def main() -> None:
    """Prints a line for each miss, then the figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench_volts_campaign", description=__doc__)
    parser.add_argument("--trials", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    random = Random(asked.seed)  # noqa: S311 - trials are repeated
    sets = [set_of(name) for name in SAMPLES]
    counts: Counter[str] = Counter()
    for trial in range(asked.trials):
        one(counts, sets[trial % len(sets)], random)
    sys.stdout.write(json.dumps(figures(counts)) + "\n")


def one(counts: Counter[str], each: Set, random: Random) -> None:
    """A healthy set and the same with one failure, both read and explained."""
    off = spread(each, random)
    whole = measured(each, each.chassis, off)
    clean(counts, each, sheet(each, whole, random))
    failure = planted(each, random.choice(KINDS), random)
    if failure is None:
        return
    after = measured(each, failure.chassis, off, failure.dead)
    if _cooled(whole, after):
        counts["cooled"] += 1
        return
    judge(counts, each, failure, sheet(each, after, random))


def _cooled(whole: Measured, after: Measured) -> bool:
    return any(abs(after.heaters.get(name, 0.0) - volts) > COOLER * volts for name, volts in whole.heaters.items())


def sheet(each: Set, volts: Measured, random: Random) -> tuple[VoltsRead, ...]:
    """The sheet filled in: three figures with the meter's error, and read back."""
    seen = {point: volt * random.uniform(1 - METER, 1 + METER) for point, volt in volts.volts.items()}
    rows = "".join(f"{point},,{float(f'{volt:.3g}'):.2f},volts\n" for point, volt in seen.items())
    return filled_in(each.plan, Source("readings.csv", f"red,black,reading,table\n{rows}")).volts


def clean(counts: Counter[str], each: Set, read: Sequence[VoltsRead]) -> None:
    """Counts a healthy set that is told as failed."""
    wrong = [one for one in wrong_volts(each.found, read) if one.expected]
    counts["clean"] += 1
    counts["clean alarms"] += bool(wrong)
    if wrong:
        said = "; ".join(f"{one.name} {one.read.reading.text}, not {one.expected}" for one in wrong)
        sys.stdout.write(f"FALSE ALARM {each.name}: {said}\n")


def judge(counts: Counter[str], each: Set, failure: Planted, read: Sequence[VoltsRead]) -> None:
    """Counts where the failure is among the explanations."""
    counts["planted"] += 1
    counts[f"of {failure.kind}"] += 1
    if not any(one.expected for one in wrong_volts(each.found, read)):
        return
    counts["seen"] += 1
    counts[f"seen {failure.kind}"] += 1
    told = volts_explained(each.graph, each.found, read)
    place = place_of(told, failure)
    beside = told.causes[:3] if told is not None else ()
    pairs = [half for one in beside for half in one.failure.subject.split(" and ")]
    counts["named"] += any(_subject(half) in failure.names for half in pairs)
    counts["top1"] += place == 0
    counts["top3"] += place < 3
    counts[f"top3 {failure.kind}"] += place < 3
    certain = told is not None and told.alone
    counts["certain"] += certain
    counts["certain and wrong"] += certain and place != 0
    if place >= 3 or (certain and place):
        said = " | ".join(one.failure.words for one in told.causes[:4]) if told else "nothing explained"
        sys.stdout.write(
            f"{'CERTAIN AND WRONG' if certain else 'missed'} {each.name}, {failure.kind}: {failure.what}: {said}\n"
        )


def place_of(told: VoltsTold | None, failure: Planted) -> int:
    """The place of the first explanation by the planted failure alone; beyond all where there is none."""
    causes = told.causes if told is not None else ()
    found = (
        at for at, one in enumerate(causes) if not one.failure.two and _subject(one.failure.subject) in failure.names
    )
    return next(found, len(causes) + 3)


def _subject(words: str) -> str:
    return words.removeprefix("draws ").partition(" ")[0]


def figures(counts: Mapping[str, int]) -> dict[str, object]:
    """Shares of what was seen; what stayed within the sheet's limits as a share of all."""
    seen = max(counts["seen"], 1)
    kinds = {kind: f"{counts[f'top3 {kind}']}/{counts[f'seen {kind}']}" for kind in KINDS}
    return {
        "planted": counts["planted"], "seen": counts["seen"], "top1": round(counts["top1"] / seen, 3),
        "top3": round(counts["top3"] / seen, 3), "top3_or_beside_another": round(counts["named"] / seen, 3),
        "certain": round(counts["certain"] / seen, 3),
        "silent": round(1 - seen / max(counts["planted"], 1), 3), "top3_by_kind": kinds, "clean": counts["clean"],
        "clean_false_alarms": counts["clean alarms"], "certain_and_wrong": counts["certain and wrong"],
    }  # fmt: skip


if __name__ == "__main__":
    main()
