"""Which dangers one state holds, and the cautions that go with them."""

from collections.abc import Iterable

from netcheck.core.caution import Dangers, cautions
from netcheck.core.diagnostic import About, Diagnostic
from netcheck.core.kind import Family
from netcheck.engine.run import run
from netcheck.model.dangers import dangers_of
from netcheck.model.graph import CircuitGraph
from netcheck.rules import HOT_CHASSIS

__all__ = ["cautions_for", "dangers_for"]


def cautions_for(
    graph: CircuitGraph, told: Iterable[Diagnostic] | None = None, *, hot: bool = False
) -> tuple[str, ...]:
    """The cautions for one state, by its dangers."""
    return cautions(dangers_for(graph, told, hot=hot))


def dangers_for(graph: CircuitGraph, told: Iterable[Diagnostic] | None = None, *, hot: bool = False) -> Dangers:
    """The dangers of one state; a finding about hot metal, accepted or not, counts like the circuit itself.

    ``told`` are the findings where they are made anyway; without them the line is looked at here.
    """
    found = run([HOT_CHASSIS], graph) if told is None else told
    hot = hot or any(About.HOT_METAL in d.about for d in found) or _is_off_the_line(graph)
    return dangers_of(graph.circuit, hot=hot)


def _is_off_the_line(graph: CircuitGraph) -> bool:
    # Of a set without a cord nothing is known about the line, and nothing is imported.
    if not graph.circuit.has(Family.CORD):
        return False
    from netcheck.electrical.mains.off_the_line import is_off_the_line

    return is_off_the_line(graph)
