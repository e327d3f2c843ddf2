"""One supply studied once: its network, what it does running, cold and at switch-on, and the verdicts on polarity.

Rules and the table ask here, so that what they say of one capacitor agrees.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, product
from math import prod

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.wording import listed
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Capacitor, Conduction, Inductor, Network, Rectifier, VoltageSource
from netcheck.electrical.network.gaps import readings_of
from netcheck.electrical.network.readings import Charted, as_stated, charted, figures
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.network.translate import network_in
from netcheck.electrical.proof.adrift import adrift
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.guard import agreed
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.proof.rows import borne_out
from netcheck.electrical.proof.tolerance import settled
from netcheck.electrical.proof.verdict import verdicts
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.running.switch_on import SwitchOn, switch_on
from netcheck.model.graph import CircuitGraph

__all__ = [
    "HIGH_LINE",
    "Cold",
    "cold",
    "computed",
    "ideal",
    "judged",
    "known",
    "missing",
    "probe_name",
    "probed",
    "readings",
    "running",
    "running_as_stated",
    "unsettled",
]

HIGH_LINE = 1.1
"""The highest line that a set must stand, as a part of the nominal volts (common practice)."""

MOST_STANDS = 16  # ways in which switches of unstated position are tried
ANY_VALUE = "the missing value small and large"
SAME_SHARE, SAME_VOLTS = 0.01, 0.05  # by which figures may differ that do not depend on a missing value
PROBE_FARADS = 1e-12  # so little that it changes nothing: a voltmeter that draws no current
_UNTRIED = Verdict("", Surety.UNPROVEN, WayRound.UNKNOWN, "")  # what is known of switches in more ways than are tried
_IDEAL = Conduction(((0.0, 0.0), (1.0, 1.0)))


class Cold(Struct, frozen=True):
    """The volts of capacitors while nothing is drawn, at nominal and at high line; infinite where nothing bounds them.

    ``switched`` is what was seen after switching on at high line, where that was followed: with a choke, or with a
    capacitor that does not end on the common, it can exceed what the volts settle to.
    """

    nominal: Mapping[str, float]
    high: Mapping[str, float]
    switched: SwitchOn | None
    chokes: bool


def readings(graph: CircuitGraph) -> tuple[Charted, ...]:
    """What the chart says between two nodes of the supply."""
    return charted(graph, translated(graph))


def running(graph: CircuitGraph) -> Steady | None:
    """The running set with every load; None where it is not found, or sources of several frequencies meet."""
    return graph.once(_running)


def known(graph: CircuitGraph) -> Steady | None:
    """The running set where every value that it needs is stated: its figures may be told. None otherwise."""
    return None if missing(graph) else running(graph)


def running_as_stated(graph: CircuitGraph) -> Steady | None:
    """The same with the currents alone that the file states."""
    return graph.once(_running_as_stated)


def cold(graph: CircuitGraph) -> Cold:
    """What is seen before the tubes draw current."""
    return graph.once(_cold)


def judged(graph: CircuitGraph) -> Mapping[str, Verdict]:
    """The verdicts on all electrolytics, each held against the figures beside it."""
    return graph.once(_judged)


def missing(graph: CircuitGraph) -> tuple[str, ...]:
    """The values that figures need and the file does not state: what to add, each once."""
    return tuple(dict.fromkeys(gap.say for gap in translated(graph).gaps))


def unsettled(graph: CircuitGraph) -> frozenset[str]:
    """The capacitors and nodes (by name) whose running volts depend on a value not stated, or on leakage alone."""
    return graph.once(_unsettled)


def ideal(network: Network) -> Network:
    """The same with rectifiers that drop nothing, as next to nothing flows, and that need no heat."""
    elements = (replace(one, law=_IDEAL, cold=True) if isinstance(one, Rectifier) else one for one in network.elements)
    return replace(network, elements=tuple(elements))


def probe_name(node: int) -> str:
    """What the probe on a node is called among the capacitors of a probed network."""
    return f"probe of node {node}"


def probed(network: Network) -> Network:
    """The same with a capacitor too small to matter from every node to the reference, to read its peaks from."""
    probes = tuple(Capacitor(probe_name(node), node, 0, PROBE_FARADS) for node in range(1, network.count))
    return replace(network, elements=(*network.elements, *probes))


def computed(graph: CircuitGraph) -> Figures:
    """The figures of the circuit's supply that were asked for before."""
    return graph.once(_none_yet)


def _none_yet(graph: CircuitGraph) -> Figures:  # noqa: ARG001 - kept with the graph
    return Figures()


def _running(graph: CircuitGraph) -> Steady | None:
    return _steady(translated(graph).network, computed(graph))


def _running_as_stated(graph: CircuitGraph) -> Steady | None:
    return _steady(as_stated(translated(graph).network), computed(graph))


def _steady(network: Network, seen: Figures) -> Steady | None:
    try:
        found = seen.running(network)
    except ValueError:  # no common period
        return None
    return found if found.converged else None


def _cold(graph: CircuitGraph) -> Cold:
    network = translated(graph).network
    nominal, high = cold_peaks(probed(ideal(network))), cold_peaks(probed(ideal(network)), HIGH_LINE)
    chokes = any(isinstance(one, Inductor) for one in network.elements)
    ready = any(isinstance(one, Rectifier) and one.cold for one in network.elements)
    if not ready or not (chokes or _between_lines(network, high)):
        return Cold(nominal, high, None, chokes)
    try:
        seen = switch_on(network, line=HIGH_LINE)
    except ValueError:  # no common period
        return Cold(nominal, high, None, chokes)
    ends = {one.name: (one.plus, one.minus) for one in network.elements if isinstance(one, Capacitor)}
    for surge in seen.capacitors:
        plus, minus = ends[surge.name]
        most = max(surge.high, surge.low, key=abs)
        for name in (surge.name, probe_name(plus)) if minus == 0 else (surge.name,):
            high[name] = max(high[name], most, key=abs)
            # At nominal line the swing is smaller in proportion, and a little more for the threshold.
            nominal[name] = max(nominal[name], most / HIGH_LINE, key=abs)
    return Cold(nominal, high, seen, chokes)


def _between_lines(network: Network, high: Mapping[str, float]) -> bool:
    """Whether a capacitor between two lines may see more, while they come up, than it is rated for.

    One that ends on the reference or on a side of an alternating source sees no more than what it settles to.
    """
    ends = {0} | {n for s in network.elements if isinstance(s, VoltageSource) and s.hertz for n in (s.plus, s.minus)}
    between = (one for one in network.elements if isinstance(one, Capacitor) and ends.isdisjoint((one.plus, one.minus)))
    return any(
        one.volts is not None and max(abs(high[probe_name(end)]) for end in (one.plus, one.minus)) > one.volts
        for one in between
    )


def _judged(graph: CircuitGraph) -> Mapping[str, Verdict]:
    translation = translated(graph)
    first = _verdicts(graph, translation)
    stands = {name: places for name, places in translation.unsaid.items() if len(places) > 1}
    tried = list(islice(_stands(stands), 1, MOST_STANDS))
    others = [_verdicts(graph, network_in(graph, stand)) for stand in tried]
    names, complete = listed(list(stands)), len(tried) + 1 == prod(map(len, stands.values()))
    found = {
        name: agreed(one, [each.get(name) for each in others] if complete else [_UNTRIED], names)
        for name, one in first.items()
    }
    seen = known(graph)
    return found if seen is None else borne_out(translation.network, found, seen, computed(graph))


def _stands(unsaid: Mapping[str, tuple[str, ...]]) -> Iterator[Mapping[str, str]]:
    for places in product(*unsaid.values()):
        yield dict(zip(unsaid, places, strict=True))


def _verdicts(graph: CircuitGraph, translation: Translation) -> dict[str, Verdict]:
    """The verdicts that hold whatever the missing values are."""
    read, seen = figures(charted(graph, translation)), computed(graph)
    tried = [
        {one.capacitor: one for one in verdicts(network, read, seen)}
        for network in readings_of(as_stated(translation.network), translation.gaps)
    ]
    if len(translation.gaps) <= 1:
        tried = _settled_throughout(readings_of(translation.network, translation.gaps), tried, seen)
    say = "; ".join(dict.fromkeys(gap.say for gap in translation.gaps))
    found = {name: agreed(one, [each[name] for each in tried[1:]], "", say) for name, one in tried[0].items()}
    return {name: _whatever(one) for name, one in found.items()} if translation.gaps else found


def _whatever(verdict: Verdict) -> Verdict:
    """A computed one that says that it was tried with a missing value small and large."""
    if verdict.surety is not Surety.COMPUTED:
        return verdict
    state = f"{verdict.state}, {ANY_VALUE}"
    return replace(verdict, state=state, reason=verdict.reason.replace(f"({verdict.state})", f"({state})"))


def _settled_throughout(
    networks: Sequence[Network], tried: Sequence[dict[str, Verdict]], seen: Figures
) -> list[dict[str, Verdict]]:
    """The verdicts with those computed that no proof gives: of one missing value, at its least and its most as well.

    What comes out undecided once is not tried again. With two that are missing no figure says what both do together.
    """
    found: list[dict[str, Verdict]] = []
    for network, verdicts_of_it in zip(networks, tried, strict=True):
        asked = {n: v for n, v in verdicts_of_it.items() if all(each[n].is_certain for each in found)}
        found.append({**verdicts_of_it, **settled(network, asked, seen)})
    return found


def _unsettled(graph: CircuitGraph) -> frozenset[str]:
    translation = translated(graph)
    network, loose = translation.network, adrift(translation.network)
    hung = {e.name for e in network.elements if isinstance(e, Capacitor) and not loose.isdisjoint((e.plus, e.minus))}
    depending = _depending(translation, computed(graph)) if translation.gaps else frozenset[str]()
    return depending | hung | {network.names[node] for node in loose}


def _depending(translation: Translation, seen: Figures) -> frozenset[str]:
    runs = [_steady(network, seen) for network in readings_of(translation.network, translation.gaps)]
    first, others = runs[0], runs[1:]
    every = {one.name for one in translation.network.elements if isinstance(one, Capacitor)}
    if first is None or not others or None in others:
        return frozenset(every | set(translation.network.names))
    return frozenset(name for each in others if each is not None for name in _apart(translation.network, first, each))


def _apart(network: Network, one: Steady, other: Steady) -> Iterator[str]:
    for first, second in zip(one.capacitors, other.capacitors, strict=True):
        pairs = ((first.volts.mean, second.volts.mean), (first.volts.swing, second.volts.swing))
        if not all(_is_same(*pair) for pair in pairs):
            yield first.name
    for name, first_volts, second_volts in zip(network.names, one.nodes, other.nodes, strict=False):
        if not _is_same(first_volts, second_volts):
            yield name


def _is_same(one: float, other: float) -> bool:
    return abs(one - other) <= max(SAME_SHARE * max(abs(one), abs(other)), SAME_VOLTS)
