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
from netcheck.electrical.network.readings import as_stated, charted, figures
from netcheck.electrical.network.sharing import covered_paths, moved_by_sharing
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.network.translate import network_in
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.guard import agreed
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.proof.peaks import AtRest
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
    "cold_in",
    "computed",
    "ideal",
    "judged",
    "known",
    "missing",
    "probe_name",
    "probed",
    "running",
    "running_as_stated",
    "steady_of",
]

HIGH_LINE = 1.1
"""The highest line that a set must stand, as a part of the nominal volts (common practice)."""

MOST_STANDS = 16  # ways in which switches of unstated position are tried
ANY_VALUE = "the missing value small and large"
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
    return steady_of(translated(graph).network, computed(graph))


def _running_as_stated(graph: CircuitGraph) -> Steady | None:
    return steady_of(as_stated(translated(graph).network), computed(graph))


def steady_of(network: Network, seen: Figures) -> Steady | None:
    """The running set of a network, from figures seen before; None as in `running`."""
    try:
        found = seen.running(network)
    except ValueError:  # no common period
        return None
    return found if found.converged else None


def _cold(graph: CircuitGraph) -> Cold:
    return cold_in(translated(graph).network)


def cold_in(network: Network) -> Cold:
    """What is seen of a network before its tubes draw current."""
    unloaded = probed(ideal(network))
    nominal, high = AtRest(unloaded).peaks(), AtRest(unloaded, HIGH_LINE).peaks()
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
        for name, volts in _seen_at(surge.name, plus, minus, most):
            high[name] = max(high[name], volts, key=abs)
            # At nominal line the swing is smaller in proportion, and a little more for the threshold.
            nominal[name] = max(nominal[name], volts / HIGH_LINE, key=abs)
    return Cold(nominal, high, seen, chokes)


def _seen_at(name: str, plus: int, minus: int, volts: float) -> Iterator[tuple[str, float]]:
    """What is across a capacitor is that of its node too, where its other end is the reference."""
    yield name, volts
    if minus == 0:
        yield probe_name(plus), volts
    elif plus == 0:
        yield probe_name(minus), -volts


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
        steadied = _settled_throughout(readings_of(translation.network, translation.gaps), tried, seen)
        hung = _hung_on_shares(translation)
        tried = [
            {**after, **{name: before[name] for name in hung}} for before, after in zip(tried, steadied, strict=True)
        ]
    say = "; ".join(dict.fromkeys(gap.say for gap in translation.gaps))
    found = {name: agreed(one, [each[name] for each in tried[1:]], "", say) for name, one in tried[0].items()}
    return {name: _whatever(one) for name, one in found.items()} if translation.gaps else found


def _hung_on_shares(translation: Translation) -> frozenset[str]:
    """The electrolytics of which no figure says anything: a stated current divides nobody knows how behind them."""
    network = translation.network
    moved = moved_by_sharing(network, covered_paths(network, translation.covered), None)
    return frozenset(
        one.name
        for one in network.elements
        if isinstance(one, Capacitor) and one.polarised and not moved.keys().isdisjoint((one.plus, one.minus))
    )


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
