"""Files that stand on other files: what is taken from them, and what is refused."""

import pytest

from tests.paper import built, circuit, line_of, nets

PARTS = "resistor R1 470k\nresistor R2 10k\n"
JOINED = PARTS + "net grid: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n"


def told(text: str, **others: str) -> list[str]:
    state, problems = built(text, **others)
    assert state is None
    return [line_of(d) for d in problems]


def test_an_include_brings_declarations() -> None:
    state = circuit('include "parts.netck"\nnet grid: R1.1, R2.1\n', parts=PARTS)
    assert set(state.parts) == {"R1", "R2"}
    assert nets(state) == {frozenset({"grid", "R1.1", "R2.1"})}


def test_an_include_may_include() -> None:
    state = circuit('include "one.netck"\nnet grid: R1.1, R2.1\n', one='include "two.netck"\n', two=PARTS)
    assert set(state.parts) == {"R1", "R2"}


def test_an_include_holds_declarations_only() -> None:
    assert told('include "one.netck"\n', one="resistor R1 470k\nnet grid: R1.1, R1.2\n") == [
        "one.netck:2:1: STOP: an included file has parts and basings only [unusable-file]"
    ]


UNUSABLE = [
    (
        "itself",
        {"state": 'start from "state.netck"\n' + PARTS},
        "state.netck:1:12",
        "`state.netck` leads back to itself",
    ),
    (
        "a loop of two",
        {"state": 'start from "one.netck"\n' + PARTS, "one": 'start from "state.netck"\n'},
        "one.netck:1:12",
        "`state.netck` leads back to itself",
    ),
    (
        "itself included",
        {"state": 'include "state.netck"\n' + PARTS},
        "state.netck:1:9",
        "`state.netck` is included already",
    ),
    (
        "an include loop",
        {"state": 'include "one.netck"\n' + PARTS, "one": 'include "two.netck"\n', "two": 'include "one.netck"\n'},
        "two.netck:1:9",
        "`one.netck` is included already",
    ),
    ("no base", {"state": 'start from "none.netck"\n' + PARTS}, "state.netck:1:12", "there is no file `none.netck`"),
    ("no include", {"state": 'include "none.netck"\n' + PARTS}, "state.netck:1:9", "there is no file `none.netck`"),
    ("a comment only", {"state": "# to be done\n"}, "state.netck:1:1", "`state.netck` has no part and no net in it"),
    (
        "empty base",
        {"state": 'start from "one.netck"\n' + PARTS, "one": "\n \n"},
        "one.netck:1:1",
        "`one.netck` is empty",
    ),
]


@pytest.mark.parametrize(("texts", "place", "headline"), [row[1:] for row in UNUSABLE], ids=[r[0] for r in UNUSABLE])
def test_a_file_that_can_not_be_used_is_told_at_the_line_that_names_it(
    texts: dict[str, str], place: str, headline: str
) -> None:
    text = texts["state"]
    others = {name: other for name, other in texts.items() if name != "state"}
    assert told(text, **others) == [f"{place}: STOP: {headline} [unusable-file]"]


WHAT_TO_DO = {
    "`state.netck` leads back to itself": "take this line away",
    "`one.netck` is empty": "write at least one part and one net",
    "`state.netck` has no part and no net in it": "write at least one",
    "more than 16 files start from one another": "write the state out in full",
    "an included file has parts and basings only":
        "sections, windings and positions too; all else belongs in the file that includes it",
    "a file starts from one other file only": "take one of the two lines away",
}  # fmt: skip


def test_of_each_file_that_can_not_be_used_it_is_said_what_to_do() -> None:
    files = [texts for _, texts, _, _ in UNUSABLE]
    files.append({"state": 'start from "f1.netck"\n', **chain(16)})
    files.append({"state": 'include "one.netck"\n' + PARTS, "one": "net grid: R1.1, R2.1\n"})
    files.append({"state": 'start from "one.netck"\nstart from "two.netck"\n', "one": JOINED, "two": JOINED})
    said: dict[str, str] = {}
    for texts in files:
        _, problems = built(texts["state"], **{name: text for name, text in texts.items() if name != "state"})
        said |= {problem.headline: problem.do for problem in problems}
    assert {headline: said.get(headline) for headline in WHAT_TO_DO} == WHAT_TO_DO


def chain(length: int) -> dict[str, str]:
    """That many files beside the first, each on the next one."""
    files = {f"f{n}": f'start from "f{n + 1}.netck"\n' for n in range(1, length)}
    return {**files, f"f{length}": JOINED}


def test_sixteen_files_may_stand_on_one_another_and_no_more() -> None:
    state = circuit('start from "f1.netck"\n', **chain(15))
    assert len(state.sources) == 16
    assert state.inherited == 5
    assert told('start from "f1.netck"\n' + PARTS, **chain(16)) == [
        "f15.netck:1:12: STOP: more than 16 files start from one another [unusable-file]"
    ]


def test_every_mistake_of_every_layer_is_told_in_one_run() -> None:
    assert told('start from "one.netck"\nlift R9.1\n', one=JOINED + "resistor R3 20 mfd\nnets a: R1.1\n") == [
        "one.netck:5:13: STOP: `20 mfd` is a capacitance, which a resistor does not have [wrong-value]",
        "one.netck:6:1: STOP: no statement begins with `nets` [syntax]",
        "state.netck:2:6: STOP: there is no part `R9` [undeclared-name]",
    ]


def test_a_name_that_a_broken_line_declares_is_not_told_again() -> None:
    assert told("resister R1 470k\nresistor R2 10k\nnet grid: R1.1, R2.1\n") == [
        "state.netck:1:1: STOP: no statement begins with `resister` [syntax]"
    ]


def test_a_part_whose_declaration_is_broken_is_declared_all_the_same() -> None:
    assert told("tube V1 ZZ9\nresistor R1 1k\nnet grid: V1.5, R1.1\nnet ground: V1.cathode, R1.2\n") == [
        "state.netck:1:6: STOP: netcheck does not know the base of a `ZZ9` [broken-declaration]"
    ]
