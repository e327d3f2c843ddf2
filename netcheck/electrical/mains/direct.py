"""The direct current that rectifiers make of the line: volts of every net as the capacitors hold them.

With every rectifier open one phasor solution says how far its anode swings against its cathode. The capacitors hold
the cathode above the anode by that peak, as far as the resistances let them: each rectifier is a battery of its peak
behind its own resistance, which never conducts backwards.
"""

from collections.abc import Mapping, Sequence

from msgspec import Struct

from netcheck.electrical.mains.phasor import Admittance, potentials

__all__ = ["Raised", "levels"]

MOST_TURNS = 16  # turns of each rectifier, after which the last levels are taken
TRIFLE = 1e-9  # of the peak, within which a rectifier may be either way


class Raised(Struct, frozen=True):
    """A rectifier between two nodes: it lifts ``cathode`` to ``peak`` volts above ``anode``, behind ``siemens``."""

    name: str
    anode: int
    cathode: int
    peak: float
    siemens: float


def levels(
    branches: Sequence[Admittance], lifts: Sequence[Raised], held: Mapping[int, complex]
) -> tuple[dict[int, complex], tuple[Raised, ...]]:
    """The direct volts of every node, and the rectifiers that conduct.

    Rectifiers are turned one at a time, the first that is wrong (Murty 1974); no current runs backwards in the end.
    """
    on: set[int] = set()
    volts = _solved(branches, (), held)
    for _ in range(MOST_TURNS * (len(lifts) + 1)):
        wrong = next((at for at, lift in enumerate(lifts) if _is_wrong(lift, volts, on=at in on)), None)
        if wrong is None:
            break
        on ^= {wrong}
        volts = _solved(branches, [lifts[at] for at in sorted(on)], held)
    return volts, tuple(lifts[at] for at in sorted(on))


def _is_wrong(lift: Raised, volts: Mapping[int, complex], *, on: bool) -> bool:
    """Whether one that is open has too little across it, or one that conducts more than it lifts."""
    short = lift.peak - (volts.get(lift.cathode, 0j) - volts.get(lift.anode, 0j)).real
    return (-short if on else short) > TRIFLE * max(lift.peak, 1.0)


def _solved(
    branches: Sequence[Admittance], conducting: Sequence[Raised], held: Mapping[int, complex]
) -> dict[int, complex]:
    pushed: dict[int, complex] = {}
    for lift in conducting:
        amperes = lift.peak * lift.siemens
        pushed[lift.cathode] = pushed.get(lift.cathode, 0j) + amperes
        pushed[lift.anode] = pushed.get(lift.anode, 0j) - amperes
    through = [Admittance(lift.name, lift.anode, lift.cathode, complex(lift.siemens)) for lift in conducting]
    return potentials([*branches, *through], held, pushed)
