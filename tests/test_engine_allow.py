"""An allowance permits one rule on named subjects, says why, and is told where it permits nothing."""

import pytest

from netcheck.core.circuit import Allowance
from netcheck.core.diagnostic import Diagnostic, Label, Severity, Touched
from netcheck.core.source import Place, Source
from netcheck.engine.allow import apply_allowances
from netcheck.engine.rule import Finding, Rule
from netcheck.engine.run import run
from tests.paper import checked, compared

SOURCE = Source("state.netck", "resistor R1\nallow\n")
HERE, THERE = Place(SOURCE, 9, 11), Place(SOURCE, 12, 17)


def told(rule: str, touched: Touched, severity: Severity = Severity.ERROR) -> Diagnostic:
    return Diagnostic(rule, severity, f"{rule} is so", (Label(HERE),), touched=touched)


@pytest.mark.parametrize("touched", [Touched(leads=("R1.1",)), Touched(parts=("R1.1",)), Touched(nets=("R1.1",))])
def test_a_subject_is_a_lead_a_part_or_a_net(touched: Touched) -> None:
    standing, allowed = apply_allowances(
        [told("loose-lead", touched)], (Allowance("loose-lead", ("R7", "R1.1"), "why", THERE),)
    )
    assert standing == ()
    assert [(a.diagnostic.rule, a.reason) for a in allowed] == [("loose-lead", "why")]


@pytest.mark.parametrize(
    "allowance",
    [Allowance("loose-lead", ("R2.1",), "why", THERE), Allowance("lonely-net", ("R1.1",), "why", THERE)],
    ids=["another subject", "another rule"],
)
def test_what_is_not_meant_stands_and_the_allowance_is_told(allowance: Allowance) -> None:
    finding = told("loose-lead", Touched(leads=("R1.1",)))
    standing, allowed = apply_allowances([finding], (allowance,))
    assert allowed == ()
    assert [d.rule for d in standing] == ["loose-lead", "unused-intent"]
    assert standing[1].labels[0].place == THERE
    assert standing[1].severity is Severity.WARNING


@pytest.mark.parametrize("rule", ["not-compared", "unused-intent"])
def test_what_keeps_silence_honest_can_not_be_allowed(rule: str) -> None:
    finding = told(rule, Touched(parts=("R1",)), Severity.NOTE)
    standing, allowed = apply_allowances([finding], (Allowance(rule, ("R1",), "why", THERE),))
    assert finding in standing
    assert allowed == ()


def test_one_allowance_may_permit_several_findings() -> None:
    findings = [told("loose-lead", Touched(leads=(f"R1.{n}",), parts=("R1",))) for n in (1, 2)]
    standing, allowed = apply_allowances(findings, (Allowance("loose-lead", ("R1",), "why", THERE),))
    assert standing == ()
    assert len(allowed) == 2


def test_check_applies_what_the_file_allows() -> None:
    text = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2\n"
    report = checked(text + 'allow loose-lead R2.2 "for the meter"\n')
    assert report.diagnostics == ()
    assert [a.reason for a in report.allowed] == ["for the meter"]


def test_what_the_original_allows_does_not_speak_of_the_rewired_state() -> None:
    original = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n"
    report = compared(
        original + 'allow value-changed R1 "drawn wrong"\n', 'start from "original.netck"\nchange R1 10k\n'
    )
    assert [d.rule for d in report.diagnostics] == ["value-changed"]
    assert report.allowed == ()


def test_an_allowance_of_a_comparison_is_none_of_checks_business() -> None:
    text = "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n"
    assert checked(text + 'allow value-changed R1 "one value bought"\n').diagnostics == ()


def test_findings_come_gravest_first_then_by_place_and_bear_their_rules_name() -> None:
    places = [Place(SOURCE, at, at + 1) for at in range(4)]
    first: Rule[None] = Rule("b-rule", Severity.WARNING, lambda _: iter([Finding("later", (Label(places[3]),))]), "")
    second: Rule[None] = Rule(
        "a-rule",
        Severity.NOTE,
        lambda _: iter(
            [
                Finding("note", (Label(places[0]),)),
                Finding("grave", (Label(places[2]),), severity=Severity.ERROR),
                Finding("looked at", (Label(places[1]),), severity=Severity.WARNING),
            ]
        ),
        "",
    )
    assert [(d.rule, d.severity.value, d.headline) for d in run((first, second), None)] == [
        ("a-rule", "error", "grave"),
        ("a-rule", "warning", "looked at"),
        ("b-rule", "warning", "later"),
        ("a-rule", "note", "note"),
    ]
