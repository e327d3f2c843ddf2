"""Netlists in which something is not said, a value or how a switch stands, and the networks that they may mean.

Both are made from one list of parts, so that the networks owe nothing to the product's translation.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from random import Random

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)

__all__ = ["Drawn", "drawn", "meanings", "text"]

HERTZ = 60.0
SILICON = Conduction(((0.7, 0.0), (1.2, 10.0)))
OHMS, FARADS = (0.1, 1e7), (1e-7, 1e-4)  # between which a value may lie that is not said
TIED = 0.5  # of the supplies have a divider from the one line to the other
TRIED = 6  # values of a part that states none
COMMON = "ground"


@dataclass(frozen=True)
class Component:
    """A two-lead part: its letter, its two nets (plus or anode first), its value in SI units."""

    name: str
    ends: tuple[str, str]
    value: float


@dataclass
class Drawn:
    """A supply: ``silent`` is the part that does not state its value, ``switch`` its nets, by position what it joins.

    The switch is one of two positions: open or closed, or a changeover from its first net to the second or the third.
    """

    rng: Random
    parts: list[Component] = field(default_factory=list)
    loads: dict[str, float] = field(default_factory=dict)
    silent: str = ""
    switch: tuple[str, ...] = ()

    def put(self, letter: str, one: str, other: str, value: float) -> None:
        self.parts.append(Component(f"{letter}{len(self.parts) + 1}", (one, other), value))

    def between(self, low: float, high: float) -> float:
        return float(f"{math.exp(self.rng.uniform(math.log(low), math.log(high))):.2g}")

    @property
    def positions(self) -> tuple[tuple[tuple[str, str], ...], ...]:
        """What the switch joins, by position."""
        if not self.switch:
            return ((),)
        first, *others = self.switch
        return ((), ((first, others[0]),)) if len(others) == 1 else tuple(((first, other),) for other in others)


def drawn(rng: Random) -> Drawn:
    """A plus and a minus line, each filtered, at times with a divider between them; something is not said."""
    made = Drawn(rng)
    for sign, line in ((1, "plus"), (-1, "minus")):
        _line(made, line, sign)
    if rng.random() < 0.8:
        made.loads["plus-2"] = made.between(0.002, 0.05)
    if rng.random() < TIED:
        _divider(made)
    kind = rng.choice(("value", "value", "switch", "both"))
    if kind != "switch":
        made.silent = rng.choice([one.name for one in made.parts if one.name[0] in "RC"])
    if kind != "value":
        _switched(made)
    return made


def _line(made: Drawn, line: str, sign: int) -> None:
    volts, far = made.between(60.0, 300.0), made.rng.random() < 0.5
    first, second, wound = f"{line}-1", f"{line}-2", f"{line}-0"
    made.put("W", wound, COMMON, volts)
    made.put("D", *((wound, first) if sign > 0 else (first, wound)), 0.0)
    for net in (first, second):
        ends = (net, COMMON) if sign > 0 else (COMMON, net)
        made.put("C", *(ends if made.rng.random() < 0.9 else ends[::-1]), made.between(1e-6, 5e-5))
    made.put("R", first, second, made.between(100.0, 5e3))
    if far:
        made.put("R", second, COMMON, made.between(1e4, 5e5))


def _divider(made: Drawn) -> None:
    made.put("R", "plus-2", "middle", made.between(1e4, 1e6))
    made.put("R", "minus-2", "middle", made.between(1e4, 1e6))
    if made.rng.random() < 0.5:
        made.put("R", "middle", COMMON, made.between(1e4, 1e6))
    ends = made.rng.choice((("middle", COMMON), (COMMON, "middle"), ("plus-2", "middle"), ("middle", "minus-2")))
    made.put("C", *ends, made.between(1e-6, 2e-5))


def _switched(made: Drawn) -> None:
    """A contact in the lead of a resistor, one across it, or a changeover that takes the middle to either line."""
    kind = made.rng.choice(("in series", "across", "changeover"))
    if kind == "changeover":
        made.put("R", "chosen", "middle", made.between(1e3, 1e5))
        made.put("C", "middle", COMMON, made.between(1e-6, 2e-5))
        made.switch = ("chosen", "plus-2", "minus-2")
        return
    at = made.rng.choice([at for at, one in enumerate(made.parts) if one.name.startswith("R")])
    one = made.parts[at]
    made.switch = (one.ends[0], "cut") if kind == "in series" else one.ends
    if kind == "in series":
        made.parts[at] = replace(one, ends=("cut", one.ends[1]))


def meanings(supply: Drawn) -> Iterator[Network]:
    """Networks that the netlist may mean: the silent part with values far apart, the switch in every position."""
    low, high = FARADS if supply.silent.startswith("C") else OHMS
    said = {one.name: one.value for one in supply.parts}
    values = [math.exp(supply.rng.uniform(math.log(low), math.log(high))) for _ in range(TRIED)]
    for value in values if supply.silent else (0.0,):
        for joined in supply.positions:
            yield _network(supply, {**said, supply.silent: value}, joined)


def _network(supply: Drawn, values: Mapping[str, float], joined: tuple[tuple[str, str], ...]) -> Network:
    same = {other: one for one, other in joined}
    if COMMON in same:
        same = {same[COMMON]: COMMON}
    numbers: dict[str, int] = {COMMON: 0}

    def node(net: str) -> int:
        return numbers.setdefault(same.get(net, net), len(numbers))

    elements: list[Element] = []
    for one in supply.parts:
        a, b = (node(net) for net in one.ends)
        if a != b:
            elements.append(_element(one, a, b, values[one.name]))
    elements += [Load(f"draws {net}", node(net), 0, amperes, stated=True) for net, amperes in supply.loads.items()]
    return Network(len(numbers), tuple(elements))


def _element(one: Component, a: int, b: int, value: float) -> Element:
    match one.name[0]:
        case "W":
            return VoltageSource(one.name, a, b, value * math.sqrt(2), HERTZ, value / 2)
        case "D":
            return Rectifier(one.name, a, b, SILICON)
        case "C":
            return Capacitor(one.name, a, b, value, polarised=True)
        case _:
            return Resistor(one.name, a, b, value)


def text(supply: Drawn) -> str:
    """The netlist as a restorer would type it."""
    lines = [
        "state drawn",
        "mains 117 V 60 Hz",
        "cord P1",
        "transformer T1",
        "winding T1 primary black-a black-b 117 V",
    ]
    nets: dict[str, list[str]] = {"line-a": ["P1.1", "T1.black-a"], "line-b": ["P1.2", "T1.black-b"], COMMON: []}
    nets[COMMON].append("chassis")
    for one in supply.parts:
        lines.append(_declared(one, silent=one.name == supply.silent))
        for net, lead in zip(one.ends, _leads(one), strict=True):
            nets.setdefault(net, []).append(lead)
    if supply.switch:
        changes = len(supply.switch) > 2
        lines += ["switch S1", *(("position S1 up: 1 2", "position S1 down: 1 3") if changes else ())]
        for number, net in enumerate(supply.switch, 1):
            nets.setdefault(net, []).append(f"S1.{number}")
    lines += [f"net {name}: {', '.join(leads)}" for name, leads in nets.items()]
    lines += [f"draws {net} {amperes * 1000:.9g} mA" for net, amperes in supply.loads.items()]
    return "\n".join([*lines, ""])


def _declared(one: Component, *, silent: bool) -> str:
    match one.name[0]:
        case "W":
            return f"winding T1 {one.name} {one.name}-a {one.name}-b {one.value:.9g} V {one.value / 2:.9g} ohm"
        case "D":
            return f"diode {one.name} 1N4007"
        case "C":
            return f"electrolytic {one.name}" + ("" if silent else f" {one.value * 1e6:.9g} mfd")
        case _:
            return f"resistor {one.name}" + ("" if silent else f" {one.value:.9g} ohm")


def _leads(one: Component) -> tuple[str, str]:
    match one.name[0]:
        case "W":
            return f"T1.{one.name}-a", f"T1.{one.name}-b"
        case "D":
            return f"{one.name}.anode", f"{one.name}.cathode"
        case "C":
            return f"{one.name}+", f"{one.name}-"
        case _:
            return f"{one.name}.1", f"{one.name}.2"
