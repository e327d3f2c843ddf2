"""Nodes, pumps and proofs in words."""

from collections.abc import Iterable

from netcheck.core.wording import listed
from netcheck.electrical.network.elements import Element, Load, Network, Rectifier, VoltageSource
from netcheck.electrical.proof.order import Proof

__all__ = ["node_name", "pump_words", "quoted", "route_words"]


def node_name(network: Network, node: int) -> str:
    """The node as a message names it."""
    return network.names[node] if node < len(network.names) else f"node {node}"


def quoted(names: Iterable[str]) -> str:
    """The names as the user wrote them, without those said twice."""
    return listed(list(dict.fromkeys(names)))


def pump_words(pump: Element, *, grid: bool) -> str:
    """What could lift current against the voltage."""
    match pump:
        case _ if grid:
            return f"grid current of {pump.name}"
        case Rectifier(driven=False):
            return f"{pump.name}, which the line does not drive,"
        case Rectifier():
            return f"rectifier {pump.name}"
        case VoltageSource():
            return f"supply {pump.name}"
        case Load():
            return f"load {pump.name}"
        case _:
            return f"{pump.name}, with AC on its plate,"


def route_words(proof: Proof) -> str:
    """Why the proof holds."""
    if not proof.route:
        return "no current can flow the other way"
    names = list(dict.fromkeys(element.name for element in proof.route))
    one = len(names) == 1
    if proof.clamped:
        return f"{quoted(names)} {'keeps' if one else 'keep'} it up, but for the drop of the rectifier"
    return f"{quoted(names)} {'joins' if one else 'join'} the two, and no rectifier between them pulls the other way"
