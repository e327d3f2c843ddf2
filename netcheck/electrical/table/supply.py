"""What a supply does, as the table a restorer reads: lines, capacitors, rectifiers, resistors, heaters, discharge."""

import dataclasses
from dataclasses import dataclass

from netcheck.core.quantity import Dimension
from netcheck.electrical.network.draft import first
from netcheck.electrical.network.elements import Capacitor, Conduction, Inductor, Network, Rectifier, Resistor, Source
from netcheck.electrical.network.readings import as_stated, charted, figures
from netcheck.electrical.network.translate import Translation, network_of
from netcheck.electrical.proof.judgement import Surety
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.proof.verdict import verdicts
from netcheck.electrical.running.discharge import LIMITS, discharge, worst_open
from netcheck.electrical.running.steady import Steady, steady
from netcheck.electrical.running.switch_on import SwitchOn, switch_on
from netcheck.electrical.table.heaters import HeaterString, heaters
from netcheck.electrical.table.lines import first_filters, probe_name, probed, supply_lines
from netcheck.electrical.table.rows import CapacitorRow, Emptying, FirstFilter, Line, RectifierRow, ResistorRow
from netcheck.electrical.table.swap import Swap, swapped
from netcheck.model.graph import CircuitGraph

__all__ = ["CapacitorRow", "Line", "RectifierRow", "ResistorRow", "SupplyTable", "supply"]

HIGH_LINE = 1.1
LEAST_AMPERES = 1e-3  # effective current from which a resistor is told; one ahead of a doubler carries no direct one
UNBOUNDED = 10_000.0  # volts that stand for no bound while a discharge is timed
FIRST_PULSES = 2  # periods in which a switch-on current is at its highest
_IDEAL = Conduction(((0.0, 0.0), (1.0, 1.0)))
_BEYOND = ("leakage inductance of transformers, swinging chokes, mains that are no sine, vibrators",)
_BREAKABLE = frozenset({"candohm", "pot", "resistor", "rheostat"})
_TOLERANCES = (
    "computed verdicts: resistors good to 20 % unless said otherwise, stated currents to 30 %, chart readings to 20 %"
)


@dataclass(frozen=True, slots=True)
class SupplyTable:
    """The whole table; where ``converged`` is False no figure of the running set may be trusted.

    ``overshoots`` says that the cold figures are those of the moment after switching on, which a choke raises.
    """

    lines: tuple[Line, ...]
    capacitors: tuple[CapacitorRow, ...]
    rectifiers: tuple[RectifierRow, ...]
    first_filters: tuple[FirstFilter, ...]
    resistors: tuple[ResistorRow, ...]
    heaters: tuple[HeaterString, ...]
    defaults: tuple[str, ...]
    left_out: tuple[str, ...]
    converged: bool
    overshoots: bool = False
    swap: Swap | None = None


@dataclass(frozen=True, slots=True)
class _Cold:
    """What is seen before the tubes draw current: peaks by name at nominal and at high line, and the first pulses."""

    nominal: dict[str, float]
    high: dict[str, float]
    surges: dict[str, float]
    overshoots: bool


def supply(graph: CircuitGraph, *swaps: str) -> SupplyTable:
    """Returns the table of a circuit's supply; with ``swaps``, names of rectifiers, also what silicon there does.

    Raises:
        ValueError: there is no such rectifier in the supply, or its sources have different frequencies.
    """
    translation = network_of(graph)
    network = translation.network
    warm = heaters(graph)
    defaults = tuple(dict.fromkeys((*translation.defaults, *warm.defaults)))
    if not any(isinstance(one, Rectifier | Source) for one in network.elements):
        if swaps:
            message = f"no rectifier {swaps[0]} is part of a supply here"
            raise ValueError(message)
        left_out = (*translation.left_out, "nothing that makes direct current was found")
        return SupplyTable((), (), (), (), (), warm.strings, defaults, left_out, converged=True)
    running = steady(network)
    cold = _cold(network)
    capacitors = _capacitors(graph, translation, running, cold)
    computed = any(row.verdict.surety is Surety.COMPUTED for row in capacitors)
    return SupplyTable(
        supply_lines(graph, translation, running, (cold.nominal, cold.high)),
        capacitors,
        _rectifiers(network, running, cold),
        tuple(first_filters(graph, network)),
        _resistors(graph, running),
        warm.strings,
        (f"high line: {HIGH_LINE * 100:.0f} % of the nominal", *defaults, *((_TOLERANCES,) if computed else ())),
        (*translation.left_out, *_BEYOND, *warm.left_out),
        running.converged,
        cold.overshoots,
        swapped(network, running, swaps, cold.high) if swaps else None,
    )


def _cold(network: Network) -> _Cold:
    """The peaks while nothing is drawn, when a rectifier drops nothing; with chokes, those after switching on too."""
    ready = any(isinstance(one, Rectifier) and one.cold for one in network.elements)
    chokes = ready and any(isinstance(one, Inductor) for one in network.elements)
    first_pulses: SwitchOn | None = None
    peaks = []
    for line in (1.0, HIGH_LINE):
        found = cold_peaks(probed(_ideal(network)), line)
        if chokes or (ready and line == HIGH_LINE):
            first_pulses = (
                switch_on(network, line=line) if chokes else switch_on(network, line=line, cycles=FIRST_PULSES)
            )
        if chokes and first_pulses is not None:
            _overshoot(found, network, first_pulses)
        peaks.append(found)
    surges = {one.name: one.amperes for one in first_pulses.rectifiers} if first_pulses else {}
    return _Cold(peaks[0], peaks[1], surges, chokes)


def _overshoot(peaks: dict[str, float], network: Network, seen: SwitchOn) -> None:
    """Raises the peaks to what a choke drives its capacitors to after switching on."""
    ends = {one.name: (one.plus, one.minus) for one in network.elements if isinstance(one, Capacitor)}
    for surge in seen.capacitors:
        plus, minus = ends[surge.name]
        names = (surge.name, probe_name(plus)) if minus == 0 else (surge.name,)
        for name in names:
            peaks[name] = max(peaks[name], surge.high, surge.low, key=abs)


def _ideal(network: Network) -> Network:
    """The same with rectifiers that drop nothing, as next to nothing flows, and that need no heat."""
    elements = (
        dataclasses.replace(one, law=_IDEAL, cold=True) if isinstance(one, Rectifier) else one
        for one in network.elements
    )
    return dataclasses.replace(network, elements=tuple(elements))


def _capacitors(
    graph: CircuitGraph, translation: Translation, running: Steady, cold: _Cold
) -> tuple[CapacitorRow, ...]:
    network = translation.network
    duties = {one.name: one for one in running.capacitors}
    peaks = {name: max(duty.volts.low, duty.volts.high, key=abs) for name, duty in duties.items()}
    breakable = {one.name for one in network.elements if isinstance(one, Resistor) and _breaks(graph, one.name)}
    emptyings = _emptyings(
        network, breakable, {name: max(cold.high[name], volts, key=abs) for name, volts in peaks.items()}
    )
    read = figures(charted(graph, translation))
    judged = {one.capacitor: one for one in verdicts(as_stated(network), read)}
    return tuple(
        CapacitorRow(
            one.name, network.names[one.plus], one.volts, duties[one.name].volts.mean, duties[one.name].volts.swing,
            peaks[one.name], cold.nominal[one.name], cold.high[one.name], duties[one.name].amperes.rms,
            first(graph.circuit.parts[one.name], Dimension.CURRENT), emptyings[one.name], judged[one.name],
        )
        for one in network.elements
        if isinstance(one, Capacitor) and one.polarised
    )  # fmt: skip


def _breaks(graph: CircuitGraph, name: str) -> bool:
    """Whether a resistance is a part of its own, and no winding or lamp."""
    part = graph.circuit.parts.get(name.partition(" ")[0])
    return part is not None and part.kind.word in _BREAKABLE


def _emptyings(network: Network, breakable: set[str], full: dict[str, float]) -> dict[str, Emptying]:
    volts = {name: max(min(each, UNBOUNDED), -UNBOUNDED) for name, each in full.items()}
    whole = {one.name: one.seconds for one in discharge(network, volts, LIMITS)}
    # What no resistor empties can't last longer for the want of one.
    emptied = any(seconds is not None and seconds > 0 for pair in whole.values() for seconds in pair)
    worst = {one.name: one for one in worst_open(network, volts, LIMITS, breakable)} if emptied else {}
    found = {}
    for name, seconds in whole.items():
        open_one = worst.get(name)
        changed = open_one is not None and open_one.opened is not None and open_one.seconds != seconds
        more = (open_one.opened or "", _pair(open_one.seconds)) if open_one and changed else ("", (None, None))
        found[name] = Emptying(full[name], _pair(seconds), *more)
    return found


def _pair(seconds: tuple[float | None, ...]) -> tuple[float | None, float | None]:
    return seconds[0], seconds[1]


def _rectifiers(network: Network, running: Steady, cold: _Cold) -> tuple[RectifierRow, ...]:
    parts = {one.name: one for one in network.elements if isinstance(one, Rectifier)}
    # Every rectifier is hot here and yet no tube draws: the moment after a short break, or before the others warm up.
    idle = steady(_ideal(network), warm=False, line=HIGH_LINE)
    high = {one.name: max(one.inverse_volts, 0.0) for one in idle.rectifiers} if idle.converged else {}
    return tuple(
        RectifierRow(
            one.name, one.amperes.mean, one.amperes.rms, one.amperes.high,
            cold.surges.get(one.name) if parts[one.name].cold else None,
            max(one.inverse_volts, 0.0), high.get(one.name),
            parts[one.name].mean_amperes, parts[one.name].peak_amperes, parts[one.name].inverse_volts,
        )
        for one in running.rectifiers
    )  # fmt: skip


def _resistors(graph: CircuitGraph, running: Steady) -> tuple[ResistorRow, ...]:
    found = []
    for heat in running.resistors:
        part = graph.circuit.parts.get(heat.name)
        if part is None or part.kind.word != "resistor" or heat.amperes.rms < LEAST_AMPERES:
            continue
        rated = first(part, Dimension.POWER)
        found.append(ResistorRow(heat.name, abs(heat.amperes.mean), heat.amperes.rms, heat.watts, rated))
    return tuple(found)
