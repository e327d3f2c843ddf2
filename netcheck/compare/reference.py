"""The nets that returns go to: the chassis, the common, the earth lead of the cord."""

from netcheck.compare.pair import Pair

__all__ = ["references"]


def references(pair: Pair) -> frozenset[int]:
    """The original's reference nets, by number."""
    circuit = pair.original.circuit
    earths = {
        circuit.nets[at]
        for at, point in enumerate(circuit.points)
        if point.terminal is not None and point.terminal.name == "earth"
    }
    return frozenset({circuit.nets[0], circuit.net_of(circuit.common), *earths})
