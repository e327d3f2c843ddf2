"""Random circuits on the line, as what they are and as a netlist; no code shared with the product."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

__all__ = ["Path", "Set", "random_set"]

HOT, NEUTRAL, CHASSIS = 0, 1, 2
MOST_SWITCHES = 12
SIZES = (0, 1, 1, 2, 2, 3, 3, 4, 6)  # how many switches a set has, but for the odd one with up to a dozen


@dataclass(frozen=True)
class Path:
    """Something between two nets: ohms, henries or farads; ``one_way`` lets direct current through one way only."""

    name: str
    a: int
    b: int
    ohms: float = 0.0
    henries: float = 0.0
    farads: float = 0.0
    one_way: bool = False


@dataclass(frozen=True)
class Set:
    """A line circuit: ``switches`` are pairs of nets with whether they are drawn closed."""

    volts: float
    hertz: float
    polarized: bool
    count: int
    paths: tuple[Path, ...]
    switches: tuple[tuple[int, int, bool], ...]
    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        return "\n".join(self.lines) + "\n"


class _Drawing:
    def __init__(self, rng: Random) -> None:
        self.rng = rng
        self.lines: list[str] = []
        self.paths: list[Path] = []
        self.switches: list[tuple[int, int, bool]] = []
        self.on: dict[int, list[str]] = {}
        self.count = 0

    def name(self, letter: str) -> str:
        self.count += 1
        return f"{letter}{self.count}"

    def put(self, declaration: str, *leads: tuple[str, int]) -> None:
        self.lines.append(declaration)
        for lead, net in leads:
            self.on.setdefault(net, []).append(lead)

    def value(self, low: float, high: float) -> float:
        return float(f"{10 ** self.rng.uniform(math.log10(low), math.log10(high)):.3g}")

    def resistor(self, a: int, b: int) -> None:
        name, ohms = self.name("R"), self.value(10, 2e6)
        self.put(f"resistor {name} {_plain(ohms)} ohm", (f"{name}.1", a), (f"{name}.2", b))
        self.paths.append(Path(name, a, b, ohms=ohms))

    def capacitor(self, a: int, b: int) -> None:
        name, farads = self.name("C"), self.value(1e-9, 1e-7)
        self.put(f"capacitor {name} {_plain(farads * 1e9)} nF", (f"{name}.1", a), (f"{name}.2", b))
        self.paths.append(Path(name, a, b, farads=farads))

    def reservoir(self, a: int, b: int) -> None:
        name, farads = self.name("C"), self.value(4e-6, 1e-4)
        self.put(f"electrolytic {name} {_plain(farads * 1e6)} mfd", (f"{name}+", a), (f"{name}-", b))
        self.paths.append(Path(name, a, b, farads=farads))

    def choke(self, a: int, b: int) -> None:
        name, henries, ohms = self.name("L"), self.value(1, 20), self.value(50, 2000)
        self.put(
            f"choke {name} {_plain(henries)} H {_plain(ohms)} ohm", (f"{name}.1", a), (f"{name}.2", b)
        )  # fmt: skip
        self.paths.append(Path(name, a, b, ohms=ohms, henries=henries))

    def diode(self, a: int, b: int) -> None:
        name = self.name("D")
        self.put(f"diode {name} 1000 V 1 A", (f"{name}.anode", a), (f"{name}.cathode", b))
        self.paths.append(Path(name, a, b, ohms=50.0, one_way=True))

    def bridge(self, nets: list[int]) -> None:
        name = self.name("SE")
        leads = ("-", "ac-1", "ac-2", "+")
        self.put(f"selenium {name} 130 V 100 mA bridge", *zip((f"{name}.{lead}" for lead in leads), nets, strict=True))
        minus, one, other, plus = nets
        for anode, cathode in ((minus, one), (minus, other), (one, plus), (other, plus)):
            self.paths.append(Path(name, anode, cathode, ohms=50.0, one_way=True))

    def switch(self, a: int, b: int) -> None:
        name, closed = self.name("S"), self.rng.random() < 0.6
        self.put(f"switch {name} drawn {'closed' if closed else 'open'}", (f"{name}.1", a), (f"{name}.2", b))
        self.switches.append((a, b, closed))


def random_set(rng: Random) -> Set:
    """A line of up to nine nets: resistors, capacitors, chokes, rectifiers and switches between any two of them."""
    drawing = _Drawing(rng)
    volts, hertz = rng.choice(((117.0, 60.0), (120.0, 60.0), (230.0, 50.0)))
    polarized = rng.random() < 0.4
    count = rng.randint(4, 9)
    many = MOST_SWITCHES if rng.random() < 0.04 else rng.choice(SIZES)
    _scatter(drawing, count, many)
    leads = ("hot", "neutral") if polarized else ("1", "2")
    drawing.put(
        f"cord P1{' polarized' * polarized}", *((f"P1.{lead}", net) for lead, net in zip(leads, (0, 1), strict=True))
    )
    head = ["state rewired", f"mains {volts:g} V {hertz:g} Hz"]
    return Set(
        volts, hertz, polarized, count, tuple(drawing.paths), tuple(drawing.switches),
        (*head, *drawing.lines, *_nets(drawing, count)),
    )  # fmt: skip


def _scatter(drawing: _Drawing, count: int, switches: int) -> None:
    rng = drawing.rng
    makers = (drawing.resistor, drawing.capacitor, drawing.reservoir, drawing.choke, drawing.diode)
    for net in range(3, count):  # a tree, so that most nets hang on something
        rng.choices(makers, (8, 3, 2, 1, 4))[0](net, rng.randrange(net))
    for _ in range(rng.randint(2, 8)):
        rng.choices(makers, (8, 3, 2, 1, 4))[0](*rng.sample(range(count), 2))
    if count > 4 and rng.random() < 0.25:
        drawing.bridge(rng.sample(range(count), 4))
    for _ in range(switches):
        drawing.switch(*rng.sample(range(count), 2))


def _nets(drawing: _Drawing, count: int) -> Iterator[str]:
    for net in range(count):
        leads = [*(["chassis"] if net == CHASSIS else []), *drawing.on.get(net, [])]
        if leads:
            yield f"net n{net}: {', '.join(leads)}"


def _plain(amount: float) -> str:
    return f"{amount:.10f}".rstrip("0").rstrip(".")
