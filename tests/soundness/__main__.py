"""`python -m tests.soundness --claims N --seed S`: proofs and verdicts against what runs; JSON last."""

import argparse
import json
import sys

from tests.soundness.summary import summary
from tests.soundness.told import of_classes, of_supplies
from tests.soundness.truth import tally
from tests.soundness.unsaid import of_netlists

SUPPLIES = 10  # claims on random networks for every random supply

parser = argparse.ArgumentParser(prog="python -m tests.soundness", description=__doc__)
parser.add_argument("--claims", type=int, default=10_000, help="proven claims on random networks to be simulated")
parser.add_argument("--supplies", type=int, help="random supplies; a tenth of the claims unless said")
parser.add_argument("--classes", type=int, default=300, help="supplies of the classes that once were told wrongly")
parser.add_argument("--netlists", type=int, default=100, help="netlists that leave a value or a switch unsaid")
parser.add_argument("--seed", type=int, default=1)
asked = parser.parse_args()
claims = tally(asked.claims, asked.seed)
supplies = of_supplies(asked.claims // SUPPLIES if asked.supplies is None else asked.supplies, asked.seed)
classes = of_classes(asked.classes, asked.seed)
sys.stdout.write(
    f"{claims.drawn} claims drawn; {supplies.electrolytics + classes.electrolytics} electrolytics, "
    f"{supplies.reversed_decided} of the {supplies.reversed} reversed ones decided\n"
)
sys.stdout.write(json.dumps(summary(claims, supplies, classes, of_netlists(asked.netlists, asked.seed))) + "\n")
