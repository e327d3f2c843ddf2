"""What all pipelines share: a report that names its command and its files, each text parsed once, cautions, a title."""

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from netcheck import api, records, sheets
from netcheck.core.caution import Dangers, cautions
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.engine.mistakes import PAGES
from netcheck.language import parser
from tests.paper import reader

SET = """\
title "two resistors"
state drawn
resistor R1 470k
resistor R2 220k
strip SP1 3 lugs
net A: R1.1, R2.1, SP1.1
net B: R1.2, R2.2, chassis
"""
WORK = 'state {state}\nstart from "drawn.netck"\nchange R1 680k "the next size"\n'
TEXTS = {"drawn.netck": SET} | {f"{state}.netck": WORK.format(state=state) for state in ("found", "rewired")}

# Each pipeline by its command and the states that it is given.
PIPELINES: Mapping[str, tuple[str, Callable[..., Any], tuple[str, ...]]] = {
    "check": ("check", api.check, ("rewired",)),
    "compare": ("compare", api.compare, ("drawn", "rewired")),
    "compare three": ("compare", api.compare_three, ("drawn", "found", "rewired")),
    "lugs": ("lugs", api.lugs, ("rewired",)),
    "supply": ("supply", api.supply, ("rewired",)),
    "bench": ("bench", sheets.bench, ("rewired",)),
    "bench two": ("bench", sheets.bench, ("drawn", "rewired")),
    "buy": ("buy", sheets.buy, ("rewired",)),
    "blank": ("lugs", sheets.blank, ("rewired",)),
    "job": ("job", sheets.job, ("drawn", "rewired")),
    "record": ("compare", records.record, ("drawn", "rewired")),
}
OF_THE_API = ("check", "lugs", "supply", "compare", "compare three")


def run(name: str, texts: Mapping[str, str] = TEXTS) -> tuple[Report, object]:
    """The report of a pipeline and what comes beside it, the report itself where nothing does."""
    _, pipeline, states = PIPELINES[name]
    read = reader(texts)
    sources = [read("", f"{state}.netck") for state in states]
    found = pipeline(*sources, read) if name in OF_THE_API else pipeline(*sources, read=read)
    return found if isinstance(found, tuple) else (found, found)


def broken(state: str) -> dict[str, str]:
    """The texts with a lead in one of them that no part has."""
    return TEXTS | {f"{state}.netck": TEXTS[f"{state}.netck"] + "net C: R7.1\n"}


@pytest.mark.parametrize("name", PIPELINES)
def test_a_report_names_its_command_and_every_file(name: str) -> None:
    command, _, states = PIPELINES[name]
    report, beside = run(name)
    assert (report.command, report.built) == (command, True)
    assert report.files == tuple(f"{state}.netck" for state in states)
    assert report.title.startswith("two resistors")
    assert beside is not None


@pytest.mark.parametrize(("name", "state"), [(name, state) for name, one in PIPELINES.items() for state in one[2]])
def test_whichever_file_cannot_be_built_the_report_says_so_under_the_same_names(name: str, state: str) -> None:
    command, _, states = PIPELINES[name]
    report, beside = run(name, broken(state))
    assert (report.command, report.built) == (command, False)
    assert report.files == tuple(f"{each}.netck" for each in states)
    wrong = [d for d in report.diagnostics if "R7" in d.headline]
    assert {d.labels[0].place.source.name for d in wrong} == {f"{state}.netck"}
    assert beside is report or not beside


@pytest.mark.parametrize("name", PIPELINES)
def test_without_a_title_a_report_is_headed_by_its_last_file(name: str) -> None:
    texts = TEXTS | {"drawn.netck": SET.partition("\n")[2]}
    assert run(name, texts)[0].title.startswith("rewired.netck")


@pytest.mark.parametrize("name", ["compare", "compare three", "buy", "job", "bench two"])
def test_a_file_that_several_states_start_from_is_parsed_once(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    parsed: list[str] = []
    real = parser.parse

    def counted(source: Source) -> object:
        parsed.append(source.name)
        return real(source)

    for module in (api, sheets):
        monkeypatch.setattr(module, "parse", counted)
    run(name)
    assert sorted(parsed) == sorted({*parsed})
    assert "drawn.netck" in parsed


MILD = SET.replace("470k", "470k purplish")


def test_of_files_that_cannot_be_built_only_what_is_grave_is_told_and_a_shared_mistake_once() -> None:
    """A word that means nothing is a LOOK: beside what keeps the list from being built it is noise."""
    assert [d.grade.value for d in run("check", TEXTS | {"drawn.netck": MILD})[0].diagnostics] == ["LOOK"]
    one_wrong = TEXTS | {"drawn.netck": MILD, "rewired.netck": SET.replace("drawn", "rewired") + "net C: R7.1\n"}
    assert [d.grade.value for d in run("compare", one_wrong)[0].diagnostics] == ["STOP"]
    base_wrong = TEXTS | {"drawn.netck": MILD + "net C: R7.1\n"}
    assert len(run("compare", base_wrong)[0].diagnostics) == 1


@pytest.mark.parametrize(
    ("pipeline", "count", "said"),
    [
        (sheets.bench, 3, "name one file, or two: the state before the work, then the one to measure"),
        (sheets.job, 1, "name two files: the state to begin with, and the one to reach"),
        (sheets.job, 3, "name two files: the state to begin with, and the one to reach"),
    ],
)
def test_a_sheet_of_too_many_states_or_too_few_is_refused(pipeline: Callable[..., Any], count: int, said: str) -> None:
    read = reader(TEXTS)
    with pytest.raises(UsageFault) as fault:
        pipeline(*[read("", "drawn.netck")] * count, read=read)
    assert str(fault.value) == said


@pytest.mark.parametrize("name", ["compare", "bench two", "job", "compare three"])
def test_states_in_the_wrong_order_are_refused(name: str) -> None:
    _, pipeline, states = PIPELINES[name]
    read = reader(TEXTS)
    sources = [read("", f"{state}.netck") for state in states]
    for turned in ([sources[-1], *sources[1:-1], sources[0]], [*sources[:-2], sources[-1], sources[-2]]):
        if turned == sources or (name == "compare three" and turned[0] is sources[0]):
            continue
        with pytest.raises(UsageFault):
            pipeline(*turned, read) if name in OF_THE_API else pipeline(*turned, read=read)


def test_nothing_to_order_is_said_of_a_file_that_changes_nothing() -> None:
    with pytest.raises(UsageFault, match="says which parts are new: it changes, adds and replaces none"):
        run("buy", TEXTS | {"rewired.netck": 'state rewired\nstart from "drawn.netck"\n'})


@pytest.mark.parametrize("name", PIPELINES)
def test_the_general_caution_closes_every_report_or_sheet(name: str) -> None:
    report, beside = run(name)
    said = getattr(beside, "cautions", None) or report.cautions
    assert said == cautions(Dangers())


def test_lugs_are_counted_and_what_is_copied_is_said() -> None:
    """By hand: three lugs of the strip, two of them empty; six points that the drawing joins to a net."""
    report, places = run("lugs")
    assert isinstance(places, tuple)
    assert [spot.label for place in places for spot in place.spots if not spot.is_held] == ["2", "3"]
    assert report.closing == (
        "listed: 1 place, 3 lugs, pins and leads, 2 of them empty",
        "copied from drawn.netck, not looked at: 6 joints",
    )
    drawn = api.lugs(Source("drawn.netck", SET), reader(TEXTS))[0]
    assert drawn.closing == report.closing[:1]


def test_a_check_counts_the_nets_that_a_part_is_on_and_no_bare_lugs() -> None:
    """Two resistors side by side are on two nets, whatever lugs are bare."""
    assert run("check")[0].closing[0] == "checked: 3 parts, 2 nets"
    assert run("check", TEXTS | {"drawn.netck": SET + "strip SP2 9 lugs\n"})[0].closing[0] == "checked: 4 parts, 2 nets"


def test_lugs_of_a_file_with_problems_say_where_to_look() -> None:
    listed, _ = api.lugs(Source("drawn.netck", MILD), reader(TEXTS))
    assert listed.diagnostics
    assert listed.closing[-1] == "the file has problems: run netcheck check drawn.netck"


SUPPLY = """\
state drawn
mains 120 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
resistor R1 22k 5 W
net line: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1
net minus: P1.2, C1-, R1.2
"""


def test_a_supply_says_what_it_looked_at_and_how_good_its_figures_are() -> None:
    source = Source("drawn.netck", SUPPLY)
    report, table = api.supply(source, reader({}))
    assert table is not None
    assert report.closing[0] == "looked at: 1 electrolytic and 1 rectifier"
    assert (len(report.closing) == 2) == bool(table.defaults)
    assert report.title == "drawn.netck (drawn)"
    without, bare = api.supply(Source("drawn.netck", SET), reader({}))
    assert bare is not None
    assert without.closing == ("looked at: 0 electrolytics and 0 rectifiers",)


@pytest.mark.parametrize("swap", ["D1", "D1=tube", "=silicon", "D1:silicon", ""])
def test_a_swap_that_says_nothing_is_refused(swap: str) -> None:
    with pytest.raises(UsageFault) as fault:
        api.supply(Source("drawn.netck", SUPPLY), reader({}), swap)
    assert str(fault.value) == (
        f"`{swap}` does not say what to swap; write the rectifier and what goes in: `CR1=silicon`"
    )


def test_a_swap_of_what_is_no_rectifier_is_refused_by_its_name() -> None:
    with pytest.raises(UsageFault, match="R1"):
        api.supply(Source("drawn.netck", SUPPLY), reader({}), "R1=silicon")
    api.supply(Source("drawn.netck", SUPPLY), reader({}), "D1=silicon")


def test_supply_tells_what_check_tells_of_the_supply_and_no_more() -> None:
    """One acceptance is of the supply, one of another rule, which this command has no say in."""
    low = SUPPLY.replace("250 V", "100 V")
    told = {d.rule for d in api.supply(Source("drawn.netck", low), reader({}))[0].diagnostics}
    assert "rating-too-low" in told
    accepted = low + 'accept rating-too-low C1 "in stock"\naccept hot-chassis P1 "as made"\n'
    report, _ = api.supply(Source("drawn.netck", accepted), reader({}))
    assert [(one.diagnostic.rule, one.reason) for one in report.accepted] == [("rating-too-low", "in stock")]
    assert not [d for d in report.diagnostics if d.rule == "unused-accept"]


def test_a_page_that_two_rules_share_has_both_and_a_line_between() -> None:
    pages = {name: api.why(name) for name in api.rule_names()}
    shared = [name for name, page in pages.items() if f"\n{api.AGAINST}\n\n" in page]
    assert shared
    for name in shared:
        alone, _, beside = pages[name].partition(f"\n{api.AGAINST}\n\n")
        assert "Original" not in alone
        assert "Original" in beside


def test_mistakes_in_a_file_have_pages_as_rules_have() -> None:
    assert {*PAGES} <= {*api.rule_names()}
    assert [api.why(name) for name in PAGES] == [*PAGES.values()]


def test_a_name_of_no_rule_is_answered_by_the_nearest_or_by_all() -> None:
    with pytest.raises(UsageFault, match=r"there is no rule hot-chasis; did you mean hot-chassis\?"):
        api.why("hot-chasis")
    with pytest.raises(UsageFault) as fault:
        api.why("zzzz")
    assert str(fault.value) == f"there is no rule zzzz; the rules are: {', '.join(api.rule_names())}"
