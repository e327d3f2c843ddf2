"""What a file can't say, alone or of what it starts from: the cases of ``tests/refusals``, each mistake told once."""

import re
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade
from tests.paper import built

CASE = re.compile(r"^## (.+)\n\n```netck\n((?:.*\n)*?)```\n\n```told\n((?:.*\n)*?)```$", re.MULTILINE)
FOLDER = Path(__file__).parent / "refusals"


def _cases() -> list[tuple[str, str, str, str]]:
    found: list[tuple[str, str, str, str]] = []
    for path in sorted(FOLDER.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        base = re.search(r"^```base\n((?:.*\n)*?)```$", text, re.MULTILINE)
        cases = CASE.findall(text)
        assert len(cases) == text.count("\n## "), f"{path.name} has a case that is not of the form of the others"
        found.extend((title, body, base[1] if base else "", told) for title, body, told in cases)
    return found


CASES = _cases()


def _told(problem: Diagnostic) -> str:
    """As in the cases: the place, the grade, the rule and the headline; below it what to do, and other places."""
    first, *others = (str(label.place).removeprefix("state.netck:") for label in problem.labels)
    lines = [f"{first} {problem.grade.value} {problem.rule}: {problem.headline}"]
    lines += [f"    {problem.do}"] * bool(problem.do)
    lines += [f"    {place} {label.text}" for place, label in zip(others, problem.labels[1:], strict=True)]
    return "\n".join((*lines, ""))


@pytest.mark.parametrize(("text", "base", "told"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_what_can_not_be_said_is_told_at_its_word(text: str, base: str, told: str) -> None:
    circuit, problems = built(text, base=base)
    assert "".join(map(_told, problems)) == told
    assert (circuit is None) == (" STOP " in told)


# Two leads with the words of another part: what is said of both, and what to write.
WRONG_ROLES = {
    "electrolytic C51 22 mfd from SP1.1 to SP1.2": (
        "`C51` is polarised, and `{}` does not say which lead", "write `plus POINT minus POINT`"),
    "selenium CR1 from SP1.1 to SP1.2": (
        "`CR1` is polarised, and `{}` does not say which lead", "write `plus POINT minus POINT`"),
    "diode D1 1N4007 from SP1.1 to SP1.2": (
        "`D1` is polarised, and `{}` does not say which lead", "write `anode POINT cathode POINT`"),
    "pot RV1 1 meg from SP1.1 to SP1.2": (
        "`RV1` has 3 leads, not two", "put each where it is soldered with `at POINT: LEAD`"),
    "resistor R1 1k plus SP1.1 minus SP1.2": (
        "`R1` is a resistor and has no {} lead", "write `from POINT to POINT`"),
    "capacitor C1 1 mfd anode SP1.1 cathode SP1.2": (
        "`C1` is a capacitor and has no {} lead", "write `from POINT to POINT`"),
}  # fmt: skip


@pytest.mark.parametrize("line", WRONG_ROLES)
def test_leads_in_words_of_another_part_are_told_with_its_own(line: str) -> None:
    circuit, problems = built(f"strip SP1 3 lugs\n{line}\n")
    said, do = WRONG_ROLES[line]
    roles = [word for word in line.split() if word in ("from", "to", "plus", "minus", "anode", "cathode")]
    assert circuit is None
    assert [(d.headline, d.do, d.labels[0].place.text) for d in problems] == [
        (said.format(role), do, role) for role in roles
    ]


def test_a_wire_that_runs_past_its_own_end_is_told_and_read() -> None:
    circuit, (problem,) = built("strip SP1 3 lugs\nwire SP1.1 to SP1.2 past SP1.2, SP1.3\n")
    assert circuit is not None
    assert (problem.rule, problem.grade) == ("past-own-end", Grade.LOOK)
    assert str(problem.labels[0].place) == "state.netck:2:26"


def test_a_lug_that_a_strip_has_may_be_exposed() -> None:
    assert built("strip SP1 3 lugs exposed 3\n")[1] == ()


@pytest.mark.parametrize(("typed", "meant"), [("cathod", "cathode"), ("scren", "screen"), ("heater1", "heater-1")])
def test_an_electrode_misspelled_is_proposed(typed: str, meant: str) -> None:
    _, (problem,) = built(f"tube V3 50L6GT\nresistor R1 1k\nnet a: R1.1, V3.{typed}\n")
    assert problem.do == f"did you mean `{meant}`?"


@pytest.mark.parametrize("count", [1, 8, 9])
def test_a_net_called_chassis_is_proposed_whole_with_a_name_of_its_own(count: int) -> None:
    parts = "".join(f"resistor R{n} 1k\n" for n in range(1, count + 1))
    points = [f"R{n}.1" for n in range(1, count + 1)]
    _, (problem,) = built(f"{parts}net chassis: {', '.join(points)}\n")
    shown = points if count <= 8 else ["R1.1", "R2.1", "..."]
    assert problem.do.endswith(f"`net ground: {', '.join(['chassis', *shown])}`")


def test_a_jumper_a_tap_and_a_reading_may_be_nothing_or_less() -> None:
    found, problems = built(
        "resistor R1 0 ohm 1/4 W\ntransformer T1\nwinding T1 high red-a red-yellow red-b 300-0-300 V\n"
        "net a: R1.1, T1.red-a\nnet b: R1.2, T1.red-b\nnet ground: chassis, T1.red-yellow\n"
        "volts a -20 V\nvolts b 0 V\n"
    )
    assert found is not None
    assert problems == ()


@pytest.mark.parametrize(
    "line",
    ["resistor R1 0 ohm 0%", "capacitor C1 1 mfd 100%", "electrolytic C1 8 mfd 150% 450 V", "cord P1 3 wires 0 AWG"],
)
def test_a_size_that_parts_were_made_in_is_read(line: str) -> None:
    """Electrolytics of -10 % to +100 % and more were usual; wire of 0 AWG is 8.25 mm thick."""
    assert built(f"{line}\n")[1] == ()


COLOURS = (
    "black brown red orange yellow green blue violet purple gray grey slate white pink tan maroon natural clear bare"
)


@pytest.mark.parametrize("colour", [*COLOURS.split(), "green-yellow", "black/red", "Red"])
def test_a_lead_has_a_colour_of_the_trade(colour: str) -> None:
    """Those of the colour code, the insulation's own, and the ones that transformer makers used beside them."""
    line = f"fit R1 from SP1.1 {colour} to SP1.2 {colour}"
    assert built(f"strip SP1 3 lugs\nresistor R1 1k\n{line}\n")[1] == ()


@pytest.mark.parametrize("word", ["mauve", "red-", "red-mauve"])
def test_another_word_behind_a_lead_is_no_colour(word: str) -> None:
    _, (problem,) = built(f"strip SP1 3 lugs\nresistor R1 1k\nfit R1 from SP1.1 {word} to SP1.2\n")
    assert (problem.headline, problem.do) == (
        f"`{word}` is no colour of a lead", "leave it out, or put it in a comment"
    )  # fmt: skip


# What says of what a part is made goes with the old part; what says how it is mounted, or set, stays.
MADE_OF = {
    "capacitor C1 .1 mfd": "paper film mica ceramic oil X1 X2 Y1 Y2", "fuse C1 1 A": "slow fast",
    "resistor C1 1k": "carbon wirewound flameproof",
}  # fmt: skip


@pytest.mark.parametrize("line", MADE_OF)
def test_a_changed_part_is_not_made_of_what_the_old_one_was(line: str) -> None:
    kind, _, size = line.split(" ", 2)
    for word in MADE_OF[line].split():
        base = f"{line} {word}\nnet a: C1.1\nnet b: C1.2\n"
        state, problems = built(f'start from "base.netck"\nchange C1 {size}\n', base=base)
        assert state is not None, problems
        assert (kind, state.parts["C1"].features.words) == (kind, ())


def test_a_changed_part_is_mounted_as_the_old_one_was() -> None:
    base = "switch S1 grounded exposed\nnet a: S1.1\nnet b: S1.2\n"
    state, _ = built('start from "base.netck"\nchange S1 insulated\n', base=base)
    assert state is not None
    assert state.parts["S1"].features.words == ("exposed", "insulated")


@pytest.mark.parametrize(
    ("line", "do"),
    [
        ("lamp LM1 47", "write `#47` for the lamp of that number, or add the unit"),
        ("lamp LM1 6.3", "write `6.3 V`"),
    ],
)
def test_a_bare_number_that_a_type_is_called_by(line: str, do: str) -> None:
    """A #47 taken for a lamp of 47 V would hide that it burns out."""
    _, (problem,) = built(line)
    assert problem.do == do
