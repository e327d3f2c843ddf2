"""The fewest beeps that prove every net, and the joints that a beeper can't prove."""

from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.branches import PartPath
from netcheck.bench.chassis import Chassis, Joint
from netcheck.bench.expected import BEEPS, MOST, TOLD_APART, Expected, Want
from netcheck.bench.ohms import JOINT, OPEN, Ohms, Shunt, ohms_of
from netcheck.bench.rounded import ohms_words
from netcheck.core.kind import Family, PartKind
from netcheck.model.closure import closure

__all__ = ["Beep", "beeps"]

LEAST = 1e-3
MAIN = 0.3  # of the greatest current around a joint


class Beep(Struct, frozen=True):
    """Two nodes of one net to be proven as joined; ``joint`` is what the reading proves.

    ``around`` are the ohms that lead around it when it is open, ``by`` the part that they go through. ``other_way``
    is what to do where a beeper would sound all the same; empty where it would not.
    """

    red: int
    black: int
    joint: Joint
    expected: Expected
    around: float
    other_way: str = ""


def beeps(chassis: Chassis) -> tuple[Beep, ...]:
    """One reading for every point of a net but one: its joints where the file has them, in the order of the places."""
    rows = [Beep(red, black, joint, Expected(Want.BEEP), OPEN) for red, black, joint in _tree(chassis)]
    if not rows:
        return ()
    least = ohms_of(chassis, _least)
    opened = least.changed_each(
        [row.red for row in rows], [row.black for row in rows], [_without(row.joint) for row in rows]
    ).diagonal()
    judged = [_judged(chassis, least, row, float(around)) for row, around in zip(rows, opened, strict=True)]
    order = {name: at for at, name in enumerate(chassis.graph.circuit.parts)}
    return tuple(sorted(judged, key=lambda row: (order.get(_part(chassis, row.black), -1), row.black, row.red)))


def _least(branch: PartPath) -> float:
    return max(branch.low, LEAST)


def _without(joint: Joint) -> Shunt:
    return Shunt(joint.a, joint.b, -1 / JOINT)


def _part(chassis: Chassis, node: int) -> str:
    return chassis.graph.point(chassis.points[node]).part


def _tree(chassis: Chassis) -> list[tuple[int, int, Joint]]:
    """Readings that join all held nodes of each net: the joints themselves first, then those by a net's name."""
    up = list(range(len(chassis.names)))

    def top(node: int) -> int:
        while up[node] != node:
            up[node] = up[up[node]]
            node = up[node]
        return node

    found = []
    for joint in chassis.joints:
        if chassis.touchable[joint.a] and chassis.touchable[joint.b] and top(joint.a) != top(joint.b):
            up[top(joint.a)] = top(joint.b)
            found.append((joint.b, joint.a, joint))
    for nodes in chassis.members.values():
        anchor = chassis.anchor(chassis.nets[nodes[0]])
        for joint, node in _by_name(chassis, nodes):
            if top(node) != top(anchor):
                found.append((node, anchor, joint))
                up[top(node)] = top(anchor)
    return found


def _by_name(chassis: Chassis, nodes: tuple[int, ...]) -> list[tuple[Joint, int]]:
    """The joints of a net's points with its name, or with what hung together when it was lifted."""
    held = set(nodes)
    return [
        (joint, one)
        for joint in chassis.joints
        for one, other in ((joint.a, joint.b), (joint.b, joint.a))
        if one in held and not chassis.touchable[other]
    ]


def _judged(chassis: Chassis, least: Ohms, row: Beep, around: float) -> Beep:
    """Says the other way where a beeper sounds around the open joint; a joint that is doubled proves its net still."""
    if around >= BEEPS or _doubled(chassis, row.joint):
        return replace(row, around=around)
    branch = _around(chassis, least, row)
    if branch is None:  # no part: what holds the rest of the chassis together
        return replace(row, around=around, other_way="look at the joint: it beeps without it too")
    if around >= TOLD_APART:
        way = f"lowest ohm range, less the leads' own; {ohms_words(around)} or more if open ({branch.name})"
        return replace(row, around=around, other_way=way, expected=Expected(Want.OHMS, 0.0, TOLD_APART / 2, JOINT))
    return replace(row, around=around, other_way=f"first {_out_of_the_way(chassis, branch)}; then it must beep")


def _out_of_the_way(chassis: Chassis, branch: PartPath) -> str:
    """How to stop a branch from leading around a joint."""
    kind = chassis.graph.circuit.parts[branch.part].kind
    ways = {
        Family.CONTROL: f"turn {branch.part} fully clockwise",
        Family.SWITCH: f"open {branch.part}",
        Family.LAMP: f"unscrew {branch.part}",
        Family.FUSE: f"take {branch.part} out",
        Family.TUBE: f"pull {branch.part}",
    }
    lifted = f"take one lead of {branch.name} off"
    return ways.get(kind.family, lifted) if _comes_out(kind) else lifted


def _doubled(chassis: Chassis, joint: Joint) -> bool:
    others = (replace(one.join, a=one.a, b=one.b) for one in chassis.joints if one is not joint)
    nets = closure(len(chassis.names), others)
    return nets[joint.a] == nets[joint.b]


def _around(chassis: Chassis, least: Ohms, row: Beep) -> PartPath | None:
    """What leads around a joint: of the branches with most of the current there, one that comes out most easily."""
    ways = [(a, b, branch) for a, b, branch in chassis.branches if _least(branch) < MOST]
    drive = least.drive([row.red], [row.black], [(a, b) for a, b, _ in ways])[0]
    flow = [abs(float(volts)) / _least(branch) for volts, (_, _, branch) in zip(drive, ways, strict=True)]
    most = [branch for share, (_, _, branch) in zip(flow, ways, strict=True) if share > MAIN * max(flow)]
    parts = chassis.graph.circuit.parts
    return min(most, key=lambda branch: (not _comes_out(parts[branch.part].kind), branch.low), default=None)


def _comes_out(kind: PartKind) -> bool:
    """Whether it can be got out of the way without an iron; a rheostat has no end that opens."""
    return kind.divides or kind.family in (Family.LAMP, Family.TUBE, Family.FUSE, Family.SWITCH)
