"""Two leads off a net of three points read as the third one off: neither is named for certain."""

from random import Random

from netcheck.bench.explain import Diagnosis, explained
from tests.bench_campaign.__main__ import loaded, written
from tests.bench_campaign.nodal import read, real_of


def told(*leads: str, name: str = "one-can") -> Diagnosis:
    """What is made of a sample's readings with some leads off their net, by the tests' own nodal analysis."""
    circuit, plan = loaded(name)
    names, random, real = plan.chassis.names, Random(1), real_of(circuit)  # noqa: S311 - the meter's error
    for lead in leads:
        real = real.opened(next(joint for joint in real.joints if lead in joint))
    readings = [written(read(real, names[step.red], names[step.black]), random) for step in plan.steps]
    return explained(plan.chassis, plan.steps, readings)


def test_two_leads_off_a_net_of_three_are_a_rival_of_the_third_one_off() -> None:
    found = told("R21.2", "PL1.3")
    assert len(found.wrong) >= 2
    assert found.ranked
    assert found.groups[0][0].explains_all
    assert not found.certain


def test_one_lead_off_that_net_is_still_named_alone() -> None:
    assert told("R21.2").ranked[0].words == "R21.2 is not joined to ground"


def test_two_that_together_explain_nothing_are_not_told() -> None:
    found = told("R16.2", "SP4.3", name="marram")
    assert found.groups[0][0].explains_all
    about = ("R16.2", "J1.3", "SP4.3")
    assert [one.words for one in found.ranked if not any(point in one.words for point in about)] == []
