"""The job sheet's acts, carried out by hands of the tests' own, give the rewired state."""

import itertools
from pathlib import Path
from random import Random

import networkx as nx
import pytest
from msgspec.structs import replace

from netcheck.bench.alike import exchanged_names
from netcheck.bench.job import Job, job_of
from netcheck.bench.job_done import leads_to
from netcheck.bench.job_sheet import job_sheet
from netcheck.core.circuit import Circuit, How
from netcheck.core.mend import Bond, Change, Cut, Insulate, Remove, Solder, Wire
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
    sockets = {name for name, part in old.parts.items() if part.kind.word == "tube"}
    parts, in_hand = set(old.parts), {part.name for part in (*work.screwed, *work.fitted)}
    for act in work.acts:
        match act:
            case Cut(a=a, b=b):
                chassis.remove_edge(a, b)
            case Remove(part=part):
                parts -= {part} - sockets
            case Solder(point=a, to=b) | Wire(a=a, b=b):
                chassis.add_edge(a, b)
            case _:
                assert isinstance(act, Change | Bond | Insulate)
    return chassis, parts | in_hand


def partition(names: list[str], joined: nx.Graph) -> set[frozenset[str]]:
    """Which of some points are one, by networkx."""
    groups = [frozenset(group) & frozenset(names) for group in nx.connected_components(joined)]
    return {group for group in groups if len(group) > 1}


def agrees(old: Circuit, new: Circuit) -> bool:
    work = job_of(old, new)
    assert leads_to(old, new, work)
    for lug in work.lugs:
        assert lug.count == len(lug.on) + len(lug.stays)
        for act in lug.on:
            assert lug.name in ((act.to,) if isinstance(act, Solder) else (act.a, act.b))
    chassis, parts = carried_out(old, work)
    assert parts == set(new.parts)
    names = exchanged_names(old, new) if not new.inherited else {}
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


LIFTED = """state planned
start from "base.netck"
lift SP1.1
lift V1.6
remove R5
resistor R8 10k 1 W from SP1.4 to SP1.5
change SP1 insulated
"""


@pytest.mark.parametrize("block", range(4))
def test_a_job_may_begin_and_end_with_leads_that_hang_lifted_together(block: int) -> None:
    """A log with a lift, against the state that it starts from, a trace and another log."""
    for trial in range(8):
        random = Random(f"lifted {block} {trial}")  # noqa: S311 - trials are repeated
        base = random_state(random, f"state found\n{PARTS}")
        base += "".join(f"at SP1.1: {lead}\n" for lead in ("R1.2", "R3.1") if f": {lead}\n" not in base)
        base += "wire SP1.1 to SP1.4 yellow\nwire V1.6 to SP1.5 yellow\n"
        hanging, other = circuit(LIFTED, base=base), circuit(LOG, base=base)
        trace = circuit(random_state(random, f"state found\n{PARTS}"))
        for pair in ((circuit(base), hanging), (hanging, trace), (trace, hanging), (hanging, other), (other, hanging)):
            assert leads_to(*pair, job_of(*pair)), (block, trial)


def test_what_hangs_lifted_is_taken_off_the_others() -> None:
    base = "state found\nstrip SP1 3 lugs\nresistor R1 1k\nresistor R2 1k\nat SP1.1: R1.1, R2.1\n"
    log = 'state planned\nstart from "base.netck"\nlift SP1.1\n'
    new = circuit("state rewired\nstrip SP1 3 lugs\nresistor R1 1k\nresistor R2 1k\nat SP1.1: R1.1\nat SP1.2: R2.1\n")
    old = circuit(log, base=base)
    work = job_of(old, new)
    assert leads_to(old, new, work)
    off = next(table for table in job_sheet(work, new, (), (), leads_there=True).tables if table.key == "off")
    assert [row.cells[0] for row in off.rows] == ["R2.1 from the others that hang lifted off SP1.1"]


def test_what_does_not_lead_to_the_new_state_is_not_passed() -> None:
    """One act left out, one too many, one that can't be done."""
    old, new = states("skerry", "rewired")
    work = job_of(old, new)
    assert leads_to(old, new, work)
    lug = work.lugs[0]
    assert not leads_to(old, new, replace(work, lugs=work.lugs[1:]))
    assert not leads_to(old, new, replace(work, off=work.off[1:]))
    assert not leads_to(old, new, replace(work, out=work.out[1:]))
    again = replace(lug, on=(*lug.on, Solder(work.fitted[0].name + "+", "chassis")))
    assert not leads_to(old, new, replace(work, lugs=(again, *work.lugs[1:])))
    twice = replace(work, off=(work.off[0], *work.off))
    assert not leads_to(old, new, twice)


def test_a_sheet_says_whether_its_acts_were_carried_out() -> None:
    old, new = states("skerry", "rewired")
    work = job_of(old, new)
    good = job_sheet(work, new, (), (), leads_there=True)
    assert good.closing[-1].startswith("Done on paper, these steps give")
    assert not good.failed
    bad = job_sheet(work, new, (), (), leads_there=False)
    assert bad.before[0].startswith("No steps are given: done on paper, those that were found do not give")
    assert bad.tables == ()
    assert bad.failed


MOUNTED = [("grounded", "insulated", Insulate("C1")), ("insulated", "grounded", Bond("C1"))]


@pytest.mark.parametrize(("was", "now", "act"), MOUNTED)
def test_a_can_mounted_in_another_way_is_bonded_or_insulated(was: str, now: str, act: Bond | Insulate) -> None:
    text = "state {state}\ncan C1 {mounted}\nsection C1A 20 mfd 450 V half-moon\nnet a: C1A+\n"
    old, new = (circuit(text.format(state=s, mounted=m)) for s, m in (("found", was), ("rewired", now)))
    work = job_of(old, new)
    assert [refit.act for refit in work.refits] == [act]
    assert leads_to(old, new, work)


def test_a_part_of_other_values_is_changed_and_a_tube_leaves_its_socket() -> None:
    base = "state found\nresistor R1 1k 1 W\ntube V1 6V6GT\nnet a: R1.1, V1.3\n"
    old, new = (
        circuit(base),
        circuit('state rewired\nstart from "base.netck"\nremove V1\nchange R1 1k  2 W\n', base=base),
    )
    work = job_of(old, new)
    assert work.acts == (Remove("V1"), Change("R1", "1k 2 W"))
    assert leads_to(old, new, work)


def test_a_restuffed_section_of_the_same_values_is_a_new_part() -> None:
    old, new = states("marram", "rewired")
    assert Change("C41A", "100 mfd 450 V half-moon") in job_of(old, new).acts
    assert leads_to(old, new, job_of(old, new))


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


def test_steps_are_counted_without_a_gap_and_what_is_no_step_is_not_counted() -> None:
    for name in ("skerry", "marram", "harrow-point"):
        sources = [read(SAMPLES / name / f"{which}.netck") for which in ("original", "rewired")]
        _, sheet = job(*sources, read=reader(*sources))
        assert sheet is not None
        steps = [table.heading.partition(". ") for table in sheet.tables if table.key != "dead"]
        assert "Cut the new wires" in [heading for _, _, heading in steps]
        assert [number for number, _, _ in steps] == [str(n + 1) for n in range(len(steps))]
        assert not any(table.heading[0].isdigit() for table in sheet.tables if table.key == "dead")


def test_wires_are_cut_by_colour_and_gauge() -> None:
    sources = [read(SAMPLES / "skerry" / f"{which}.netck") for which in ("original", "rewired")]
    _, sheet = job(*sources, read=reader(*sources))
    assert sheet is not None
    rows = [row.cells for row in next(table for table in sheet.tables if table.key == "wires").rows]
    assert len({words for words, _, _ in rows}) > 2
    assert [words for words, _, _ in rows] == sorted(words for words, _, _ in rows)
    assert ("black 22 AWG", "SP7.4", "SP2.5") in rows


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
