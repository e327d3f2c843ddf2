"""The named comparison against networkx on the whole graph atlas: ``python -m tests.atlas_full``.

Five relabellings and five renamings of each graph, and every two graphs with equally many edges. Prints what was
tried and ends with status 1 where the two disagree.
"""

import argparse
import sys
from collections import Counter

from tests.atlas import Drawing, are_equal, are_told_equal, dice, drawings, pairs_of_one_size

TRIES = 5


def main() -> int:
    """Runs every pair; the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--nodes", type=int, default=6, help="the most nodes of a graph (at most 7)")
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    rng = dice(given.seed)
    tried: Counter[str] = Counter()

    def judge(kind: str, one: Drawing, other: Drawing) -> None:
        equal = are_equal(one, other)
        tried[f"{kind}, {'equal' if equal else 'different'}"] += 1
        if are_told_equal(one, other, rng) is not equal:
            tried["wrong"] += 1
            sys.stdout.write(f"wrong: {dict(one.ends)} against {dict(other.ends)}\n")

    for drawing in drawings(given.nodes):
        for _ in range(TRIES):
            judge("relabelled", drawing, drawing.relabelled(rng))
            judge("renamed", drawing, drawing.renamed(rng))
    for one, other in pairs_of_one_size(given.nodes):
        judge("two graphs", one, other)
    sys.stdout.writelines(f"{kind}: {count}\n" for kind, count in sorted(tried.items()))
    return int(tried["wrong"] > 0)


if __name__ == "__main__":
    sys.exit(main())
