"""A file and what it stands on, to a circuit: the stages, each with its own module."""

from msgspec import Struct

from netcheck.core.circuit import Circuit, Join, Part
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.source import Source
from netcheck.language.parser import parse
from netcheck.model.carried import Anchored, Named, Trace, anchored, named_leads, not_placed
from netcheck.model.closure import closure
from netcheck.model.declare import inventory
from netcheck.model.idle_lines import idle_lines
from netcheck.model.intents import Sayings, sayings
from netcheck.model.joints import implicit
from netcheck.model.load import Parsed, Reader, layers
from netcheck.model.messages import stop
from netcheck.model.points import PointTable
from netcheck.model.stock import Inventory
from netcheck.model.wiring import Wiring

__all__ = ["build"]


class _Read(Struct, frozen=True):
    """What the files of a state say, once the lines themselves, which take as much again, are let go."""

    sources: tuple[Source, ...]
    stock: Inventory
    wiring: Wiring
    said: Sayings
    named: Named
    trace: Trace
    problems: tuple[Diagnostic, ...]


def build(source: Source, read: Reader, parsed: Parsed = parse) -> tuple[Circuit | None, tuple[Diagnostic, ...]]:
    """The circuit of a file, and what is wrong with the file; None where a mistake keeps it from being built."""
    found = _read(source, read, parsed)
    stock, table = found.stock, found.wiring.table
    problems = found.problems
    if not (stock.stages[-1] or found.wiring.joins or any(d.grade is Grade.STOP for d in problems)):
        problems = (_says_nothing(source),)
    if any(d.grade is Grade.STOP for d in problems):
        # What there is to look at in a file with mistakes is mostly an echo of them.
        return None, tuple(d for d in problems if d.grade is Grade.STOP)
    joins = (*found.wiring.joins, *implicit(stock.stages[-1], table.index))
    names = _names(found, table, joins)
    problems = _told_once((*problems, *not_placed(found.said, names.lost)))
    return _circuit(found, (*joins, *names.joins)), problems


def _read(source: Source, read: Reader, parsed: Parsed) -> _Read:
    loaded = layers(source, read, parsed)
    stock = inventory(loaded.chain, loaded.unread)
    table = PointTable((*stock.gone.values(), *stock.stages[-1].values()), loaded.unread)
    wiring = Wiring(table, stock)
    named: Named = {}
    for number, layer in enumerate(loaded.chain):
        wiring.add_layer(number, layer)
        if not layer.joins and loaded.chain[number + 1].joins:  # what follows is a trace
            inside = implicit(_lasting(stock, number), table.index)
            named = named_leads(table.points, (*wiring.joins, *inside))
            wiring.forget_joins()
    said = sayings(loaded.chain, table, stock.stages)
    idle = idle_lines(loaded.chain, stock.stages)
    problems = _told_once((*loaded.diagnostics, *stock.diagnostics, *wiring.problems, *said.problems, *idle))
    trace = Trace.of(next(layer for layer in loaded.chain if layer.joins))
    return _Read(tuple(layer.source for layer in loaded.chain), stock, wiring, said, named, trace, problems)


def _lasting(stock: Inventory, number: int) -> dict[str, Part]:
    """The parts of a stage that have the same terminals in the end."""
    last = stock.stages[-1]
    both = ((name, part, last[name]) for name, part in stock.stages[number].items() if name in last)
    return {name: part for name, part, later in both if later is part or later.shape == part.shape}


def _names(found: _Read, table: PointTable, joins: tuple[Join, ...]) -> Anchored:
    """The names that a trace takes over; none in any other file."""
    if not found.named:
        return Anchored((), frozenset())
    return anchored(table.points, joins, found.named, found.said, found.trace)


def _says_nothing(source: Source) -> Diagnostic:
    return stop("unusable-file", source.whole, f"`{source.name}` has no part and no net in it", "write at least one")


def _told_once(problems: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """In the order of the text, each message at each place once."""
    seen = {(d.labels[0].place.order, d.headline): d for d in reversed(problems)}
    return tuple(sorted(seen.values(), key=lambda d: d.labels[0].place.order))


def _circuit(found: _Read, joins: tuple[Join, ...]) -> Circuit:
    top = found.sources[-1]
    stock, wiring, said = found.stock, found.wiring, found.said
    parts = stock.stages[-1]
    table = wiring.table
    return Circuit(
        source=top,
        sources=tuple(each.name for each in found.sources),
        title=said.title,
        state=said.state,
        unfinished=said.unfinished,
        parts=parts,
        points=tuple(table.points),
        index=table.index,
        joins=joins,
        nets=closure(len(table.points), joins),
        common=said.common,
        mains=said.mains,
        meter=said.meter,
        leakage=said.leakage,
        taken=tuple(wiring.taken),
        spared=tuple(said.spared),
        apart=tuple(said.apart),
        covers=tuple(said.covers),
        intended=tuple(said.intended),
        meant=tuple(said.meant),
        removals=stock.removals,
        acceptances=tuple(said.acceptances),
        charts=tuple(said.charts),
        loads=tuple(said.loads),
        supplies=tuple(said.supplies),
        notes=tuple(said.notes),
        stands=tuple(s for name, s in said.stands.items() if name in parts or name == "chassis"),
        gone=stock.gone,
        inherited=sum(1 for join in wiring.joins if join.place.source is not top),
    )
