"""The samples, read by a small reader that knows the statements they use and no others."""

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

from tests.campaign.chassis import CHASSIS, SIGNED, Chassis, Joint, Part, hub_of
from tests.campaign.rewired_sets import fresh_text
from tests.campaign.sockets import SOCKETS

__all__ = ["SAMPLES", "chassis_of", "original_of", "rewired_of", "text_of"]

FOLDER = Path(__file__).parents[2] / "samples"
SAMPLES = ("harrow-point", "skerry", "marram", "sallow-street", "one-can")

_WORD = re.compile(r'"[^"]*"|[^\s,]+|,')
_UNITS = frozenset({"mfd", "uF", "mmfd", "W", "V", "A", "mA", "Hz", "H", "ohm", "meg", "lugs", "pins", "%"})
_CLAUSES = frozenset({"from", "to", "plus", "minus", "anode", "cathode", "replaces", "inserted", "added"})
_MARKS = frozenset({"half-moon", "square", "triangle", "plain"})
_KINDS = frozenset(
    {
        "resistor",
        "capacitor",
        "electrolytic",
        "can",
        "coil",
        "choke",
        "transformer",
        "selenium",
        "diode",
        "tube",
        "pot",
        "rheostat",
        "switch",
        "lamp",
        "fuse",
        "speaker",
        "cord",
        "strip",
        "lug",
        "plug",
        "network",
        "section",
    }
)
_KEPT = frozenset({"note", "accept", "covers", "meant"})


@lru_cache(maxsize=256)
def text_of(sample: str, state: str) -> str:
    """The text of one file of a sample, or of a circuit drawn by lot."""
    return fresh_text(sample, state) or (FOLDER / sample / f"{state}.netck").read_text(encoding="utf-8")


def original_of(sample: str) -> Chassis:
    """The original of a sample: its nets are hubs."""
    return chassis_of(text_of(sample, "original"))


def rewired_of(sample: str) -> Chassis:
    """The correct rewired state, with the joints that it takes over from the original."""
    return chassis_of(text_of(sample, "original"), text_of(sample, "rewired"))


def chassis_of(original: str, *logs: str) -> Chassis:
    """An original, or the state that work logs make of it, one after the other."""
    reader = _Reader(Chassis({}, []))
    reader.read(original)
    for log in filter(None, logs):
        reader.chassis.parts = {name: replace(p, own=False) for name, p in reader.chassis.parts.items()}
        reader.chassis.lines = ()
        reader.read(log)
    return reader.chassis


def _lines(text: str) -> list[list[str]]:
    bare = (re.sub(r'#[^"]*$', "", line) for line in text.splitlines())
    return [_WORD.findall(line) for line in bare if line.strip()]


class _Reader:
    def __init__(self, chassis: Chassis) -> None:
        self.chassis = chassis

    def read(self, text: str) -> None:
        lines = _lines(text)
        for words in sorted(lines, key=lambda line: _ORDER.get(line[0], 1 if line[0] in _KINDS else 9)):
            self._statement(words)

    def _statement(self, words: list[str]) -> None:
        first, rest = words[0], words[1:]
        if first in _KINDS:
            self._part(first, rest)
        elif first in _KEPT:
            self.chassis.lines = (*self.chassis.lines, " ".join(words).replace(" ,", ","))
        method = getattr(self, f"_{first}", None)
        if method is not None:
            method(rest)

    def _part(self, kind: str, words: list[str]) -> None:
        name, *rest = words
        tube = rest.pop(0) if kind == "tube" else ""
        values, clauses = _sorted_out(rest)
        claim = next((c for c in ("replaces", "inserted", "added") if c in clauses), "")
        said = clauses.get(claim, [])
        part = Part(
            name, kind, values, (), tube, claim,
            olds=tuple(said) if claim == "replaces" else (),
            reason=said[0].strip('"') if said and claim != "replaces" else "",
            own=True,
        )  # fmt: skip
        self.chassis.parts[name] = replace(part, leads=_leads(part))
        if kind == "section":
            can = self.chassis.parts[name[:-1]]
            self.chassis.parts[can.name] = replace(can, members=(*can.members, f"{can.name}.{name[-1]}"))
        for role, (place,) in (
            (r, clauses[r]) for r in ("from", "to", "plus", "minus", "anode", "cathode") if r in clauses
        ):
            lead = _lead_for(self.chassis.parts[name], role)
            at = self._node(place)
            inside = self.chassis.parts.get(at.partition(".")[0])
            how = "inside" if inside is not None and inside.kind == "network" else "solder"
            self.chassis.joints.append(Joint(at, lead, how))

    def _winding(self, words: list[str]) -> None:
        name = words[0]
        values, _ = _sorted_out(words[2:])
        colours = [value for value in values if " " not in value]
        part = self.chassis.parts[name]
        line = "winding " + " ".join(words)
        leads = tuple(f"{name}.{c}" for c in colours)
        self.chassis.parts[name] = replace(part, leads=(*part.leads, *leads), members=(*part.members, line))

    def _position(self, words: list[str]) -> None:
        part = self.chassis.parts[words[0]]
        lugs = [f"{part.name}.{w}" for w in words[2:] if w != ","]
        known = () if not part.members else part.leads
        leads = tuple(dict.fromkeys((*known, *lugs)))
        self.chassis.parts[part.name] = replace(part, leads=leads, members=(*part.members, " ".join(words)))

    def _net(self, words: list[str]) -> None:
        hub = hub_of(words[0].rstrip(":"))
        self.chassis.hubs |= {hub}
        nodes = [self._node(w) for w in words[1:] if w != ","]
        self.chassis.joints.extend(Joint(hub, node, "hub") for node in nodes)

    def _at(self, words: list[str]) -> None:
        place = self._node(words[0].rstrip(":"))
        self.chassis.joints.extend(Joint(place, self._node(w), "solder") for w in words[1:] if w != ",")

    def _wire(self, words: list[str]) -> None:
        stop = words.index("past") if "past" in words else len(words)
        ends = [self._node(words[0])]
        ends += [self._node(words[n + 1]) for n, w in enumerate(words[:stop]) if w == "to"]
        colour = " ".join(words[2 * len(ends) - 1 : stop])
        self.chassis.joints.extend(Joint(a, b, "wire", colour) for a, b in pairwise(ends))

    def _remove(self, words: list[str]) -> None:
        reason = next((w.strip('"') for w in words if w.startswith('"')), "")
        for name in (w for w in words if w != "," and not w.startswith('"')):
            part = self.chassis.parts.pop(name)
            self.chassis.gone[name] = reason
            if part.kind == "tube":  # the socket stays, and what hangs on its pins
                hubs = {j.b: j.a for j in self.chassis.joints if j.how == "hub"}
                pins = {pin: hubs.get(pin, pin) for pin in _all_nodes(part)}
                self.chassis.dead_pins = {**self.chassis.dead_pins, **pins}
            if part.kind != "section":
                self.chassis.joints = [j for j in self.chassis.joints if not any(j.has(x) for x in _all_nodes(part))]

    def _lift(self, words: list[str]) -> None:
        nodes = {self._node(w) for w in words if w != ","}
        self.chassis.joints = [j for j in self.chassis.joints if not (j.how in ("hub", "solder") and j.b in nodes)]

    def _move(self, words: list[str]) -> None:
        self._lift(words[:1])
        self.chassis.joints.append(Joint(self._node(words[2]), self._node(words[0]), "solder"))

    def _cut(self, words: list[str]) -> None:
        ends = {self._node(words[0]), self._node(words[2])}
        self.chassis.joints = [j for j in self.chassis.joints if {j.a, j.b} != ends]

    def _change(self, words: list[str]) -> None:
        values, _ = _sorted_out(words[1:])
        part = self.chassis.parts[words[0]]
        self.chassis.parts[words[0]] = replace(part, words=values, changed=True)

    def _covers(self, words: list[str]) -> None:
        self.chassis.covers = frozenset(w for w in words if w not in (",", CHASSIS))

    def _accept(self, words: list[str]) -> None:
        self.chassis.accepted |= frozenset(w for w in words[1:] if w != "," and not w.startswith('"'))

    def _common(self, words: list[str]) -> None:
        self.chassis.common = words[0]
        self._named(words[0])

    def _apart(self, words: list[str]) -> None:
        for word in words:
            self._named(word)

    def _volts(self, words: list[str]) -> None:
        self._named(words[0])

    _draws = _volts

    def _named(self, name: str) -> None:
        if any(j.a == hub_of(name) for j in self.chassis.joints):
            self.chassis.named = tuple(dict.fromkeys((*self.chassis.named, name)))

    def _node(self, word: str) -> str:
        return canonical(word, self.chassis.parts, self.chassis.gone)


_ORDER: Mapping[str, int] = {
    "can": 0, "remove": 0, "network": 0, "lift": 2, "net": 3, "winding": 2, "position": 2, "move": 4
}  # fmt: skip


def canonical(word: str, parts: Mapping[str, Part], gone: Mapping[str, str]) -> str:
    """The node that a spelling means."""
    head, dot, tail = word.partition(".")
    bare = word.rstrip("+-")
    if not dot and bare != word:
        if bare in parts and parts[bare].kind == "can":
            return f"{bare}.can"
        is_section = (bare in parts and parts[bare].kind == "section") or (bare in gone and bare[:-1] in parts)
        if is_section:
            return f"{bare[:-1]}.{bare[-1] if word[-1] == '+' else 'can'}"
    if dot and tail in _MARKS:
        section = next(p for p in parts.values() if p.kind == "section" and p.name[:-1] == head and tail in p.words)
        return f"{head}.{section.name[-1]}"
    return word


def _sorted_out(words: list[str]) -> tuple[tuple[str, ...], dict[str, list[str]]]:
    """Values and properties as one string each; clauses by their keyword."""
    values: list[str] = []
    clauses: dict[str, list[str]] = {}
    into: list[str] | None = None
    for word in words:
        if word in _CLAUSES:
            into = clauses.setdefault(word, [])
        elif into is not None:
            into.extend([word] if word != "," else [])
        elif (word in _UNITS and values and _is_number(values[-1])) or (values and values[-1] == "foot"):
            values[-1] += f" {word}"
        else:
            values.append(word)
    return tuple(values), clauses


def _is_number(word: str) -> bool:
    return bool(re.fullmatch(r"[0-9./-]+", word))


_TAILS: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(SIGNED, ("+", "-")),
    **dict.fromkeys(("strip", "lug", "can", "network"), ()),
    "diode": (".anode", ".cathode"),
    "pot": (".ccw", ".wiper", ".cw"),
    "rheostat": (".1", ".wiper"),
}


def _leads(part: Part) -> tuple[str, ...]:
    if part.kind == "tube":
        tails = tuple(f".{pin}" for pin, electrode in SOCKETS[part.type].items() if electrode != "none")
    elif part.kind == "plug":
        tails = tuple(f".{n}" for n in range(1, part.count + 1))
    elif part.kind == "transformer":
        tails = (".frame",) if {"grounded", "insulated"} & set(part.words) else ()
    elif part.kind == "cord" and "polarized" in part.words:
        tails = (".hot", ".neutral")
    else:
        tails = _TAILS.get(part.kind, (".1", ".2"))
    return tuple(part.name + tail for tail in tails)


def _lead_for(part: Part, role: str) -> str:
    if role in ("from", "to"):
        return part.leads[role == "to"]
    tail = {"plus": "+", "minus": "-"}.get(role, f".{role}")
    return part.name + tail


def _all_nodes(part: Part) -> tuple[str, ...]:
    pins = SOCKETS[part.type] if part.kind == "tube" else ()
    return (*part.leads, *(f"{part.name}.{pin}" for pin in pins))
