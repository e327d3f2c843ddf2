"""The small values that everything is told with: places, budgets, joined reports, settings, acts, facts of a kind."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from netcheck.core.budget import Budget
from netcheck.core.caution import Dangers, cautions, says_television
from netcheck.core.circuit import Stand
from netcheck.core.diagnostic import Diagnostic, Flaw, Grade, Label, Touched
from netcheck.core.joined import joined, of_one_set
from netcheck.core.kind import Features, Role, Shape, Terminal, count_of, framed, mounting_of, numbered, wound
from netcheck.core.looked import Looked
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Put, Remove, Solder, Wire, lines, names
from netcheck.core.quantity import Dimension, Quantity
from netcheck.core.report import Accepted, Report
from netcheck.core.settings import ChassisEntry, Output, Settings
from netcheck.core.source import Source

SOURCE = Source("set.netck", "ab\r\nc\n\nlast")


@given(st.text(alphabet="ab\n\r\u2028\x0b", max_size=30), st.data())
def test_line_and_column_are_those_that_an_editor_counts(text: str, data: st.DataObject) -> None:
    """A line ends at a line feed and nowhere else, as in POSIX."""
    source = Source("x", text)
    at = data.draw(st.integers(0, len(text)))
    place = source.between(at, len(text))
    before = text[:at]
    assert place.line == before.count("\n") + 1
    assert place.column == len(before.rpartition("\n")[2]) + 1
    assert str(place) == f"x:{place.line}:{place.column}"
    assert place.text == text[at:]
    assert source.line_text(place.line) == text.split("\n")[place.line - 1].rstrip("\r")


def test_places_are_ordered_by_file_and_then_as_they_stand() -> None:
    places = [SOURCE.between(3, 4), SOURCE.between(0, 9), Source("a.netck", "").between(5, 6), SOURCE.whole]
    assert [(p.source.name, p.start, p.end) for p in sorted(places, key=lambda p: p.order)] == [
        ("a.netck", 5, 6), ("set.netck", 0, 0), ("set.netck", 0, 9), ("set.netck", 3, 4)
    ]  # fmt: skip


def test_a_budget_is_spent_in_steps_and_the_last_of_it_may_be_overdrawn() -> None:
    budget = Budget(3)
    assert not budget.is_spent
    assert budget.spend()
    assert budget.spend(5)  # what has begun is ended
    assert budget.is_spent
    assert not budget.spend()
    assert budget.left == -3
    assert Budget(0).is_spent


def found(headline: str, grade: Grade = Grade.LOOK, at: int = 0, *, burns: bool = False, rule: str = "r") -> Diagnostic:
    return Diagnostic(rule, grade, headline, (Label(SOURCE.between(at, at)),), burns=burns)


def test_findings_are_told_gravest_first_then_what_burns_then_as_they_stand() -> None:
    told = [found("e", Grade.NOTE), found("d", at=3), found("c", at=1, rule="s"), found("b", at=1, rule="q"),
            found("a", at=1, rule="q"), found("z", Grade.STOP, 9), found("y", Grade.STOP, 9, burns=True)]  # fmt: skip
    assert [d.headline for d in sorted(told, key=lambda d: d.order)] == ["y", "z", "a", "b", "c", "d", "e"]
    report = Report("check", "t", ("f",), tuple(told))
    assert [(n, d.headline) for n, d in report.numbered][:2] == [(1, "y"), (2, "z")]
    assert [report.count(grade) for grade in Grade] == [2, 4, 1]


@pytest.mark.parametrize(("strict", "failing"), [(False, {"STOP"}), (True, {"STOP", "LOOK"})])
def test_what_makes_a_run_fail(strict: bool, failing: set[str]) -> None:  # noqa: FBT001 - a case of the table
    report = Report("check", "t", ("f",), tuple(found(g.value, g) for g in Grade), strict=strict)
    assert {d.headline for d in report.diagnostics if report.fails(d)} == failing
    for grade in Grade:
        one = replace(report, diagnostics=(found("x", grade),))
        assert Looked("a", ("drawn",), one).failed == (grade.value in failing)
    clean = replace(report, diagnostics=())
    assert not Looked("a", ("drawn",), clean).failed
    assert Looked("a", ("drawn",), clean, troubles=("no folder",)).failed
    assert Looked("a", ("drawn",), replace(clean, built=False)).failed


ONE = Report("check", "one", ("a", "shared"), (found("x"), found("both")), (Accepted(found("k"), "why"),), ("looked",),
             unchecked=("u1",), cautions=("hot", "general"))  # fmt: skip
TWO = Report("compare", "two", ("shared", "b"), (found("both"), found("y", Grade.STOP)), ONE.accepted,
             ("looked", "more"), unchecked=("u1", "u2"), cautions=("general",))  # fmt: skip


def test_several_reports_say_what_they_share_once() -> None:
    whole = joined((ONE, TWO))
    assert (whole.command, whole.title, whole.files) == ("check", "one", ("a", "shared", "b"))
    assert [d.headline for d in whole.diagnostics] == ["y", "both", "x"]
    assert whole.accepted == ONE.accepted
    assert whole.closing == ("looked", "more")
    assert whole.cautions == ("a: hot", "general")
    assert whole.built
    assert not joined((ONE, replace(TWO, built=False))).built
    assert joined((ONE,)) is ONE


def test_what_is_reported_can_not_be_changed_afterwards() -> None:
    """Several formats are made of one report, one after the other."""
    whole = joined((ONE, TWO))
    (first, *_) = whole.diagnostics
    for value in (whole, first, first.labels[0], first.labels[0].place, first.touched, whole.accepted[0]):
        for name in value.__struct_fields__:
            with pytest.raises(AttributeError):
                setattr(value, name, None)
    assert {whole, first} == {joined((ONE, TWO)), first}


def test_with_names_each_line_on_what_was_looked_at_begins_with_its_own() -> None:
    whole = joined((ONE, TWO), ("left", "right"))
    assert whole.closing == ("left: looked", "right: looked", "right: more")
    assert whole.cautions == ("left: hot", "general")
    assert joined((ONE,), ("left",)).closing == ("left: looked",)


def test_the_reports_on_one_set_are_headed_by_its_last_state() -> None:
    whole = of_one_set((ONE, TWO), "all set")
    assert (whole.command, whole.title, whole.files) == ("all set", "two", ("a", "shared", "b"))
    assert whole.closing == ("looked", "more")
    assert whole.unchecked == ("u1", "u2")
    assert whole.cautions == ("hot", "general")
    assert of_one_set((TWO, ONE), "all set").cautions == ("hot", "general")


def test_names_that_a_finding_touches_are_each_there_once() -> None:
    touched = Touched(("b", "a", "b"), ("R1", "R1"), ("x", "y", "x"))
    assert (touched.leads, touched.parts, touched.nets) == (("b", "a"), ("R1",), ("x", "y"))


def test_cautions_of_two_states_are_those_of_either() -> None:
    hot, television, selenium = Dangers(hot=True), Dangers(television=True), Dangers(selenium=True)
    assert hot | television == Dangers(hot=True, television=True)
    assert television | selenium == Dangers(television=True, selenium=True)
    assert selenium | hot == Dangers(hot=True, selenium=True)
    every = cautions(hot | television | selenium)
    assert len(every) == 4
    assert every[-1:] == cautions(Dangers())
    for one in (hot, television, selenium):
        assert len(cautions(one)) == 2
        assert set(cautions(one)) <= set(every)


@pytest.mark.parametrize("title", ["a television receiver", "a TV set", "Televisor 1938", "tv chassis"])
def test_a_title_that_says_television_is_taken_at_its_word(title: str) -> None:
    assert says_television(title)
    assert not says_television(title.replace("V", "x").replace("v", "x"))


ACTS: dict[str, tuple[Act, set[str]]] = {
    "lift R1.1": (Lift("R1.1"), {"R1.1"}),
    "move R1.1 to SP1.2": (Put("R1.1", "SP1.2"), {"R1.1", "SP1.2"}),
    "at SP1.2: R1.1": (Solder("R1.1", "SP1.2"), {"R1.1", "SP1.2"}),
    "cut SP1.1 to SP1.2": (Cut("SP1.1", "SP1.2"), {"SP1.1", "SP1.2"}),
    "wire SP1.1 to SP1.2": (Wire("SP1.1", "SP1.2"), {"SP1.1", "SP1.2"}),
    "wire SP1.1 to SP1.2 red": (Wire("SP1.1", "SP1.2", "red"), {"SP1.1", "SP1.2"}),
    "change C1 grounded": (Bond("C1"), {"C1"}),
    "change C1 insulated": (Insulate("C1"), {"C1"}),
    "change R1 2.2k 1 W": (Change("R1", "2.2k 1 W"), {"R1"}),
    "remove R1": (Remove("R1"), {"R1"}),
    'remove R1 "burnt"': (Remove("R1", "burnt"), {"R1"}),
}


@pytest.mark.parametrize("line", ACTS)
def test_an_act_is_a_line_of_a_work_log_and_names_its_points(line: str) -> None:
    act, points = ACTS[line]
    assert lines((act,)) == (line,)
    assert names((act,)) == points


def test_settings_say_what_is_written_for_all_and_for_each() -> None:
    place = SOURCE.whole
    own = ChassisEntry("a", (), place, outputs=(Output("{chassis}.svg", place), Output("out/{chassis}.txt", place)))
    asked = (Output("out/{chassis}.txt", place), Output("all.md", place))
    settings = Settings(SOURCE, (own,), strict=True, outputs=asked)
    assert settings.shared_outputs == ("all.md",)
    assert settings.outputs_of(own) == ("out/a.txt", "a.svg")
    assert [settings.strict_for(replace(own, strict=said)) for said in (None, True, False)] == [True, True, False]


@pytest.mark.parametrize(
    ("written", "said"),
    [(("13 in", "7-1/2 in"), "13 by 7-1/2 in"), (("330 mm", "190 mm"), "330 by 190 mm"),
     (("13 in", "190 mm"), "13 in by 190 mm")],
)  # fmt: skip
def test_two_lengths_of_one_unit_have_it_once(written: tuple[str, str], said: str) -> None:
    assert Stand("chassis", 1.0, 1.0, turned=False, place=SOURCE.whole, written=written).measures == said


def counted(amount: str) -> int | Flaw:
    return count_of(Features((Quantity((Decimal(amount),), Dimension.LUGS, f"{amount} lugs"),)), Dimension.LUGS)


@pytest.mark.parametrize(("amount", "count"), [("1", 1), ("5", 5), ("60", 60)])
def test_lugs_are_counted_from_one_to_sixty(amount: str, count: int) -> None:
    assert counted(amount) == count


@pytest.mark.parametrize("amount", ["0", "-1", "61", "2.5"])
def test_no_strip_has_that_many_lugs(amount: str) -> None:
    said = counted(amount)
    assert isinstance(said, Flaw)
    assert said.headline == f"a part can't have `{amount} lugs`"
    assert said.help == "write a whole number of lugs from 1 to 60"


def test_a_count_that_is_not_said_is_asked_for() -> None:
    said = count_of(Features(), Dimension.PINS)
    assert said == Flaw("the number of pins is not stated", "write how many, like `5 pins`")


COIL = Shape((Terminal("a"), Terminal("b")), bonded=("a",))


@pytest.mark.parametrize(
    ("words", "mounting", "frame", "bonded"),
    [((), "", False, ("a",)), (("grounded",), "grounded", True, ("a", "frame")), (("insulated", "exposed"), "insulated",
     True, ("a",))],
)  # fmt: skip
def test_a_frame_is_there_where_its_mounting_is_said(
    words: tuple[str, ...],
    mounting: str,
    frame: bool,  # noqa: FBT001 - a case of the table
    bonded: tuple[str, ...],
) -> None:
    features = Features(words=words)
    assert mounting_of(features) == mounting
    made = framed(COIL, features, "core")
    assert isinstance(made, Shape)
    assert [t.name for t in made.terminals] == ["a", "b", *(["frame"] if frame else [])]
    assert made.bonded == bonded
    if frame:
        assert (made.terminals[-1].role, made.terminals[-1].aliases) == (Role.SHELL, ("core",))
        assert made.leads[-1].name == "frame"


@pytest.mark.parametrize(
    ("words", "leads", "said"),
    [
        (("grounded", "insulated"), "a b", "it can't be both `grounded` and `insulated`"),
        (("exposed",), "a b", "`exposed` is about the frame, and how that is mounted is not stated"),
        (("grounded",), "frame b", "a lead can't be called `frame` where the frame is `grounded`"),
        (("insulated",), "a core", "a lead can't be called `core` where the frame is `insulated`"),
    ],
)
def test_a_frame_that_is_told_two_ways_is_refused(words: tuple[str, ...], leads: str, said: str) -> None:
    made = framed(Shape(tuple(map(Terminal, leads.split()))), Features(words=words), "core")
    assert isinstance(made, Flaw)
    assert made.headline == said
    assert made.help


def test_the_leads_of_a_winding_are_there_once_in_their_order_and_none_is_free() -> None:
    shape = wound(Features(windings=(("high", ("a", "tap", "b")), ("low", ("c", "tap")))))
    assert [t.name for t in shape.terminals] == ["a", "tap", "b", "c"]
    assert shape.free == ()
    assert numbered(3) == ("1", "2", "3")


def test_pins_of_one_electrode_are_one_end_and_lugs_are_no_leads() -> None:
    shape = Shape((Terminal("1", electrode="cathode"), Terminal("2", Role.LUG), Terminal("3", electrode="cathode"),
                   Terminal("4", Role.SHELL), Terminal("5", Role.SPARE_PIN)))  # fmt: skip
    assert [t.name for t in shape.leads] == ["1", "3", "4"]
    assert [t.name for t in shape.ends] == ["1", "4"]
