"""Runs netcheck on arbitrary input: ``python -m tests.fuzz --seconds 600 --seed 1``.

Every run is carried out twice, in two processes whose sets iterate in different orders. What is wrong is kept as a
file each under ``--keep``, and the counts are printed, the last line as one JSON object.
"""

import argparse
import json
import sys
import time
from collections import Counter
from hashlib import sha256
from pathlib import Path
from random import Random

from tests.fuzz.commands import drawn
from tests.fuzz.judge import wrongs
from tests.fuzz.mates import Mates
from tests.fuzz.run import Outcome, Run

__all__ = ["main"]

_EVERY = 500


def main() -> int:
    """The command; its exit status says whether all was well."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--seconds", type=float, default=60.0, help="of the clock")
    parser.add_argument("--runs", type=int, default=0, help="stop after so many inputs, whatever the clock says")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, default=Path("fuzz-found"))
    told = parser.parse_args()
    counts = campaign(told.seed, told.seconds, told.runs, told.keep)
    sys.stdout.write(json.dumps(counts) + "\n")
    return 1 if counts["wrong"] else 0


def campaign(seed: int, seconds: float, runs: int, keep: Path) -> dict[str, object]:
    """The counts of all that was run, and what was wrong by its words."""
    dice = Random(seed)  # noqa: S311 - repeated from a seed
    until = time.monotonic() + seconds
    done, spent, wrong, statuses = 0, 0.0, Counter[str](), Counter[str]()
    with Mates() as mates:
        while (done < runs) if runs else (time.monotonic() < until):
            run = drawn(dice)
            first, second = mates.both(run)
            done += 1
            spent += first.seconds + second.seconds
            statuses[f"{run.command} {first.status}"] += 1
            for told in wrongs(run, first, second):
                wrong[told.partition(":")[0]] += 1
                _keep(keep, run, told, (first, second))
            if not done % _EVERY:
                sys.stderr.write(f"{done} inputs, {spent:.0f} s of CPU, {dict(wrong)}\n")
    return {
        "seed": seed,
        "inputs": done,
        "runs": 2 * done,
        "cpu_seconds": round(spent),
        "longest": round(mates.longest, 2),
        "megabytes": round(mates.megabytes),
        "statuses": dict(sorted(statuses.items())),
        "wrong": dict(wrong),
    }


def _keep(folder: Path, run: Run, told: str, outcomes: tuple[Outcome, Outcome]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    fault = outcomes[0].fault or outcomes[1].fault
    kind = told.partition(":")[0].replace(" ", "-")
    cause = "".join(line for line in fault.splitlines() if line.startswith('  File "')) or run.as_json()
    name = f"{kind}-{sha256(cause.encode()).hexdigest()[:10]}.json"  # one of each way to a fault
    texts = [line for one in outcomes for line in one.said[1:]] if told == "two runs differ" else []
    document = {"wrong": told, "fault": fault, "said": texts, **json.loads(run.as_json())}
    (folder / name).write_text(json.dumps(document, indent=1) + "\n", encoding="ascii")


if __name__ == "__main__":
    sys.exit(main())
