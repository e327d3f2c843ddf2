"""Is a polarised capacitor the right way round, as far as that follows without figures?

Two assumptions are tried after a proof without any: that grids draw no current, and that a rectifier off the mains (a
damper, a detector) is a load of the supply it hangs on. A proof that needs one names it. Where nothing but such a
grid or rectifier puts a voltage on the capacitor, nothing is proved.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from netcheck.electrical.judgement import Grade, Verdict, Way
from netcheck.electrical.network import Capacitor, Element, Network, Rectifier, Tube
from netcheck.electrical.order import Proof
from netcheck.electrical.prover import Prover, Witness
from netcheck.electrical.words import node_name, pump_words, quoted, route_words

__all__ = ["Judge"]

ALWAYS = "hot or cold"
HARMLESS_VOLTS = 1.5  # what an electrolytic stands the wrong way round: facts 3.5, from memory


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


class Judge:
    """Judges the capacitors of one network; the ``prover`` makes no assumption."""

    def __init__(self, network: Network) -> None:
        """Take a network; the proofs are shared by all its capacitors."""
        self._network = network
        self._ending: list[list[Element]] = [[] for _ in range(network.count)]
        for element in network.elements:
            for node in set(_leads(element)):
                self._ending[node].append(element)
        self.prover = Prover(network)
        restless = any(map(_restless, network.elements))
        self._calm = Prover(network, grids=False, undriven=False) if restless else self.prover

    def proved(self, capacitor: Capacitor) -> Verdict:
        """The verdict that needs no figures."""
        partner = self._partner(capacitor)
        if partner is not None:
            reason = f"`{capacitor.name}` and `{partner.name}` stand back to back: together they have no polarity"
            return Verdict(capacitor.name, Grade.PROVEN, Way.EITHER, reason, ALWAYS)
        full, calm = self._claims(self.prover, capacitor), self._claims(self._calm, capacitor)
        if full.way() is calm.way() is not Way.UNKNOWN:
            return self._proven(capacitor, calm) or self._unproven(capacitor, full)
        if calm.way() in (Way.RIGHT, Way.REVERSED) and full.way() is Way.UNKNOWN:
            assumed = self._assumed(full, calm.way())
            return self._proven(capacitor, calm, assumed) or self._unproven(capacitor, full)
        return self._unproven(capacitor, full)

    def _claims(self, prover: Prover, capacitor: Capacitor) -> _Claims:
        plus, minus = capacitor.plus, capacitor.minus
        right = prover.claim(plus, minus)
        # Once one direction is proved, the other is of interest only where it is plain.
        return _Claims(right, prover.claim(minus, plus, thorough=isinstance(right, Witness)))

    def _assumed(self, full: _Claims, way: Way) -> tuple[str, ...]:
        against = full.right if way is Way.RIGHT else full.left
        pump = against.pump if isinstance(against, Witness) else None
        return (pump.name,) if pump is not None else ()

    def _proven(self, capacitor: Capacitor, claims: _Claims, assumes: tuple[str, ...] = ()) -> Verdict | None:
        """The verdict that a proof bears out, None where it leans on rectifiers that may drop too much."""
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
        path = tuple(element.name for element in proof.route)
        verdict = Verdict(capacitor.name, Grade.PROVEN, claims.way(), reason, ALWAYS, path=path, assumes=assumes)
        if not proof.clamped or proof.margin <= HARMLESS_VOLTS:
            return verdict
        from netcheck.electrical.held import held

        return held(self._network, proof, verdict)

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
        path = tuple(element.name for element in witness.path)
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
            witness=None if pump is None else pump.name,
            path=path,
            settles=(across,),
        )

    def _partner(self, capacitor: Capacitor) -> Capacitor | None:
        """The capacitor that meets this one with the same pole at a node where nothing else ends."""
        for at, positive in ((capacitor.plus, True), (capacitor.minus, False)):
            match [each for each in self._ending[at] if each is not capacitor]:
                case [Capacitor(polarised=True) as other] if at == (other.plus if positive else other.minus):
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
    return f" through {quoted(path)}" if path else ""
