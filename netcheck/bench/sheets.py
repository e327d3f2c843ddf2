"""What `netcheck bench` prints for a state: the cold plan, then the power-up."""

from msgspec.structs import replace

from netcheck.bench.leak_check import leak_table
from netcheck.bench.plan import Plan
from netcheck.bench.plan_sheet import END_OF_PLAN, plan_tables, unseen_words
from netcheck.bench.power_sheet import power_tables
from netcheck.bench.power_up import power_up
from netcheck.core.caution import Dangers, cautions
from netcheck.core.sheet import Sheet, Table
from netcheck.core.source import Source

__all__ = ["bench_sheet", "readings_sheet"]


def bench_sheet(plan: Plan, files: tuple[str, ...], dangers: Dangers) -> Sheet:
    """The cold plan, then the power-up."""
    last = tuple(text for text in (unseen_words(plan), END_OF_PLAN) if text)
    leak = leak_table(plan.chassis)
    eye = Table("No meter shows these: look", before=last)
    power = power_tables(power_up(plan.chassis.graph), dangers)
    circuit = plan.chassis.graph.circuit
    title, state = circuit.title or circuit.source.name, circuit.state.value
    tables = (*plan_tables(plan), eye, *((leak,) if leak else ()), *power)
    return Sheet("bench", title, state, files, tables, cautions(dangers), plan.conditions)


def readings_sheet(plan: Plan, source: Source, files: tuple[str, ...], dangers: Dangers) -> Sheet:
    """What a filled-in file says. Raises UsageFault where it can't be read."""
    from netcheck.bench.explain import explained
    from netcheck.bench.explain_sheet import Said, diagnosis_sheet
    from netcheck.bench.filled_in import filled_in
    from netcheck.bench.volts_explain import volts_explained
    from netcheck.bench.volts_read import wrong_volts

    graph = plan.chassis.graph
    filled = filled_in(plan, source)
    said = Said(explained(plan.chassis, filled.steps, filled.readings))
    if filled.volts:
        expected = power_up(graph)
        said = Said(said.ohms, wrong_volts(expected, filled.volts), volts_explained(graph, expected, filled.volts))
    return replace(diagnosis_sheet(plan, filled, said, (*files, source.name)), cautions=cautions(dangers))
