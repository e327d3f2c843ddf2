"""The job sheet's acts, carried out by hands of the tests' own, give the rewired state."""

import itertools
from pathlib import Path
from random import Random

import networkx as nx
import pytest

from netcheck.bench.alike import turned
from netcheck.bench.job import Job, job_of
from netcheck.core.circuit import Circuit, How
from netcheck.model.build import build
from netcheck.sheets import job
from netcheck.system.files import read, reader
from tests.paper import circuit

SAMPLES = Path(__file__).parents[1] / "samples"
PAIRS = [(folder.name, file.stem) for folder in sorted(SAMPLES.iterdir()) for file in sorted(folder.glob("*.netck"))
         if file.stem != "original"]  # fmt: skip


def states(name: str, stem: str) -> tuple[Circuit, Circuit]:
    sources = [read(SAMPLES / name / f"{which}.netck") for which in ("original", stem)]
    built = [build(source, reader(*sources))[0] for source in sources]
    assert built[0] is not None
    assert built[1] is not None
    return built[0], built[1]


def carried_out(old: Circuit, work: Job) -> tuple[nx.MultiGraph, set[str]]:
    """Hands that do what the sheet says, in its order; they fail where there is nothing to take off."""
    chassis = nx.MultiGraph(
        (old.points[join.a].name, old.points[join.b].name)
        for join in old.joins
        if join.how not in (How.INSIDE, How.BOND) and join.a != join.b
    )
    for one in work.off:
        chassis.remove_edge(one.at, one.lead)
    parts = set(old.parts) - {part.name for part in work.out}
    parts |= {part.name for part in (*work.screwed, *work.fitted)}
    wires: set[frozenset[str]] = set()
    for lug in work.lugs:
        assert lug.count == len(lug.on) + len(lug.stays)
        for one in lug.on:
            assert one.at == lug.name
            ends = frozenset((one.at, one.lead))
            if one.wire is None or ends not in wires:
                chassis.add_edge(one.at, one.lead)
            wires |= {ends} if one.wire is not None else set()
    return chassis, parts


def partition(names: list[str], joined: nx.Graph) -> set[frozenset[str]]:
    """Which of some points are one, by networkx."""
    groups = [frozenset(group) & frozenset(names) for group in nx.connected_components(joined)]
    return {group for group in groups if len(group) > 1}


def agrees(old: Circuit, new: Circuit) -> bool:
    chassis, parts = carried_out(old, job_of(old, new))
    assert parts == set(new.parts)
    names = turned(old, new) if not new.inherited else {}
    real, made = nx.Graph(), nx.Graph(chassis)
    # What parts have inside, and what the mounting does, is there without the hands.
    for join in new.joins:
        a, b = (names.get(new.points[end].name, new.points[end].name) for end in (join.a, join.b))
        if join.how in (How.INSIDE, How.BOND):
            made.add_edge(a, b)
        real.add_edge(a, b)
    points = [names.get(p.name, p.name) for p in new.points if p.name == "chassis" or p.part in new.parts]
    return partition(points, made) == partition(points, real)


@pytest.mark.parametrize(("name", "stem"), PAIRS)
def test_the_acts_give_the_rewired_state_of_every_sample(name: str, stem: str) -> None:
    assert agrees(*states(name, stem))


def random_state(random: Random, head: str) -> str:
    leads = [f"R{n}.{end}" for n in range(1, 7) for end in (1, 2)] + ["C1+", "C1-", "V1.3", "V1.5", "V1.8"]
    lugs = [f"SP1.{n}" for n in range(1, 6)] + ["V1.6", "chassis"]
    lines = [head, *(f"at {random.choice(lugs)}: {lead}" for lead in leads if random.random() < 0.8)]
    for _ in range(random.randint(0, 4)):
        a, b = random.sample(lugs, 2)
        lines.append(f"wire {a} to {b} {random.choice(('red', 'black', 'green'))}")
    return "\n".join(lines) + "\n"


PARTS = """strip SP1 5 lugs foot 3
tube V1 6V6GT
electrolytic C1 10 mfd 450 V
""" + "".join(f"resistor R{n} {n}k\n" for n in range(1, 7))


def test_the_acts_give_the_second_of_five_hundred_pairs_of_traces() -> None:
    states = [circuit(random_state(Random(f"state {at}"), f"state found\n{PARTS}")) for at in range(33)]  # noqa: S311
    pairs = list(itertools.combinations(range(33), 2))
    assert len(pairs) > 500
    for one, other in pairs:
        assert agrees(states[one], states[other]), (one, other)


LOG = """state rewired
start from "base.netck"
strip SP2 3 lugs foot 2
lift R1.2
remove R2
move R3.1 to SP2.1
resistor R7 47k 1 W from SP2.1 to SP2.2 replaces R2
change R4 4.7k 2 W
wire SP2.1 to SP1.1 red 22 AWG
wire SP2.2 to SP1.3 black
"""


@pytest.mark.parametrize("block", range(3))
def test_the_acts_of_a_work_log_give_its_state(block: int) -> None:
    for trial in range(10):
        random = Random(f"log {block} {trial}")  # noqa: S311 - trials are repeated
        base = random_state(random, f"state found\n{PARTS}")
        base += "".join(f"at SP1.1: {lead}\n" for lead in ("R1.2", "R3.1") if f": {lead}\n" not in base)
        assert agrees(circuit(base), circuit(LOG, base=base)), (block, trial)


def test_a_lug_is_told_complete_at_its_last_lead_and_only_there() -> None:
    sources = [read(SAMPLES / "skerry" / f"{which}.netck") for which in ("original", "rewired")]
    _, sheet = job(*sources, read=reader(*sources))
    assert sheet is not None
    on = next(table for table in sheet.tables if table.key == "on")
    starts = [at for at, row in enumerate(on.rows) if row.lead] + [len(on.rows)]
    for start, end in itertools.pairwise(starts):
        said = ["solder now" in row.cells[0] for row in on.rows[start:end]]
        assert said == [False] * (end - start - 1) + [True]
    text = "\n".join(row.lead + row.cells[0] for row in on.rows)
    assert "C54-\nwire black 22 AWG to SP2.5: all 3 on, solder now" in text


def test_the_order_of_hands() -> None:
    sources = [read(SAMPLES / "harrow-point" / f"{which}.netck") for which in ("original", "rewired")]
    _, sheet = job(*sources, read=reader(*sources))
    assert sheet is not None
    keys = [table.key for table in sheet.tables]
    assert keys == [key for key in ("off", "out", "screw", "change", "ready", "wires", "on", "dead") if key in keys]
    assert {"off", "out", "screw", "change", "ready", "wires", "on", "dead"} == set(keys)


def test_a_shell_that_stays_is_told_as_dead() -> None:
    work = job_of(*states("skerry", "rewired"))
    assert work.dead == ("C32: sections A, B, C out, the can stays",)
