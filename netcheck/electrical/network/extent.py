"""How large a supply may be to be worked out: its equations take time with the cube of its nodes.

What is larger is not calculated, and that is said; the limits lie well above any set with tubes.
"""

from netcheck.core.wording import listed, number_of
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Network, Rectifier

__all__ = ["MOST_NODES", "MOST_RECTIFIERS", "within_reach"]

MOST_NODES = 150
"""Nodes of a supply that is worked out; that of a large console has forty."""

MOST_RECTIFIERS = 16
"""Rectifiers that switch one by one; a doubler of two stacks has two, a bridge four."""


def within_reach(found: Translation) -> Translation:
    """The translation as it is; of a supply that is too large an empty one that says so."""
    network = found.network
    rectifiers = sum(1 for one in network.elements if isinstance(one, Rectifier))
    if network.count <= MOST_NODES and rectifiers <= MOST_RECTIFIERS:
        return found
    size = (number_of(network.count, "node"), number_of(rectifiers, "rectifier"))
    too_large = f"the supply has {listed(size)}"
    said = f"{too_large}; up to {MOST_NODES} and {MOST_RECTIFIERS} are worked out"
    empty = Network(1, (), network.names[:1])
    nodes = {net: node for net, node in found.nodes.items() if node == 0}
    left_out = (*found.left_out, said)
    return Translation(empty, nodes, found.defaults, left_out, too_large=said)
