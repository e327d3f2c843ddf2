"""The level argument on small networks: what is proved, what is not, and what stands against it."""

from random import Random

import pytest

from netcheck.core.blocks import Blocks
from netcheck.electrical.proof.order import Proof
from netcheck.electrical.proof.prover import Prover, Witness, prove
from tests.circuits import circuit, node

HALF_WAVE = "S LINE a 0 165\nD CR1 a k\n"


def claimed(text: str, higher: str, lower: str) -> Proof | Witness:
    network = circuit(text)
    return prove(network, node(network, higher), node(network, lower))


# Network, the higher node, the lower node, and the margin in volts: rectifier thresholds that the proof crossed.
PROVED = [
    ("a node is as high as itself", HALF_WAVE, "k", "k", 0.0),
    ("a winding alone carries nothing", "S T1 a 0 10\nC C1 a 0 1", "a", "0", 0.0),
    ("the other way likewise", "S T1 a 0 10\nC C1 a 0 1", "0", "a", 0.0),
    ("a bleeder holds the rectified side up", HALF_WAVE + "R R1 k 0 1000", "k", "0", 0.0),
    ("without one the rectifier does, but for its threshold", HALF_WAVE + "C C1 k 0 1\nT V1 k 0", "k", "0", 0.7),
    ("a divider lies between its ends", HALF_WAVE + "R R1 k m 1\nR R2 m 0 1", "k", "m", 0.0),
    ("and above its lower one", HALF_WAVE + "R R1 k m 1\nR R2 m 0 1", "m", "0", 0.0),
    ("a supply has its plus high", "B B1 p 0 9\nR R1 p 0 10", "p", "0", 0.0),
    ("and its minus low", "B B1 0 n 9\nR R1 n 0 10", "0", "n", 0.0),
    ("one that is negative has its plus low", "B B1 p 0 -9\nR R1 p 0 10", "0", "p", 0.0),
    ("and its minus high", "B B1 0 n -9\nR R1 n 0 10", "n", "0", 0.0),
    ("a cathode is held up by its tube", HALF_WAVE + "T V1 k c\nR R1 c 0 100", "c", "0", 0.0),
    ("a cathode never exceeds its plate", HALF_WAVE + "C C1 k 0 1\nT V1 k c\nR R1 c 0 100", "k", "c", 0.7),
    ("a zero-ohm resistor joins", HALF_WAVE + "R R1 k m 0\nR R2 k 0 1", "m", "k", 0.0),
    (
        "a rectifier chain off one node lifts nothing else",
        HALF_WAVE + "R R1 k 0 1\nD D2 k x\nR R2 x k 9",
        "k",
        "0",
        0.0,
    ),
    ("a cathode is clamped to its anode", "S W a 0 9\nR R9 a b 1\nD D1 0 b\nD D2 b c\nJ V c 0 0.01", "b", "0", 0.7),
]


@pytest.mark.parametrize(("text", "higher", "lower", "margin"), [c[1:] for c in PROVED], ids=[c[0] for c in PROVED])
def test_what_holds_in_any_state_is_proved(text: str, higher: str, lower: str, margin: float) -> None:
    found = claimed(text, higher, lower)
    assert isinstance(found, Proof)
    assert found.margin == pytest.approx(margin, abs=0.001)


# Network, the higher node, the lower node, what could reverse the claim, and the path to it.
OPEN = [
    ("the rectifier itself", HALF_WAVE + "R R1 k 0 1000", "0", "k", "CR1", ["LINE"]),
    ("a supply", "B B1 p 0 9\nR R1 p 0 10", "0", "p", "B1", []),
    ("a grid as a diode", "B B1 p 0 9\nT V1 p c g\nR R1 c 0 9\nR R2 g 0 9", "g", "0", "V1", []),
    ("a tube with alternating plate", "S W a 0 9\nT V1 a c\nR R1 c 0 9", "0", "c", "V1", ["W"]),
    ("nothing: it floats", HALF_WAVE + "R R1 k 0 1\nC C1 k m 1\nC C2 m 0 1", "m", "0", None, []),
]


@pytest.mark.parametrize(
    ("text", "higher", "lower", "pump", "path"), [case[1:] for case in OPEN], ids=[case[0] for case in OPEN]
)
def test_what_could_be_reversed_names_what_could_do_it(
    text: str, higher: str, lower: str, pump: str | None, path: list[str]
) -> None:
    found = claimed(text, higher, lower)
    assert isinstance(found, Witness)
    assert (found.pump.name if found.pump else None) == pump
    assert [element.name for element in found.path] == path


def test_a_route_leads_from_the_higher_node_to_the_lower() -> None:
    found = claimed(HALF_WAVE + "C C1 k 0 1\nR R1 k b 1000\nT V1 b 0", "b", "0")
    assert isinstance(found, Proof)
    assert [element.name for element in found.route] == ["R1", "CR1", "LINE"]


def test_a_proof_that_leans_on_forward_drops_says_so() -> None:
    doubler = "S W a 0 9\nC C1 b a 1\nD D1 0 b\nD D2 b c\nC C2 c 0 1\nT V1 c 0"
    first, output = claimed(doubler, "b", "a"), claimed(doubler, "c", "0")
    assert isinstance(first, Proof)
    assert isinstance(output, Proof)
    assert (first.clamped, output.clamped) == (True, False)


def test_the_forward_drop_is_taken_at_the_current_that_is_stated() -> None:
    network = circuit("S W a 0 90\nC C1 b a 1\nX D1 0 b\nX D2 b c\nC C2 c 0 1\nT V1 c 0")
    ends = node(network, "b"), node(network, "a")
    small, large = (Prover(network, amperes=amperes).claim(*ends) for amperes in (0.01, 0.2))
    assert isinstance(small, Proof)
    assert isinstance(large, Proof)
    # Five selenium plates: 1 V and 3 ohms each (facts.md 4.2, from memory).
    assert (small.margin, large.margin) == pytest.approx((5.15, 8.0))


def test_grids_can_be_taken_to_draw_no_current() -> None:
    network = circuit("B B1 p 0 9\nT V1 p c g\nR R1 c 0 9\nR R2 g 0 9")
    ends = node(network, "g"), node(network, "0")
    assert isinstance(Prover(network).claim(*ends), Witness)
    assert isinstance(Prover(network, grids=False).claim(*ends), Proof)


@pytest.mark.parametrize("seed", range(60))
def test_what_lies_between_two_nodes_is_what_no_single_node_cuts_off(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    count = rng.randint(2, 9)
    edges = [(rng.randrange(count), rng.randrange(count)) for _ in range(rng.randint(1, 12))]
    edges = [edge for edge in edges if edge[0] != edge[1]]
    a, b = rng.sample(range(count), 2)
    between = Blocks(count, edges).between(a, b)
    assert {each for each in range(count) if between >> each & 1} == _uncut(count, edges, a, b)


def _uncut(count: int, edges: list[tuple[int, int]], a: int, b: int) -> set[int]:
    """The nodes that stay with a or with b whatever single other node is taken out, by trying all of them."""
    if b not in _reached(edges, {a}, None):
        return set()
    kept = set(range(count))
    for cut in range(count):
        kept &= _reached(edges, {a, b} - {cut}, cut) | {cut}
    return kept


def _reached(edges: list[tuple[int, int]], start: set[int], cut: int | None) -> set[int]:
    reached = set(start)
    while True:
        more = {y for x, z in edges for x, y in ((x, z), (z, x)) if x in reached and y != cut} - reached
        if not more:
            return reached
        reached |= more
