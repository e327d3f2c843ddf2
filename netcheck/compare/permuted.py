"""A rewired file that uses the original's names in another order, though the chassis is the same: told as one NOTE.

Compared by name such a file is wrong nearly everywhere. It is taken for the same only where the structure says so end
by end with every value, rating and material equal; it is then compared again part by part as the structure says, so
that nothing rests on the structure alone. A part that has another's name and is not like it stays a STOP.

With the trade's bands for values two near ones in each other's place would fall silent, so values have to be equal. The
NOTE names no part among what it touches, else it would silence what the state says by itself.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from netcheck.compare.pair import Pair, compared
from netcheck.compare.roles.alike import alike
from netcheck.compare.roles.expected import shorted
from netcheck.core.circuit import Circuit, Part
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.model.graph import CircuitGraph

__all__ = ["read_by_structure"]

_NO_SLIPS = 3
"""Fewer are faults of hands: the names of two parts that are exchanged make two at most."""


def read_by_structure(pair: Pair, told: Iterable[Diagnostic]) -> Pair | None:
    """The two states compared with the names put right; None where the names are not what is wrong.

    ``told`` is what the comparison by name says.
    """
    grave = [d for d in told if d.grade is Grade.STOP]
    if len(grave) < _NO_SLIPS or pair.pairing.covered is not None:
        return None
    if any(len(roles.old) != 1 or len(roles.new) != 1 for roles in pair.pairing.pairs):
        return None
    new = pair.real.circuit
    wrong = frozenset(name for d in grave for name in d.touched.parts)
    found = _counterparts(pair, new, wrong) or _counterparts(pair, new, None)
    others = tuple((old, part) for old, part in found if old.name != part.name and not part.replaces)
    again = compared(pair.source, _claiming(new, others)) if others else None
    if again is None or again.faults:
        return None
    pairing = replace(again.pairing, dead=pair.pairing.dead)
    return replace(again, pairing=pairing, real=pair.real, permuted=others)


def _counterparts(pair: Pair, new: Circuit, wrong: frozenset[str] | None) -> tuple[tuple[Part, Part], ...]:
    """Every part of the original with its counterpart; none where the structures are not the same.

    Where ``wrong`` are given, parts that are not among them keep their names.
    """
    from netcheck.compare.roles.recognise import same_throughout

    pairing = pair.pairing
    roles = [(p.old[0], p.new[0]) for p in pairing.pairs]
    keeps = [bool(n.replaces) or (wrong is not None and wrong.isdisjoint((o.name, n.name))) for o, n in roles]
    fixed = [role for role, kept in zip(roles, keeps, strict=True) if kept]
    left = [role for role, kept in zip(roles, keeps, strict=True) if not kept]
    olds, news = [*(o for o, _ in left), *pairing.missing], [*(n for _, n in left), *pairing.extra]
    rewired = CircuitGraph(shorted(new, pair.source))
    known_old, known_new = [o for o, _ in fixed], [n for _, n in fixed]
    fits = _sizes([*olds, *known_old], pair.original) == _sizes([*news, *known_new], rewired)
    found = same_throughout(pair.original, rewired, olds, news, fixed) if fits else ()
    return _own_names_kept(found, pair.original)


def _sizes(parts: Iterable[Part], graph: CircuitGraph) -> list[int]:
    """How many leads the nets have: where that differs, no names can make the two the same."""
    return sorted(Counter(graph.circuit.nets[at] for part in parts for at in graph.terminals(part)).values())


def _own_names_kept(found: Sequence[tuple[Part, Part]], original: CircuitGraph) -> tuple[tuple[Part, Part], ...]:
    """The same with like parts that lie side by side under their own names: the structure can't tell them apart."""
    olds = {old.name: old for old, _ in found}
    counterpart = {old.name: part for old, part in found}
    for old in olds.values():
        twin = olds.get(counterpart[old.name].name)
        while twin is not None and twin is not old and _side_by_side(old, twin, original):
            here = counterpart[old.name]
            counterpart[old.name], counterpart[twin.name] = counterpart[twin.name], here
            twin = olds.get(counterpart[old.name].name)
    return tuple((old, counterpart[name]) for name, old in olds.items())


def _side_by_side(one: Part, other: Part, original: CircuitGraph) -> bool:
    return alike(one, other) and _spots(one, original) == _spots(other, original)


def _spots(part: Part, original: CircuitGraph) -> list[int]:
    """The nets of a part's leads; of two ends that may change places, in any order."""
    spots = [original.circuit.nets[at] for at in original.terminals(part)]
    either = bool(part.free) and len(spots) == len(part.free[0])
    return sorted(spots) if either else spots


def _claiming(circuit: Circuit, found: Iterable[tuple[Part, Part]]) -> Circuit:
    """The rewired state as if each part said whose place it has."""
    places: Mapping[str, str] = {part.name: old.name for old, part in found}
    parts = {
        name: replace(part, replaces=(places[name],)) if name in places else part
        for name, part in circuit.parts.items()
    }
    return replace(circuit, parts=parts)
