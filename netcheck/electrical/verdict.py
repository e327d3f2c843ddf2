"""For every polarised capacitor: is it the right way round, how surely is that known, and for what reason?

Two assumptions are tried after a proof without any: that grids draw no current, and that a rectifier off the mains (a
damper, a detector) is a load of the supply it hangs on. A proof that needs one names it. Where nothing but such a
grid or rectifier puts a voltage on the capacitor, nothing is proved.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum

from netcheck.electrical.network import Capacitor, Element, Load, Network, Rectifier, Tube
from netcheck.electrical.order import Proof
from netcheck.electrical.prover import Prover, Witness
from netcheck.electrical.words import element_name, node_name, pump_words, route_words

__all__ = ["Grade", "Verdict", "Way", "verdicts"]


class Grade(Enum):
    """How surely a verdict is known; a contradicted one has readings against it that cannot all be true."""

    PROVEN = "proven"
    COMPUTED = "computed"
    UNPROVEN = "unproven"
    CONTRADICTED = "contradicted"


class Way(Enum):
    """How a capacitor stands to the voltage across it; EITHER where none does or none can harm it."""

    RIGHT = "right"
    REVERSED = "reversed"
    EITHER = "either"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What can be said of one capacitor.

    ``state`` is what the verdict holds for. ``witness`` is what could reverse an unproven one; ``settles`` are at most
    two pairs of nodes, plus and minus of a meter, whose reading decides it. ``assumes`` are the tubes whose grids are
    taken to draw no current and the rectifiers taken for loads. ``volts`` are the computed bounds.
    """

    capacitor: str
    grade: Grade
    way: Way
    reason: str
    state: str = ""
    witness: str | None = None
    path: tuple[str, ...] = ()
    settles: tuple[tuple[int, int], ...] = ()
    assumes: tuple[str, ...] = ()
    volts: tuple[float, float] | None = None


type_of_reading = tuple[int, int, float, float]


def verdicts(network: Network, readings: Sequence[Volts] = ()) -> tuple[Verdict, ...]:
    """The verdicts on all polarised capacitors, in the network's order.

    Readings are (plus, minus, volts, tolerance) of the running set, the tolerance as 0.2 of the volts.
    """
    judge = _Judge(network)
    found = [judge.proved(each) for each in network.elements if isinstance(each, Capacitor) and each.polarised]
    stated = readings or any(isinstance(element, Load) for element in network.elements)
    if not stated or (not readings and all(verdict.grade is Grade.PROVEN for verdict in found)):
        return tuple(found)
    return _computed(network, readings, found)


@dataclass(frozen=True, slots=True)
class _Claims:
    """Both claims on one capacitor: plus at least as high as minus, and minus at least as high as plus."""

    right: Proof | Witness
    left: Proof | Witness

    def way(self) -> Way:
        match self.right, self.left:
            case Proof(margin=right), Proof(margin=left):
                return Way.EITHER if right == left else Way.RIGHT if right < left else Way.REVERSED
            case Proof(), _:
                return Way.RIGHT
            case _, Proof():
                return Way.REVERSED
            case _:
                return Way.UNKNOWN

    def proof(self) -> Proof | None:
        return next((claim for claim in (self.right, self.left) if isinstance(claim, Proof)), None)

    def witness(self) -> Witness | None:
        return next((claim for claim in (self.right, self.left) if isinstance(claim, Witness)), None)


class _Judge:
    def __init__(self, network: Network) -> None:
        self._network = network
        self._full = Prover(network)
        restless = any(map(_restless, network.elements))
        self._calm = Prover(network, grids=False, undriven=False) if restless else self._full

    def proved(self, capacitor: Capacitor) -> Verdict:
        """The verdict that needs no figures."""
        partner = self._partner(capacitor)
        if partner is not None:
            reason = f"`{capacitor.name}` and `{partner.name}` stand back to back: together they have no polarity"
            return Verdict(capacitor.name, Grade.PROVEN, Way.EITHER, reason, "hot or cold")
        full, calm = self._claims(self._full, capacitor), self._claims(self._calm, capacitor)
        if full.way() is calm.way() is not Way.UNKNOWN:
            return self._proven(capacitor, calm)
        if calm.way() in (Way.RIGHT, Way.REVERSED) and full.way() is Way.UNKNOWN:
            return self._proven(capacitor, calm, self._assumed(full, calm.way()))
        return self._unproven(capacitor, full)

    def _claims(self, prover: Prover, capacitor: Capacitor) -> _Claims:
        plus, minus = capacitor.plus, capacitor.minus
        return _Claims(prover.claim(plus, minus), prover.claim(minus, plus))

    def _assumed(self, full: _Claims, way: Way) -> tuple[str, ...]:
        against = full.right if way is Way.RIGHT else full.left
        pump = against.pump if isinstance(against, Witness) else None
        return (element_name(pump),) if pump is not None else ()

    def _proven(self, capacitor: Capacitor, claims: _Claims, assumes: tuple[str, ...] = ()) -> Verdict:
        proof = claims.right if claims.way() is Way.RIGHT else claims.left
        if not isinstance(proof, Proof):
            proof = Proof(capacitor.plus, capacitor.minus)
        higher, lower = node_name(self._network, proof.higher), node_name(self._network, proof.lower)
        if claims.way() is Way.EITHER:
            reason = f"no DC voltage stands between {higher} and {lower}"
        else:
            reason = f"{higher} is never below {lower} on average: {route_words(proof)}"
        if assumes:
            reason += f", as long as {self._assumption(assumes)}"
        path = tuple(element_name(element) for element in proof.route)
        return Verdict(capacitor.name, Grade.PROVEN, claims.way(), reason, "hot or cold", path=path, assumes=assumes)

    def _assumption(self, names: tuple[str, ...]) -> str:
        tubes = {element.name for element in self._network.elements if isinstance(element, Tube)}
        return " and ".join(
            f"the grid of `{name}` draws no current" if name in tubes else f"`{name}` only loads this supply"
            for name in names
        )

    def _unproven(self, capacitor: Capacitor, full: _Claims) -> Verdict:
        witness = full.witness() or Witness(capacitor.plus, capacitor.minus)
        pump = witness.pump
        if pump is None:
            pump = next((e for e in _route(full) if isinstance(e, Rectifier) and not e.driven), None)
        across = (capacitor.plus, capacitor.minus)
        path = tuple(element_name(element) for element in witness.path)
        if pump is None:
            loose = node_name(self._network, witness.higher)
            reason = f"nothing that conducts fixes the voltage between {loose} and the other side"
        else:
            reason = f"{pump_words(pump, grid=witness.grid)} could reverse it{_through(path)}"
        return Verdict(
            capacitor.name,
            Grade.UNPROVEN,
            Way.UNKNOWN,
            reason,
            witness=None if pump is None else element_name(pump),
            path=path,
            settles=(across,),
        )

    def _partner(self, capacitor: Capacitor) -> Capacitor | None:
        """The capacitor that meets this one with the same pole at a node where nothing else ends."""
        for at, plus in ((capacitor.plus, True), (capacitor.minus, False)):
            others = [e for e in self._network.elements if e is not capacitor and at in _leads(e)]
            match others:
                case [Capacitor(polarised=True) as other] if at == (other.plus if plus else other.minus):
                    return other
                case _:
                    continue
        return None


def _route(claims: _Claims) -> Iterable[Element]:
    proof = claims.proof()
    return () if proof is None else proof.route


def _restless(element: Element) -> bool:
    match element:
        case Tube(grid=grid):
            return grid is not None
        case Rectifier(driven=driven):
            return not driven
        case _:
            return False


def _leads(element: Element) -> tuple[int, ...]:
    slots = ("a", "b", "plus", "minus", "anode", "plate", "cathode", "grid")
    return tuple(node for slot in slots if (node := getattr(element, slot, None)) is not None)


def _through(path: tuple[str, ...]) -> str:
    return f" through {', '.join(f'`{name}`' for name in path)}" if path else ""


def _computed(network: Network, readings: Sequence[Volts], found: list[Verdict]) -> tuple[Verdict, ...]:
    from netcheck.electrical.bounds import Contradiction, Reading, bounds

    prover = Prover(network, grids=False)

    def sign(a: int, b: int) -> int:
        return next((way for way, claim in ((1, (a, b)), (-1, (b, a))) if _sure(prover.claim(*claim))), 0)

    leads = {e.name: (e.plus, e.minus) for e in network.elements if isinstance(e, Capacitor)}
    pairs = [leads[verdict.capacitor] for verdict in found]
    chart = tuple(Reading(*reading) for reading in readings)
    intervals = bounds(network, chart, pairs, sign)
    if isinstance(intervals, Contradiction):
        return tuple(_contradicted(network, verdict, intervals.readings) for verdict in found)
    state = "this voltage chart" if readings else "running, with the currents stated"
    return tuple(
        _within(verdict, (interval.low, interval.high), state)
        for verdict, interval in zip(found, intervals, strict=True)
    )


def _sure(claim: Proof | Witness) -> bool:
    return isinstance(claim, Proof) and not claim.clamped
