"""Ohms between two points of a real chassis by plain nodal analysis: nothing of netcheck's bench is used here."""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from netcheck.core.circuit import Circuit, How, Part
from netcheck.core.kind import Role
from netcheck.core.quantity import Dimension
from netcheck.model.points import lead_name

__all__ = ["OPEN", "Real", "Way", "inside_of", "read", "real_of"]

OPEN = math.inf
CONDUCTING = 300.0  # ohms of a junction while it conducts, on some meter
CLOSED = 0.02
UNSAID = 25.0  # ohms of a winding whose ohms the file does not state

Group = Callable[[str], str]


@dataclass(frozen=True)
class Way:
    """What leads from point to point; a diode from its anode. ``ohms`` are infinite for capacitors."""

    name: str
    part: str
    a: str
    b: str
    ohms: float
    diode: bool = False


@dataclass(frozen=True)
class Real:
    """A chassis: pairs of points soldered together, and the ways between points; ``wires`` are joints by wire."""

    joints: tuple[tuple[str, str], ...]
    ways: tuple[Way, ...]
    hubs: frozenset[str] = field(default_factory=frozenset)

    def opened(self, joint: tuple[str, str]) -> "Real":
        at = self.joints.index(joint)
        return replace(self, joints=self.joints[:at] + self.joints[at + 1 :])

    def joined(self, *pairs: tuple[str, str]) -> "Real":
        return replace(self, joints=self.joints + pairs)

    def valued(self, name: str, ohms: float) -> "Real":
        return replace(self, ways=tuple(replace(w, ohms=ohms) if w.name == name else w for w in self.ways))


def real_of(circuit: Circuit) -> Real:
    """Tubes out, switches as drawn, controls at their left end."""
    names = [point.name for point in circuit.points]
    hubs = frozenset(p.name for at, p in enumerate(circuit.points) if at and p.terminal is None)
    tubes = {part.name for part in circuit.parts.values() if part.kind.word == "tube"}
    joints = tuple(
        (names[join.a], names[join.b])
        for join in circuit.joins
        if join.a != join.b and not (join.how is How.INSIDE and circuit.points[join.a].part in tubes)
    )
    ways = tuple(way for part in circuit.parts.values() if part.shape for way in _ways(part))
    return Real(joints, ways, hubs)


def inside_of(circuit: Circuit) -> frozenset[tuple[str, str]]:
    """The joints that no hand makes or breaks."""
    names = [point.name for point in circuit.points]
    return frozenset((names[j.a], names[j.b]) for j in circuit.joins if j.how is How.INSIDE)


def _ways(part: Part) -> Iterable[Way]:
    find = _BY_WORD.get(part.kind.word)
    return find(part) if find else ()


def _way(part: Part, a: str, b: str, ohms: float, label: str = "") -> Way:
    diode = part.kind.word in ("diode", "selenium")
    return Way(label or part.name, part.name, lead_name(part, a), lead_name(part, b), ohms, diode)


def _leads(part: Part) -> tuple[str, str]:
    one, other = [t.name for t in part.leads if t.role is Role.LEAD][:2]
    return one, other


def _said(part: Part) -> list[float]:
    return [float(q.amount) for q in part.features.all_of(Dimension.RESISTANCE)]


def _plain(part: Part) -> Iterable[Way]:
    yield _way(part, *_leads(part), (_said(part) or [UNSAID])[0])


def _windings(part: Part) -> Iterable[Way]:
    if not part.features.windings:
        yield from _plain(part)
    for name, ends in part.features.windings:
        values = part.features.winding_values.get(name, ())
        ohms = next((float(q.amount) for q in values if q.dimension is Dimension.RESISTANCE), UNSAID)
        for at, (a, b) in enumerate(pairwise(ends), 1):
            label = f"{part.name} {name}" + (f" {at}" if len(ends) > 2 else "")
            yield _way(part, a, b, ohms / (len(ends) - 1), label)


def _candohm(part: Part) -> Iterable[Way]:
    for at, ohms in enumerate(_said(part), 1):
        yield _way(part, str(at), str(at + 1), ohms, f"{part.name} {at} to {at + 1}")


def _pot(part: Part) -> Iterable[Way]:
    yield _way(part, "ccw", "wiper", CLOSED, f"{part.name} ccw to wiper")
    yield _way(part, "ccw", "cw", (_said(part) or [1e6])[0])


def _lamp(part: Part) -> Iterable[Way]:
    volts, amperes = part.features.first(Dimension.VOLTAGE), part.features.first(Dimension.CURRENT)
    yield _way(part, "1", "2", float(volts.amount / amperes.amount) / 8 if volts and amperes else 5.0)


def _fuse(part: Part) -> Iterable[Way]:
    yield _way(part, "1", "2", 0.3)


def _switch(part: Part) -> Iterable[Way]:
    positions, drawn = dict(part.features.positions), part.features.arguments.get("drawn", "")
    for group in positions.get(drawn, ()) if positions else (("1", "2"),):
        for a, b in pairwise(group):
            yield _way(part, a, b, CLOSED, f"{part.name} {a} to {b}")


def _diode(part: Part) -> Iterable[Way]:
    yield _way(part, "anode", "cathode", OPEN)


def _selenium(part: Part) -> Iterable[Way]:
    pairs = [("-", "+")]
    if "bridge" in part.features.words:
        pairs = [("-", "ac-1"), ("-", "ac-2"), ("ac-1", "+"), ("ac-2", "+")]
    elif any(t.name == "ac" for t in part.leads):
        pairs = [("-", "ac"), ("ac", "+")]
    for a, b in pairs:
        yield _way(part, a, b, OPEN, "" if len(pairs) == 1 else f"{part.name} {a} to {b}")


def _capacitor(part: Part) -> Iterable[Way]:
    yield _way(part, *(("1", "2") if part.kind.word == "capacitor" else ("+", "-")), OPEN)


_BY_WORD: Mapping[str, Callable[[Part], Iterable[Way]]] = {
    "resistor": _plain, "rheostat": _plain, "speaker": _plain, "coil": _windings, "choke": _windings,
    "transformer": _windings, "candohm": _candohm, "pot": _pot, "lamp": _lamp, "fuse": _fuse, "switch": _switch,
    "diode": _diode, "selenium": _selenium, "capacitor": _capacitor, "electrolytic": _capacitor, "section": _capacitor,
}  # fmt: skip


def read(real: Real, red: str, black: str) -> float:
    """Ohms from red to black; junctions conduct where the meter's own current would drive them forward."""
    group = _groups(real.joints)
    one, other = group(red), group(black)
    if one == other:
        return 0.0
    conducting: set[int] = set()
    volts: dict[str, float] = {}
    for _ in range(len(real.ways) + 1):
        volts = _volts(real, group, (one, other), conducting)
        now = {
            at for at, way in enumerate(real.ways)
            if way.diode and math.isinf(way.ohms) and _forward(volts, (group(way.a), group(way.b)), (one, other))
        }  # fmt: skip
        if now <= conducting:
            break
        conducting |= now
    return volts.get(one, OPEN)


def _forward(volts: dict[str, float], ends: tuple[str, str], pair: tuple[str, str]) -> bool:
    """What floats off the red side follows red's volts, what floats off the black side stays at 0."""
    anode, cathode = ends
    if math.isinf(volts.get(pair[0], OPEN)):
        return ends == pair or (volts.get(anode) == OPEN and volts.get(cathode) == 0.0)
    return anode in volts and cathode in volts and volts[anode] > volts[cathode] + 1e-9


def _volts(real: Real, group: Group, pair: tuple[str, str], conducting: set[int]) -> dict[str, float]:
    """Volts against black for one ampere into red; all of red's side infinite where nothing leads across."""
    edges = []
    for at, way in enumerate(real.ways):
        ohms = CONDUCTING if at in conducting else way.ohms
        a, b = group(way.a), group(way.b)
        if math.isfinite(ohms) and a != b:
            edges.append((a, b, 1 / max(ohms, 1e-3)))
    near = _reached(edges, pair[1])
    if pair[0] not in near:
        return dict.fromkeys(near, 0.0) | dict.fromkeys(_reached(edges, pair[0]), OPEN)
    names = sorted(near - {pair[1]})
    siemens, rows = _laplacian(edges, names)
    amperes = np.zeros(len(names))
    amperes[rows[pair[0]]] = 1.0
    solved = np.linalg.solve(siemens, amperes)
    return {pair[1]: 0.0, **{name: float(solved[row]) for name, row in rows.items()}}


def _laplacian(edges: list[tuple[str, str, float]], names: list[str]) -> tuple[NDArray[np.float64], dict[str, int]]:
    at = {name: row for row, name in enumerate(names)}
    siemens = np.zeros((len(names), len(names)))
    for a, b, g in edges:
        for x, y in ((a, b), (b, a)):
            if x in at:
                siemens[at[x], at[x]] += g
                if y in at:
                    siemens[at[x], at[y]] -= g
    return siemens, at


def _reached(edges: list[tuple[str, str, float]], start: str) -> set[str]:
    ways: dict[str, list[str]] = {}
    for a, b, _ in edges:
        ways.setdefault(a, []).append(b)
        ways.setdefault(b, []).append(a)
    seen, frontier = {start}, [start]
    while frontier:
        for other in ways.get(frontier.pop(), ()):
            if other not in seen:
                seen.add(other)
                frontier.append(other)
    return seen


def _groups(joints: tuple[tuple[str, str], ...]) -> Group:
    up: dict[str, str] = {}

    def top(name: str) -> str:
        while name in up:
            name = up[name]
        return name

    for a, b in joints:
        one, other = top(a), top(b)
        if one != other:
            up[one] = other
    return top
