"""What a supply does, as the table a restorer reads: capacitors, rectifiers, resistors that run hot, discharge."""

import dataclasses
from dataclasses import dataclass

from netcheck.core.quantity import Dimension
from netcheck.electrical.discharge import discharge
from netcheck.electrical.judgement import Verdict
from netcheck.electrical.network import Capacitor, Conduction, Inductor, Load, Network, Rectifier
from netcheck.electrical.peaks import cold_peaks
from netcheck.electrical.steady import Steady, steady
from netcheck.electrical.swap import Swap, swapped
from netcheck.electrical.switch_on import switch_on
from netcheck.electrical.translate import STATED_LOAD, network_of
from netcheck.electrical.verdict import verdicts
from netcheck.model.graph import CircuitGraph

__all__ = ["CapacitorRow", "RectifierRow", "ResistorRow", "SupplyTable", "supply"]

HIGH_LINE = 1.1
LEAST_AMPERES = 1e-3  # direct current from which a resistor is one of the supply's
LIMIT = 60.0
UNBOUNDED = 10_000.0  # volts that stand for no bound while a discharge is timed
_IDEAL = Conduction(((0.0, 0.0), (1.0, 1.0)))
_BEYOND = (
    "leakage inductance of transformers, swinging chokes, mains that are no sine, vibrators",
    "heaters and what drops their volts",
)


@dataclass(frozen=True, slots=True)
class CapacitorRow:
    """An electrolytic in volts from plus to minus; ``ripple`` is from peak to peak.

    ``peak`` is the farthest from 0 in use; ``cold`` and ``cold_high`` are before the tubes draw current, at nominal
    and at high line. ``seconds`` is from the highest of all these until it stays below 60 V; None is never.
    """

    name: str
    net: str
    rated: float | None
    running: float
    ripple: float
    peak: float
    cold: float
    cold_high: float
    seconds: float | None
    verdict: Verdict

    @property
    def over(self) -> str:
        """When it sees more than its rating: ``in use``, ``cold``, ``cold at high line`` or nothing."""
        if self.rated is None:
            return ""
        cases = (("in use", self.peak), ("cold", self.cold), ("cold at high line", self.cold_high))
        return next((word for word, volts in cases if abs(volts) > self.rated), "")


@dataclass(frozen=True, slots=True)
class RectifierRow:
    """A rectifier in amperes and volts, running at nominal line.

    ``inverse_high`` are the inverse volts with nothing drawn at high line; None where that could not be computed.
    """

    name: str
    mean: float
    peak: float
    inverse: float
    inverse_high: float | None
    rated_inverse: float | None

    @property
    def over(self) -> str:
        """When it sees more inverse volts than it is rated for, as for a capacitor."""
        cases = (("in use", self.inverse), ("cold at high line", self.inverse_high or 0.0))
        return next((word for word, volts in cases if self.rated_inverse and volts > self.rated_inverse), "")


@dataclass(frozen=True, slots=True)
class ResistorRow:
    """A resistor that carries direct current of the supply; ``rated`` watts, None where unsaid."""

    name: str
    amperes: float
    watts: float
    rated: float | None


@dataclass(frozen=True, slots=True)
class SupplyTable:
    """The whole table; where ``converged`` is False no figure of the running set may be trusted."""

    capacitors: tuple[CapacitorRow, ...]
    rectifiers: tuple[RectifierRow, ...]
    resistors: tuple[ResistorRow, ...]
    defaults: tuple[str, ...]
    left_out: tuple[str, ...]
    converged: bool
    swap: Swap | None = None


def supply(graph: CircuitGraph, swap: str = "") -> SupplyTable:
    """Returns the table of a circuit's supply; with ``swap``, the name of a rectifier, also what silicon there does.

    Raises:
        ValueError: there is no such rectifier in the supply, or its sources have different frequencies.
    """
    translation = network_of(graph)
    network = translation.network
    if not any(isinstance(one, Rectifier) for one in network.elements):
        if swap:
            message = f"no rectifier {swap} is part of a supply here"
            raise ValueError(message)
        left_out = (*translation.left_out, "no rectifier that the mains drives was found")
        return SupplyTable((), (), (), translation.defaults, left_out, converged=True)
    running = steady(network)
    cold, high = _cold(network, 1.0), _cold(network, HIGH_LINE)
    return SupplyTable(
        _capacitors(network, running, (cold, high)),
        _rectifiers(network, running),
        _resistors(graph, running),
        translation.defaults,
        (*translation.left_out, *_BEYOND),
        running.converged,
        swapped(network, running, swap, high) if swap else None,
    )


def _cold(network: Network, line: float) -> dict[str, float]:
    """The peaks while nothing is drawn, when a rectifier drops nothing; with chokes, those after switching on too."""
    peaks = cold_peaks(_ideal(network), line)
    chokes = any(isinstance(one, Inductor) for one in network.elements)
    if chokes and any(isinstance(one, Rectifier) and one.cold for one in network.elements):
        for surge in switch_on(network, line=line).capacitors:
            peaks[surge.name] = max(peaks[surge.name], surge.high)
    return peaks


def _ideal(network: Network) -> Network:
    """The same with rectifiers that drop nothing, as next to nothing flows, and that need no heat."""
    elements = (
        dataclasses.replace(one, law=_IDEAL, cold=True) if isinstance(one, Rectifier) else one
        for one in network.elements
    )
    return dataclasses.replace(network, elements=tuple(elements))


def _capacitors(
    network: Network, running: Steady, cold: tuple[dict[str, float], dict[str, float]]
) -> tuple[CapacitorRow, ...]:
    duties = {one.name: one.volts for one in running.capacitors}
    peaks = {name: max(volts.low, volts.high, key=abs) for name, volts in duties.items()}
    full = {name: max(cold[1][name], volts, key=abs) for name, volts in peaks.items()}
    finite = {name: max(min(volts, UNBOUNDED), -UNBOUNDED) for name, volts in full.items()}
    seconds = {one.name: one.seconds[0] for one in discharge(network, finite, (LIMIT,))}
    judged = {one.capacitor: one for one in verdicts(_as_stated(network))}
    return tuple(
        CapacitorRow(
            one.name, network.names[one.plus], one.volts, duties[one.name].mean, duties[one.name].swing,
            peaks[one.name], cold[0][one.name], cold[1][one.name], seconds[one.name], judged[one.name],
        )
        for one in network.elements
        if isinstance(one, Capacitor) and one.polarised
    )  # fmt: skip


def _as_stated(network: Network) -> Network:
    """The network without currents taken by default: no verdict rests on those."""
    stated = (one for one in network.elements if not isinstance(one, Load) or one.name.startswith(STATED_LOAD))
    return dataclasses.replace(network, elements=tuple(stated))


def _rectifiers(network: Network, running: Steady) -> tuple[RectifierRow, ...]:
    rated = {one.name: one.inverse_volts for one in network.elements if isinstance(one, Rectifier)}
    # Every rectifier is hot here and yet no tube draws: the moment after a short break, or before the others warm up.
    idle = steady(_ideal(network), warm=False, line=HIGH_LINE)
    high = {one.name: max(one.inverse_volts, 0.0) for one in idle.rectifiers} if idle.converged else {}
    return tuple(
        RectifierRow(
            one.name,
            one.amperes.mean,
            one.amperes.high,
            max(one.inverse_volts, 0.0),
            high.get(one.name),
            rated[one.name],
        )
        for one in running.rectifiers
    )


def _resistors(graph: CircuitGraph, running: Steady) -> tuple[ResistorRow, ...]:
    found = []
    for heat in running.resistors:
        part = graph.circuit.parts.get(heat.name)
        if part is None or part.kind.word != "resistor" or abs(heat.amperes.mean) < LEAST_AMPERES:
            continue
        rated = part.features.first(Dimension.POWER)
        found.append(ResistorRow(heat.name, abs(heat.amperes.mean), heat.watts, float(rated.amount) if rated else None))
    return tuple(found)
