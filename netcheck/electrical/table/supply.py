"""What a supply does, as the table a restorer reads: lines, capacitors, rectifiers, resistors, heaters, discharge.

Verdicts that are proven and right take a line each, all others their whole reason; the document has all reasons.
"""

from collections.abc import Sequence
from math import nan

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.core.wording import listed
from netcheck.electrical.divided import divided
from netcheck.electrical.emptied import charged
from netcheck.electrical.mains.line import contacts
from netcheck.electrical.network.draft import Translation, first
from netcheck.electrical.network.elements import Capacitor, Network, Rectifier, VoltageSource
from netcheck.electrical.network.pumped import pumps
from netcheck.electrical.network.supplies import as_taken, standing, translated
from netcheck.electrical.proof.judgement import Surety, Verdict
from netcheck.electrical.running.measure import CapacitorDuty
from netcheck.electrical.running.steady import Steady, steady
from netcheck.electrical.running.switch_on import FIRST_PULSES, RectifierSurge, switch_on
from netcheck.electrical.shared_out import say_counted, say_fed, say_pumped, say_shared, shared_out
from netcheck.electrical.stress import charges
from netcheck.electrical.study import HIGH_LINE, Cold, cold, ideal, judged, missing, running
from netcheck.electrical.table.emptying import emptyings
from netcheck.electrical.table.heaters import HeaterString, heaters
from netcheck.electrical.table.lines import first_filters, supply_lines
from netcheck.electrical.table.rows import (
    CapacitorRow,
    ChargeRow,
    FirstFilter,
    RectifierRow,
    ResistorRow,
    SupplyRail,
    TouchRow,
)
from netcheck.electrical.table.swap import SiliconSwap, swapped
from netcheck.electrical.table.touched import touched_rows
from netcheck.electrical.unsettled import unsettled
from netcheck.model.graph import CircuitGraph

__all__ = ["CapacitorRow", "RectifierRow", "ResistorRow", "SupplyRail", "SupplyTable", "supply"]

LEAST_AMPERES = 1e-3  # effective current from which a resistor is told; one ahead of a doubler carries no direct one
_BEYOND = ("leakage inductance of transformers, swinging chokes, a line that is not a sine wave, vibrators",)
_TOLERANCES = (
    "calculated polarities: resistors within 20 % unless stated, stated currents within 30 %, readings within 20 %"
)


class SupplyTable(Struct, frozen=True):
    """The whole table; where ``converged`` is False no figure of the running set may be trusted.

    ``overshoots`` says that the cold figures are those of the moment after switching on, which a choke raises.
    ``missing`` are the values to add, without which the rows that depend on them tell nothing; ``stands`` is how each
    switch stands in all of this, ``charges`` what stays charged, ``touched`` what the line does to metal; ``shared``
    says why some running figures are not known.
    """

    lines: tuple[SupplyRail, ...]
    capacitors: tuple[CapacitorRow, ...]
    rectifiers: tuple[RectifierRow, ...]
    first_filters: tuple[FirstFilter, ...]
    resistors: tuple[ResistorRow, ...]
    heaters: tuple[HeaterString, ...]
    defaults: tuple[str, ...]
    left_out: tuple[str, ...]
    converged: bool
    overshoots: bool = False
    swap: SiliconSwap | None = None
    missing: tuple[str, ...] = ()
    stands: tuple[str, ...] = ()
    charges: tuple[ChargeRow, ...] = ()
    touched: tuple[TouchRow, ...] = ()
    shared: str = ""


def supply(graph: CircuitGraph, *swaps: str) -> SupplyTable:
    """Returns the table of a circuit's supply; with ``swaps``, names of rectifiers, also what silicon there does.

    Raises:
        ValueError: there is no such rectifier in the supply, or its sources have different frequencies.
    """
    translation = translated(graph)
    network = translation.network
    warm = heaters(graph)
    counted = filter(None, (say_counted(graph),))
    defaults = tuple(dict.fromkeys((*translation.defaults, *counted, *warm.defaults)))
    touched = touched_rows(graph)
    if not any(isinstance(one, Rectifier | VoltageSource) for one in network.elements):
        if swaps:
            message = f"no rectifier {swaps[0]} is part of a supply here"
            raise ValueError(message)
        nothing = () if translation.too_large else ("nothing that makes DC was found",)
        left_out = (*translation.left_out, *nothing, *warm.unknown)
        return SupplyTable((), (), (), (), (), warm.strings, defaults, left_out, converged=True, touched=touched)
    run = running(graph) or steady(network)
    peaks = cold(graph)
    capacitors = _capacitors(graph, translation, run, peaks)
    computed = any(row.verdict.surety is Surety.COMPUTED for row in capacitors)
    known, emptied_rows = not translation.gaps, _charges(graph)
    return SupplyTable(
        supply_lines(graph, translation, run, (peaks.nominal, peaks.high)),
        capacitors,
        _rectifiers(network, run, peaks) if known else (),
        tuple(first_filters(graph, network)),
        _resistors(graph, run) if known else (),
        warm.strings,
        (
            f"high line: {HIGH_LINE * 100:.0f} % of normal",
            *as_taken(graph),
            *defaults,
            *((_TOLERANCES,) if computed else ()),
        ),
        (*translation.left_out, *_BEYOND, *warm.left_out),
        run.converged,
        peaks.switched is not None and peaks.chokes,
        swapped(network, run, swaps, peaks.high) if swaps and known else None,
        missing(graph),
        _stands(graph),
        emptied_rows,
        touched,
        _shared(graph, emptied_rows),
    )


def _stands(graph: CircuitGraph) -> tuple[str, ...]:
    """How each switch of the set is taken to stand: as drawn, or in its first position."""
    switches = [part for part in graph.circuit.parts.values() if part.kind.family is Family.SWITCH]
    positions = [(part, part.features.arguments.get("drawn", contacts(part)[0][0])) for part in switches]
    return tuple(standing(part.name, at) for part, at in positions)


def _charges(graph: CircuitGraph) -> tuple[ChargeRow, ...]:
    """Every capacitor that can hold more than 60 V; none where its volts or its paths depend on a missing value."""
    full = charges(graph)
    held = charged(graph, full) if not missing(graph) else ()
    if not held:
        return ()
    found = emptyings(graph, {one.name: full[one.name] for one in held})
    return tuple(ChargeRow(one.name, found[one.name]) for one in held if one.name in found)


def _shared(graph: CircuitGraph, rows: Sequence[ChargeRow]) -> str:
    """Why some running figures are not told, and what has no row under discharge for that."""
    text, told = (
        ". ".join(filter(None, (say(graph) for say in (say_shared, say_fed, say_pumped)))),
        {row.name for row in rows},
    )
    names = [one.name for one in charged(graph, shared_out(graph).most) if one.name not in told]
    if not names:
        return text
    are, they_have = ("are", "they have") if len(names) > 1 else ("is", "it has")
    return f"{text}. {listed(names)} {are} charged while the set runs, nobody knows how far: {they_have} no row below"


def _capacitors(graph: CircuitGraph, translation: Translation, run: Steady, peaks: Cold) -> tuple[CapacitorRow, ...]:
    network, unknown = translation.network, unsettled(graph)
    duties = {one.name: one for one in run.capacitors if one.name not in unknown}
    ways, shared = judged(graph), shared_out(graph).capacitors
    found = tuple(
        _capacitor(graph, one, (network.names[one.plus], ways[one.name]), duties.get(one.name), peaks)
        for one in network.elements
        if isinstance(one, Capacitor) and one.polarised
    )
    return tuple(_but_cold(row) if row.name in shared else row for row in found)


def _but_cold(row: CapacitorRow) -> CapacitorRow:
    """The row without what depends on how a stated current divides; cold tubes draw nothing."""
    return replace(row, running=nan, ripple=nan, peak=nan, amperes=nan)


def _capacitor(
    graph: CircuitGraph, one: Capacitor, told: tuple[str, Verdict], duty: CapacitorDuty | None, peaks: Cold
) -> CapacitorRow:
    net, verdict = told
    rated = first(graph.circuit.parts[one.name], Dimension.CURRENT)
    if duty is None:
        hung = divided(graph).get(one.name) if not missing(graph) else None
        return CapacitorRow(one.name, net, one.volts, *6 * (nan,), rated, verdict, hung)
    far = max(duty.volts.low, duty.volts.high, key=abs)
    return CapacitorRow(
        one.name,
        net,
        one.volts,
        duty.volts.mean,
        duty.volts.swing,
        far,
        peaks.nominal[one.name],
        peaks.high[one.name],
        duty.amperes.rms,
        rated,
        verdict,
    )


def _rectifiers(network: Network, running: Steady, peaks: Cold) -> tuple[RectifierRow, ...]:
    # A damper's figures are the stand-in's: the sweep makes its pulses and its inverse volts.
    swept = {one.name for one in pumps(network)}
    parts = {e.name: e for e in network.elements if isinstance(e, Rectifier) and e.name not in swept}
    # Every rectifier is hot here and yet no tube draws: the moment after a short break, or before the others warm up.
    idle = steady(ideal(network), warm=False, line=HIGH_LINE)
    high = {one.name: max(one.inverse_volts, 0.0) for one in idle.rectifiers} if idle.converged else {}
    surges = {one.name: one.amperes for one in _first_pulses(network, peaks)}
    return tuple(
        RectifierRow(
            one.name, one.amperes.mean, one.amperes.rms, one.amperes.high,
            surges.get(one.name) if parts[one.name].cold else None,
            max(one.inverse_volts, 0.0), high.get(one.name),
            parts[one.name].mean_amperes, parts[one.name].peak_amperes, parts[one.name].inverse_volts,
        )
        for one in running.rectifiers
        if one.name in parts
    )  # fmt: skip


def _first_pulses(network: Network, peaks: Cold) -> tuple[RectifierSurge, ...]:
    """The highest currents after switching on at high line, of rectifiers that need no heat."""
    if peaks.switched is not None:
        return peaks.switched.rectifiers
    if not any(isinstance(one, Rectifier) and one.cold for one in network.elements):
        return ()
    return switch_on(network, line=HIGH_LINE, cycles=FIRST_PULSES).rectifiers


def _resistors(graph: CircuitGraph, running: Steady) -> tuple[ResistorRow, ...]:
    found, shared = [], shared_out(graph).resistances
    for heat in running.resistors:
        part = graph.circuit.parts.get(heat.name)
        if (
            part is None
            or part.kind.family is not Family.RESISTOR
            or (heat.amperes.rms < LEAST_AMPERES and heat.name not in shared)
        ):
            continue
        rated = first(part, Dimension.POWER)
        if heat.name in shared:
            found.append(ResistorRow(heat.name, nan, nan, nan, rated))
            continue
        found.append(ResistorRow(heat.name, abs(heat.amperes.mean), heat.amperes.rms, heat.watts, rated))
    return tuple(found)
