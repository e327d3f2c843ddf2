"""Inputs that once took unbounded time: what a run calls grows no faster than its input, or stops at its budget.

Calls are counted, not seconds, so that the outcome is the same on every machine.
"""

import math
import sys
import tracemalloc
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from netcheck.api import lugs
from netcheck.cli import main
from netcheck.compare.faults import search, strands
from netcheck.compare.pair import compared
from netcheck.core.budget import Budget
from netcheck.core.source import Source
from netcheck.model.graph import CircuitGraph
from netcheck.model.messages import LOOKED_AT, UNSOUGHT, Near
from netcheck.reports.lug_list import lug_document
from netcheck.reports.renderer import Style
from netcheck.system.files import reader
from tests.bounds import CASES
from tests.bounds.case import Case
from tests.paper import ORIGINAL, REWIRED, circuit

STEEPEST = 1.35
"""The exponent of calls from a modest size to twice that; 2 is what a loop in a loop gives."""


def calls(job: Callable[[], int]) -> tuple[int, int]:
    """How many functions a job calls, those written in C too, and what it returns."""
    count = 0

    def seen(_: FrameType, event: str, __: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(seen)
    try:
        status = job()
    finally:
        sys.setprofile(before)
    return count, status


@pytest.mark.parametrize("case", [case for case in CASES if case.modest], ids=lambda case: case.name)
def test_work_grows_with_the_input(
    case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    main(case.write(tmp_path, max(case.modest // 4, 1)))  # what is read once for all runs is read before it counts
    counted = []
    for size in (case.modest, 2 * case.modest):
        count, status = calls(partial(main, case.write(tmp_path, size)))
        assert (status == 2) is case.refused
        counted.append(count)
    told = capsys.readouterr()
    assert told.out or told.err
    assert math.log2(counted[1] / counted[0]) < STEEPEST, counted


@pytest.mark.parametrize("case", [case for case in CASES if not case.modest], ids=lambda case: case.name)
def test_what_is_not_counted_is_measured_as_it_is_meant(
    case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert (main(case.write(tmp_path, min(case.size, 10))) == 2) is case.refused
    told = capsys.readouterr()
    assert told.out or told.err


def lines(job: Callable[[], object], module: str) -> int:
    """How many lines of one module a job goes through, a list made in one line counted by its members."""
    count = 0

    def seen(frame: FrameType, event: str, _: object) -> Any:  # noqa: ANN401 - itself
        nonlocal count
        count += event == "line"
        return seen if frame.f_code.co_filename.endswith(module) else None

    before = sys.gettrace()
    sys.settrace(seen)
    try:
        job()
    finally:
        sys.settrace(before)
    return count


@pytest.mark.parametrize(
    ("name", "module"), [("job of many removals", "joints.py"), ("job of many changed values", "acts.py")]
)
def test_an_act_is_done_without_a_look_at_all_joints_for_each(
    name: str, module: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Which no count of calls tells."""
    monkeypatch.chdir(tmp_path)
    case = next(case for case in CASES if case.name == name)
    counted = [lines(partial(main, case.write(tmp_path, size)), module) for size in (50, 100)]
    assert "Done on paper, these steps give what the second file says" in capsys.readouterr().out
    assert math.log2(counted[1] / counted[0]) < STEEPEST, counted


def test_a_document_takes_little_more_than_its_own_size_to_write() -> None:
    """Not each of its words apart, nor each lug's view of the same net."""
    case = next(case for case in CASES if case.name == "lugs of one net, JSON")
    source = Source("list.netck", case.files(400)["list.netck"])
    report, listing = lugs(source, reader(source))
    style = Style(colour=False, unicode=True, width=100)
    size = len(lug_document(report, listing, style))
    tracemalloc.start()
    lug_document(report, listing, style)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 4 * size


def test_a_budget_is_spent_once_and_for_all() -> None:
    budget = Budget(3)
    assert [budget.spend(2), budget.is_spent, budget.spend(2), budget.is_spent, budget.spend(0)] == [
        True, False, True, True, False
    ]  # fmt: skip


def test_near_names_are_looked_for_until_the_names_are_spent() -> None:
    """Each look takes a step for every known name; what is asked for after the last step is said not to be sought."""
    near = Near()
    names = [f"plate-{n}" for n in range(LOOKED_AT // 2)]
    assert near("palte", ["plate", "grid"]) == "did you mean `plate`?"
    assert near("R9", names) == near("R9", names) == ""
    assert near("palte", ["plate", "grid"]) == UNSOUGHT


@pytest.mark.parametrize(("nets", "cuts"), [(12, 66), (40, 118)])
def test_strands_are_looked_at_all_or_as_they_come(nets: int, cuts: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a few strands on one net each is cut off to find the loosest, 11 + 10 + ... + 1; of many, at most so long."""
    counted, calls = [0], [0]
    parting, cut = strands._parting, CircuitGraph.cheapest_cut

    def counting(*given: Any) -> Iterator[Any]:  # noqa: ANN401 - what the functions behind take
        before = calls[0]
        found = list(parting(*given))
        counted.append(calls[0] - before)
        return iter(found)

    def counted_cut(*given: Any) -> Any:  # noqa: ANN401
        calls[0] += 1
        return cut(*given)

    monkeypatch.setattr(strands, "_parting", counting)
    monkeypatch.setattr(CircuitGraph, "cheapest_cut", counted_cut)
    _compare("nets bridged in a chain", nets)
    assert max(counted) == cuts


def test_accounts_are_drawn_up_for_few_slips_of_many_faults(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sixteen slips of a few faults, 200 faults in all of many."""
    promising, drawn = search._promising, []

    def counting(table: Any, now: Any, nets: Any, in_vain: Any) -> tuple[Any, Any]:  # noqa: ANN401
        found, vain = promising(table, now, nets, in_vain)
        drawn.append((len(now.faults), len(found)))
        return found, vain

    monkeypatch.setattr(search, "_promising", counting)
    _compare("parts in each other's places", 3)
    _compare("parts in each other's places", 10)
    assert [pair for pair in drawn if pair[0] in (6, 20)][:2] == [(6, 16), (20, 10)]


def _compare(name: str, size: int) -> None:
    texts = next(case for case in CASES if case.name == name).files(size)
    compared(circuit(texts[ORIGINAL]), circuit(texts[REWIRED], original=texts[ORIGINAL]))
