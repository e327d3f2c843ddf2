"""Figures of a few networks that are asked for again and again, each computed once."""

from collections.abc import Mapping

from netcheck.electrical.network.elements import Network
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.running.steady import Steady, steady

__all__ = ["Figures"]


class Figures:
    """Running states and cold peaks of one circuit, as it stands and with something changed."""

    def __init__(self) -> None:
        """Begin with none."""
        self._running: dict[tuple[Network, bool], Steady] = {}
        self._cold: dict[Network, Mapping[str, float]] = {}

    def running(self, network: Network, *, warm: bool = True) -> Steady:
        """What the network does once it repeats itself.

        Raises:
            ValueError: the sources have different frequencies.
        """
        key = network, warm
        if key not in self._running:
            self._running[key] = steady(network, warm=warm)
        return self._running[key]

    def cold(self, network: Network) -> Mapping[str, float]:
        """The peaks of all capacitors while nothing is drawn, by name."""
        if network not in self._cold:
            self._cold[network] = cold_peaks(network)
        return self._cold[network]
