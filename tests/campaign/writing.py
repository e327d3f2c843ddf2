"""A chassis as netlist text: the same state spelled in one of many ways."""

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal
from random import Random

from tests.campaign.chassis import Chassis, Joint, Part
from tests.campaign.sockets import SOCKETS

__all__ = ["text_for"]

ORIGINAL = "original.netck"

_SPELLINGS = {
    "mfd": ("mfd", "uF", "mf", "µF", "ufd"),
    "uF": ("uF", "mfd"),
    "mmfd": ("mmfd", "pF", "mmf", "uuf"),
    "V": ("V", "volts", "v"),
    "W": ("W", "watt", "w"),
    "A": ("A", "amp"),
    "mA": ("mA", "ma"),
    "ohm": ("ohm", "ohms", "Ω"),
    "meg": ("meg", "MΩ", "megohm"),
    "H": ("H", "hy"),
    "%": ("%",),
}
_ROLES = {"+": "plus", "-": "minus", ".anode": "anode", ".cathode": "cathode", ".1": "from", ".2": "to"}


def text_for(chassis: Chassis, original: Chassis, rng: Random) -> str:
    """The whole file. ``original`` tells a work log what is taken over."""
    writer = _Writer(chassis, original, rng)
    head = ['title "campaign"', "state rewired"]
    head.append(f'parts from "{ORIGINAL}"' if chassis.is_trace else f'start from "{ORIGINAL}"')
    body = [*writer.parts(), *(writer.trace() if chassis.is_trace else writer.log()), *chassis.lines]
    if rng.random() < 0.5:
        rng.shuffle(body)
    return "\n".join([*head, *body]) + "\n"


class _Writer:
    def __init__(self, chassis: Chassis, original: Chassis, rng: Random) -> None:
        self.chassis = chassis
        self.original = original
        self.rng = rng
        self.joints = list(chassis.joints)
        self.hubs = {(j.a, j.b) for j in original.joints if j.how == "hub"}

    # --- parts

    def parts(self) -> list[str]:
        """What is taken out, changed and new; a new part's leads clause takes its joints off the list."""
        lines = [f'remove {name} "{why}"' for name, why in self.chassis.gone.items() if why]
        bare = [name for name, why in self.chassis.gone.items() if not why and not self._dies_with_can(name)]
        while bare:
            many = self.rng.randint(1, 4)
            lines.append(f"remove {', '.join(bare[:many])}")
            bare = bare[many:]
        for part in self.chassis.parts.values():
            if part.own:
                lines.extend(self._declared(part))
            elif part.changed:
                lines.append(f"change {part.name} {self._words(part)}")
        return lines

    def _dies_with_can(self, name: str) -> bool:
        return name not in self.original.parts

    def _declared(self, part: Part) -> Iterator[str]:
        words = f" {self._words(part)}" if part.words else ""
        claim = {
            "": "",
            "replaces": f" replaces {', '.join(part.olds)}",
            "inserted": f' inserted "{part.reason}"',
            "added": f' added "{part.reason}"',
        }[part.claim]
        clause = self._clause(part) if self.rng.random() < 0.6 else ""
        yield f"{part.kind} {part.name}{words}{clause}{claim}"
        yield from (line for line in part.members if line.startswith(("winding", "position")))

    def _clause(self, part: Part) -> str:
        """`` from X to Y`` where each of two leads has one joint, at a place that is not the part itself."""
        found = self._two_places(part)
        if not found:
            return ""
        for joint in found:
            self.joints.remove(joint)
        ends = [(_ROLES[j.b[len(part.name) :]], self._spell(j.a)) for j in found]
        if part.leads[0][len(part.name) :] != ".1" and self.rng.random() < 0.5:
            ends.reverse()
        return "".join(f" {role} {place}" for role, place in ends)

    def _two_places(self, part: Part) -> tuple[Joint, Joint] | None:
        if len(part.leads) != 2 or part.leads[0][len(part.name) :] not in _ROLES or part.kind == "section":
            return None
        found = []
        for lead in part.leads:
            at = [j for j in self.joints if j.b == lead and j.how == "solder" and j.a not in part.leads]
            if len(at) != 1:
                return None
            found.append(at[0])
        return (found[0], found[1])

    def _words(self, part: Part) -> str:
        return " ".join(self._value(word) for word in part.words)

    def _value(self, word: str) -> str:
        """One value, spelled in one of the ways that mean the same."""
        if self.rng.random() < 0.5:
            return word
        number, _, unit = word.partition(" ")
        if (
            unit in ("mfd", "uF")
            and number.replace(".", "").isdigit()
            and Decimal(number) < 1
            and self.rng.random() < 0.4
        ):
            return f"{(Decimal(number) * 1_000_000).normalize():f} mmfd"
        if unit in _SPELLINGS:
            spelled = self.rng.choice(_SPELLINGS[unit])
            number = self._number(number)
            return f"{number} {spelled}" if "/" in number or self.rng.random() < 0.8 else number + spelled
        if number.endswith("k") and not unit:
            return self._kilo(number[:-1])
        return word

    def _number(self, number: str) -> str:
        if number.startswith("."):
            return f"0{number}" if self.rng.random() < 0.5 else number
        return {"1/2": "0.5"}.get(number, number) if self.rng.random() < 0.5 else number

    def _kilo(self, number: str) -> str:
        whole, dot, tenths = number.partition(".")
        ways = [f"{number}k", f"{number} k", f"{(Decimal(number) * 1000).normalize():f} ohm", f"{number} kohm"]
        if dot:
            ways.append(f"{whole}k{tenths}")
        return self.rng.choice(ways)

    # --- joints

    def log(self) -> list[str]:
        """What is lifted and moved, then what is put in."""
        now = {(j.a, j.b) for j in self.joints if j.how == "hub"}
        lines: list[str] = []
        for _, node in sorted(self.hubs - now):
            part = self.chassis.owner(node)
            if part is None or part.own or self._is_gone(node):
                continue
            at = [j for j in self.joints if j.b == node and j.how == "solder"]
            if len(at) == 1 and self.rng.random() < 0.7:
                self.joints.remove(at[0])
                lines.append(f"move {self._spell(node)} to {self._spell(at[0].a)}")
            else:
                lines.append(f"lift {self._spell(node)}")
        self.joints = [j for j in self.joints if j.how not in ("inside", "hub")]
        return lines + self._laid()

    def _is_gone(self, node: str) -> bool:
        head = node.partition(".")[0].rstrip("+-")
        return head in self.chassis.gone and head not in self.chassis.parts

    def trace(self) -> list[str]:
        """Every joint; the named nets at one point each."""
        number = self.chassis.components()
        seats = {net: self.chassis.seats_of(net, number) for net in self.chassis.anchors}
        lines = [f"net {net}: {self._spell(self.rng.choice(nodes))}" for net, nodes in seats.items()]
        self.joints = [j for j in self.joints if j.how != "inside"]
        for part in self.chassis.parts.values():
            found = None if part.own else self._two_places(part)
            if found and self.rng.random() < 0.6:
                lines.append(f"fit {part.name}{self._clause(part)}")
        return lines + self._laid()

    def _laid(self) -> list[str]:
        """``at`` and ``wire`` lines for what is left."""
        lines: list[str] = []
        at: dict[str, list[str]] = defaultdict(list)
        for joint in self.joints:
            if joint.how != "wire":
                at[joint.a].append(joint.b)
        for place, leads in at.items():
            while leads:
                many = self.rng.randint(1, 5)
                lines.append(f"at {self._spell(place)}: {', '.join(self._spell(lead) for lead in leads[:many])}")
                del leads[:many]
        return lines + self._wires()

    def _wires(self) -> list[str]:
        """Wires, some of them in one piece over several lugs."""
        left = [j for j in self.joints if j.how == "wire"]
        lines: list[str] = []
        while left:
            first = left.pop(0)
            run = [first.a, first.b]
            while self.rng.random() < 0.5:
                more = next(
                    (j for j in left if j.words == first.words and j.has(run[-1]) and j.other(run[-1]) not in run), None
                )
                if more is None:
                    break
                left.remove(more)
                run.append(more.other(run[-1]))
            if self.rng.random() < 0.5:
                run.reverse()
            gauge = f" {self.rng.choice((18, 20, 22))} AWG" if first.words and self.rng.random() < 0.3 else ""
            words = first.words if "AWG" in first.words else first.words + gauge
            lines.append(f"wire {' to '.join(self._spell(n) for n in run)} {words}".rstrip())
        return lines

    def _spell(self, node: str) -> str:
        """A node's name, or another word for the same point."""
        if node.startswith("net:"):
            return node.removeprefix("net:")
        part = self.chassis.owner(node)
        if part is None or self.rng.random() < 0.7:
            return node
        tail = node.rpartition(".")[2]
        if part.kind == "tube":
            return f"{part.name}.{_electrode(part, tail) or tail}"
        others = (
            {"anode": ".a", "cathode": ".band"} if part.kind == "diode" else {"can": "-"} if part.kind == "can" else {}
        )
        if part.kind == "strip":
            others = {part.foot: ".foot"}
        return part.name + others[tail] if tail in others else node


def _electrode(part: Part, pin: str) -> str:
    """The electrode that a pin may be named by: of several pins with one electrode, the first bears its name."""
    pins = SOCKETS[part.type]
    name = pins[pin]
    first = next(p for p, e in pins.items() if e == name)
    return name if name not in ("none", "shell") and first == pin else ""
