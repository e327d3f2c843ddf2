"""The current of the line through a hand on the chassis: linear, at the mains' frequency, both ways of the plug."""

import numpy as np
from numpy.typing import NDArray

from tests.silence.elements import Capacitor, Choke, Diode, Element, Resistor, Source, Wired
from tests.silence.wiring import HERTZ, LINE

__all__ = ["touched"]

BODY = 1500.0  # ohms: the service manuals' measuring resistor
CONDUCTS = 50.0  # ohms of a rectifier, which conducts one way half of the time
LEAK = 1e-9


def touched(wired: Wired) -> float:
    """The amperes through a body from the chassis to the earthed blade, for the worse way of an unpolarized plug.

    A polarized plug has the hot blade first.
    """
    if -1 in wired.line or wired.line[0] == wired.line[1]:
        return 0.0
    hot, cold = wired.line
    ways = [(hot, cold)] if wired.polarized else [(hot, cold), (cold, hot)]
    return max(_through_body(wired, *way) for way in ways)


def _through_body(wired: Wired, hot: int, earth: int) -> float:
    matrix: NDArray[np.complex128] = np.eye(wired.count, dtype=np.complex128) * LEAK
    for one in wired.elements:
        admittance = _admittance(one)
        if admittance:
            _stamp(matrix, one.a, one.b, admittance)
    _stamp(matrix, wired.chassis, earth, 1 / BODY)
    _stamp(matrix, hot, earth, 1.0)  # the house wiring
    poured = np.zeros(wired.count, dtype=complex)
    poured[hot] += LINE
    poured[earth] -= LINE
    volts = np.linalg.solve(matrix, poured)
    return float(abs(volts[wired.chassis] - volts[earth]) / BODY)


def _admittance(one: Element) -> complex:
    omega = 2 * np.pi * HERTZ
    match one:
        case Resistor(ohms=ohms):
            return 1 / ohms
        case Capacitor(farads=farads):
            return 1j * omega * farads
        case Choke(henries=henries, ohms=ohms):
            return 1 / (ohms + 1j * omega * henries)
        case Source(name=name, ohms=ohms) if not name.endswith(" cord"):
            return 1 / ohms
        case Diode(ohms=ohms):
            return 1 / max(ohms, CONDUCTS)
        case _:  # the cord, and tubes, which carry no alternating current of the line
            return 0.0


def _stamp(matrix: NDArray[np.complex128], a: int, b: int, admittance: complex) -> None:
    matrix[a, a] += admittance
    matrix[b, b] += admittance
    matrix[a, b] -= admittance
    matrix[b, a] -= admittance
