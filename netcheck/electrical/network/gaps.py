"""Values that a file does not state: what stands in their place is never told, only what does not depend on it."""

from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from netcheck.electrical.network.elements import Capacitor, Element, Load, Network, Resistor, VoltageSource

__all__ = ["MOST", "Gap", "readings_of"]

MOST = 6  # gaps that are tried one at a time; with more no figure is told at all

UNSAID_OHMS, UNSAID_FARADS, UNSAID_VOLTS, UNSAID_AMPERES = 10_000.0, 20e-6, 200.0, 0.1
"""What stands in the place of a missing value while a proof is made that needs none."""


class Gap(Struct, frozen=True):
    """A value that is missing: ``elements`` are those that it belongs to, ``say`` the line or word to add.

    ``least`` and ``most`` are factors on what stands in its place: the value lies between.
    """

    elements: frozenset[str]
    say: str
    least: float
    most: float


def readings_of(network: Network, gaps: Iterable[Gap]) -> tuple[Network, ...]:
    """The network with each missing value at its least and at its most; the network alone where nothing is missing.

    What all of them agree on does not depend on the missing values, taken one at a time.
    """
    return (network, *_tried(network, tuple(gaps)[:MOST]))


def _tried(network: Network, gaps: tuple[Gap, ...]) -> Iterator[Network]:
    for gap in gaps:
        for factor in (gap.least, gap.most):
            elements = (_times(one, factor) if one.name in gap.elements else one for one in network.elements)
            yield replace(network, elements=tuple(elements))


def _times(element: Element, factor: float) -> Element:
    match element:
        case Resistor(ohms=ohms):
            return replace(element, ohms=ohms * factor)
        case Capacitor(farads=farads):
            return replace(element, farads=farads * factor)
        case VoltageSource(peak=peak):
            return replace(element, peak=peak * factor)
        case Load(amperes=amperes):
            return replace(element, amperes=amperes * factor)
        case _:
            return element
