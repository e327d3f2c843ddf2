"""Whether the comparison reads the same from both ends: ``python -m tests.swapped --trials 5000 --seed 1``.

For connections alone, swapping the files turns missing into extra and extra into missing. Both states have the same
parts, one has one joint more or one less. Prints the cases that fail and one line of figures at its end.
"""

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

import msgspec

from netcheck.compare.pair import Pair, compared
from netcheck.compare.rules import RULES
from netcheck.core.circuit import Circuit, StateOfWork
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.difference import Merge, Split
from netcheck.core.source import Source
from netcheck.engine.run import run
from netcheck.model.build import build
from tests.campaign.bench import Bench
from tests.campaign.chassis import Chassis
from tests.campaign.kinds import KINDS
from tests.campaign.planted import Spoilt
from tests.campaign.reading import SAMPLES, original_of, rewired_of, text_of
from tests.campaign.rewriting import as_log, as_trace
from tests.campaign.sameness import labels_of, same
from tests.campaign.writing import ORIGINAL, text_for

__all__ = ["EXTRA", "MISSING", "STATES", "Both", "Swapped", "both_ways", "mirrored", "neutral", "swapped_trial"]

MISSING = ("joint-never-made", "wire-left-out", "unbonded")
EXTRA = ("bridge",)
STATES = tuple((sample, state) for sample in SAMPLES for state in ("original", "rewired"))
_TRIES = 40

# What a rule says of one joint; a return that floats is a joint missing from the chassis or the common.
_WORD = {"missing-connection": "missing", "floating-ground": "missing", "extra-connection": "extra"}
_OTHER = {"missing": "extra", "extra": "missing"}


@dataclass(frozen=True, slots=True)
class Both:
    """What is told of two states, the second against the first and the first against the second."""

    forward: tuple[Diagnostic, ...]
    backward: tuple[Diagnostic, ...]
    sides: tuple[frozenset[frozenset[str]], frozenset[frozenset[str]]]

    @property
    def words(self) -> tuple[list[str], list[str]]:
        """Each way's errors and warnings, joints by ``missing`` or ``extra``, all else by its rule."""
        ways = (self.forward, self.backward)
        first, second = (sorted(_WORD.get(d.rule, d.rule) for d in way) for way in ways)
        return first, second


@dataclass(frozen=True, slots=True)
class Swapped:
    """One trial: where the joint was planted and what both ways say."""

    sample: str
    state: str
    kind: str
    what: str
    both: Both

    @property
    def planted(self) -> str:
        """What the state with the fault must show against the one without."""
        return "missing" if self.kind in MISSING else "extra"

    @property
    def holds(self) -> bool:
        """One finding each way, of opposite words, between the same two groups of parts."""
        forward, backward = self.both.words
        one, other = self.both.sides
        return forward == [self.planted] and backward == mirrored(forward) and one == other


def mirrored(words: list[str]) -> list[str]:
    """The words with missing and extra exchanged."""
    return sorted(_OTHER.get(word, word) for word in words)


def both_ways(one: Circuit, other: Circuit) -> Both:
    """Compares two circuits in both orders; their states of work are not asked for."""
    first, second = neutral(one), neutral(other)
    pairs = compared(first, second), compared(second, first)
    forward, backward = (tuple(d for d in run(RULES, p) if d.grade is not Grade.NOTE) for p in pairs)
    return Both(forward, backward, (_sides(pairs[0]), _sides(pairs[1])))


def neutral(circuit: Circuit) -> Circuit:
    """A circuit that says nothing of how it came about: no order of states, no declared changes."""
    parts = {n: msgspec.structs.replace(p, replaces=(), inserted=None, added=None) for n, p in circuit.parts.items()}
    return msgspec.structs.replace(
        circuit, state=StateOfWork.UNSAID, parts=parts, removals=(), intended=(), acceptances=(), covers=(), taken=()
    )


def _sides(pair: Pair) -> frozenset[frozenset[str]]:
    """The two groups of every joint that is missing or extra, by part: which end of a free part is not told."""
    found: set[frozenset[str]] = set()
    for fault in pair.faults:
        if isinstance(fault, Split):
            found |= {frozenset(lead.part for lead in group) for group in (fault.leads, fault.rest)}
        elif isinstance(fault, Merge):
            found |= {frozenset(lead.part for lead in group) for group in (fault.leads, fault.others)}
    return frozenset(found)


def swapped_trial(sample: str, state: str, kind: str, rng: Random) -> Swapped | None:
    """A state written freely, without and with one planted joint; None where it has no place for that kind."""
    original = original_of(sample)
    for _ in range(_TRIES):
        clean = _undeclared(rng.choice((as_log, as_trace))(_state(sample, state), rng))
        bench = Bench(clean.copy(), original, rng)
        try:
            fault = KINDS[kind](bench)
        except Spoilt:
            continue
        if not same(bench.before, bench.labels, bench.after, labels_of(bench.chassis)):
            circuits = [_circuit(sample, text_for(chassis, original, rng)) for chassis in (clean, bench.chassis)]
            return Swapped(sample, state, kind, fault.what, both_ways(*circuits))
    return None


def _state(sample: str, state: str) -> Chassis:
    if state == "rewired":
        return rewired_of(sample)
    chassis = original_of(sample)
    chassis.parts = {name: replace(part, own=False) for name, part in chassis.parts.items()}
    chassis.lines = ()
    return chassis


def _undeclared(chassis: Chassis) -> Chassis:
    """The state with its parts taken as they are: every one is compared under its own name."""
    parts = {name: replace(part, claim="", olds=(), reason="") for name, part in chassis.parts.items()}
    return replace(chassis, parts=parts, lines=(), covers=frozenset())


def _circuit(sample: str, text: str) -> Circuit:
    source = Source(ORIGINAL, text_of(sample, "original"))
    circuit, problems = build(Source("state.netck", text), lambda _asker, _path: source)
    if circuit is None:
        raise ValueError(problems[0].headline)
    return circuit


def main() -> None:
    """The command."""
    parser = argparse.ArgumentParser(prog="python -m tests.swapped", description=__doc__)
    parser.add_argument("--trials", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--show", type=int, default=5, help="so many failing cases are printed")
    told = parser.parse_args()
    trials = list(_trials(told.trials, told.seed))
    failed = [trial for trial in trials if not trial.holds]
    sys.stdout.writelines(_shown(trial) for trial in failed[: told.show])
    figures = {
        "trials": len(trials),
        "kinds": dict(sorted(Counter(trial.kind for trial in trials).items())),
        "held": round(1 - len(failed) / len(trials), 5) if trials else 1.0,
        "failed": dict(sorted(Counter(trial.kind for trial in failed).items())),
    }
    sys.stdout.write(json.dumps(figures) + "\n")


def _trials(count: int, seed: int) -> Iterator[Swapped]:
    rng = Random(seed)  # noqa: S311 - trials are repeated from a seed
    kinds = (*MISSING, *EXTRA)
    done = 0
    while done < count:
        drawn = swapped_trial(*rng.choice(STATES), kinds[done % len(kinds)], rng)
        if drawn is not None:
            done += 1
            yield drawn


def _shown(trial: Swapped) -> str:
    lines = [f"--- {trial.kind} in {trial.sample} ({trial.state}): {trial.what}"]
    for way, found in (("as it is", trial.both.forward), ("swapped", trial.both.backward)):
        lines += [f"    {way}: {d.grade.value} {d.rule}: {d.headline}" for d in found] or [f"    {way}: nothing"]
    one, other = trial.both.sides
    if one != other:
        lines.append(f"    between {_groups(one - other)} or {_groups(other - one)}")
    return "\n".join(lines) + "\n"


def _groups(sides: frozenset[frozenset[str]]) -> str:
    return " and ".join(" ".join(sorted(group)) or "the chassis" for group in sorted(sides, key=sorted))


if __name__ == "__main__":
    main()
