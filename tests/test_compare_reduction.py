"""What a group of two-lead parts amounts to, against a solution of its nodes."""

from decimal import Decimal
from random import Random

import numpy as np
import pytest

from netcheck.compare.roles.reduction import Reduced, reduced
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

Edge = tuple[str, str]


def series_parallel(rng: Random, size: int) -> list[Edge]:
    """Edges between named nodes, grown from one by putting two in the place of one; the ends are n0 and n1."""
    edges = [("n0", "n1")]
    while len(edges) < size:
        a, b = edges.pop(rng.randrange(len(edges)))
        middle = f"n{len(edges) + 2}{len(edges)}"
        edges += [(a, b), (b, a)] if rng.random() < 0.5 else [(a, middle), (middle, b)]
    rng.shuffle(edges)
    return edges


def drawn(kind: str, unit: str, edges: list[Edge], values: list[int]) -> CircuitGraph:
    """The edges as parts, with one part more across the two ends."""
    lines = [f"{kind} X{n} {value} {unit}" for n, value in enumerate(values, 1)]
    where = {"n0": ["R99.1"], "n1": ["R99.2"]}
    for n, (a, b) in enumerate(edges, 1):
        where.setdefault(a, []).append(f"X{n}.1")
        where.setdefault(b, []).append(f"X{n}.2")
    nets = [f"net {name}: {', '.join(points)}" for name, points in where.items()]
    return CircuitGraph(circuit("\n".join([*lines, "resistor R99 1k", *nets])))


def group(graph: CircuitGraph) -> Reduced | None:
    return reduced([part for name, part in graph.circuit.parts.items() if name.startswith("X")], graph)


def between_the_ends(edges: list[Edge], conductances: list[float]) -> float:
    """The resistance between n0 and n1, by the pseudo-inverse of the conductances of the nodes."""
    nodes = {name: n for n, name in enumerate(dict.fromkeys(name for edge in edges for name in edge))}
    matrix = np.zeros((len(nodes), len(nodes)))
    for (a, b), g in zip(edges, conductances, strict=True):
        i, j = nodes[a], nodes[b]
        matrix[i, i] += g
        matrix[j, j] += g
        matrix[i, j] -= g
        matrix[j, i] -= g
    inverse = np.linalg.pinv(matrix)
    i, j = nodes["n0"], nodes["n1"]
    return float(inverse[i, i] + inverse[j, j] - 2 * inverse[i, j])


@pytest.mark.parametrize("seed", range(24))
def test_resistors_amount_to_what_their_nodes_say(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    edges = series_parallel(rng, rng.randint(2, 7))
    values = [rng.randint(1, 999) for _ in edges]
    graph = drawn("resistor", "ohm", edges, values)
    found = group(graph)
    assert found is not None
    assert found.amount is not None
    assert float(found.amount) == pytest.approx(between_the_ends(edges, [1 / v for v in values]))
    index, nets = graph.circuit.index, graph.circuit.nets
    assert {nets[end] for end in found.ends} == {nets[index["n0"]], nets[index["n1"]]}


@pytest.mark.parametrize("seed", range(24))
def test_capacitors_amount_to_what_their_nodes_say(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    edges = series_parallel(rng, rng.randint(2, 7))
    values = [rng.randint(1, 999) for _ in edges]
    found = group(drawn("capacitor", "mmfd", edges, values))
    assert found is not None
    assert found.amount is not None
    assert float(found.amount) == pytest.approx(1e-12 / between_the_ends(edges, [float(v) for v in values]))


RATED = "resistor X1 1k 1 W\nresistor X2 3k 2 W\n"
FILM = "capacitor X1 .1 mfd 400 V\ncapacitor X2 .1 mfd 600 V\n"
CANS = "electrolytic X1 10 mfd 350 V\nelectrolytic X2 10 mfd 450 V\n"
DIODES = "diode X1 1000 V 1 A\ndiode X2 600 V 3 A\n"
SERIES = "net a: X1.1\nnet b: X1.2, X2.1\nnet c: X2.2"
BESIDE = "net a: X1.1, X2.1\nnet c: X1.2, X2.2"


@pytest.mark.parametrize(
    ("text", "amount", "volts", "watts"),
    [
        (RATED + SERIES, "4000", None, "3"),
        (RATED + BESIDE, "750", None, "3"),
        (FILM + SERIES, "5E-8", "800", None),  # each takes its half of the volts
        (FILM + BESIDE, "2E-7", "400", None),
        (CANS + "net a: X1+\nnet b: X1-, X2+\nnet c: X2-", "0.000005", "700", None),
        (CANS + "net a: X1+, X2+\nnet c: X1-, X2-", "0.00002", "350", None),
        (DIODES + "net a: X1.cathode\nnet b: X1.anode, X2.cathode\nnet c: X2.anode", "1", "1200", None),
        # Of two side by side the one that drops less takes the whole current.
        (DIODES + "net a: X1.cathode, X2.cathode\nnet c: X1.anode, X2.anode", "1", "600", None),
        (RATED.replace("1k 1 W", "1k") + SERIES, "4000", None, None),
        (RATED.replace("1k", "") + SERIES, None, None, "3"),
        (RATED.replace("3k", "") + SERIES, None, None, "3"),
        (RATED.replace("3k", "") + BESIDE, None, None, "3"),
        (FILM.replace(" 400 V", "") + SERIES, "5E-8", None, None),
        (FILM.replace(" 600 V", "") + BESIDE, "2E-7", None, None),
    ],
)
def test_the_ratings_of_two(text: str, amount: str | None, volts: str | None, watts: str | None) -> None:
    found = group(CircuitGraph(circuit(text)))
    assert found is not None
    assert (found.amount, found.volts, found.watts) == tuple(
        None if said is None else Decimal(said) for said in (amount, volts, watts)
    )


PLUS_AND_MINUS = "electrolytic X1 10 mfd 450 V\nelectrolytic X2 10 mfd 450 V\n"
ONE_OF_PAPER = "electrolytic X1 10 mfd 450 V\ncapacitor X2 .1 mfd 600 V\n"
OTHER_OF_PAPER = "capacitor X1 .1 mfd 600 V\nelectrolytic X2 10 mfd 450 V\n"


@pytest.mark.parametrize(
    ("text", "ends", "polarised"),
    [
        (PLUS_AND_MINUS + "net a: X1+\nnet b: X1-, X2+\nnet c: X2-", "a c", True),
        (PLUS_AND_MINUS + "net a: X2+\nnet b: X2-, X1+\nnet c: X1-", "a c", True),
        (PLUS_AND_MINUS + "net a: X1+, X2+\nnet c: X1-, X2-", "a c", True),
        (PLUS_AND_MINUS + "net a: X1-\nnet b: X1+, X2+\nnet c: X2-", "a c", False),  # back to back it has no plus
        (PLUS_AND_MINUS + "net a: X1+\nnet b: X1-, X2-\nnet c: X2+", "a c", False),
        (ONE_OF_PAPER + "net a: X2.1, X1+\nnet c: X2.2, X1-", "a c", True),
        (ONE_OF_PAPER + "net a: X2.2, X1+\nnet c: X2.1, X1-", "a c", True),
        (OTHER_OF_PAPER + "net a: X1.1, X2-\nnet c: X1.2, X2+", "c a", True),
        (ONE_OF_PAPER + "net a: X1+\nnet b: X1-, X2.1\nnet c: X2.2", "a c", False),
        (OTHER_OF_PAPER + "net a: X2+\nnet b: X2-, X1.1\nnet c: X1.2", "a c", False),
    ],
)
def test_the_plus_of_two(text: str, ends: str, polarised: bool) -> None:  # noqa: FBT001
    graph = CircuitGraph(circuit(text))
    found = group(graph)
    assert found is not None
    assert found.polarised is polarised
    names = [graph.net_names[graph.circuit.nets[end]] for end in found.ends]
    assert names == ends.split() if polarised else sorted(names) == sorted(ends.split())


@pytest.mark.parametrize(
    "text",
    [
        # One of the two is reversed, whichever way.
        PLUS_AND_MINUS + "resistor R9 1k\nnet a: X1+, X2-, R9.1\nnet c: X1-, X2+, R9.2",
        RATED + SERIES + "\nresistor R9 1k\nnet b: R9.1\nnet c: R9.2",  # something else is on the middle
        RATED + "net a: X1.1\nnet ground: chassis, X1.2, X2.1\nnet c: X2.2",  # the chassis is
        RATED + "net a: X1.1\nnet b: X1.2\nnet c: X2.1\nnet d: X2.2",  # they do not meet
        RATED + "resistor X3 1k\nnet a: X1.1\nnet b: X1.2, X2.1, X3.1\nnet c: X2.2\nnet d: X3.2",  # a star has three
        "pot X1 1 meg\nresistor X2 1k\nnet a: X1.cw, X2.1\nnet b: X1.wiper, X2.2\nnet ground: chassis, X1.ccw",
    ],
)
def test_what_is_no_one_part(text: str) -> None:
    assert group(CircuitGraph(circuit(text))) is None


def test_an_added_part_on_the_middle_does_not_count() -> None:
    text = RATED + SERIES + '\nresistor R9 1k added "balance"\nnet b: R9.1\nnet c: R9.2'
    found = group(CircuitGraph(circuit(text)))
    assert found is not None
    assert found.amount == 4000


def test_none_are_no_part() -> None:
    assert reduced((), CircuitGraph(circuit(RATED + SERIES))) is None
