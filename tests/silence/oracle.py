"""What a state does to itself when it is powered, by the engine of the tests' own."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from tests.campaign.reading import chassis_of
from tests.silence.elements import Capacitor, Diode, Resistor, Source, Wired
from tests.silence.engine import SMALLEST, Course, simulated
from tests.silence.touch import touched
from tests.silence.wiring import LINE, wired

__all__ = ["Harm", "Powered", "harms", "powered"]

TENFOLD, LEAST_AMPERES = 10.0, 0.1  # times the working current; less than that burns nothing
BY_HALF = 1.5  # times a rating
REVERSED = 1.0  # volts: a formed electrolytic takes that
USELESS, LEAST_LINE = 10.0, 0.1  # times what the set takes, and amperes that any set takes
LET_GO = 5e-3  # amperes through a hand


@dataclass(frozen=True, slots=True)
class Powered:
    """A state's figures: effective amperes of each source, and by part the shares of its ratings.

    ``reversed`` are the electrolytics that stand below zero, with their volts.
    """

    amperes: dict[str, float]
    shares: dict[tuple[str, str], float]
    reversed: dict[str, float]
    touch: float


@dataclass(frozen=True, slots=True)
class Harm:
    """One way in which a state destroys itself, or a hand: ``what`` names the measure, ``part`` where."""

    what: str
    part: str
    figure: float


@cache
def powered(original: str, *logs: str) -> Powered:
    """The figures of the state that logs make of a set, warm and (for volts) cold."""
    circuit = wired(chassis_of(original, *logs))
    warm = simulated(circuit)
    cold = simulated(circuit, warm=False, periods=16)
    shares = dict(_shares(circuit, warm, cold))
    shares.update({(name, "fuse"): rated / USELESS / _from_line(circuit, warm) for name, rated in circuit.fuses})
    return Powered(_amperes(circuit, warm), shares, dict(_reversed(circuit, warm)), touched(circuit))


def harms(state: Powered, working: Powered) -> tuple[Harm, ...]:
    """What harms in a state and not in the working set that it should be."""
    return tuple(_harms(state, working))


def _harms(state: Powered, working: Powered) -> Iterator[Harm]:
    usual = max(working.amperes.values(), default=0.0)
    for name, amperes in state.amperes.items():
        if amperes > TENFOLD * max(working.amperes.get(name, usual), LEAST_AMPERES):
            yield Harm("current", name, amperes)
    for (part, what), share in state.shares.items():
        if share > BY_HALF and working.shares.get((part, what), 0.0) < share / 1.1:
            yield Harm(what, part, share)
    for name, volts in state.reversed.items():
        if name not in working.reversed:
            yield Harm("reversed", name, volts)
    if state.touch > LET_GO and working.touch < state.touch / 2:
        yield Harm("touch", "chassis", state.touch)


def _amperes(circuit: Wired, warm: Course) -> dict[str, float]:
    sources = [one for one in circuit.elements if isinstance(one, Source)]
    return {one.name: float(np.sqrt((warm.through(one) ** 2).mean())) for one in sources}


def _from_line(circuit: Wired, warm: Course) -> float:
    """What is taken from the line: the cord's current, and what the windings deliver by its volts."""
    amperes = LEAST_LINE
    for one in (each for each in circuit.elements if isinstance(each, Source)):
        rms = float(np.sqrt((warm.through(one) ** 2).mean()))
        amperes += rms if one.name.endswith(" cord") else rms * abs(one.peak) / math.sqrt(2) / LINE
    return amperes


def _shares(circuit: Wired, warm: Course, cold: Course) -> Iterator[tuple[tuple[str, str], float]]:
    for one in circuit.elements:
        match one:
            case Resistor(rated=float() as rated):
                yield (one.name, "watts"), float((warm.through(one) ** 2).mean() * one.ohms / rated)
            case Capacitor(polar=True, rated=float() as rated) if one.farads >= SMALLEST:
                most = max(np.abs(course.across(one)).max() for course in (warm, cold))
                yield (one.name, "volts"), float(most / rated)
                if one.ripple:
                    yield (one.name, "ripple"), float(np.sqrt((warm.through(one) ** 2).mean()) / one.ripple)
            case Diode():
                if one.mean:
                    yield (one.name, "mean"), float(warm.through(one).mean() / one.mean)
                if one.inverse:
                    most = max(-course.across(one).min() for course in (warm, cold))
                    yield (one.name, "inverse"), float(most / one.inverse)
            case _:
                pass


def _reversed(circuit: Wired, warm: Course) -> Iterator[tuple[str, float]]:
    for one in circuit.elements:
        if isinstance(one, Capacitor) and one.polar and one.farads >= SMALLEST:
            mean = float(warm.across(one).mean())
            if mean < -REVERSED:
                yield one.name, mean
