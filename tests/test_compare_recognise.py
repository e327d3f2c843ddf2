"""Files whose parts all bear other names: recognised as they are, and with a fault planted."""

import random
import re
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import networkx as nx
import pytest
from msgspec.structs import replace

from netcheck.compare.roles.recognise import Recognised, recognised
from netcheck.core.circuit import Circuit, Part
from netcheck.core.source import Source
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read, reader
from tests.structure_full import no_file

SAMPLES = sorted(Path("samples").glob("*/original.netck"))
FAULTS = ("move", "loosen", "bridge", "turn", "part", "leave out")
Names = dict[str, str]


def built(text: str) -> Circuit:
    circuit, problems = build(Source("test.netck", text), no_file)
    assert circuit is not None, problems
    return circuit


def renamed(path: Path, dice: random.Random) -> tuple[Circuit, Circuit, Names]:
    """A sample, the same with every part renamed and in another order, and the new name of every old one."""
    source = read(path)
    circuit, _ = build(source, reader(source))
    assert circuit is not None
    numbers = dice.sample(range(500, 999), len(circuit.parts))
    names: Names = {}
    for part, number in zip(circuit.parts.values(), numbers, strict=True):
        stem = re.match(r"[A-Z]+", part.name)
        names[part.name] = f"{stem[0] if stem else 'X'}{number}"
    for part in circuit.parts.values():
        if part.host:
            names[part.name] = names[part.host] + part.name.removeprefix(part.host)
    longest = sorted(map(re.escape, names), key=len, reverse=True)
    text = re.sub(rf"(?<![\w.+-])({'|'.join(longest)})(?!\w)", lambda m: names[m[1]], source.text)
    other = built(text)
    parts = list(other.parts.items())
    dice.shuffle(parts)
    return circuit, replace(other, parts=dict(parts)), names


def faulty(circuit: Circuit, fault: str, dice: random.Random) -> Circuit:
    graph, nets = CircuitGraph(circuit), list(circuit.nets)
    leads = [at for part in elements(circuit) for at in graph.terminals(part)]
    used = sorted({nets[at] for at in leads})
    at = dice.choice(leads)
    if fault == "move":
        nets[at] = dice.choice([net for net in used if net != nets[at]])
    elif fault == "loosen":
        nets[at] = len(nets)
    elif fault == "bridge":
        one, other = dice.sample(used, 2)
        nets = [one if net == other else net for net in nets]
    elif fault == "turn":
        part = dice.choice([part for part in elements(circuit) if len(graph.terminals(part)) > 1])
        one, other = dice.sample(graph.terminals(part), 2)
        nets[one], nets[other] = nets[other], nets[one]
    elif fault == "part":
        net = nets[at]
        nets = [len(nets) if own == net and dice.random() < 0.5 else own for own in nets]
    else:
        name = dice.choice([part.name for part in elements(circuit)])
        return replace(circuit, parts={n: part for n, part in circuit.parts.items() if n != name})
    return replace(circuit, nets=tuple(nets))


def elements(circuit: Circuit) -> list[Part]:
    return [part for part in circuit.parts.values() if part.leads]


def found_in(old: Circuit, new: Circuit, paired: tuple[tuple[Part, Part], ...] = ()) -> Recognised:
    known = {part.name for pair in paired for part in pair}
    olds, news = ([part for part in elements(c) if part.name not in known] for c in (old, new))
    return recognised(CircuitGraph(old), CircuitGraph(new), olds, news, paired)


def named(found: Recognised) -> Names:
    return {old.name: new.name for old, new in found.pairs}


def agreeing(old: Circuit, new: Circuit, pairs: Iterable[tuple[Part, Part]]) -> int:
    """How many leads can be on the right net at most, nets paired one to one; free ends whichever way is better."""
    votes: Counter[tuple[int, int]] = Counter()
    graphs = CircuitGraph(old), CircuitGraph(new)
    for one, other in pairs:
        nets = [
            [graph.circuit.nets[at] for at in graph.terminals(p)] for graph, p in zip(graphs, (one, other), strict=True)
        ]
        # A free end counts for both nets it may be on: the same for every pairing that is compared here.
        free = one.shape is not None and bool(one.shape.free) and len(nets[0]) == 2
        votes.update(zip(nets[0], nets[1], strict=True))
        if free:
            votes.update(zip(nets[0], reversed(nets[1]), strict=True))
    graph = nx.Graph()
    graph.add_weighted_edges_from(((0, a), (1, b), weight) for (a, b), weight in votes.items())
    return sum(graph.edges[edge]["weight"] for edge in nx.max_weight_matching(graph))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.parent.name)
@pytest.mark.parametrize("seed", [1, 2])
def test_a_renamed_sample_is_the_same(path: Path, seed: int) -> None:
    old, new, _ = renamed(path, random.Random(seed))  # noqa: S311 (repeatable, and no secret)
    found = found_in(old, new)
    assert found.same
    assert len(found.pairs) == len(elements(old))
    assert not found.undecided


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.parent.name)
@pytest.mark.parametrize("fault", FAULTS)
def test_one_fault_does_not_lead_astray(path: Path, fault: str) -> None:
    for seed in range(8):
        dice = random.Random(seed)  # noqa: S311 (repeatable, and no secret)
        old, sound, names = renamed(path, dice)
        new = faulty(sound, fault, dice)
        truth = [(part, new.parts[names[part.name]]) for part in elements(old) if names[part.name] in new.parts]
        found = found_in(old, new)
        assert len(found.pairs) == len(truth), seed
        assert agreeing(old, new, found.pairs) >= agreeing(old, new, truth), seed


STAGE = """state drawn
tube V1 6J5
resistor R1 100k 1/2 W
resistor R2 2.2k 1/2 W
resistor R3 470k 1/2 W
capacitor C1 .05 mfd 400 V
electrolytic C2 20 mfd 25 V
net B+: R1.1
net plate: V1.plate, R1.2, C1.1
net out: C1.2, R3.1
net cathode: V1.cathode, R2.1, C2+
net ground: chassis, R2.2, R3.2, C2-
"""
OTHER_NAMES = {"V1": "V7", "R1": "R9", "R2": "R8", "R3": "R7", "C1": "C21", "C2": "C22"}


def other_names(text: str) -> str:
    return re.sub(r"\b(V1|R[123]|C[12])\b", lambda m: OTHER_NAMES[m[1]], text)


@pytest.mark.parametrize(
    ("was", "now"),
    [
        (".05 mfd 400 V", ".047 mfd 600 V"),
        ("470k", "500k"),
        ("20 mfd 25 V", "22 mfd 50 V"),
    ],
)
def test_what_the_trade_fits_for_a_value_is_the_same_part(was: str, now: str) -> None:
    found = found_in(built(STAGE), built(other_names(STAGE.replace(was, now))))
    assert found.same
    assert named(found) == OTHER_NAMES


@pytest.mark.parametrize(
    ("was", "now"),
    [("470k", "47k"), (".05 mfd", ".5 mfd"), ("20 mfd 25 V", "200 mfd 25 V"), ("2.2k", "22k")],
)
def test_a_wrong_value_in_the_right_place_is_still_the_part(was: str, now: str) -> None:
    found = found_in(built(STAGE), built(other_names(STAGE.replace(was, now))))
    assert not found.same
    assert named(found) == OTHER_NAMES


def test_a_backwards_electrolytic_is_recognised() -> None:
    new = STAGE.replace("R2.1, C2+", "R2.1, C2-").replace("R3.2, C2-", "R3.2, C2+")
    found = found_in(built(STAGE), built(other_names(new)))
    assert not found.same
    assert named(found) == OTHER_NAMES


def test_a_section_may_have_become_an_electrolytic() -> None:
    drawn = STAGE.replace("electrolytic C2 20", "can C3 insulated\nsection C3A 20").replace("C2", "C3A")
    found = found_in(built(drawn), built(STAGE))
    assert found.same
    assert named(found)["C3A"] == "C2"


def test_a_left_out_part_is_not_found_in_a_part_elsewhere() -> None:
    new = STAGE.replace("R3", "R9").replace("net out: C1.2, R9.1", "net out: C1.2").replace("B+: ", "B+: R9.1, ")
    old, rewired = built(STAGE), built(new)
    kept = tuple((old.parts[name], rewired.parts[name]) for name in ("V1", "R1", "R2", "C1", "C2"))
    assert found_in(old, rewired, kept) == Recognised(())


def test_names_that_both_files_know_are_kept_and_the_rest_follows_from_them() -> None:
    two = STAGE + re.sub(r"\b(V|R|C)([123])\b", r"\g<1>1\2", "\n".join(STAGE.splitlines()[1:-1]) + "\n").replace(
        "net plate", "net plate-b"
    ).replace("net out", "net out-b").replace("net cathode", "net cathode-b")
    two += "net ground: R12.2, R13.2, C12-\n"
    old = built(two)
    new = built(re.sub(r"\bR1\b", "R51", re.sub(r"\bR11\b", "R41", two)))
    kept = tuple((old.parts[name], new.parts[name]) for name in old.parts if name in new.parts)
    found = found_in(old, new, kept)
    assert found.same
    assert named(found) == {"R1": "R51", "R11": "R41"}


def test_nothing_is_recognised_where_one_file_has_nothing_left_over() -> None:
    circuit = built(STAGE)
    graph = CircuitGraph(circuit)
    pairs = tuple((part, part) for part in elements(circuit))
    for olds, news in (((), ()), (pairs[0][:1], ()), ((), pairs[0][1:])):
        assert recognised(graph, graph, olds, news, pairs[1:] if olds or news else pairs).pairs == ()
