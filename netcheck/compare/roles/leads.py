"""The leads of paired parts, each with its counterpart, and which of them may change places.

A lead in the scope of `covers` is compared with all others, covered or not: who covers a part wants to know what left
its net and what came upon it. Of tubes electrodes are compared; pins are places.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from netcheck.compare.roles.part_pair import PartPair
from netcheck.core.circuit import Part
from netcheck.core.difference import Lead
from netcheck.core.kind import Family, Role
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

if TYPE_CHECKING:
    from netcheck.compare.roles.electrodes import Seats, Successor

__all__ = ["Leads", "roles_of"]

_CORD = Family.CORD


class Leads:
    """Gathers the leads of part pairs, and which of them may change places.

    ``irreducible`` groups are not worth one two-lead part, ``unseated`` electrodes are taken by nothing; ``unsaid``
    are the leads of new parts that neither a role nor a ``meant`` gives a place.
    """

    def __init__(self, original: CircuitGraph, rewired: CircuitGraph) -> None:
        self._original = original
        self._rewired = rewired
        self.leads = [Lead("chassis", "chassis", "", "", 0, 0)]
        self.free: list[tuple[int, int]] = []
        self.irreducible: list[PartPair] = []
        self.unseated: list[tuple[PartPair, tuple[int, ...]]] = []
        self.unsaid: list[tuple[Part, tuple[int, ...]]] = []
        self._in_groups: set[str] = set()
        self._in_doubt: set[tuple[str, str]] = set()
        self._claiming = [part for part in rewired.circuit.parts.values() if part.electrodes]
        self._meant = frozenset(name for line in original.circuit.meant for name in line.points)
        old, new = original.circuit, rewired.circuit
        if "chassis" not in (old.common, new.common):
            self.leads.append(Lead(new.common, old.common, "", "", old.index[old.common], new.index[new.common]))

    def add(self, pair: PartPair, *, context: bool) -> None:
        """Adds a pair; of one outside the scope (``context``) only what was traced: bare leads say nothing."""
        for part in pair.new if self._meant else ():
            self._add_meant(part)
        if pair.old[0] is pair.new[0]:  # entered by `meant`, which says of each lead where it belongs
            return
        gave_way = pair.old[0].kind.family is Family.TUBE and len(pair.new[0].leads) == 2  # most are what they were
        found = self._seats(pair) if gave_way else None
        if found is not None:
            self._add_seats(pair, found.taken)
            if found.left:
                self.unseated.append((pair, found.left))
        elif len(pair.old) + len(pair.new) > 2:
            self._add_group(pair)
        else:
            self._add_one(pair.old[0], pair.new[0], context=context)

    def add_unsaid(self, part: Part) -> None:
        """Notes the leads of a new part that nothing has given a place."""
        if part.name in self._in_groups:
            return
        placed = {(lead.part, self._key(lead.new)) for lead in self.leads} - self._in_doubt
        points = tuple(
            at
            for at in self._rewired.terminals(part)
            if (part.name, self._key(at)) not in placed and not self._is_shell(at)
        )
        if points:
            self.unsaid.append((part, points))

    def _add_one(self, old: Part, new: Part, *, context: bool) -> None:
        at: dict[str, int] = {}
        said = {*self._said(new), *(self._claimed(old) if self._claiming else ())}
        roles = roles_of(old, new)
        if _is_cord(old, new):  # the drawing does not say which side is hot
            roles = {} if said else roles
            self._in_doubt.update((new.name, terminal) for terminal in roles.values())
        for old_terminal, new_terminal in roles.items():
            old_point = self._original.circuit.index[lead_name(old, old_terminal)]
            new_point = self._rewired.circuit.index[lead_name(new, new_terminal)]
            if new_terminal in said or (context and self._rewired.is_bare(new_point)):
                continue
            at[new_terminal] = len(self.leads)
            self._lead(old_point, new_point)
        self.free.extend((at[a], at[b]) for a, b in _free_pairs(old, new) if a in at and b in at)

    def _said(self, part: Part) -> tuple[str, ...]:
        """The terminals of a part that a ``meant`` line lists."""
        return tuple(t.name for t in part.leads if part.name + t.suffix in self._meant) if self._meant else ()

    def _add_meant(self, part: Part) -> None:
        index = self._original.circuit.index
        at: dict[str, int] = {}
        for terminal in self._said(part):
            name = lead_name(part, terminal)
            at[terminal] = len(self.leads)
            self._lead(index[name], self._rewired.circuit.index[name])
        self.free.extend((at[a], at[b]) for a, b in part.free if a in at and b in at)

    def _claimed(self, old: Part) -> Iterable[str]:
        """The pins of a tube that some parts stand for."""
        from netcheck.compare.roles.electrodes import claimed_pins

        return claimed_pins(old, self._claiming)

    def _seats(self, pair: PartPair) -> "Seats | None":
        """Who took which electrode of a tube that gave way."""
        from netcheck.compare.roles.electrodes import seats

        return seats(pair, self._original, self._rewired)

    def _add_seats(self, pair: PartPair, taken: "tuple[Successor, ...]") -> None:
        said = {lead_name(part, terminal) for part in pair.new for terminal in self._said(part)}
        at: dict[int, int] = {}
        for seat in taken:
            if self._rewired.point(seat.new).name not in said:
                at[seat.new] = len(self.leads)
                self._lead(seat.old, seat.new)
        free = {frozenset((seat.new, seat.either)) for seat in taken if seat.either is not None}
        for one, other in map(sorted, free):
            if one in at and other in at:
                self.free.append((at[one], at[other]))

    def _lead(self, old: int, new: int) -> None:
        was, now = self._original.point(old), self._rewired.point(new)
        self.leads.append(Lead(now.name, was.name, now.part, was.part, old, new))

    def _add_group(self, pair: PartPair) -> None:
        """Several parts in one role: their two outer ends are compared."""
        self._in_groups.update(part.name for part in pair.new)
        if all(set(self._said(part)) >= {t.name for t in part.leads} for part in pair.new):
            return
        from netcheck.compare.roles.reduction import reduced

        old, new = reduced(pair.old, self._original), reduced(pair.new, self._rewired)
        if old is None or new is None:
            self.irreducible.append(pair)
            return
        first = len(self.leads)
        for was, now in zip(old.ends, new.ends, strict=True):
            self._lead(was, now)
        if not (old.polarised and new.polarised):
            self.free.append((first, first + 1))

    def _key(self, at: int) -> str:
        terminal = self._rewired.point(at).terminal
        return terminal.key if terminal is not None else ""

    def _is_shell(self, at: int) -> bool:
        terminal = self._rewired.point(at).terminal
        return terminal is not None and terminal.role is Role.SHELL


def roles_of(old: Part, new: Part) -> dict[str, str]:
    """Old terminal names to new ones: by polarity where both have one, by end, else by equal keys."""
    if _is_cord(old, new):
        return dict(zip((t.name for t in old.leads), (t.name for t in new.leads), strict=False))
    if old.polarity and new.polarity:
        plain = dict(zip(old.polarity, new.polarity, strict=True))
        if len(old.leads) == len(new.leads) == 2:
            return plain
    if old.shape is new.shape:  # as most are, and shapes are made once
        return {end.name: end.name for end in old.ends}
    keys_new = {t.key: t.name for t in reversed(new.leads)}
    if len(old.leads) == len(new.leads) == 2 and not all(t.key in keys_new for t in old.leads):
        return {o.name: n.name for o, n in zip(old.leads, new.leads, strict=True)}
    first: dict[str, str] = {}
    for terminal in old.leads:
        if terminal.key in keys_new and terminal.key not in first:
            first[terminal.key] = terminal.name
    return {name: keys_new[key] for key, name in first.items()}


def _is_cord(old: Part, new: Part) -> bool:
    """Whether a cord whose wires are told apart stands for one whose wires are not."""
    return old.kind.family is new.kind.family is _CORD and bool(old.free) and not new.free


def _free_pairs(old: Part, new: Part) -> tuple[tuple[str, str], ...]:
    """Pairs of the new part's terminals that may change places without a difference."""
    if _is_cord(old, new):
        return (("hot", "neutral"),)
    if new.polarity and not old.polarity:
        return (new.polarity,) if old.free else ()
    return new.free
