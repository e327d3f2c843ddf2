"""Random networks without any plan, for the static engine to make claims about; no code shared with the product."""

from random import Random

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)

LAWS = (
    Conduction(((0.7, 0.0), (0.75, 1.0))),
    Conduction(((5.0, 0.0), (20.0, 1.0))),
    Conduction(((0.0, 0.0), (20.0, 0.02), (60.0, 0.12))),
)


def random_network(rng: Random) -> Network:
    """Up to nine nodes, held together by a random tree of resistors, windings and rectifiers, and more on top."""
    count = rng.randint(3, 9)
    elements: list[Element] = [_source(rng, 0, _ends(rng, count))]
    for node in range(1, count):
        elements.append(_conductor(rng, len(elements), (node, rng.randrange(node))))
    for _ in range(rng.randint(1, 4)):
        elements.append(_rectifier(rng, len(elements), _ends(rng, count)))
    for _ in range(rng.randint(0, 3)):
        elements.append(_conductor(rng, len(elements), _ends(rng, count)))
    for _ in range(rng.randint(1, 4)):
        elements.append(_capacitor(rng, len(elements), _ends(rng, count)))
    if rng.random() < 0.2:
        elements.append(
            VoltageSource(f"B{len(elements)}", *_ends(rng, count), rng.uniform(5, 300), 0.0, rng.uniform(1, 500))
        )
    if rng.random() < 0.4:
        ends = _ends(rng, count)
        elements.append(_capacitor(rng, len(elements), ends))
        elements.append(Load(f"V{len(elements)}", *ends, 10 ** rng.uniform(-4, -1.5), rng.uniform(2, 20)))
    return Network(count, tuple(elements))


def _ends(rng: Random, count: int) -> tuple[int, int]:
    first, second = rng.sample(range(count), 2)
    return first, second


def _source(rng: Random, number: int, ends: tuple[int, int]) -> Element:
    return VoltageSource(f"W{number}", *ends, rng.uniform(10, 400), 60.0, 10 ** rng.uniform(0, 3))


def _rectifier(rng: Random, number: int, ends: tuple[int, int]) -> Element:
    return Rectifier(f"CR{number}", *ends, law=rng.choice(LAWS))


def _capacitor(rng: Random, number: int, ends: tuple[int, int]) -> Element:
    return Capacitor(f"C{number}", *ends, 10 ** rng.uniform(-6.5, -4), polarised=True)


def _conductor(rng: Random, number: int, ends: tuple[int, int]) -> Element:
    match rng.choices("RLSD", (10, 2, 1, 4))[0]:
        case "R":
            return Resistor(f"R{number}", *ends, 10 ** rng.uniform(1.5, 5.5))
        case "L":
            return Inductor(f"L{number}", *ends, rng.uniform(1, 20), 10 ** rng.uniform(1, 3))
        case "S":
            return _source(rng, number, ends)
        case _:
            return _rectifier(rng, number, ends)
