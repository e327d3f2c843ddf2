"""Rules about one state of a chassis, a module each; the order is the order of ``why``."""

from collections.abc import Callable

from netcheck.core.kind import Family
from netcheck.electrical.network.supplies import has_supply
from netcheck.engine.rule import Listed
from netcheck.model.graph import CircuitGraph

__all__ = ["COMPUTED", "HOT_CHASSIS", "OF_A_SUPPLY", "RULES"]


def _anywhere(_: CircuitGraph) -> bool:
    return True


def _on_the_line(graph: CircuitGraph) -> bool:
    """Of a set without a cord nothing is known about the line."""
    return graph.circuit.has(Family.CORD)


def _on_line_or_winding(graph: CircuitGraph) -> bool:
    return graph.circuit.has(Family.CORD) or graph.circuit.has(Family.TRANSFORMER)


def _on_line_or_supply(graph: CircuitGraph) -> bool:
    return graph.circuit.has(Family.CORD) or has_supply(graph)


def _of(name: str, where: Callable[[CircuitGraph], bool] = _anywhere) -> Listed[CircuitGraph]:
    return Listed(__name__, name, where)


HOT_CHASSIS = _of("hot-chassis", _on_the_line)

# What is computed of a whole supply; a comparison tells of it only what is no consequence of a wrong joint. All of them
# share one study of a graph (`CircuitGraph.once`); where nothing rectifies, no engine is loaded to say so.
COMPUTED: tuple[Listed[CircuitGraph], ...] = (
    _of("reversed-electrolytic", has_supply),
    _of("polarity-unproven", has_supply),
    _of("rating-too-low", has_supply),
    _of("reversed-by-ripple", has_supply),
    _of("reversed-at-switch-on", has_supply),
    _of("inverse-volts-too-low", has_supply),
    _of("stays-charged", has_supply),
    _of("resistor-overloaded", _on_line_or_supply),
    _of("rectifier-overloaded", has_supply),
    _of("ripple-too-high", has_supply),
    _of("heaters-off", _on_line_or_winding),
    _of("fuse-too-large", has_supply),
    _of("fuse-too-small", has_supply),
    _of("chart-contradicts", has_supply),
    _of("volts-off-chart", has_supply),
)

_WINDING_SHORTED = _of("winding-shorted")

# What is told beside the figures of a supply: while a winding is shorted, these are none.
OF_A_SUPPLY: tuple[Listed[CircuitGraph], ...] = (_WINDING_SHORTED, *COMPUTED)

RULES: tuple[Listed[CircuitGraph], ...] = (
    _WINDING_SHORTED,
    _of("not-apart", lambda graph: bool(graph.circuit.apart)),
    _of("ground-without-bond"),
    _of("part-across-itself"),
    _of("internal-pin-used"),
    _of("live-shell"),
    _of("loose-lead"),
    _of("unused-part"),
    _of("lonely-net"),
    _of("two-names"),
    _of("spare-in-use", lambda graph: bool(graph.circuit.spared)),
    _of("places-overlap", lambda graph: bool(graph.circuit.stands)),
    HOT_CHASSIS,
    _of("line-capacitor-class", _on_the_line),
    _of("fuse-on-neutral", _on_the_line),
    _of("branch-before-fuse", _on_the_line),
    _of("no-line-fuse", _on_the_line),
    *COMPUTED,
)
