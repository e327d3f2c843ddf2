"""Tries mutants: ``python -m tests.mutants --room compare --count 60 --seed 1``."""

import argparse
import ast
import difflib
import json
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from itertools import count
from math import inf
from pathlib import Path
from queue import SimpleQueue
from random import Random

from tests.mutants.changes import Change, changed, changes, compiles
from tests.mutants.ready import Try
from tests.mutants.swap import private_constant, statement_of
from tests.mutants.watched import Watched, importers, keep, kept, state
from tests.mutants.workshop import ROOT, Outcome, Workshop

__all__ = ["main", "modules", "within"]

_PATIENCE, _GRACE = 4, 30  # a run may take so many times its sound seconds of processor, and so many more


@dataclass(frozen=True, slots=True)
class Mutant:
    """A change of one module, by its path from the project's folder."""

    module: str
    change: Change

    def difference(self) -> str:
        """The lines before and after."""
        sound = (ROOT / self.module).read_text(encoding="utf-8")
        lines = difflib.unified_diff(sound.splitlines(), changed(sound, self.change).splitlines(), n=0, lineterm="")
        return "\n".join(f"    {line}" for line in list(lines)[3:])


def main(arguments: Sequence[str] | None = None) -> None:
    """The command."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument("--room", required=True, help="a folder of netcheck, or . for the modules outside all of them")
    parser.add_argument("--only", nargs="*", default=[], help="modules or folders in the room, such as rules values.py")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--tests", nargs="*", default=["tests"], help="the test files that count")
    parser.add_argument(
        "--most", type=float, default=inf, help="seconds of tests for a mutant, the quickest of each file first"
    )
    parser.add_argument("--record", type=Path, help="a file that keeps which test runs which line")
    told = parser.parse_args(arguments)
    mutants = _drawn(told.room, told.only, told.count, Random(told.seed))  # noqa: S311 - repeated from a seed
    with tempfile.TemporaryDirectory() as folder, ExitStack() as open_:
        shops = [open_.enter_context(Workshop(Path(folder) / str(n), told.tests)) for n in range(told.jobs)]
        watched = _watched(shops[0], told.record, told.tests)
        outcomes = list(_all(mutants, shops, watched, told.most))
    _sum_up(told.room, told.seed, mutants, outcomes)


def _watched(shop: Workshop, record: Path | None, tests: Sequence[str]) -> Watched:
    """What the record keeps if it is of this very project, else what is watched now."""
    now = state(ROOT, tests)
    found = kept(record, now)
    if found is None:
        found = shop.watched()
        if record is not None:
            keep(found, record, now)
    return found


def _drawn(room: str, only: Sequence[str], number: int, rng: Random) -> list[Mutant]:
    """Kinds in turn, and a place of each kind by chance; no place twice."""
    by_kind: dict[str, list[Mutant]] = defaultdict(list)
    for path in modules(room, only):
        for change in changes(path.read_text(encoding="utf-8")):
            kind = " ".join(change.kind.split()[:2])
            by_kind[kind].append(Mutant(path.relative_to(ROOT).as_posix(), change))
    for mutants in by_kind.values():
        rng.shuffle(mutants)
    found: list[Mutant] = []
    while len(found) < number and any(by_kind.values()):
        drawn = [mutants.pop() for _, mutants in sorted(by_kind.items()) if mutants]
        found += [m for m in drawn if compiles((ROOT / m.module).read_text(encoding="utf-8"), m.change)]
    return found[:number]


def modules(room: str, only: Sequence[str] = ()) -> list[Path]:
    """The modules of a room, or those that bear or lie in one of the names; ``.`` is the modules outside all rooms."""
    folder = ROOT / "netcheck" / room
    found = folder.glob("*.py") if room == "." else folder.rglob("*.py")
    return sorted(path for path in found if not only or set(path.relative_to(folder).parts) & set(only))


def _all(mutants: Sequence[Mutant], shops: Sequence[Workshop], watched: Watched, most: float) -> Iterator[Outcome]:
    free: SimpleQueue[Workshop] = SimpleQueue()
    for shop in shops:
        free.put(shop)

    def one(mutant: Mutant) -> Outcome:
        shop = free.get()
        try:
            return _tried(mutant, shop, watched, most)
        finally:
            free.put(shop)

    with ThreadPoolExecutor(len(shops)) as pool:
        for mutant, outcome in zip(mutants, pool.map(one, mutants), strict=True):
            _print(mutant, outcome)
            yield outcome


def _tried(mutant: Mutant, shop: Workshop, watched: Watched, most: float = inf) -> Outcome:
    change, sound = mutant.change, (ROOT / mutant.module).read_text(encoding="utf-8")
    tree = ast.parse(sound)
    statement = statement_of(tree, change.line, change.last)
    constant = private_constant(tree, statement) if change.at_import and statement is not None else None
    if change.at_import or statement is None:
        others = importers(ROOT, mutant.module) if constant is None else []
        tests = watched.importing(mutant.module, *others)
    else:
        tests = watched.running(mutant.module, statement.lineno)
    if not tests:
        return Outcome(red=False, what="no test runs it")
    tests = within(watched, tests, most, Path(mutant.module).stem)
    seconds = _PATIENCE * sum(watched.seconds[t] for t in tests) + _GRACE
    cold = change.at_import and constant is None
    return shop.tried(Try(mutant.module, sound, changed(sound, change), tests, seconds, constant, cold))


def within(watched: Watched, tests: Sequence[str], most: float, subject: str = "") -> list[str]:
    """For half the seconds tests that bear the subject's name: as a case of a rule, they were made for that code.

    Then the quickest test of each file, the second of each: other files ask other things of the same code. What takes
    longer than the seconds that are left is passed over, since many quick ones still go into them.
    """
    named = [test for test in tests if subject and subject in test.replace("-", "_")]
    first = _in_turn(watched, named, most / 2)
    taken = frozenset(first)
    others = [test for test in tests if test not in taken]
    return first + _in_turn(watched, others, most - sum(watched.seconds[test] for test in first)) or [tests[0]]


def _in_turn(watched: Watched, tests: Sequence[str], left: float) -> list[str]:
    rank: dict[str, Iterator[int]] = defaultdict(count)
    chosen = []
    for _, n in sorted((next(rank[test.partition("::")[0]]), n) for n, test in enumerate(tests)):
        if watched.seconds[tests[n]] <= left:
            chosen.append(tests[n])
            left -= watched.seconds[tests[n]]
    return chosen


def _print(mutant: Mutant, outcome: Outcome) -> None:
    place = f"{mutant.module}:{mutant.change.line} {mutant.change.kind}"
    if outcome.red:
        sys.stdout.write(f"killed    {place}, by {outcome.what}\n")
    else:
        sys.stdout.write(f"SURVIVED  {place} ({outcome.what})\n{mutant.difference()}\n")
    sys.stdout.flush()


def _sum_up(room: str, seed: int, mutants: Sequence[Mutant], outcomes: Sequence[Outcome]) -> None:
    killed = sum(outcome.red for outcome in outcomes)
    survived = [
        f"{m.module}:{m.change.line} {m.change.kind}" for m, o in zip(mutants, outcomes, strict=True) if not o.red
    ]
    share = round(killed / len(outcomes), 3) if outcomes else 1.0
    summary = {"room": room, "seed": seed, "mutants": len(outcomes), "killed": killed, "share": share}
    sys.stdout.write(json.dumps(summary | {"survived": survived}) + "\n")


if __name__ == "__main__":
    main()
