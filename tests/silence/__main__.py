"""`python -m tests.silence --trials N --seed S`: destructive and sound states, and what is said of them; JSON last."""

import argparse
import json
import sys

from tests.silence.running import tally

parser = argparse.ArgumentParser(prog="python -m tests.silence", description=__doc__)
parser.add_argument("--trials", type=int, default=1000, help="destructive states; half as many sound ones")
parser.add_argument("--seed", type=int, default=1)
parser.add_argument("--show", type=int, default=0, help="so many of the states that were judged wrongly")
asked = parser.parse_args()
found = tally(asked.trials, asked.seed)
for outcome, trial, said in found.shown[: asked.show]:
    sys.stdout.write(f"\n== {outcome}: {trial.set}, {trial.slip}\n")
    for harm in trial.harms:
        sys.stdout.write(f"   {harm.what} {harm.part} {harm.figure:.3g}\n")
    sys.stdout.write("".join(f"   | {line}\n" for line in trial.text.splitlines()))
    sys.stdout.write("".join(f"   > {line}\n" for line in said))
for slip, outcomes in sorted(found.by_slip.items()):
    sys.stdout.write(f"{slip}: {dict(outcomes)}\n")
if found.unbuilt:
    sys.stdout.write(f"{found.unbuilt} states were not built and are not counted\n")
sys.stdout.write(json.dumps(found.summary()) + "\n")
