"""Readings of chassis with a known fault, computed by the tests' own nodal analysis, and what is made of them."""

from collections.abc import Callable
from random import Random

import pytest

from netcheck.bench.explain import Diagnosis, explained
from netcheck.bench.explain_sheet import Said, diagnosis_sheet
from netcheck.bench.filled_in import FilledIn
from netcheck.bench.next_reading import next_reading
from netcheck.bench.one_of import products
from netcheck.bench.plan import Plan, Step, plan_of
from netcheck.bench.readings import Reading, reading_of
from netcheck.core.mend import lines
from netcheck.model.graph import CircuitGraph
from tests.bench_campaign.__main__ import loaded, written
from tests.bench_campaign.nodal import Real, read, real_of
from tests.paper import circuit

# A supply with two stages, lug by lug, that has one place for each slip.
CHASSIS = """
state rewired
mains 117 V 60 Hz
cord P1
strip SP1 6 lugs foot 4
strip SP2 5 lugs foot 3
diode D1 1000 V 1 A anode SP1.1 cathode SP1.2
electrolytic C1 47 mfd 250 V plus SP1.2 minus SP1.4
resistor R1 1k 5% from SP1.2 to SP1.3
electrolytic C2 22 mfd 250 V plus SP1.3 minus SP1.4
resistor R2 100k 5% from SP1.3 to SP2.1
resistor R3 470k 5% from SP2.2 to SP2.3
capacitor C3 .01 mfd 630 V film from SP2.1 to SP2.2
resistor R4 2.2k 5% from SP2.4 to SP2.3
resistor R5 10k 5% from SP2.5 to SP1.5
wire SP1.5 to SP1.4 black
wire SP2.5 to SP1.3 red 22 AWG
at SP1.1: P1.1
at SP1.4: P1.2
"""


def planned() -> tuple[Plan, Real]:
    state = circuit(CHASSIS)
    return plan_of(CircuitGraph(state)), real_of(state)


def diagnosis(plan: Plan, real: Real) -> Diagnosis:
    random = Random(1)  # noqa: S311 - the meter's error
    names = plan.chassis.names
    readings = [written(read(real, names[step.red], names[step.black]), random) for step in plan.steps]
    return explained(plan.chassis, plan.steps, readings)


def open_joint(real: Real, lug: str, lead: str) -> Real:
    joint = next(joint for joint in real.joints if set(joint) == {lug, lead})
    return real.opened(joint)


FAULTS: dict[str, tuple[str, Callable[[Real], Real]]] = {
    "R2.1 is not soldered to SP1.3": ("at SP1.3: R2.1", lambda real: open_joint(real, "SP1.3", "R2.1")),
    "the wire from SP2.5 to SP1.3 is open or missing": (
        "wire SP2.5 to SP1.3 red 22 AWG", lambda real: open_joint(real, "SP2.5", "SP1.3"),
    ),
    "SP2.1 and SP2.2 are bridged": ("cut SP2.1 to SP2.2", lambda real: real.joined(("SP2.1", "SP2.2"))),
    "R4 is open": ("change R4 2.2k 5%", lambda real: real.valued("R4", 1e12)),
    "R3 has drifted to about 1.32 meg": ("change R3 470k 5%", lambda real: real.valued("R3", 1.3e6)),
    "R2.2 is on SP2.2 instead of SP2.1": (
        "move R2.2 to SP2.1", lambda real: open_joint(real, "SP2.1", "R2.2").joined(("R2.2", "SP2.2")),
    ),
}  # fmt: skip


@pytest.mark.parametrize("words", FAULTS)
def test_a_fault_is_named_with_its_mend(words: str) -> None:
    plan, real = planned()
    mend, plant = FAULTS[words]
    found = diagnosis(plan, plant(real))
    first = found.groups[0]
    assert words in [one.words for one in first], [one.words for one in found.ranked]
    named = next(one for one in first if one.words == words)
    assert mend in lines(named.mend)


def test_a_clean_chassis_is_not_blamed() -> None:
    plan, real = planned()
    found = diagnosis(plan, real)
    assert found.wrong == ()
    assert found.groups == ()
    assert not found.certain


def test_what_the_readings_single_out_is_certain_and_what_they_do_not_is_a_tie() -> None:
    plan, real = planned()
    assert diagnosis(plan, real.valued("R3", 1.3e6)).certain
    shorted = diagnosis(plan, real.valued("C1", 0.05))
    assert not shorted.certain
    said = {one.words for one in shorted.groups[0]}
    assert {"C1 is shorted", "SP1.2 touches the chassis"} <= said  # no reading of ohms tells these apart


def test_two_faults_are_named_together() -> None:
    plan, real = planned()
    found = diagnosis(plan, open_joint(real, "SP1.3", "R2.1").valued("R4", 1e12))
    said = {frozenset(slip.words for slip in one.slips) for one in found.groups[0]}
    assert frozenset({"R2.1 is not soldered to SP1.3", "R4 is open"}) in said
    assert not found.certain


def test_the_next_reading_tells_rivals_apart() -> None:
    plan, real = planned()
    steps, readings = about(plan, real.valued("R4", 1e12), "SP2.4")
    rivals = explained(plan.chassis, steps, readings).groups[0]
    assert len(rivals) > 1
    assert next_reading(plan.chassis, rivals[:1], set()) is None
    assert next_reading(plan.chassis, (), set()) is None
    more = next_reading(plan.chassis, rivals, {frozenset((step.red, step.black)) for step in steps})
    assert more is not None
    assert sorted(at for _, places in more.means for at in places) == list(range(len(rivals)))
    ends = plan.chassis.names[more.red], plan.chassis.names[more.black]
    truth = {
        "R4 is open": read(real.valued("R4", 1e12), *ends),
        "R4.1 is not soldered to SP2.4": read(open_joint(real, "SP2.4", "R4.1"), *ends),
        "R4.2 is not soldered to SP2.3": read(open_joint(real, "SP2.3", "R4.2"), *ends),
    }
    for said, places in more.means:
        for at in places:
            ohms = truth.get(rivals[at].words)
            if ohms is not None:
                assert said == ("open" if ohms > 20e6 else "joined (below 2 ohm)" if ohms < 2 else said)
    assert len(more.means) >= 2


def test_a_diode_in_backwards_is_seen_from_its_two_readings() -> None:
    plan, _ = planned()
    names = plan.chassis.names
    ends = {("D1.anode", "D1.cathode"): "OL", ("D1.cathode", "D1.anode"): "450"}
    steps = [step for step in plan.steps if (names[step.red], names[step.black]) in ends]
    readings: list[Reading] = []
    for step in steps:
        reading = reading_of(ends[names[step.red], names[step.black]])
        assert isinstance(reading, Reading)
        readings.append(reading)
    found = explained(plan.chassis, steps, readings)
    assert found.ranked[0].words == "D1 is in backwards"


def about(plan: Plan, real: Real, point: str) -> tuple[list[Step], list[Reading]]:
    """The charts' readings at one point."""
    names = plan.chassis.names
    steps = [step for step in plan.steps if step.joint is None and point in (names[step.red], names[step.black])]
    random = Random(1)  # noqa: S311 - the meter's error
    return steps, [written(read(real, names[step.red], names[step.black]), random) for step in steps]


def test_nothing_is_certain_from_few_readings() -> None:
    """One open reading through two joints and a part: any of them may be it."""
    plan, real = planned()
    steps, readings = about(plan, real.valued("R4", 1e12), "SP2.4")
    found = explained(plan.chassis, steps, readings)
    assert found.wrong
    assert not found.certain
    assert len(found.groups[0]) >= 3


def test_a_lead_on_the_lug_beside_is_found_though_its_open_joint_alone_spoils_readings() -> None:
    """R10 (2.2 meg) leads to the grid's chart reading: with its end in the air that would read open, and it does not.

    Dozens of other joints, opened, would spoil nothing and explain nothing.
    """
    state, plan = loaded("marram")
    real = open_joint(real_of(state), "SP5.3", "R10.2").joined(("R10.2", "SP5.2"))
    found = diagnosis(plan, real)
    assert found.ranked[0].words == "R10.2 is on SP5.2 instead of SP5.3"
    assert found.ranked[0].explains_all


@pytest.mark.parametrize("times", [1.6, 2.5, 5.0])
def test_a_fault_that_another_hides_from_the_chart_is_found_with_it(times: float) -> None:
    """A bridge to the chassis takes a third off a reading through R34; R34 risen brings it back within its limits.

    Neither explains anything alone: the bridge spoils that reading, the drift mends nothing.
    """
    _, plan = loaded("sallow-street")
    real = real_of(plan.chassis.graph.circuit)
    ohms = next(way.ohms for way in real.ways if way.name == "R34")
    found = diagnosis(plan, real.valued("R34", times * ohms).joined(("SP5.3", "SP5.4")))
    first = found.groups[0][0]
    assert first.explains_all
    assert first.slips[0].words == "SP5.3 and SP5.4 are bridged"
    assert "R34" in first.slips[1].words
    assert not found.certain


def test_no_two_slips_are_about_one_thing() -> None:
    plan, real = planned()
    found = diagnosis(plan, open_joint(real.valued("R2", 300e3), "SP2.1", "C3.1"))
    assert found.ranked
    for one in found.ranked:
        assert len({slip.subject for slip in one.slips}) == len(one.slips)


def test_two_shorted_capacitors_are_among_their_ties_and_the_sheet_names_them_all() -> None:
    """Both cans' sections on the chassis: dozens of pairs of bridges and shorts make the same three readings.

    All of them are one explanation, and the sheet names every slip of it.
    """
    _, plan = loaded("one-can")
    real = real_of(plan.chassis.graph.circuit)
    found = diagnosis(plan, real.valued("C41", 0.05).valued("C42", 0.05))
    said = {frozenset(slip.words for slip in one.slips) for one in found.groups[0]}
    assert frozenset({"C41 is shorted", "C42 is shorted"}) in said
    assert not found.certain
    steps = found.wrong
    beep = reading_of("OL")
    assert isinstance(beep, Reading)
    sheet = diagnosis_sheet(plan, FilledIn(steps, (beep,) * len(steps), 0), Said(found), ("r.csv",))
    table = next(table for table in sheet.tables if table.key == "explain")
    leads = [at for at, row in enumerate(table.rows) if row.lead]
    for group, start, end in zip(found.groups, leads, [*leads[1:], len(table.rows)], strict=False):
        text = " ".join(row.cells[0] for row in table.rows[start:end])
        assert table.rows[start].lead.endswith("; these readings do not tell them apart") == (len(group) > 1)
        for one in group:
            assert all(slip.words in text for slip in one.slips), one.words


def test_a_choice_of_each_place_is_one_of_the_group_and_no_other() -> None:
    _, plan = loaded("one-can")
    real = real_of(plan.chassis.graph.circuit)
    group = diagnosis(plan, real.valued("C41", 0.05).valued("C42", 0.05)).groups[0]
    chosen = [
        frozenset((one.words, other.words)) for first, second in products(group) for one in first for other in second
    ]
    assert sorted(map(sorted, chosen)) == sorted(sorted(slip.words for slip in one.slips) for one in group)


def test_a_shorted_rectifier_is_told_by_ohms_and_by_volts() -> None:
    plan, real = planned()
    found = diagnosis(plan, real.valued("D1", 0.05))
    assert "D1 is shorted" in [one.words for one in found.groups[0]]
    names = plan.chassis.names
    steps = [step for step in plan.steps if {names[step.red], names[step.black]} == {"D1.anode", "D1.cathode"}]
    for text, wrong in (("0.0 V", True), ("0.55 V", False), ("0.55", False), ("0.2", True), ("450", False)):
        reading, back = reading_of(text), reading_of("OL")
        assert isinstance(reading, Reading)
        assert isinstance(back, Reading)
        forward = [step for step in steps if names[step.red] == "D1.anode"]
        said = explained(plan.chassis, forward, [reading])
        assert bool(said.wrong) is wrong, text
        if wrong:
            assert "D1 is shorted" in [one.words for one in said.ranked], text


def test_ohms_written_beside_a_beep_tell_where_an_open_lead_went() -> None:
    """C1+ is on the lug beside, and C1 is shorted: what its joint reads, open, leads through C1 to the chassis."""
    plan, real = planned()
    both = open_joint(real.valued("C2", 0.05), "SP1.3", "C2+").joined(("C2+", "SP1.2"))
    found = diagnosis(plan, both)
    said = {frozenset(slip.words for slip in one.slips) for group in found.groups[:3] for one in group}
    assert frozenset({"C2+ is on SP1.2 instead of SP1.3", "C2 is shorted"}) in said


def test_of_what_reads_alike_two_slips_are_not_told_beside_one() -> None:
    _, plan = loaded("one-can")
    real = real_of(plan.chassis.graph.circuit)
    for group in diagnosis(plan, real.valued("C41", 0.05).valued("C42", 0.05)).groups:
        assert len({len(one.slips) for one in group}) == 1
