"""What hypothesis draws: small chassis as data, which can be written as a netlist in many ways."""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import networkx as nx
from hypothesis import strategies as st

TWO_LEADS = {"R": ("resistor", "470k"), "C": ("capacitor", ".02 mfd"), "E": ("electrolytic", "20 mfd 450 V")}


@dataclass(frozen=True, slots=True)
class Joint:
    """A statement that joins points: ``net`` has its name first, ``at`` its place."""

    form: str
    points: tuple[str, ...]

    def __str__(self) -> str:
        if self.form == "wire":
            return f"wire {' to '.join(self.points)}"
        first, *rest = self.points
        return f"{self.form} {first}: {', '.join(rest)}"


@dataclass(frozen=True, slots=True)
class Chassis:
    """Declarations, the points that they give, those that the mounting bonds to the chassis, and the joints."""

    declarations: tuple[str, ...]
    points: tuple[str, ...]
    bonded: tuple[str, ...]
    joints: tuple[Joint, ...]

    def text(self, *more: str) -> str:
        """The netlist, a statement a line."""
        return "".join(f"{line}\n" for line in (*self.declarations, *map(str, self.joints), *more))

    def shuffled(self, rng: random.Random) -> str:
        """The same statements in another order."""
        lines = [*self.declarations, *map(str, self.joints)]
        rng.shuffle(lines)
        return "".join(f"{line}\n" for line in lines)

    def components(self, *more: Joint) -> list[set[str]]:
        """The nets by networkx, those of one point too; a net's name is a point under its name."""
        graph: nx.Graph = nx.Graph()
        graph.add_nodes_from(("chassis", *self.points))
        graph.add_edges_from(("chassis", point) for point in self.bonded)
        for joint in (*self.joints, *more):
            nx.add_star(graph, joint.points)
        return [set(part) for part in nx.connected_components(graph)]

    def rewired(self, rng: random.Random) -> "Chassis":
        """The same nets by other joints: stars, chains and buses, with new names or none."""
        joints: list[Joint] = []
        known = {"chassis", *self.points}
        for number, component in enumerate(self.components()):
            points = sorted(component & known)
            rng.shuffle(points)
            if len(points) > 1:
                joints.extend(_wired(points, f"W{number}", rng))
        rng.shuffle(joints)
        return replace(self, joints=tuple(joints))

    def renamed(self, names: Sequence[str]) -> "Chassis":
        """The same chassis with other names for its nets."""
        old = sorted({j.points[0] for j in self.joints if j.form == "net"})
        new = dict(zip(old, names, strict=False))
        return replace(
            self,
            joints=tuple(
                Joint(j.form, (new[j.points[0]], *j.points[1:])) if j.form == "net" else j for j in self.joints
            ),
        )


def _wired(points: list[str], name: str, rng: random.Random) -> Iterable[Joint]:
    way = rng.choice(("star", "chain", "bus", "net"))
    if way == "star":
        return [Joint("at", tuple(points))]
    if way == "bus":
        return [Joint("wire", tuple(points))]
    if way == "net":
        return [Joint("net", (name, *points))]
    return [Joint("wire", pair) for pair in pairwise(points)]


def _strip(number: int, lugs: int, foot: str) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    name = f"SP{number}"
    points = tuple(f"{name}.{lug}" for lug in range(1, lugs + 1))
    words = {"": "", "bonded": " foot 2", "insulated": " foot 2 insulated"}[foot]
    return f"strip {name} {lugs} lugs{words}", points, (f"{name}.2",) if foot == "bonded" else ()


@st.composite
def chassis(draw: st.DrawFn, *, most_joints: int = 12) -> Chassis:
    """A few two-lead parts, strips and lugs with arbitrary joints between them."""
    declarations: list[str] = []
    points: list[str] = []
    bonded: list[str] = []
    for letter, (kind, value) in TWO_LEADS.items():
        for number in range(1, draw(st.integers(0, 4)) + 1):
            name = f"{letter}{number}"
            declarations.append(f"{kind} {name} {value}")
            points.extend((f"{name}+", f"{name}-") if kind == "electrolytic" else (f"{name}.1", f"{name}.2"))
    for number, (lugs, foot) in enumerate(
        draw(st.lists(st.tuples(st.integers(2, 5), st.sampled_from(("", "bonded", "insulated"))), max_size=2)), 1
    ):
        line, lug_names, feet = _strip(number, lugs, foot)
        declarations.append(line)
        points.extend(lug_names)
        bonded.extend(feet)
    for number, mounting in enumerate(draw(st.lists(st.sampled_from(("grounded", "insulated")), max_size=2)), 1):
        declarations.append(f"lug G{number} {mounting}")
        points.append(f"G{number}")
        bonded.extend((f"G{number}",) if mounting == "grounded" else ())
    if not points:
        declarations, points = ["resistor R1 470k"], ["R1.1", "R1.2"]
    joint = st.builds(_joint, st.sampled_from(("net", "at", "wire")), st.integers(1, 4), _some(("chassis", *points)))
    return Chassis(
        tuple(declarations), tuple(points), tuple(bonded), tuple(draw(st.lists(joint, max_size=most_joints)))
    )


def _some(points: Sequence[str]) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(points), min_size=2, max_size=4, unique=True)


def _joint(form: str, name: int, points: list[str]) -> Joint:
    return Joint(form, (f"N{name}", *points) if form == "net" else tuple(points))
