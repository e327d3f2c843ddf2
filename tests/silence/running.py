"""States made by hands, what the oracle says of them, and what the program says."""

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.campaign.reading import chassis_of
from tests.paper import compared, compared_three
from tests.silence.forms import Work, sound_work
from tests.silence.hands import SLIPS
from tests.silence.oracle import Harm, harms, powered
from tests.silence.sets import SETS

__all__ = ["Tally", "Trial", "destructive_trials", "sound_trials", "tally"]

GRAVE, LOOK = Grade.STOP, Grade.LOOK
UNMENDED = 0.5  # of the works on a chassis that was found with a slip


@dataclass(frozen=True, slots=True)
class Trial:
    """A state of a set, how it came about, and what it does to itself; ``found`` where there are three files."""

    set: str
    slip: str
    text: str
    harms: tuple[Harm, ...]
    found: str = ""

    @property
    def report(self) -> Report:
        """What the program says of it."""
        if self.found:
            return compared_three(SETS[self.set], self.found, self.text)
        return compared(SETS[self.set], self.text)


@dataclass
class Tally:
    """Counts; ``shown`` are the trials that went wrong, with what was said of each."""

    destructive: int = 0
    silent: int = 0
    stopped: int = 0
    sound: int = 0
    false_stop: int = 0
    false_look: int = 0
    unbuilt: int = 0
    by_slip: dict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    shown: list[tuple[str, Trial, tuple[str, ...]]] = field(default_factory=list)

    def summary(self) -> dict[str, float]:
        """The figures that count, shares of the destructive and of the sound ones."""
        return {
            "destructive": self.destructive,
            "silent": self.silent,
            "told_as_stop": round(self.stopped / max(self.destructive, 1), 4),
            "sound": self.sound,
            "false_stop": self.false_stop,
            "false_look": round(self.false_look / max(self.sound, 1), 4),
        }


def tally(trials: int, seed: int) -> Tally:
    """So many destructive states, and half as many sound ones."""
    count = Tally()
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    for trial in destructive_trials(trials, rng):
        _count_destructive(count, trial)
    for trial in sound_trials(max(trials // 2, 1), rng):
        _count_sound(count, trial)
    return count


def sound_trials(count: int, rng: Random) -> Iterator[Trial]:
    """Rightly rewired states, the sets in turn."""
    names = sorted(SETS)
    for number in range(count):
        name = names[number % len(names)]
        work = _readable(name, rng)
        yield Trial(name, work.form, work.text(rng), (), work.found)


def destructive_trials(count: int, rng: Random) -> Iterator[Trial]:
    """States with one slip that the oracle finds destructive, all kinds of slip and all sets alike."""
    kinds, names, made = sorted(SLIPS), sorted(SETS), 0
    while made < count:
        trial = _slipped(rng.choice(names), rng.choice(kinds), rng)
        if trial is not None:
            made += 1
            yield trial


def _readable(name: str, rng: Random) -> Work:
    return next(work for work in (sound_work(name, rng) for _ in range(100)) if _can_be_read(work.log))


def _slipped(name: str, kind: str, rng: Random) -> Trial | None:
    """Work with one slip: the hand's own, or, where there are three files, what was found and not mended."""
    right = _readable(name, rng)
    wrong = right.unmended() if right.mends and rng.random() < UNMENDED else right.slipped(SLIPS[kind], rng)
    if wrong is None or not _can_be_read(wrong.log):
        return None
    found = harms(powered(*wrong.log), powered(*right.log))
    slip = f"as found, {wrong.earlier}" if wrong.lines == right.unmended().lines and right.mends else kind
    return Trial(name, f"{wrong.form}: {slip}", wrong.text(rng), found, wrong.found) if found else None


def _can_be_read(log: tuple[str, ...]) -> bool:
    """Whether every joint of a state is at something that is there: a lead of a part that is out is no place."""
    chassis = chassis_of(*log)
    return all(chassis.owner(node) is not None or node == "chassis" or node.startswith("net:")
               for joint in chassis.joints for node in (joint.a, joint.b))  # fmt: skip


def _count_destructive(count: Tally, trial: Trial) -> None:
    report = trial.report
    if not report.built:
        count.unbuilt += 1
        count.shown.append(("unbuilt", trial, _said(report)))
        return
    count.destructive += 1
    stop, look = (report.count(grade) for grade in (GRAVE, LOOK))
    outcome = "stop" if stop else "look" if look else "silent"
    count.stopped += stop > 0
    count.silent += not stop and not look
    count.by_slip[trial.slip][outcome] += 1
    if not stop:
        count.shown.append((outcome, trial, _said(report)))


def _count_sound(count: Tally, trial: Trial) -> None:
    report = trial.report
    count.sound += 1
    stop, look = (report.count(grade) for grade in (GRAVE, LOOK))
    count.false_stop += stop > 0 or not report.built
    count.false_look += look > 0 and not stop
    if stop or look or not report.built:
        count.shown.append(("false stop" if stop else "false look", trial, _said(report)))


def _said(report: Report) -> tuple[str, ...]:
    return tuple(f"{d.grade.value} {d.rule}: {d.headline}" for d in report.diagnostics)
