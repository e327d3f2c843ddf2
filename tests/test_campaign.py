"""A small run of the fault campaign, and what the campaign stands on: its own reading and rewriting of the samples."""

from random import Random

import pytest

from netcheck.core.diagnostic import Grade
from tests.campaign.bench import Bench
from tests.campaign.chassis import CHASSIS, Chassis, Joint, Part
from tests.campaign.connections import wire_beside
from tests.campaign.kinds import KINDS
from tests.campaign.planted import Answer, Planted
from tests.campaign.reading import SAMPLES, original_of, rewired_of, text_of
from tests.campaign.renaming import renames_only
from tests.campaign.rewired_sets import fresh_names
from tests.campaign.rewriting import as_log, as_trace
from tests.campaign.running import campaign
from tests.campaign.sameness import equal, labels_of, same, units_exchanged
from tests.campaign.trials import fitting_samples, reported, trial
from tests.campaign.verdict import judged
from tests.paper import compared

TRIALS, SEED = 60, 7


def test_small_campaign_finds_what_was_planted() -> None:
    summary = campaign(TRIALS, SEED, tuple(KINDS), circuits="both").summary()
    single, multiple, equivalent = (summary[key] for key in ("single", "multiple", "equivalent"))
    assert summary["trials"] == TRIALS * 12 // 5
    assert set(summary["kinds"]) == set(KINDS)
    assert max(summary["kinds"].values()) - min(summary["kinds"].values()) <= 2
    assert len(KINDS) < 25  # so that each is more than 4 %
    assert single["detected"] == multiple["detected"] == 1.0
    assert min(single["right_first"], single["exactly_one"]) >= 0.98
    assert multiple["exactly_one_each"] >= 0.95
    assert min(single["ordered"], single["repaired"]) >= 0.98
    assert min(multiple["ordered"], multiple["repaired"]) >= 0.95
    assert single["wrong_orders"] == multiple["wrong_orders"] == 0
    assert equivalent["false_alarms"] == 0


@pytest.mark.parametrize("name", fresh_names(Random(5), 12))  # noqa: S311 - repeated from a seed
def test_fresh_circuits_are_sound_and_silent(name: str) -> None:
    report = compared(text_of(name, "original"), text_of(name, "rewired"))
    assert report.built
    assert [d.headline for d in report.diagnostics if d.grade is not Grade.NOTE] == []
    rewired = rewired_of(name)
    again = as_trace(rewired, Random(name))  # noqa: S311 - repeated from a seed
    assert same(rewired.nets(), labels_of(rewired), again.nets(), labels_of(again))


@pytest.mark.parametrize("sample", SAMPLES)
def test_rewriting_keeps_the_circuit(sample: str) -> None:
    """The generator's own nets, before and after: a rewriting that changed them would plant faults unknown to it."""
    rewired = rewired_of(sample)
    for seed in range(4):
        for rewrite in (as_log, as_trace):
            again = rewrite(rewired, Random(seed))  # noqa: S311 - repeated from a seed
            assert same(rewired.nets(), labels_of(rewired), again.nets(), labels_of(again)), (seed, rewrite)


@pytest.mark.parametrize("sample", SAMPLES)
def test_reading_finds_every_part_wired(sample: str) -> None:
    original = original_of(sample)
    number = original.components()
    bare = {
        part.name
        for part in original.parts.values()
        if part.leads and not any(original.node(x) in number for x in part.leads)
    }
    assert not bare


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_has_a_sample(kind: str) -> None:
    assert fitting_samples(kind)


def test_a_report_that_misses_the_fault_is_counted_so() -> None:
    """The judge must be able to fail: the right report of one trial, held against another lead."""
    drawn = trial(("part-missing",), Random(3))  # noqa: S311 - repeated from a seed
    assert drawn is not None
    report = reported(drawn)
    assert judged(report, drawn.faults, drawn.leads).detected
    other = Planted("part-missing", "another part", (Answer.of("part-missing", {"R999"}),))
    verdict = judged(report, (other,), drawn.leads)
    assert not verdict.detected
    assert not verdict.right_first
    assert not verdict.exact
    two = judged(report, (*drawn.faults, other), drawn.leads)
    assert not two.exact
    assert any(d.grade is Grade.STOP for d in report.diagnostics)


def test_a_seed_gives_the_same_trial() -> None:
    draws = [trial(("wrong-net", "bridge"), Random(11)) for _ in range(2)]  # noqa: S311 - repeated from a seed
    assert draws[0] is not None
    assert draws[0] == draws[1]


def test_exchanged_units_of_a_double_tube_are_no_fault() -> None:
    """In the sample both triodes have one grid net and one cathode net, so exchanged plates exchange the units."""
    bench = Bench(rewired_of("marram").copy(), original_of("marram"), Random(1))  # noqa: S311 - repeated from a seed
    bench.exchange({"V2.1": "V2.6", "V2.6": "V2.1"})
    found, now = bench.chassis.fixed(), labels_of(bench.chassis)
    assert not same(bench.fixed, bench.labels, found, now)
    assert [same(bench.fixed, bench.labels, found, units) for units in units_exchanged(now)].count(True) == 1


@pytest.mark.parametrize(("ends", "noted"), [(("yellow-a", "yellow-b"), True), (("blue", "red"), False)])
def test_a_winding_that_works_alone_may_lie_either_way_round(ends: tuple[str, str], noted: bool) -> None:  # noqa: FBT001
    """The filament of a rectifier tube has B+ at its one end or the other; an output transformer's sense is heard."""
    name = "fresh-787093"
    bench = Bench(rewired_of(name).copy(), original_of(name), Random(1))  # noqa: S311 - repeated from a seed
    own = next(p.name for p in bench.chassis.parts.values() if f"{p.name}.{ends[0]}" in p.leads)
    one, other = (f"{own}.{end}" for end in ends)
    bench.exchange({one: other, other: one})
    found, now = bench.chassis.fixed(), labels_of(bench.chassis)
    assert not same(bench.fixed, bench.labels, found, now)
    assert equal(bench.fixed, found, bench.labels, now) is noted


@pytest.mark.parametrize(("on", "does_nothing", "as_good"), [(1, True, True), (3, True, False), (1, False, False)])
def test_a_wire_of_no_use_that_comes_to_lie_across_an_inserted_part(on: int, does_nothing: bool, as_good: bool) -> None:  # noqa: FBT001
    """By hand: the wire from R9's end to lug 2 is put on lug 1, R9's other end, or on lug 3.

    Lug 2 is empty, or feeds R4: then the wire is missing there too, and that R9 is bridged is half of it.
    """
    names = ("R1", "R2", "R3", "R4", "R9")
    parts = {n: Part(n, "resistor", (), (f"{n}.1", f"{n}.2"), claim="inserted" * (n == "R9")) for n in names}
    lugs = {"R1.1": 1, "R9.1": 1, "R3.1": 3, **({} if does_nothing else {"R4.1": 2})}
    joints = [Joint(f"SP1.{lug}", lead, "solder") for lead, lug in lugs.items()]
    joints += [Joint("R9.2", "R2.1", "solder"), Joint("SP1.2", "R9.2", "wire")]
    chassis = Chassis({**parts, "SP1": Part("SP1", "strip", ("4 lugs", "foot 4"), ())}, joints)
    benches = (Bench(chassis.copy(), chassis, Random(seed)) for seed in range(9))  # noqa: S311 - repeated from a seed
    faults = [fault for bench in benches if f"on SP1.{on} " in (fault := wire_beside(bench)).what]
    assert faults
    for fault in faults:
        assert any("unused-intent" in answer.rules for answer in fault.answers) is as_good


@pytest.mark.parametrize(
    ("seed", "turned", "as_good"), [(1, "5U4G back", True), (4, "5U4G on", False), (5, "6V6GT on", False)]
)
def test_a_turn_that_is_another_turn_as_well(seed: int, turned: str, as_good: bool) -> None:  # noqa: FBT001
    """By hand: what belongs on pins 2 and 8 of a rectifier may change places, and so may 4 and 6.

    One pin back they are on 1 and 7, 3 and 5, as in a mirror; one pin on they are on 3 and 1, 5 and 7, in a mirror not.
    """
    drawn = trial(("socket-shifted",), Random(seed), ("fresh-63866",))  # noqa: S311 - repeated from a seed
    assert drawn is not None
    fault = drawn.faults[0]
    tube, moved = fault.what.split()[1].rstrip(":"), fault.what.split(": ")[1].split(", ")
    way = "on" if f"{tube}.1 on {tube}.2" in moved else "back"
    assert f"{drawn.faulty.parts[tube].type} {way}" == turned
    assert any("pins-mirrored" in answer.rules for answer in fault.answers) is as_good


def test_a_part_that_is_in_again_is_not_planted_again() -> None:
    for seed in range(12):
        drawn = trial(("dead-part",) * 3, Random(seed), ("one-can", "sallow-street"))  # noqa: S311
        assert drawn is None or len({fault.what for fault in drawn.faults}) == 3


def test_two_parts_of_a_branch_in_the_other_order_are_equal() -> None:
    """By hand: R1 and R2 between A and B, alone on the net between; with a third lead there they are not."""
    labels = {f"{part}.{n}": (part, part, "end") for part in ("R1", "R2", "R3") for n in (1, 2)}
    labels["C1+"], labels[CHASSIS] = ("C1", "C1", "+"), (CHASSIS, CHASSIS, "")
    nets = {"R1.1": 1, "R1.2": 2, "R2.1": 2, "R2.2": 3, "R3.1": 3, "R3.2": 1, CHASSIS: 1}
    turned = {"R2.1": 1, "R2.2": 2, "R1.1": 2, "R1.2": 3, "R3.1": 3, "R3.2": 1, CHASSIS: 1}
    assert not same(nets, labels, turned, labels)
    assert equal(nets, turned, labels, labels)
    tapped, more = {**nets, "C1+": 2}, {**turned, "C1+": 2}
    assert not equal(tapped, more, labels, labels)


@pytest.mark.parametrize(
    ("first", "second", "alike", "names_only"),
    [
        (("C1-", "SP1.4"), (("C1+", "C2+"),), True, True),  # C2's minus hangs free, by the other name
        (("C1-", "SP1.4"), (("C1+", "C2+"),), False, False),  # 10 mfd on B+2, where 20 belong
        (("C1-", "SP1.4"), (("C1+", "R1.1"),), True, False),
        (("C1-", "SP1.4"), (("C2-", "SP1.5"),), True, False),
        (("R1.2", "SP1.4"), (("C1-", "C2+"),), True, False),
    ],
)
def test_like_parts_under_each_other_s_names_are_no_second_fault(
    first: tuple[str, str],
    second: tuple[tuple[str, str], ...],
    alike: bool,  # noqa: FBT001
    names_only: bool,  # noqa: FBT001
) -> None:
    """By hand: C1 from B+1 to ground, C2 from B+2 to ground, R1 from B+1 to B+2; what hangs free is on a bare lug."""
    values = {"C1": "10 mfd", "C2": "10 mfd" if alike else "20 mfd"}
    parts = {n: Part(n, "electrolytic", (value,), (f"{n}+", f"{n}-")) for n, value in values.items()}
    parts |= {"R1": Part("R1", "resistor", ("1k",), ("R1.1", "R1.2")), "SP1": Part("SP1", "strip", ("5 lugs",), ())}
    parts |= {n: Part(n, "resistor", (n,), (f"{n}.1", f"{n}.2")) for n in ("R2", "R3")}
    lugs = {"C1+": 1, "R1.1": 1, "R2.1": 1, "C2+": 2, "R1.2": 2, "R3.1": 2, "C1-": 3, "C2-": 3, "R2.2": 3, "R3.2": 3}
    sound = Chassis(parts, [Joint(f"SP1.{lug}", lead, "solder") for lead, lug in lugs.items()])
    before, after = (Bench(sound.copy(), sound, Random(1)) for _ in range(2))  # noqa: S311 - nothing is drawn
    for bench in (before, after):
        bench.take_off(first[0])
        bench.put(first[1], first[0])
    for one, other in second:
        after.exchange({one: other, other: one})
    assert renames_only(sound, before.chassis, after.chassis) is names_only


@pytest.mark.parametrize(("seed", "pins", "shifted"), [(112, 8, True), (23, 7, False)])
def test_all_pins_of_a_socket_gone_round_by_one_is_the_socket_one_pin_on(seed: int, pins: int, shifted: bool) -> None:  # noqa: FBT001
    drawn = trial(("went-round",), Random(seed), ("fresh-987864",))  # noqa: S311 - repeated from a seed
    assert drawn is not None
    fault = drawn.faults[0]
    assert fault.what.startswith("V8.")
    assert fault.what.count("V8.") == pins
    assert any("pins-shifted" in answer.rules for answer in fault.answers) is shifted
