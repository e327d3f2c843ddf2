"""Networks for tests, written a line an element: kind, name, nodes, value. Node `0` is the reference."""

from collections.abc import Callable

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Tube,
    VoltageSource,
)

SILICON = Conduction(((0.7, 0.0), (0.75, 1.0)))
SELENIUM = Conduction(((5.0, 0.0), (20.0, 1.0)))
VACUUM = Conduction(((0.0, 0.0), (10.0, 0.01), (30.0, 0.1)))
IDEAL = Conduction(((0.0, 0.0), (0.001, 1.0)))


Kind = Callable[[str, list[int], list[float]], Element]


def circuit(text: str) -> Network:
    """Lines such as `R R1 k 0 1000`; E is a polarised capacitor with the plus first, B a supply, S is mains."""
    nodes: dict[str, int] = {"0": 0}
    elements: list[Element] = []
    for line in filter(None, (line.partition("#")[0].split() for line in text.splitlines())):
        kind, name, *rest = line
        leads = rest[: 3 if kind == "T" and len(rest) == 3 else 2]
        numbers = [nodes.setdefault(lead, len(nodes)) for lead in leads]
        elements.append(_KINDS[kind](name, numbers, [float(word) for word in rest[len(leads) :]]))
    return Network(len(nodes), tuple(elements), tuple(nodes))


def node(network: Network, name: str) -> int:
    return network.names.index(name)


def _electrolytic(name: str, n: list[int], v: list[float]) -> Element:
    volts = v[1] if len(v) > 1 else None
    return Capacitor(name, n[0], n[1], _or(v, 0, 20.0) * 1e-6, polarised=True, volts=volts)


def _rectifier(law: Conduction, *, cold: bool = True, driven: bool = True) -> Kind:
    return lambda name, n, _: Rectifier(name, n[0], n[1], law, cold, driven)


def _or(values: list[float], place: int, otherwise: float) -> float:
    return values[place] if place < len(values) else otherwise


_KINDS: dict[str, Kind] = {
    "R": lambda name, n, v: Resistor(name, n[0], n[1], v[0], _or(v, 1, 0.2)),
    "C": lambda name, n, v: Capacitor(name, n[0], n[1], v[0] * 1e-6),
    "E": _electrolytic,
    "L": lambda name, n, v: Inductor(name, n[0], n[1], v[0], _or(v, 1, 200.0)),
    "S": lambda name, n, v: VoltageSource(name, n[0], n[1], v[0], 60.0, _or(v, 1, 50.0), _or(v, 2, 0.0)),
    "B": lambda name, n, v: VoltageSource(name, n[0], n[1], v[0], 0.0, 1.0),
    "D": _rectifier(SILICON),
    "X": _rectifier(SELENIUM),
    "I": _rectifier(IDEAL),
    "V": _rectifier(VACUUM, cold=False),
    "U": _rectifier(SILICON, driven=False),
    "T": lambda name, n, _: Tube(name, n[0], n[1], n[2] if len(n) > 2 else None),
    "J": lambda name, n, v: Load(name, n[0], n[1], v[0], tolerance=_or(v, 1, 0.3)),
    "G": lambda name, n, v: Regulator(name, n[0], n[1], v[0]),
}
