"""Rules to diagnostics: the order in which they are told, and that nothing of a finding is lost or changes place."""

from netcheck.core.diagnostic import About, Diagnostic, Grade, Label, Touched
from netcheck.core.mend import Put
from netcheck.core.panel import Panel
from netcheck.core.source import Source
from netcheck.engine.rule import Finding, Rule
from netcheck.engine.run import told_by

SOURCE = Source("state.netck", "resistor R1\n")
PLACES = [SOURCE.between(at, at + 1) for at in range(4)]


def test_findings_come_gravest_first_then_by_place_and_bear_their_rules_name() -> None:
    later = Finding("later", (Label(PLACES[3]),))
    first: Rule[None] = Rule("b-rule", Grade.LOOK, lambda _: iter([later]), "", About.ITSELF)
    second: Rule[None] = Rule(
        "a-rule",
        Grade.NOTE,
        lambda _: iter(
            [
                Finding("known", (Label(PLACES[0]),)),
                Finding("grave", (Label(PLACES[2]),), grade=Grade.STOP),
                Finding("looked at", (Label(PLACES[1]),), grade=Grade.LOOK),
            ]
        ),
        "",
        About.ITSELF,
    )
    assert [(d.rule, d.grade.value, d.headline) for d in told_by((first, second), None)] == [
        ("a-rule", "STOP", "grave"),
        ("a-rule", "LOOK", "looked at"),
        ("b-rule", "LOOK", "later"),
        ("a-rule", "NOTE", "known"),
    ]


def test_what_burns_comes_before_all_that_is_as_grave_but_no_look_burns() -> None:
    def rule(name: str, grade: Grade, at: int, *, burns: bool) -> Rule[None]:
        return Rule(name, grade, lambda _: iter([Finding(name, (Label(PLACES[at]),))]), "", About.ITSELF, burns=burns)

    rules = (
        rule("quiet-stop", Grade.STOP, 0, burns=False), rule("burning-stop", Grade.STOP, 1, burns=True),
        rule("quiet-look", Grade.LOOK, 2, burns=False), rule("burning-look", Grade.LOOK, 3, burns=True),
    )  # fmt: skip
    assert [(d.rule, d.burns) for d in told_by(rules, None)] == [
        ("burning-stop", True), ("quiet-stop", False), ("quiet-look", False), ("burning-look", False),
    ]  # fmt: skip


def test_a_finding_that_is_graver_or_less_than_its_rule_burns_by_its_own_grade() -> None:
    def burning(rule: Grade, own: Grade | None) -> bool:
        found = Finding("found", (Label(PLACES[0]),), grade=own)
        (told,) = told_by([Rule("a", rule, lambda _: iter([found]), "", About.ITSELF, burns=True)], None)
        return told.burns

    assert burning(Grade.STOP, None)
    assert burning(Grade.LOOK, Grade.STOP)
    assert not burning(Grade.STOP, Grade.LOOK)
    assert not burning(Grade.STOP, Grade.NOTE)


def test_what_is_found_can_be_read_again() -> None:
    found = told_by(
        [Rule("a", Grade.STOP, lambda _: iter([Finding("x", (Label(PLACES[0]),))]), "", About.ITSELF)], None
    )
    assert {found: 1}[found] == 1


def test_a_diagnostic_holds_all_that_the_finding_says() -> None:
    finding = Finding(
        "headline",
        (Label(PLACES[0]),),
        why="why",
        do="do",
        touched=Touched(("R1.1",)),
        grade=Grade.NOTE,
        panel=Panel(),
        mends=((Put("R1.1", "SP1.2"),),),
    )
    (told,) = told_by([Rule("a-rule", Grade.STOP, lambda _: iter([finding]), "", About.NET | About.ACROSS)], None)
    assert told == Diagnostic(
        "a-rule",
        Grade.NOTE,
        "headline",
        (Label(PLACES[0]),),
        why="why",
        do="do",
        touched=Touched(("R1.1",)),
        panel=Panel(),
        mends=((Put("R1.1", "SP1.2"),),),
        about=About.NET | About.ACROSS,
    )
    # The rule's name, whether what it tells burns, and what that is about are the rule's own.
    assert {*Diagnostic.__struct_fields__} - {*Finding.__struct_fields__} == {"rule", "burns", "about"}
