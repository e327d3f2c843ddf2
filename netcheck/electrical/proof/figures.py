"""Figures of a few networks that are asked for again and again, each computed once."""

from collections.abc import Mapping

from netcheck.electrical.network.elements import Network
from netcheck.electrical.proof.bounds import Bounds, StatedReading
from netcheck.electrical.proof.peaks import AtRest
from netcheck.electrical.proof.prover import Prover
from netcheck.electrical.running.steady import Steady, steady

__all__ = ["Figures"]


class Figures:
    """Proofs, bounds, running states and cold peaks of one circuit, as it stands and with something changed."""

    def __init__(self, provers: Mapping[Network, Prover] | None = None) -> None:
        """Begin with none, or with what some ``provers`` know of their networks."""
        self._running: dict[tuple[Network, bool], Steady] = {}
        self._resting: dict[Network, AtRest] = {}
        self._provers = dict(provers or {})
        self._bounds: dict[tuple[Network, tuple[StatedReading, ...]], Bounds] = {}

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
        return self.at_rest(network).peaks()

    def at_rest(self, network: Network) -> AtRest:
        """The network while no tube draws current."""
        if network not in self._resting:
            self._resting[network] = AtRest(network)
        return self._resting[network]

    def prover(self, network: Network) -> Prover:
        """What was proved of the network without any assumption, to prove more."""
        if network not in self._provers:
            self._provers[network] = Prover(network)
        return self._provers[network]

    def bounds(self, network: Network, readings: tuple[StatedReading, ...]) -> Bounds:
        """What its values and these readings leave possible."""
        key = network, readings
        if key not in self._bounds:
            self._bounds[key] = Bounds(network, readings, self.prover(network).order)
        return self._bounds[key]
