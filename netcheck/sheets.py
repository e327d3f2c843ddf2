"""The pipelines of sheets for hands: what to measure, to order, to do. No disk: files come from a reader."""

from functools import cache

from netcheck.core.caution import cautions
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.sheet import Sheet
from netcheck.core.source import Source
from netcheck.hazards import dangers_for
from netcheck.language.parser import parse
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.model.load import Parsed, Reader
from netcheck.model.succession import refuse_wrong_order

__all__ = ["bench", "blank", "buy", "job"]


def bench(
    *sources: Source, read: Reader, readings: Source | None = None, tubes_in: bool = False
) -> tuple[Report, Sheet | None]:
    """What to measure on the chassis of the last state; of two, only what the work touched or could have disturbed.

    With ``readings``, a filled-in file, what they say instead. Without a sheet where a file could not be built.
    Raises UsageFault where two are in the wrong order or state, and for readings that can't be read.
    """
    if len(sources) > 2:
        raise UsageFault("name one file, or two: the state before the work, then the one to measure")
    once = cache(parse)
    files = tuple(source.name for source in sources)
    built = [build(source, read, once) for source in sources]
    circuits = [circuit for circuit, _ in built if circuit is not None]
    problems = tuple(d for _, told in built for d in told)
    if len(circuits) < len(built):
        return Report("bench", "", files, problems, built=False), None
    from netcheck.bench.plan import plan_of
    from netcheck.bench.sheets import bench_sheet, readings_sheet
    from netcheck.bench.touched import touched

    *before, circuit = circuits
    for old in before:
        refuse_wrong_order(old, circuit)
    graph = CircuitGraph(circuit)
    only = touched(before[0], circuit) if before else None
    plan = plan_of(graph, tubes_in=tubes_in, only=only)
    report = _sheet_report("bench", circuit, files, problems)
    if readings is None:
        return report, bench_sheet(plan, files, dangers_for(graph))
    return report, readings_sheet(plan, readings, files, dangers_for(graph))


def buy(source: Source, *, read: Reader) -> tuple[Report, Sheet | None]:
    """What to order for a state. Raises UsageFault where nothing says which parts are new."""
    once = cache(parse)
    circuit, problems = build(source, read, once)
    if circuit is None:
        return Report("buy", "", (source.name,), problems, built=False), None
    from netcheck.bench.buy_sheet import buy_sheet
    from netcheck.bench.buying import needed
    from netcheck.compare.bands import picks

    old = _base(source, read, once)
    graph = CircuitGraph(circuit)
    found = needed(old, graph, picks)
    if not found:
        raise UsageFault(f"nothing in `{source.name}` says which parts are new: it changes, adds and replaces none")
    files = (source.name,)
    return _sheet_report("buy", circuit, files, problems), buy_sheet(
        found, circuit, files, cautions(dangers_for(graph))
    )


def blank(source: Source, *, read: Reader) -> tuple[Report, Sheet | None]:
    """The lugs of a state with nothing on them, to write on."""
    circuit, problems = build(source, read)
    if circuit is None:
        return Report("lugs", "", (source.name,), problems, built=False), None
    from netcheck.bench.blank import blank_sheet
    from netcheck.model.places import places

    files = (source.name,)
    graph = CircuitGraph(circuit)
    sheet = blank_sheet(places(graph), circuit, files, cautions(dangers_for(graph)))
    return _sheet_report("lugs", circuit, files, problems), sheet


def _base(source: Source, read: Reader, once: Parsed) -> Circuit | None:
    """The state that a file starts from or takes its parts from; None without."""
    from netcheck.language.tree import Base

    base = next((one for one in once(source)[0].statements if isinstance(one, Base)), None)
    found = read(source.name, base.path.text) if base is not None else None
    return build(found, read, once)[0] if isinstance(found, Source) else None


def job(*sources: Source, read: Reader) -> tuple[Report, Sheet | None]:
    """What the hands do between two states. Raises UsageFault where they are in the wrong order or state."""
    if len(sources) != 2:
        raise UsageFault("name two files: the state to begin with, and the one to reach")
    once = cache(parse)
    files = tuple(source.name for source in sources)
    (old, problems), (new, more) = (build(source, read, once) for source in sources)
    if old is None or new is None:
        return Report("job", "", files, (*problems, *more), built=False), None
    refuse_wrong_order(old, new)
    from netcheck.bench.job_done import carried_out
    from netcheck.bench.job_sheet import job_sheet

    # The hands begin on the old state and power up the new one.
    dangers = dangers_for(CircuitGraph(old)) | dangers_for(CircuitGraph(new))
    work, leads_there = carried_out(old, new)
    sheet = job_sheet(work, new, files, cautions(dangers), leads_there=leads_there)
    return _sheet_report("job", new, files, more), sheet


def _sheet_report(command: str, circuit: Circuit, files: tuple[str, ...], problems: tuple[Diagnostic, ...]) -> Report:
    return Report(command, f"{circuit.title or circuit.source.name} ({circuit.state.value})", files, problems)
