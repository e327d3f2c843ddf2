"""`python -m tests.soundness --claims N --seed S`: the static engine against the steady-state engine; JSON last."""

import argparse
import json
import sys

from tests.soundness.told import told
from tests.soundness.truth import tally

SUPPLIES = 10  # claims on random networks for every random supply

parser = argparse.ArgumentParser(prog="python -m tests.soundness", description=__doc__)
parser.add_argument("--claims", type=int, default=10_000, help="proven claims on random networks to be simulated")
parser.add_argument("--supplies", type=int, help="random supplies; a tenth of the claims unless said")
parser.add_argument("--classes", type=int, default=300, help="supplies of the classes, held against another oracle")
parser.add_argument("--seed", type=int, default=1)
asked = parser.parse_args()
found = tally(asked.claims, asked.claims // SUPPLIES if asked.supplies is None else asked.supplies, asked.seed)
sys.stdout.write(
    f"{found.drawn} claims drawn; {found.electrolytics} electrolytics, "
    f"{found.reversed_decided} of the {found.reversed} reversed ones decided\n"
)
classes = told(asked.classes, asked.seed)
sys.stdout.write(json.dumps({**found.summary(), **classes.summary()}) + "\n")
