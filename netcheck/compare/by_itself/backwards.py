"""New rectifiers that no line gives a place: what they feed says which way round they belong."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from netcheck.compare.by_itself.proofs import backwards_now, is_right
from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.pair import Pair
from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.mend import Mend
from netcheck.electrical.proof.judgement import Verdict
from netcheck.model.graph import CircuitGraph

__all__ = ["Backwards", "against_their_filters"]


class Backwards(Struct, frozen=True):
    """Rectifiers that are turned round together, and the electrolytics that are reversed until they are."""

    parts: tuple[Part, ...]
    behind: tuple[Verdict, ...]
    mend: Mend


def against_their_filters(pair: Pair) -> Backwards | None:
    """The new rectifiers without which no electrolytic is backwards, once they are turned round: it was tried."""
    unsaid = [part for part, _ in pair.pairing.unsaid if part.kind.family is Family.RECTIFIER and len(part.leads) == 2]
    behind = backwards_now(pair) if unsaid else ()
    for parts in _groups(unsaid) if behind else ():
        mend = _turned(pair, parts)
        after = tried(pair.real.circuit, mend)
        if after is not None and is_right(CircuitGraph(after), behind):
            return Backwards(tuple(parts), behind, mend)
    return None


def _groups(parts: Sequence[Part]) -> Iterator[Sequence[Part]]:
    """One by one, then all of them: two for the two halves of a winding are a short until both are turned."""
    yield from ([part] for part in parts)
    if len(parts) > 1:
        yield parts


def _turned(pair: Pair, parts: Sequence[Part]) -> Mend:
    ends = [pair.real.terminals(part) for part in parts]
    return Hands(pair.real).exchanged({at: to for a, b in ends for at, to in ((a, b), (b, a))})
