"""Arbitrary input: what was once wrong stays right, a few runs by lot are right, and what is wrong would be seen."""

import json
import re
from pathlib import Path
from random import Random
from typing import NoReturn

import pytest

from netcheck.language.grammar import first_words
from netcheck.reports import FORMATS, PICTURES, SHEETS
from tests.fuzz.commands import drawn
from tests.fuzz.fresh import fresh
from tests.fuzz.judge import BY_EYE, READERS, wrongs
from tests.fuzz.known import NAMES, known
from tests.fuzz.mates import Mates
from tests.fuzz.run import Outcome, Run
from tests.fuzz.shorter import shortened
from tests.fuzz.slips import slipped
from tests.fuzz.worker import carried_out
from tests.paper import built

CORPUS = sorted((Path(__file__).parent / "fuzz/corpus").glob("*.json"))
FINE = Outcome(0, "netcheck check: a\n\n0 STOP\n")
CHECK = Run(("check", "a.netck"), {"a.netck": "resistor R1 1k\n"})


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("path", CORPUS, ids=lambda path: path.stem)
def test_what_was_once_wrong(path: Path, tmp_path: Path) -> None:
    run = Run.of(path.read_text(encoding="ascii"))
    outcome = carried_out(run, tmp_path)
    assert wrongs(run, outcome, carried_out(run, tmp_path)) == ()


def test_every_kind_of_file_is_read_back_or_left_out_by_name() -> None:
    kinds = {ending.rpartition(".")[2] for ending in (*FORMATS, *SHEETS, *PICTURES)} - {"png"}  # none is drawn there
    assert kinds == READERS.keys() | BY_EYE, "tests/fuzz/judge.py has a reader for each"


def test_runs_by_lot_in_two_processes() -> None:
    dice = Random(7)  # noqa: S311 - repeatable
    with Mates() as mates:
        for _ in range(12):
            run = drawn(dice)
            assert wrongs(run, *mates.both(run)) == (), run.as_json()


def test_most_of_what_the_grammar_gives_is_built() -> None:
    dice = Random(1)  # noqa: S311 - repeatable
    drawn_sets = [fresh(dice) for _ in range(20)]
    whole = [files for files in drawn_sets if built(files[NAMES[0]])[0] is not None]
    assert len(whole) >= 15
    words = {line.split(" ")[0] for files in whole for line in "\n".join(files.values()).splitlines()}
    assert len(words & set(first_words())) >= 25  # of all first words, in a few sets
    assert any(re.search(r" (\.0+1|10000+|½)", files[NAMES[0]]) for files in whole)


def test_a_set_that_falls_over_while_it_is_drawn_is_kept_to_be_run(monkeypatch: pytest.MonkeyPatch) -> None:
    def falls(text: str, **others: str) -> NoReturn:
        raise KeyError(text, others)

    monkeypatch.setattr(
        "tests.fuzz.fresh.built", lambda text, **others: falls(text, **others) if others else (None, ())
    )
    dice = Random(1)  # noqa: S311 - repeatable
    assert any(len(fresh(dice)) > 1 for _ in range(10))


def test_a_slip_changes_a_good_netlist() -> None:
    dice = Random(1)  # noqa: S311 - repeatable
    texts = [files[NAMES[0]] for files in known()]
    assert len(texts) > 400
    changed = [slipped(text, ("word",), dice) != text for text in texts[:100]]
    assert sum(changed) > 80


@pytest.mark.parametrize(
    ("run", "outcome", "told"),
    [
        (CHECK, Outcome(-1, fault="Traceback\nValueError: x"), "traceback"),
        (CHECK, Outcome(-1, fault="Traceback\nTooLongError"), "over its seconds"),
        (CHECK, Outcome(0, FINE.out, seconds=5.1), "over its seconds"),
        (CHECK, Outcome(1, FINE.out), "status 1, not 0"),
        (CHECK, Outcome(0, "1  STOP  R1 hangs free\n"), "status 0, not 1 or 2"),
        (CHECK, Outcome(0, "", "netcheck: there is no file\n"), "status 0, not 2"),
        (CHECK, Outcome(0, "", ""), "status 0, not "),
        (CHECK, Outcome(0, "a \x1b[2J"), "signs that act: U+001B"),
        (CHECK, Outcome(0, "a \u202e"), "signs that act: U+202E"),
        (Run(("check", "a", "-o", "b.xml"), {}), Outcome(0, "b.xml written\n", written="<a>"), "unreadable xml: no el"),
        (Run(("check", "a", "-o", "b.csv"), {}), Outcome(0, "b.csv written\n", written="=1,2\n"), "unreadable csv: =1"),
        (Run(("check", "a", "-o", "b.txt"), {}), Outcome(0, "b.txt written: 1 STOP\n"), "status 0, not 1 or 2"),
        (Run(("check", "a", "--strict"), {}), Outcome(0, "1  LOOK  b\n"), "status 0, not 1"),
        (Run(("check", "a", "--lines"), {}), Outcome(0, "a:1:1: STOP: b [c]\n"), "status 0, not 1 or 2"),
    ],
)
def test_what_is_wrong_is_seen(run: Run, outcome: Outcome, told: str) -> None:
    found = wrongs(run, outcome, outcome)
    assert len(found) == 1
    assert found[0].startswith(told)


def _document(*grades: str, built: bool = True, stops: int | None = None) -> str:
    counts = {grade: grades.count(grade) for grade in ("STOP", "LOOK", "NOTE")}
    counts["STOP"] = counts["STOP"] if stops is None else stops
    return json.dumps({"built": built, "counts": counts, "findings": [{"grade": grade} for grade in grades]})


@pytest.mark.parametrize(
    ("status", "text", "right"),
    [
        (2, _document("STOP", built=False), True),
        (1, _document("STOP", built=False), False),
        (1, _document("STOP"), True),
        (2, _document("STOP"), False),
        (0, _document("LOOK", "NOTE"), True),
        (1, _document("LOOK", "NOTE"), False),
        (0, _document("LOOK", stops=1), False),
    ],
)
def test_the_status_is_reckoned_from_the_document(status: int, text: str, *, right: bool) -> None:
    run = Run(("check", "a.netck", "--json"), {})
    assert (wrongs(run, Outcome(status, text), Outcome(status, text)) == ()) is right


def test_two_outcomes_that_differ_are_seen() -> None:
    assert wrongs(CHECK, FINE, Outcome(0, FINE.out + "1 NOTE")) == ("two runs differ",)


def test_a_fault_of_the_second_process_is_seen() -> None:
    assert wrongs(CHECK, FINE, Outcome(-1, fault="Traceback\nValueError: x")) == ("traceback",)


def test_a_process_that_dies_is_begun_anew() -> None:
    with Mates() as mates:
        for process in mates._processes:
            process.kill()
        dead = mates.both(CHECK)
        assert all(outcome.fault for outcome in dead)
        assert wrongs(CHECK, *mates.both(CHECK)) == ()


def test_an_input_is_shortened_to_what_matters(monkeypatch: pytest.MonkeyPatch) -> None:
    """The fault here is a line, so it alone is left."""

    def told(run: Run, *_: Outcome) -> tuple[str, ...]:
        return ("wrong",) if "resistor R7" in run.files["a.netck"] else ()

    monkeypatch.setattr("tests.fuzz.shorter.wrongs", told)
    run = Run(("check", "a.netck"), {"a.netck": "".join(f"resistor R{n} 1k\n" for n in range(1, 9))})
    with Mates() as mates:
        assert shortened(run, mates).files["a.netck"] == "resistor R7 1k"
