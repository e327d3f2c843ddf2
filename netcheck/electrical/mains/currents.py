"""The current into held metal in one setting of plug and switches: alternating, and what rectifiers make of it."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import hypot, sqrt

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.electrical.mains.direct import Raised, levels
from netcheck.electrical.mains.impedance import Passage
from netcheck.electrical.mains.phasor import Admittance, between, potentials
from netcheck.electrical.mains.settings import Setting

__all__ = ["Bench", "Solved", "Spots"]

LEAST_PEAK = 1.0  # volts by which a rectifier must swing to make any direct current


class Spots(Struct, frozen=True):
    """The nets that the hot side, the other side and the metal are in one setting."""

    hot: int
    cold: int
    metal: int

    @property
    def is_joint(self) -> bool:
        """Whether two of them are one."""
        return len({self.hot, self.cold, self.metal}) < len((self.hot, self.cold, self.metal))

    @property
    def on_neutral(self) -> bool:
        """Whether the metal is on the side of the line that is not hot."""
        return self.cold == self.metal != self.hot


class Solved(Struct, frozen=True):
    """The larger of the two currents with the solution it was found in; ``drives`` are its rectifiers' lifts.

    ``amperes`` are effective, ``direct`` the direct current among them.
    """

    amperes: float
    direct: float
    branches: tuple[Admittance, ...]
    volts: Mapping[int, complex]
    drives: Mapping[Admittance, float] = field(default_factory=dict)


class Bench(Struct, frozen=True):
    """The line's volts and hertz, and what carries its current; ``quick`` holds the same as seen from a few nets."""

    volts: float
    hertz: float
    carriers: tuple[Passage, ...]
    quick: tuple[tuple[Admittance, ...], tuple[Admittance, ...]] | None = None

    @property
    def stated(self) -> "Bench":
        """The same without what does not say its value; itself where all do."""
        said = tuple(each for each in self.carriers if not each.does.unsaid)
        return self if len(said) == len(self.carriers) else replace(self, carriers=said)

    def with_part(self, name: str, passages: Iterable[Passage]) -> "Bench":
        """The same with other passages in place of those that a part has here."""
        others = [each for each in self.carriers if each.part != name]
        return replace(self, carriers=(*others, *passages)) if len(others) < len(self.carriers) else self

    def seen_from(self, nets: Collection[int]) -> "Bench":
        """The same with the alternating networks reduced to these nets."""
        rectifying = {end for each in self.carriers if each.does.one_way for end in (each.a, each.b)}
        conducting, blocked = self._networks()
        seen = between(conducting, nets)
        return replace(self, quick=(seen, between(blocked, {*nets, *rectifying}) if rectifying else seen))

    def _networks(self) -> tuple[tuple[Admittance, ...], tuple[Admittance, ...]]:
        """The alternating network with its rectifiers conducting both ways, and with all of them open."""
        if self.quick is not None:
            return self.quick
        every = [each for each in self.carriers if each.does.turning]
        return tuple(e.branch() for e in every), tuple(e.branch() for e in every if not e.does.one_way)

    def amperes(self, way: Setting, at: Spots) -> float:
        """The effective current into the metal; infinite where it is on the hot side, 0 on the other."""
        if at.is_joint:
            return float("inf") if at.metal == at.hot else 0.0
        return self.solved(way, at).amperes

    def solved(self, way: Setting, at: Spots) -> Solved:
        """The current where nothing is joined, the larger: with rectifiers both ways, or as they make it direct."""
        conducting, blocked = (_merged(branches, way) for branches in self._networks())
        plain = self._alternating(conducting, at)
        if not self.hertz or not any(each.does.one_way for each in self.carriers):
            return plain
        open_ = self._alternating(blocked, at)
        return max((plain, open_, self._rectified(way, at, open_)), key=lambda found: found.amperes)

    def _alternating(self, branches: tuple[Admittance, ...], at: Spots) -> Solved:
        volts = potentials(branches, {at.cold: 0j, at.metal: 0j, at.hot: complex(self.volts)})
        return Solved(abs(_into(branches, volts, at.metal)), 0.0, branches, volts)

    def _rectified(self, way: Setting, at: Spots, open_: Solved) -> Solved:
        """The direct current, with the alternating one beside it that flows while every rectifier is open."""
        near = self._fed_directly(way, at)
        lifts = _lifts(near, open_.volts, way)
        if all(lift.peak < LEAST_PEAK for lift in lifts):
            return open_
        branches = _merged((each.branch(direct=True) for each in near if not each.does.one_way), way)
        volts, conducting = levels(branches, lifts, {at.cold: 0j, at.metal: 0j, at.hot: 0j})
        drives = {Admittance(e.name, e.anode, e.cathode, complex(e.siemens)): e.peak for e in conducting}
        every = (*branches, *drives)
        direct = abs(_into(every, volts, at.metal, drives))
        return Solved(hypot(direct, open_.amperes), direct, every, volts, drives)

    def _fed_directly(self, way: Setting, at: Spots) -> list[Passage]:
        """The passages that direct current of the metal could come through, up to the two sides of the line."""
        links: dict[int, list[Passage]] = {}
        for each in self.carriers:
            if each.does.direct:
                links.setdefault(way.of(each.a), []).append(each)
                links.setdefault(way.of(each.b), []).append(each)
        seen, frontier, found = {at.metal, at.hot, at.cold}, [at.metal], dict[int, Passage]()
        while frontier:
            for each in links.get(frontier.pop(), ()):
                found[id(each)] = each
                for other in (way.of(each.a), way.of(each.b)):
                    if other not in seen:
                        seen.add(other)
                        frontier.append(other)
        return list(found.values())


def _lifts(near: Iterable[Passage], swings: Mapping[int, complex], way: Setting) -> list[Raised]:
    """The rectifiers; arms of one part that a closed switch puts side by side are one."""
    found: dict[tuple[str, int, int], Raised] = {}
    for each in near:
        key = each.part, way.of(each.a), way.of(each.b)
        if each.does.one_way and key[1] != key[2]:
            beside = found[key].siemens if key in found else 0.0
            found[key] = Raised(*key, _peak(swings, way, each), each.does.direct + beside)
    return list(found.values())


def _peak(swings: Mapping[int, complex], way: Setting, each: Passage) -> float:
    return sqrt(2) * abs(swings.get(way.of(each.a), 0j) - swings.get(way.of(each.b), 0j))


def _merged(branches: Iterable[Admittance], way: Setting) -> tuple[Admittance, ...]:
    return tuple(Admittance(each.name, way.of(each.a), way.of(each.b), each.admittance) for each in branches)


def _into(
    branches: Sequence[Admittance],
    volts: Mapping[int, complex],
    metal: int,
    drives: Mapping[Admittance, float] | None = None,
) -> complex:
    """The current into the metal, which is held at nothing."""
    whole = 0j
    for each in branches:
        lifted = drives.get(each, 0.0) if drives else 0.0
        if each.a == metal != each.b:
            whole += each.admittance * (volts.get(each.b, 0j) - lifted)
        elif each.b == metal != each.a:
            whole += each.admittance * (volts.get(each.a, 0j) + lifted)
    return whole
