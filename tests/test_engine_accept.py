"""An acceptance permits one rule on named subjects, says why, and is told where it permits nothing."""

import pytest

from netcheck.core.circuit import Acceptance
from netcheck.core.diagnostic import Diagnostic, Grade, Label, Touched
from netcheck.core.source import Source
from netcheck.engine.accept import apply_acceptances
from tests.paper import checked, compared

SOURCE = Source("state.netck", "resistor R1\naccept\n")
HERE, THERE = SOURCE.between(9, 11), SOURCE.between(12, 17)


def told(rule: str, touched: Touched, grade: Grade = Grade.STOP) -> Diagnostic:
    return Diagnostic(rule, grade, f"{rule} is so", (Label(HERE),), touched=touched)


@pytest.mark.parametrize("touched", [Touched(leads=("R1.1",)), Touched(parts=("R1.1",)), Touched(nets=("R1.1",))])
def test_a_subject_is_a_lead_a_part_or_a_net(touched: Touched) -> None:
    standing, accepted = apply_acceptances(
        [told("loose-lead", touched)], (Acceptance("loose-lead", ("R7", "R1.1"), "why", THERE),)
    )
    assert standing == ()
    assert [(a.diagnostic.rule, a.reason) for a in accepted] == [("loose-lead", "why")]


@pytest.mark.parametrize(
    "acceptance",
    [Acceptance("loose-lead", ("R2.1",), "why", THERE), Acceptance("lonely-net", ("R1.1",), "why", THERE)],
    ids=["another subject", "another rule"],
)
def test_what_is_not_meant_stands_and_the_acceptance_is_told(acceptance: Acceptance) -> None:
    finding = told("loose-lead", Touched(leads=("R1.1",)))
    standing, accepted = apply_acceptances([finding], (acceptance,))
    assert accepted == ()
    assert [d.rule for d in standing] == ["loose-lead", "unused-intent"]
    assert standing[1].labels[0].place == THERE
    assert standing[1].grade is Grade.LOOK
    (subject,) = acceptance.subjects
    assert standing[1].headline == f"this line accepts nothing: no {acceptance.rule} finding names {subject}"
    assert standing[1].do == "take the line out, or name the rule and the part of a finding"


def test_of_several_subjects_any_would_have_done() -> None:
    (unused,), _ = apply_acceptances([], (Acceptance("loose-lead", ("R1.1", "R2", "grid"), "why", THERE),))
    assert unused.headline == "this line accepts nothing: no loose-lead finding names R1.1 or R2 or grid"


@pytest.mark.parametrize("rule", ["not-compared", "unused-intent"])
def test_what_keeps_silence_honest_can_not_be_accepted(rule: str) -> None:
    finding = told(rule, Touched(parts=("R1",)), Grade.NOTE)
    standing, accepted = apply_acceptances([finding], (Acceptance(rule, ("R1",), "why", THERE),))
    assert finding in standing
    assert accepted == ()


def test_one_acceptance_may_permit_several_findings() -> None:
    findings = [told("loose-lead", Touched(leads=(f"R1.{n}",), parts=("R1",))) for n in (1, 2)]
    standing, accepted = apply_acceptances(findings, (Acceptance("loose-lead", ("R1",), "why", THERE),))
    assert standing == ()
    assert len(accepted) == 2


def test_check_applies_what_the_file_accepts() -> None:
    text = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2\n"
    report = checked(text + 'accept loose-lead R2.2 "for the meter"\n')
    assert report.diagnostics == ()
    assert [a.reason for a in report.accepted] == ["for the meter"]


def test_what_the_original_accepts_does_not_speak_of_the_rewired_state() -> None:
    original = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n"
    report = compared(
        original + 'accept value-changed R1 "drawn wrong"\n', 'start from "original.netck"\nchange R1 10k\n'
    )
    assert [d.rule for d in report.diagnostics] == ["value-changed"]
    assert report.accepted == ()


def test_a_log_may_say_again_what_its_drawing_accepts() -> None:
    """The comparison wants it of the log, and `check` finds the drawing's first; once more in one file is idle."""
    line = 'accept loose-lead R2.2 "for the meter"\n'
    original = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2\n" + line
    log = 'start from "original.netck"\n' + line
    assert checked(log, original=original).diagnostics == ()
    assert [d.rule for d in checked(log + line, original=original).diagnostics] == ["unused-intent"]


def test_an_acceptance_of_a_comparison_is_none_of_checks_business() -> None:
    text = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n"
    assert checked(text + 'accept value-changed R1 "one value bought"\n').diagnostics == ()


SUPPLY = """mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 10 ohm
winding T1 high red-a red-b 117 V 20 ohm
diode D1 1N4007
resistor R1 47 ohm 5 W
electrolytic C1 47 mfd 250 V
resistor R2 2.7k 20 W
resistor R3 1 meg 1/2 W
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high: T1.red-a, R1.1
net rect: R1.2, D1.anode
net B+: D1.cathode, C1+, R2.1, R3.1
net ground: chassis, T1.red-b, C1-, R2.2, R3.2
"""
BLEEDER = """start from "original.netck"
resistor R9 22k 1/2 W from C1+ to C1- added "empties it"
meant B+: R9.1
meant ground: R9.2
"""
ALLOWED = 'accept resistor-overloaded R9 "for an hour on the bench"\n'


def said(rewired: str) -> list[tuple[str, str]]:
    report = compared(SUPPLY, rewired)
    return [(d.grade.value, d.rule) for d in report.diagnostics if d.rule != "no-line-fuse"]


def test_what_is_accepted_of_the_computed_state_is_used() -> None:
    assert said(BLEEDER) == [("STOP", "resistor-overloaded")]
    assert said(BLEEDER + ALLOWED) == []
    assert said(BLEEDER.replace("1/2 W", "3 W") + ALLOWED) == [("LOOK", "unused-intent")]


def test_what_a_fault_hides_uses_its_acceptance() -> None:
    """While a joint is wrong no heat is told; the line would be missed as soon as the joint is right."""
    assert said(BLEEDER + ALLOWED + "lift D1.cathode\n") == [("STOP", "missing-connection")]


def test_what_the_comparison_says_better_uses_an_acceptance_too() -> None:
    weaker = 'start from "original.netck"\nchange R2 2.7k 1 W\naccept resistor-overloaded R2 "tried"\n'
    assert said(weaker) == [("STOP", "rating-too-low")]


def test_volts_are_judged_with_what_is_accepted() -> None:
    other = 'change R3 470k\naccept value-changed R3 "what there was"\n'
    assert said(BLEEDER + other) == [("STOP", "resistor-overloaded")]


HUNG = "resistor R1 1k\ncapacitor C1 .01 mfd\nnet grid: R1.1, C1.1\nnet ground: chassis, R1.2, C1.2\n"


def test_an_acceptance_of_no_rule_at_all_is_told_of_one_state_by_itself() -> None:
    """One for a rule of comparisons is no affair of ``check``; one for a name that is no rule's accepts nothing."""
    told = checked(f'{HUNG}accept loose-leaf R1 "a slip"\naccept value-changed R1 "one value bought"\n').diagnostics
    assert [d.headline for d in told] == ["this line accepts nothing: no loose-leaf finding names R1"]
