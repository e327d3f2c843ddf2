"""The chassis as two probes find it: what can be touched, the joints between, and the nets that they make."""

from collections.abc import Mapping
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.branches import PartPath, branches_of
from netcheck.core.circuit import How, Join
from netcheck.core.kind import Family, Role
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["Chassis", "Joint", "chassis_of"]

_SOLDERED = frozenset({How.NET, How.SOLDERED, How.LEAD, How.WIRE, How.BOND})


class Joint(Struct, frozen=True):
    """Two nodes joined by one act of the hands (or, of a net as drawn, a node and the net's name)."""

    a: int
    b: int
    join: Join


class Chassis(Struct, frozen=True, dict=True):
    """Nodes are points that can be touched, and names of nets or lifted bundles, which can't.

    What is one inside a part (a section's lead and its can's lug) is one node. ``nets`` gives the net of each node;
    without its tube a socket's pins are joined by nothing inside. ``branches`` are between nodes by number.
    """

    graph: CircuitGraph
    tubes_in: bool
    names: tuple[str, ...]
    points: tuple[int, ...]
    touchable: tuple[bool, ...]
    joints: tuple[Joint, ...]
    nets: tuple[int, ...]
    branches: tuple[tuple[int, int, PartPath], ...]

    @cached_property
    def node(self) -> Mapping[str, int]:
        """The node of a point by its name; of points that are one inside, by each of their names."""
        return dict(self._named())

    def _named(self) -> list[tuple[str, int]]:
        inside = _inside(self.graph, tubes_in=self.tubes_in)
        number = {inside[point]: node for node, point in enumerate(self.points)}
        points = self.graph.circuit.points
        return [(point.name, number[inside[at]]) for at, point in enumerate(points) if inside[at] in number]

    @cached_property
    def members(self) -> Mapping[int, tuple[int, ...]]:
        """The nodes that can be touched on each net, in the order of the file."""
        found: dict[int, list[int]] = {}
        for node, net in enumerate(self.nets):
            if self.touchable[node]:
                found.setdefault(net, []).append(node)
        return {net: tuple(nodes) for net, nodes in found.items()}

    @cached_property
    def common(self) -> int:
        """The net that resistances are told to: the chassis where no probe can be put on the file's common."""
        node = self.node.get(self.graph.circuit.common, 0)
        return self.nets[node] if self.nets[node] in self.members else self.nets[0]

    @cached_property
    def held(self) -> frozenset[int]:
        """Nodes with a joint, and leads of parts, whether joined or not."""
        joined = {end for joint in self.joints for end in (joint.a, joint.b)}
        return frozenset(
            node for node in range(len(self.names)) if self.touchable[node] and (node in joined or self.is_lead(node))
        )

    def is_place(self, node: int) -> bool:
        """Whether it is a lug, a pin or the chassis, where something is soldered to, and no part's own lead."""
        part = self.graph.part_of(self.points[node])
        return node == 0 or (part is not None and (part.kind.holds_leads))

    def is_lead(self, node: int) -> bool:
        """Whether it is an end of a part in the chassis; a socket's pin is none while its tube is out."""
        return not self.is_place(node) and self.graph.point(self.points[node]).is_lead

    def spoken(self, node: int) -> str:
        """A node as the sheet calls it."""
        return self.graph.spoken(self.points[node])

    def net_name(self, net: int) -> str:
        """What a net is called; the name of its first place where it has none."""
        names = [self.names[node] for node, its in enumerate(self.nets) if its == net and not self.touchable[node]]
        declared = [name for name in names if self.graph.point(self.graph.circuit.index.get(name, 0)).net_name]
        if net == self.nets[0]:
            return "chassis"
        return declared[0] if declared else self.spoken(self.anchor(net))

    def anchor(self, net: int, *, but: int | None = None) -> int:
        """Where a probe stays best on a net: the chassis, else the lug or pin with the most joints, else a lead.

        Not on the node ``but``, as far as the net has any other.
        """
        counts = self._joint_counts
        return min(
            self.members[net],
            key=lambda node: (node == but, node != 0, not self.is_place(node), -counts.get(node, 0), node),
        )

    @cached_property
    def _joint_counts(self) -> Mapping[int, int]:
        found: dict[int, int] = {}
        for joint in self.joints:
            for end in (joint.a, joint.b):
                found[end] = found.get(end, 0) + 1
        return found


def chassis_of(graph: CircuitGraph, *, tubes_in: bool = False) -> Chassis:
    """The chassis of a circuit, its tubes pulled unless ``tubes_in``; switches as drawn, controls at their left end."""
    circuit = graph.circuit
    inside = _inside(graph, tubes_in=tubes_in)
    kept = [at for at in dict.fromkeys(_first_place(graph, inside)) if _is_there(graph, at)]
    number = {inside[at]: node for node, at in enumerate(kept)}
    joints = tuple(
        Joint(number[inside[join.a]], number[inside[join.b]], join)
        for join in circuit.joins
        if join.how in _SOLDERED
        and inside[join.a] in number
        and inside[join.b] in number
        and inside[join.a] != inside[join.b]
    )
    branches = tuple(_branches(graph, {at: number.get(root) for at, root in enumerate(inside)}, tubes_in=tubes_in))
    touchable = tuple(at == 0 or circuit.points[at].terminal is not None for at in kept)
    return Chassis(
        graph, tubes_in, tuple(circuit.points[at].name for at in kept), tuple(kept), touchable, joints,
        _nets(len(kept), joints), branches,
    )  # fmt: skip


def _inside(graph: CircuitGraph, *, tubes_in: bool) -> tuple[int, ...]:
    """For each point the first point that is one with it inside a part."""

    def holds(join: Join) -> bool:
        part = graph.part_of(join.a)
        return join.how is How.INSIDE and (tubes_in or part is None or part.kind.family is not Family.TUBE)

    return closure(len(graph.circuit.points), filter(holds, graph.circuit.joins))


def _first_place(graph: CircuitGraph, inside: tuple[int, ...]) -> list[int]:
    """The points that stand for what is one inside: a lug or pin before a lead."""
    chosen: dict[int, int] = {}
    for at, root in enumerate(inside):
        part = graph.part_of(at)
        if root not in chosen or (part is not None and part.kind.place and not _is_place(graph, chosen[root])):
            chosen[root] = at
    return [chosen[root] for root in inside]


def _is_place(graph: CircuitGraph, at: int) -> bool:
    part = graph.part_of(at)
    return part is not None and part.kind.place


def _is_there(graph: CircuitGraph, at: int) -> bool:
    point = graph.point(at)
    part = graph.part_of(at)
    if point.part and part is None:
        return False
    role = point.terminal.role if point.terminal is not None else None
    bare = at != 0 and not graph.joins_at[at]
    return not (bare and (role in (Role.INTERNAL_PIN, None)))


def _branches(
    graph: CircuitGraph, node: Mapping[int, int | None], *, tubes_in: bool
) -> list[tuple[int, int, PartPath]]:
    found = []
    for part in graph.circuit.parts.values():
        if part.shape is None:
            continue
        for branch in branches_of(part, tubes_in=tubes_in):
            a, b = (node[graph.circuit.index[lead_name(part, end)]] for end in (branch.a, branch.b))
            if a is not None and b is not None and a != b:
                found.append((a, b, branch))
    return found


def _nets(count: int, joints: tuple[Joint, ...]) -> tuple[int, ...]:
    return closure(count, (replace(joint.join, a=joint.a, b=joint.b) for joint in joints))
