"""A chassis as the campaign sees it: parts, places, joints; and the nets that follow from them."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from tests.campaign.sockets import SOCKETS

__all__ = ["CHASSIS", "Chassis", "Joint", "Nets", "Part", "grouped", "hub_of", "lugs_of"]

CHASSIS = "chassis"
PLACES = frozenset({"strip", "lug", "can", "network"})
TWO_FREE = frozenset({"resistor", "capacitor", "coil", "choke", "lamp", "fuse", "speaker", "cord"})
SIGNED = frozenset({"electrolytic", "selenium", "section"})

Nets = Mapping[str, int]
"""A net's number by lead."""


def hub_of(net: str) -> str:
    """The node that stands for a net statement of the original."""
    return f"net:{net}"


@dataclass(frozen=True, slots=True)
class Part:
    """One part: its words are values and properties, one string each (``22 mfd``, ``foot 3``).

    ``claim`` is ``replaces``, ``inserted`` or ``added`` (or empty), ``olds`` the parts replaced. ``own`` parts are
    declared by the rewired file; ``changed`` ones have other words than in the original. ``leads`` are the compared
    terminals by full name, ``members`` the winding and position lines.
    """

    name: str
    kind: str
    words: tuple[str, ...]
    leads: tuple[str, ...]
    type: str = ""
    claim: str = ""
    olds: tuple[str, ...] = ()
    reason: str = ""
    own: bool = False
    changed: bool = False
    members: tuple[str, ...] = ()

    @property
    def is_grounded(self) -> bool:
        """Whether its metal is bonded to the chassis."""
        return "grounded" in self.words

    @property
    def foot(self) -> str:
        """The lug of a strip that is its foot."""
        return next((w.split()[1] for w in self.words if w.startswith("foot ")), "")

    @property
    def count(self) -> int:
        """How many lugs or pins it was declared with."""
        return next((int(w.split()[0]) for w in self.words if w.split()[-1] in ("lugs", "pins")), 0)

    @property
    def is_free(self) -> bool:
        """Whether its two ends may change places without a difference."""
        return (self.kind in TWO_FREE or self.kind == "switch") and len(self.leads) == 2


@dataclass(frozen=True, slots=True)
class Joint:
    """Two nodes made one: ``how`` is ``hub`` (an inherited net), ``solder`` (b at place a), ``wire`` or ``inside``."""

    a: str
    b: str
    how: str
    words: str = ""

    def has(self, node: str) -> bool:
        """Whether a node is one of its ends."""
        return node in (self.a, self.b)

    def other(self, node: str) -> str:
        """The end that is not the given one."""
        return self.b if node == self.a else self.a

    def renamed(self, names: Mapping[str, str]) -> "Joint":
        """The same joint between renamed nodes."""
        return replace(self, a=names.get(self.a, self.a), b=names.get(self.b, self.b))


@dataclass(slots=True)
class Chassis:
    """One state while it is worked on. ``gone`` are removed parts with their reasons, ``lines`` go out as they are.

    ``hubs`` are the inherited nets, which have their names even where nothing hangs on them any more;
    ``dead_pins`` are those of sockets whose tube is out, each with the inherited net that it stays on, or itself;
    ``named`` are nets that the original speaks of by name; in a trace ``anchors`` are the nodes that belong on them.
    """

    parts: dict[str, Part]
    joints: list[Joint]
    gone: dict[str, str] = field(default_factory=dict)
    lines: tuple[str, ...] = ()
    covers: frozenset[str] = frozenset()
    accepted: frozenset[str] = frozenset()
    common: str = ""
    named: tuple[str, ...] = ()
    anchors: dict[str, tuple[str, ...]] = field(default_factory=dict)
    is_trace: bool = False
    hubs: frozenset[str] = frozenset()
    dead_pins: Mapping[str, str] = field(default_factory=dict)

    def copy(self) -> "Chassis":
        """A copy that can be worked on."""
        return replace(self, parts=dict(self.parts), joints=list(self.joints), gone=dict(self.gone))

    def node(self, lead: str) -> str:
        """Where a lead is on the chassis: a section's leads are lugs of its can."""
        part = self.parts.get(lead[:-1])
        if part is not None and part.kind == "section":
            return f"{part.name[:-1]}.{part.name[-1] if lead[-1] == '+' else 'can'}"
        return lead

    def owner(self, node: str) -> Part | None:
        """The part that a node belongs to."""
        head, dot, _ = node.partition(".")
        return self.parts.get(head if dot else node.rstrip("+-")) or self.parts.get(node)

    def tied(self, node: str) -> tuple[str, ...]:
        """The pins that are one with a node inside its tube, itself first."""
        part = self.owner(node)
        if part is None or part.kind != "tube":
            return (node,)
        pins = SOCKETS[part.type]
        mine = pins.get(node.rpartition(".")[2], "")
        if mine in ("", "none", "internal"):
            return (node,)
        return (node, *(f"{part.name}.{p}" for p, e in pins.items() if e == mine and f"{part.name}.{p}" != node))

    def lugs(self) -> Iterator[str]:
        """Every lug of every strip, can and single lug."""
        for part in self.parts.values():
            yield from lugs_of(part)

    def insides(self) -> Iterator[tuple[str, str]]:
        """What is one point without any joint: bonds to the chassis, pins tied inside a tube."""
        for part in self.parts.values():
            if part.kind == "strip" and part.foot and "insulated" not in part.words:
                yield CHASSIS, f"{part.name}.{part.foot}"
            elif part.kind == "lug" and part.is_grounded:
                yield CHASSIS, part.name
            elif part.kind == "can" and part.is_grounded:
                yield CHASSIS, f"{part.name}.can"
            elif part.is_grounded:
                yield CHASSIS, f"{part.name}.frame"
            elif part.kind == "tube":
                for lead in part.leads:
                    yield from ((lead, twin) for twin in self.tied(lead)[1:])

    def components(self, without: Joint | None = None) -> dict[str, int]:
        """A number by node: nodes with one number are joined."""
        pairs = [(j.a, j.b) for j in self.joints if j is not without]
        return grouped([*pairs, *self.insides()])

    def compared(self) -> tuple[str, ...]:
        """The leads that the original fixes: all but those of added parts and of parts outside ``covers``."""
        return tuple(lead for part in self.parts.values() if self.is_compared(part) for lead in part.leads)

    def is_compared(self, part: Part) -> bool:
        """Whether the original says where the leads of a part belong."""
        if part.claim == "added":
            return False
        names = (part.name, *part.olds)
        return not self.covers or any(n in self.covers or n[:-1] in self.covers for n in names)

    def nets(self) -> Nets:
        """The net of every compared lead and of the chassis and the common."""
        return self._nets(self.components(), self.compared())

    def fixed(self) -> Nets:
        """The nets as far as the original fixes them: inserted parts bridged and their leads left out.

        On which side of an inserted part a lead is, the original does not say. A part that is bridged already is not
        in series with anything: that is told by a lead of its own.
        """
        number = self.components()
        bridged = [p for p in self.inserted() if number.get(p.leads[0], -1) == number.get(p.leads[1], -2)]
        found = {x: net for x, net in self.homes().items() if x not in self.parts_leads(self.inserted())}
        return {**found, **{f"{p.name}!": -10 - n for n, p in enumerate(bridged)}}

    def homes(self) -> Nets:
        """The nets with inserted parts bridged, their own leads among them."""
        pairs = [(j.a, j.b) for j in self.joints]
        number = grouped([*pairs, *self.insides(), *((p.leads[0], p.leads[1]) for p in self.inserted())])
        return self._nets(number, self.compared())

    def inserted(self) -> list[Part]:
        """Parts in series where the original has a joint."""
        return [p for p in self.parts.values() if p.claim == "inserted" and len(p.leads) == 2]

    @staticmethod
    def parts_leads(parts: Iterable[Part]) -> frozenset[str]:
        """All leads of some parts."""
        return frozenset(lead for part in parts for lead in part.leads)

    def part_of(self, lead: str) -> Part:
        """The part of a lead of this state."""
        found = self.owner(lead)
        if found is None:
            raise KeyError(lead)
        return found

    def _nets(self, number: Mapping[str, int], leads: Sequence[str]) -> Nets:
        fresh = max(number.values(), default=0)
        found: dict[str, int] = {CHASSIS: number.get(CHASSIS, -1)}
        if self.common:
            found["common"] = number.get(self.seat_of(self.common, number), -2)
        for lead in leads:
            fresh += 1
            found[lead] = number.get(self.node(lead), fresh)
        return found

    def seats_of(self, net: str, number: Mapping[str, int]) -> list[str]:
        """Where a trace may say the name of a net of the original: where most of its nodes are together."""
        groups: dict[int, list[str]] = defaultdict(list)
        for node in self.anchors[net]:
            if node in number:
                groups[number[node]].append(node)
        return max(groups.values(), key=len)

    def seat_of(self, net: str, number: Mapping[str, int]) -> str:
        """A node that is on a named net."""
        return self.seats_of(net, number)[0] if self.is_trace else hub_of(net)


def lugs_of(part: Part) -> tuple[str, ...]:
    """The lugs of one strip, can, network or single lug, in order."""
    if part.kind in ("strip", "network"):
        return tuple(f"{part.name}.{n}" for n in range(1, part.count + 1))
    if part.kind == "lug":
        return (part.name,)
    if part.kind == "can":
        return (*part.members, f"{part.name}.can")
    return ()


def grouped(pairs: Iterable[tuple[str, str]]) -> dict[str, int]:
    """Connected components: a number by node."""
    parent: dict[str, str] = {}

    def root(node: str) -> str:
        parent.setdefault(node, node)
        while parent[node] != node:
            parent[node] = parent[parent[node]]
            node = parent[node]
        return node

    for a, b in pairs:
        parent[root(a)] = root(b)
    numbers: dict[str, int] = {}
    return {node: numbers.setdefault(root(node), len(numbers) + 1) for node in list(parent)}
