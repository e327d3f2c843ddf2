"""Supplies of the common kinds with some of their electrolytics turned round."""

from collections.abc import Iterator
from random import Random

from msgspec.structs import replace

from netcheck.electrical.network.elements import Capacitor, Element, Network
from tests.supplies import random_supply

__all__ = ["planted"]

REVERSED = 0.16  # of the electrolytics of a supply


def planted(rng: Random) -> tuple[Network, frozenset[str]]:
    """A supply, and the names of those that were turned round."""
    network = random_supply(rng)
    turned = frozenset(
        element.name for element in network.elements if isinstance(element, Capacitor) and rng.random() < REVERSED
    )
    return replace(network, elements=tuple(_turned(network, turned))), turned


def _turned(network: Network, names: frozenset[str]) -> Iterator[Element]:
    for element in network.elements:
        if isinstance(element, Capacitor) and element.name in names:
            yield replace(element, plus=element.minus, minus=element.plus)
        else:
            yield element
