"""The one place that knows both sides: a network as the product takes it, piece by piece as the oracle takes it."""

from collections.abc import Iterator

from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    Tube,
    VoltageSource,
)
from tests.soundness.elements import Coil, Drain, OneWay, Piece, Resistance, Storage, Wave, Wiring

__all__ = ["wiring"]


def wiring(network: Network) -> Wiring:
    """The same supply for the oracle. Raises TypeError for what it can't follow, as a regulator."""
    return Wiring(network.count, tuple(piece for one in network.elements for piece in _pieces(one)))


def _pieces(one: Element) -> Iterator[Piece]:
    match one:
        case Resistor():
            yield Resistance(one.a, one.b, one.ohms)
        case Capacitor():
            yield Storage(one.name, one.plus, one.minus, one.farads)
        case Inductor():
            yield Coil(one.a, one.b, one.henries, one.ohms, one.core_ohms)
        case VoltageSource():
            yield Wave(one.plus, one.minus, one.peak, one.hertz, one.ohms, one.rise)
        case Rectifier():
            yield OneWay(one.name, one.anode, one.cathode, one.law.corners, one.cold)
        case Load():
            yield Drain(one.plus, one.minus, one.amperes, one.knee_volts)
        case Tube():  # a way that a proof has to reckon with: what flows there is a load of its own
            pass
        case _:
            message = f"the oracle can't follow {one}"
            raise TypeError(message)
