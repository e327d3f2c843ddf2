"""`python -m tests.mains_campaign --trials N --seed S`: random line circuits against solutions of the tests' own."""

import argparse
import json
import sys

from tests.mains_campaign.tally import tally

parser = argparse.ArgumentParser(prog="python -m tests.mains_campaign", description=__doc__)
parser.add_argument("--trials", type=int, default=300)
parser.add_argument("--seed", type=int, default=1)
asked = parser.parse_args()
sys.stdout.write(json.dumps(tally(asked.trials, asked.seed).summary()) + "\n")
