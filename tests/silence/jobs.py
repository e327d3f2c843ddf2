"""Jobs as a few lines of a work log, with a choice of values: a bar separates them."""

from collections.abc import Callable, Sequence
from random import Random

__all__ = ["Job", "all_of", "changed", "either"]

Job = Callable[[Random], Sequence[str]]


def changed(text: str) -> Job:
    """Changes in place, some of them; each line may offer values with a bar between."""
    lines = text.strip().splitlines()

    def job(rng: Random) -> Sequence[str]:
        return [f"change {_picked(line, rng)}" for line in lines if rng.random() < 0.8]

    return job


def all_of(text: str) -> Job:
    """All of the lines, with one of the values that a bar separates."""
    lines = text.strip().splitlines()
    return lambda rng: [_picked(line, rng) for line in lines]


def either(*jobs: Job) -> Job:
    """One of several ways to do the same."""
    return lambda rng: rng.choice(jobs)(rng)


def _picked(line: str, rng: Random) -> str:
    words = line.split("  ")
    return " ".join(rng.choice(word.split("|")).strip() for word in words if word.strip())
