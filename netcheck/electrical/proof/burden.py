"""Where a rectifier that the mains does not drive may be taken for a load of the supply it hangs on.

A damper takes its current from B+ and puts it into the boost supply; a bias diode on the sweep takes its own out of the
bias line. What such a rectifier charges, on its cathode's side or on its anode's, is its own supply: a proof that
leaves it out says nothing there. Which side a capacitor is on is told by the resistance of the paths to it.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from math import inf

from netcheck.electrical.network.elements import Inductor, Network, Rectifier, Resistor, VoltageSource
from netcheck.electrical.network.least_ohms import least_ohms
from netcheck.electrical.proof.currents import joined_nodes

__all__ = ["Burden"]

STIFF_OHMS = 10_000.0  # a supply behind less bears a load of some milliamperes; a damper takes tens (common practice)


class Burden:
    """Resistances from the rectifiers off the mains, and from what the mains or a declared supply fixes."""

    def __init__(self, network: Network) -> None:
        """Take a network; its tubes and rectifiers count as open."""
        self._undriven = [e for e in network.elements if isinstance(e, Rectifier) and not e.driven]
        self._paths = _paths(network)
        self._joined = joined_nodes(network)
        self._fixed = self._ohms(_fixed(network))
        self._fed = self._ohms(_fed(network))
        self._cathodes = [self._ohms((each.cathode,)) for each in self._undriven]
        self._anodes = [self._ohms((each.anode,)) for each in self._undriven]

    def loads(self, higher: int, lower: int) -> frozenset[str]:
        """The rectifiers that can only load the supply which holds ``higher`` above ``lower``, by name."""
        charging = self.charging(higher, lower)
        return frozenset(
            each.name
            for each, anode in zip(self._undriven, self._anodes, strict=True)
            if each not in charging and (self._fed[each.anode] <= STIFF_OHMS or self._fed[higher] < anode[higher])
        )

    def charging(self, plus: int, minus: int) -> tuple[Rectifier, ...]:
        """The rectifiers that a capacitor between these nodes hangs on: nothing else fixes one of them so closely."""
        return tuple(
            each
            for each, cathode in zip(self._undriven, self._cathodes, strict=True)
            if any(cathode[node] < self._fixed[node] for node in (plus, minus))
        )

    def _ohms(self, sources: Iterable[int]) -> list[float]:
        """For every node the resistance of the best single path to any of the sources, infinite where there is none."""
        found = least_ohms(self._paths, (self._joined[node] for node in sources))
        return [found.get(node, inf) for node in self._joined]


def _paths(network: Network) -> dict[int, list[tuple[int, float]]]:
    joined = joined_nodes(network)
    paths: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for element in network.elements:
        match element:
            case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, ohms=ohms):
                pass
            case VoltageSource(plus=a, minus=b, ohms=ohms) if element.hertz:
                pass
            case _:
                continue
        paths[joined[a]].append((joined[b], ohms))
        paths[joined[b]].append((joined[a], ohms))
    return paths


def _fed(network: Network) -> Iterator[int]:
    """The nodes that the mains or a declared supply can feed a load from."""
    for element in network.elements:
        match element:
            case Rectifier(driven=True, cathode=cathode):
                yield cathode
            case VoltageSource(hertz=0):
                yield element.poles[0]
            case _:
                pass


def _fixed(network: Network) -> Iterator[int]:
    """The reference and the ends of everything that the mains drives or that is declared."""
    yield 0
    for element in network.elements:
        match element:
            case Rectifier(driven=True, anode=a, cathode=b) | VoltageSource(plus=a, minus=b):
                yield a
                yield b
            case _:
                pass
