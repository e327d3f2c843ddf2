"""What `netcheck bench` prints for a state: the cold plan, then the power-up."""

from netcheck.bench.plan import Plan
from netcheck.bench.plan_sheet import END_OF_PLAN, plan_tables, unseen_words
from netcheck.core.sheet import Sheet

__all__ = ["bench_sheet"]


def bench_sheet(plan: Plan, files: tuple[str, ...], cautions: tuple[str, ...]) -> Sheet:
    """The sheet of a plan."""
    last = tuple(text for text in (unseen_words(plan), END_OF_PLAN) if text)
    circuit = plan.chassis.graph.circuit
    title, state = circuit.title or circuit.source.name, circuit.state.value
    return Sheet("bench", title, state, files, plan_tables(plan), cautions, plan.conditions, last)
