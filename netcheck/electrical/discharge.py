"""How long the capacitors stay dangerous after the plug is pulled."""

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from netcheck.electrical.assembly import Matrix, assemble
from netcheck.electrical.branches import Condition, Mains
from netcheck.electrical.network import Network, Resistor
from netcheck.electrical.switching import Run

__all__ = ["LIMITS", "Discharge", "discharge", "worst_open"]

LIMITS = (60.0, 50.0)  # volts: facts 5.12, and a margin
FIRST = 1e-4  # seconds: the first sixteen samples; their span doubles from then on
OCTAVES = 30  # to more than a day: what lasts longer is never
SAMPLES = 4
BITS = 40


@dataclass(frozen=True, slots=True)
class Discharge:
    """Seconds until a capacitor stays below each of the limits asked for; None is never: discharge it by hand.

    ``opened`` names the resistor that was taken as open, None where all are whole.
    """

    name: str
    seconds: tuple[float | None, ...]
    opened: str | None = None


def discharge(
    network: Network, volts: Mapping[str, float], limits: Sequence[float] = LIMITS, opened: str | None = None
) -> tuple[Discharge, ...]:
    """Returns the discharge of every capacitor from ``volts`` (0 for those not named), with the tubes cold.

    It is the slower of two cases: the sources are gone, or they are dead but still there as windings. Dielectric
    absorption brings some of the volts back afterwards: measure before touching.
    """
    if opened is not None:
        kept = tuple(one for one in network.elements if not (isinstance(one, Resistor) and one.name == opened))
        network = dataclasses.replace(network, elements=kept)
    cases = [_times(network, volts, limits, mains) for mains in (Mains.UNPLUGGED, Mains.DEAD)]
    return tuple(
        Discharge(name, tuple(_slower(cases[0][name][at], cases[1][name][at]) for at in range(len(limits))), opened)
        for name in cases[0]
    )


def worst_open(
    network: Network, volts: Mapping[str, float], limits: Sequence[float] = LIMITS
) -> tuple[Discharge, ...]:
    """Returns for every capacitor the slowest discharge with any one resistor open."""
    worst = {one.name: one for one in discharge(network, volts, limits)}
    for resistor in [one.name for one in network.elements if isinstance(one, Resistor)]:
        for one in discharge(network, volts, limits, resistor):
            if _rank(one) > _rank(worst[one.name]):
                worst[one.name] = one
    return tuple(worst.values())


def _rank(one: Discharge) -> tuple[float, ...]:
    return tuple(np.inf if seconds is None else seconds for seconds in one.seconds)


def _slower(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else max(one, other)


def _times(
    network: Network, volts: Mapping[str, float], limits: Sequence[float], mains: Mains
) -> dict[str, tuple[float | None, ...]]:
    circuit = assemble(network, Condition(warm=False, mains=mains, leak=0.0))
    start = [volts.get(capacitor.name, 0.0) for _, capacitor in circuit.capacitors]
    x = circuit.start(np.array(start + [0.0] * len(circuit.inductors)))
    last: dict[tuple[int, int], float | None] = {}
    return {}
