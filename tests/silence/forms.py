"""The forms in which a state is written: a work log, a trace, either of them on a chassis as it was found."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from tests.silence.conversions import HEAD, accepted_value, sound_state
from tests.silence.earlier import EARLIER
from tests.silence.earlier import HEAD as FOUND
from tests.silence.hands import Slip
from tests.silence.sets import SETS
from tests.silence.traces import traced

__all__ = ["Work", "sound_work"]

ACCEPTING = 0.25  # of the states have something accepted: it must silence nothing else
TRACED, ON_FOUND = 0.3, 0.3


@dataclass(frozen=True, slots=True)
class Work:
    """What was done to a set: its lines as a log, those that mend what was ``found``, and whether it is traced."""

    set: str
    lines: tuple[str, ...]
    is_trace: bool = False
    found: str = ""
    earlier: str = ""
    mends: tuple[str, ...] = ()

    @property
    def form(self) -> str:
        """In words."""
        return f"{'three files, ' if self.found else ''}{'trace' if self.is_trace else 'log'}"

    @property
    def log(self) -> tuple[str, ...]:
        """The drawing and what was done since, as logs that the tests' reader takes."""
        return (*self._before, _joined(self._whole))

    @property
    def _before(self) -> tuple[str, ...]:
        return (SETS[self.set], *([self.found] if self.found else []))

    @property
    def _whole(self) -> tuple[str, ...]:
        return (*self.lines, *self.mends)

    def text(self, rng: Random) -> str:
        """The file of the work."""
        lines = traced(self._before, self._whole, rng) if self.is_trace else self._whole
        return _joined(line.replace("original.netck", "found.netck") if self.found else line for line in lines)

    def unmended(self) -> "Work":
        """The same with what was found left as it was."""
        return replace(self, mends=())

    def slipped(self, slip: Slip, rng: Random) -> "Work | None":
        """With a slip of the hand, if there is anything that it could happen to."""
        lines = slip(self.lines, SETS[self.set], rng)
        return None if lines is None or lines == self.lines else replace(self, lines=lines)


def sound_work(name: str, rng: Random) -> Work:
    """Work rightly done; in one state of four with a value that is not the drawing's, and accepted."""
    lines = sound_state(name, rng)
    if rng.random() < ACCEPTING:
        lines = (*lines, *accepted_value(lines, SETS[name], rng))
    work = Work(name, lines, is_trace=rng.random() < TRACED)
    return _on_found(work, rng) if rng.random() < ON_FOUND else work


def _on_found(work: Work, rng: Random) -> Work:
    """The same work on a chassis in which an earlier hand slipped, which is mended with it."""
    kind = rng.choice(sorted(EARLIER))
    taken = frozenset(re.findall(r"[A-Z]+\d+[A-Z]?", " ".join(work.lines[len(HEAD) :])))
    left = EARLIER[kind](SETS[work.set], taken, rng)
    if left is None:
        return work
    slip, mends = left
    return replace(work, found=_joined((*FOUND, *slip)), earlier=kind, mends=mends)


def _joined(lines: "Iterator[str] | tuple[str, ...]") -> str:
    return "\n".join(lines) + "\n"
