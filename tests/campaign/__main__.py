"""Runs the campaign: ``python -m tests.campaign --trials 5000 --seed 1``."""

import argparse
import json
import sys

from tests.campaign.kinds import KINDS
from tests.campaign.running import CIRCUITS, Shower, campaign

__all__ = ["main"]


def main(arguments: list[str] | None = None) -> None:
    """The command."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaign", description=__doc__)
    parser.add_argument("--trials", type=int, default=500, help="N single, N multiple and 2N/5 equivalent trials")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", choices=["none", *sorted(KINDS)], help="faults of this kind only, or none")
    parser.add_argument("--show", type=int, default=0, help="print the first misses of each kind")
    parser.add_argument("--texts", action="store_true", help="with the netlist of each miss shown")
    parser.add_argument("--circuits", choices=CIRCUITS, default="samples", help="the samples, fresh ones, or half each")
    told = parser.parse_args(arguments)
    kinds = tuple(KINDS) if told.kind is None else tuple(k for k in KINDS if k == told.kind)
    shower = Shower(told.show, texts=told.texts) if told.show else None
    tally = campaign(told.trials, told.seed, kinds, shower, told.circuits)
    sys.stdout.write(json.dumps(tally.summary()) + "\n")


if __name__ == "__main__":
    main()
