"""Is a polarised capacitor the right way round, as far as that follows without figures?

Two assumptions are tried after a proof without any: that grids draw no current, and that a rectifier off the mains (a
damper, a detector) is a load of the supply it hangs on. A proof that needs one names it. Where nothing but such a
grid or rectifier puts a voltage on the capacitor, nothing is proved, nor is it where such a rectifier charges it.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.wording import significant
from netcheck.electrical.network.elements import Capacitor, Element, Network, Rectifier, Tube, ends_of
from netcheck.electrical.proof.burden import Burden
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.proof.order import Proof
from netcheck.electrical.proof.proof_words import node_name, pump_words, quoted, route_words
from netcheck.electrical.proof.prover import Prover, Witness

if TYPE_CHECKING:
    from netcheck.electrical.proof.figures import Figures

__all__ = ["Judge"]

ALWAYS = "hot or cold"


class _Claims(Struct, frozen=True):
    """Both claims on one capacitor: plus at least as high as minus, and minus at least as high as plus."""

    right: Proof | Witness
    left: Proof | Witness

    def way(self) -> WayRound:
        match self.right, self.left:
            case Proof() as right, Proof() as left:
                return _between(right, left)
            case Proof(), _:
                return WayRound.RIGHT
            case _, Proof():
                return WayRound.REVERSED
            case _:
                return WayRound.UNKNOWN

    def proofs(self) -> tuple[Proof, ...]:
        return tuple(claim for claim in (self.right, self.left) if isinstance(claim, Proof))

    def witness(self) -> Witness | None:
        return next((claim for claim in (self.right, self.left) if isinstance(claim, Witness)), None)


class Judge:
    """Judges the capacitors of one network; the ``prover`` makes no assumption."""

    def __init__(self, network: Network, figures: "Figures | None" = None) -> None:
        """Take a network; the proofs are shared by all its capacitors, and the running states by whoever asks."""
        self._network = network
        self._known = figures
        self._ending: list[list[Element]] = [[] for _ in range(network.count)]
        for element in network.elements:
            for node in set(ends_of(element)):
                self._ending[node].append(element)
        self.prover = Prover(network) if figures is None else figures.prover(network)
        self._burden = Burden(network)
        self._undriven = frozenset(e.name for e in network.elements if isinstance(e, Rectifier) and not e.driven)
        # Where a proof stands whatever these do, or with them as loads, its figures take them for plain rectifiers.
        self._plain = replace(network, elements=tuple(map(_plain, network.elements)))
        self._is_calm = not any(map(_restless, network.elements))
        self._provers: dict[frozenset[str], Prover] = {}

    @property
    def figures(self) -> "Figures":
        """What was computed of the network; nothing is loaded for it before it is asked for."""
        from netcheck.electrical.proof.figures import Figures

        self._known = self._known or Figures({self._network: self.prover})
        return self._known

    def proved(self, capacitor: Capacitor) -> Verdict:
        """The verdict that needs no figures."""
        partner = self._partner(capacitor)
        return self._settled(capacitor) if partner is None else self._back_to_back(capacitor, partner)

    def _back_to_back(self, capacitor: Capacitor, partner: Capacitor) -> Verdict:
        """The verdict on one of two in series, pole against pole: no DC may stand across the two.

        Their middle lies between the outer ends, so that the one is backwards wherever some does.
        """
        if partner.plus == capacitor.plus:
            outer = replace(capacitor, plus=partner.minus)
        else:
            outer = replace(capacitor, minus=partner.plus)
        found = replace(self._settled(outer), partner=partner.name)
        pair = f"{capacitor.name} and {partner.name} are back to back"
        if found.way is WayRound.EITHER:
            return replace(found, reason=f"{pair}, and there is no DC across the two: together they have no polarity")
        return replace(found, reason=f"{pair}, which is right only if there is no DC across the two; {found.reason}")

    def _settled(self, capacitor: Capacitor) -> Verdict:
        full, calm = self._claims(self.prover, capacitor), self._claims(self._calm(self._undriven), capacitor)
        if full.way() is calm.way() is not WayRound.UNKNOWN:
            return self._proven(capacitor, calm) or self._doubtful(capacitor, calm)
        if calm.way() in (WayRound.RIGHT, WayRound.REVERSED) and full.way() is WayRound.UNKNOWN:
            return self._supposed(capacitor, full, calm.way())
        return self._unproven(capacitor, full)

    def _calm(self, loads: frozenset[str]) -> Prover:
        """A prover that takes grids to draw nothing and these rectifiers to be loads."""
        if self._is_calm:
            return self.prover
        if loads not in self._provers:
            self._provers[loads] = Prover(self._network, grids=False, loads=loads)
        return self._provers[loads]

    def _supposed(self, capacitor: Capacitor, full: _Claims, way: WayRound) -> Verdict:
        """The verdict on a capacitor that is certain only without grids and rectifiers off the mains."""
        ends = capacitor.plus, capacitor.minus
        loads = self._burden.loads(*(ends if way is WayRound.RIGHT else ends[::-1]))
        claims = self._claims(self._calm(loads), capacitor)
        if claims.way() is not way:
            against = claims.right if way is WayRound.RIGHT else claims.left
            return self._unproven(capacitor, _Claims(against, against))
        found = self._proven(capacitor, claims, self._assumed(full, way))
        return found or self._doubtful(capacitor, claims)

    def _claims(self, prover: Prover, capacitor: Capacitor) -> _Claims:
        plus, minus = capacitor.plus, capacitor.minus
        right = prover.claim(plus, minus)
        # Once one direction is proved, the other is of interest only where it is plain.
        return _Claims(right, prover.claim(minus, plus, thorough=isinstance(right, Witness)))

    def _assumed(self, full: _Claims, way: WayRound) -> tuple[str, ...]:
        """The grids that must draw nothing and the rectifiers that must load: the one that lifts, else all of them."""
        match full.right if way is WayRound.RIGHT else full.left:
            case Witness(pump=Tube() as pump, grid=True) | Witness(pump=Rectifier(driven=False) as pump):
                return (pump.name,)
            case _:
                return tuple(dict.fromkeys(each.name for each in self._network.elements if _restless(each)))

    def _proven(self, capacitor: Capacitor, claims: _Claims, assumes: tuple[str, ...] = ()) -> Verdict | None:
        """The verdict that a proof bears out, None where it leans on rectifiers that may drop too much."""
        proof = claims.right if claims.way() is WayRound.RIGHT else claims.left
        if not isinstance(proof, Proof):
            proof = Proof(capacitor.plus, capacitor.minus)
        higher, lower = node_name(self._network, proof.higher), node_name(self._network, proof.lower)
        if claims.way() is WayRound.EITHER:
            reason = f"there is no DC voltage between {higher} and {lower}"
        else:
            margin = f"never more than {significant(proof.margin, 2)} V below"
            stands = "always more positive than" if proof.clamped or not proof.margin else margin
            reason = f"{higher} is {stands} {lower}: {route_words(proof)}"
        if assumes:
            reason += f", as long as {self._assumption(assumes)}"
        path = tuple(dict.fromkeys(element.name for element in proof.route))
        verdict = Verdict(capacitor.name, Surety.PROVEN, claims.way(), reason, ALWAYS, path=path, assumes=assumes)
        return self._weighed(proof, verdict)

    def _weighed(self, proof: Proof, verdict: Verdict) -> Verdict | None:
        """The verdict, with what it may claim where rectifiers may drop all that its proof leaves."""
        doubtful = verdict.way is WayRound.REVERSED and proof.margin > 0
        if verdict.way is WayRound.EITHER or not (proof.clamped or doubtful):
            return verdict
        from netcheck.electrical.proof.held import held, leaves_volts

        if proof.clamped:
            return held(self._plain, proof, verdict, self.figures)
        return verdict if leaves_volts(self._plain, proof, verdict, self.figures) else None

    def _assumption(self, names: tuple[str, ...]) -> str:
        tubes = {element.name for element in self._network.elements if isinstance(element, Tube)}
        return " and ".join(
            f"the grid of {name} draws no current" if name in tubes else f"{name} only loads this supply"
            for name in names
        )

    def _unproven(self, capacitor: Capacitor, full: _Claims) -> Verdict:
        charging = next(iter(self._burden.charging(capacitor.plus, capacitor.minus)), None)
        if charging is not None:
            reason = f"{pump_words(charging, grid=False)} charges it to a voltage that the file does not state"
            return _open(capacitor, reason, charging, ())
        witness = full.witness() or Witness(capacitor.plus, capacitor.minus)
        pump = witness.pump
        if pump is None:
            pump = next((e for e in _routes(full) if isinstance(e, Rectifier) and not e.driven), None)
        path = tuple(element.name for element in witness.path)
        if pump is None:
            loose = node_name(self._network, witness.higher)
            reason = f"nothing that carries DC sets the voltage between {loose} and the other side"
        else:
            reason = f"{pump_words(pump, grid=witness.grid)} could reverse it{_through(path)}"
        by_grid = witness.grid or any(isinstance(e, Tube) and e.grid is not None for e in witness.path)
        return replace(_open(capacitor, reason, pump, path), by_grid=by_grid)

    def _doubtful(self, capacitor: Capacitor, claims: _Claims) -> Verdict:
        """The verdict where a proof leans on rectifiers that may drop all the volts there are."""
        proof = claims.proofs()[claims.way() is WayRound.REVERSED and len(claims.proofs()) > 1]
        higher, lower = node_name(self._network, proof.higher), node_name(self._network, proof.lower)
        pump = next((each for each in proof.route if isinstance(each, Rectifier)), None)
        names = quoted(element.name for element in proof.route)
        reason = (
            f"{names} may drop all that makes {higher} more positive than {lower}; "
            "it may be slightly reversed, or see no voltage at all"
        )
        return _open(capacitor, reason, pump, tuple(element.name for element in proof.route))

    def _partner(self, capacitor: Capacitor) -> Capacitor | None:
        """The capacitor that meets this one with the same pole at a node where nothing else ends."""
        for at, positive in ((capacitor.plus, True), (capacitor.minus, False)):
            match [each for each in self._ending[at] if each is not capacitor]:
                case [Capacitor(polarised=True) as other] if at == (other.plus if positive else other.minus):
                    return other
                case _:
                    continue
        return None


def _between(right: Proof, left: Proof) -> WayRound:
    """The way where both directions are proved, each but for some volts."""
    if right.margin == left.margin == 0 and not (right.clamped or left.clamped):
        return WayRound.EITHER
    if right.margin == left.margin:
        return WayRound.UNKNOWN
    return WayRound.RIGHT if right.margin < left.margin else WayRound.REVERSED


def _open(capacitor: Capacitor, reason: str, pump: Element | None, path: tuple[str, ...]) -> Verdict:
    witness = None if pump is None else pump.name
    across = ((capacitor.plus, capacitor.minus),)
    return Verdict(
        capacitor.name, Surety.UNPROVEN, WayRound.UNKNOWN, reason, witness=witness, path=path, settles=across
    )  # fmt: skip


def _routes(claims: _Claims) -> Iterable[Element]:
    return (element for proof in claims.proofs() for element in proof.route)


def _plain(element: Element) -> Element:
    return replace(element, driven=True) if isinstance(element, Rectifier) else element


def _restless(element: Element) -> bool:
    match element:
        case Tube(grid=grid):
            return grid is not None
        case Rectifier(driven=driven):
            return not driven
        case _:
            return False


def _through(path: tuple[str, ...]) -> str:
    return f" through {quoted(path)}" if path else ""
