"""What a file can't say of what it starts from, each mistake told once, at its own word."""

import pytest

from netcheck.core.diagnostic import Grade
from tests.paper import built

BASE = """
resistor R1 470k
resistor R2 10k
capacitor C1 .02 mfd
electrolytic C5 20 mfd 450 V
strip SP1 5 lugs foot 3
can C30 insulated
section C30A 20 mfd 450 V half-moon
tube V1 6J5
net grid: R1.1, R2.1, C1.1, V1.grid
net ground: chassis, R1.2, R2.2, C30.can
wire SP1.1 to C1.2 red
at SP1.1: C30.A
"""

# A line with the place of its message between arrows, and the headline.
ON_A_BASE = [
    ("remove >R9<", "nothing to remove: the earlier file has no part `R9`"),
    ("change >R9< 1k", "nothing to change: the earlier file has no part `R9`"),
    ("resistor R9 1k\nremove >R9<", "`R9` comes from this very file"),
    ("resistor R9 1k\nchange >R9< 2k", "`R9` comes from this very file"),
    ('resistor R9 1k >added< "x" inserted "y"', "`R9` is inserted or added, not both"),
    ("remove R1\nremove >R1<", "`R1` is removed already"),
    ("remove R1\nchange >R1< 1k", "`R1` is removed already"),
    ("change R1 1k\nchange >R1< 2k", "`R1` is changed twice"),
    ("lift R1.1\nlift >R1.1<", "`R1.1` is lifted twice"),
    ("lift R1.1\nmove >R1.1< to SP1.1", "`R1.1` is lifted twice"),
    ("move V1.5 to SP1.1\nlift >V1.grid<", "`V1.grid` is lifted twice"),
    ("lift >SP1.5<", "`SP1.5` is on nothing here, so it can't be lifted"),
    ("move >C5+< to SP1.1", "`C5+` is on nothing here, so it can't be lifted"),
    ("strip SP2 3 lugs\nlift >SP2.1<", "`SP2.1` comes with this file, so nothing was on it to take away"),
    ("resistor R9 1k\nmove >R9.1< to SP1.1", "`R9.1` comes with this file, so nothing was on it to take away"),
    ("strip SP2 3 lugs\ncut SP1.1 to >SP2.1<", "`SP2.1` comes with this file, so nothing was on it to take away"),
    (">cut SP1.1 to SP1.2<", "no joint from `SP1.1` to `SP1.2` comes from the earlier file"),
    (">cut C30.A to SP1.4<", "no joint from `C30.A` to `SP1.4` comes from the earlier file"),
    ("wire SP1.4 to SP1.5 red\n>cut SP1.4 to SP1.5<", "no joint from `SP1.4` to `SP1.5` comes from the earlier file"),
    ("resistor >R1< 1k", "there is a part `R1` already"),
    ("resistor >r1< 1k", "`r1` and `R1` differ in capitals only"),
    ("remove R1\nat SP1.2: >R1.2<", "`R1` is taken out, so nothing can be connected to `R1.2`"),
    ("remove R1\nwire >R1.1< to SP1.2", "`R1` is taken out, so nothing can be connected to `R1.1`"),
    ("remove C30A\nat SP1.2: >C30A+<", "`C30A` is out, but its lug is still there"),
    ("fit R1 from >SP1.2< to >SP1.4<", "`R1.1` is still connected as in the earlier file"),
    ("remove >SP1<", "`SP1` can't be removed: something is soldered to `SP1.1`"),
    ("at >SP2.1<: C1.1", "there is no part `SP2`"),
    ("spare >R9.1<", "there is no part `R9`"),
    ("covers R1, >R99<", "there is no net or part `R99`"),
    ("common >B-<", "there is no part `B`"),
    ("apart grid, >grad<", "there is no net or part `grad`"),
    ("volts >V1.screen< 100 V", "`V1` is a 6J5 and has no screen"),
    ("volts V1.plate >65 mA<", "a value in volts belongs here, not `65 mA`"),
    ("state rewired\n>state drawn<", "a file has one `state` line"),
    ("transformer T1\nwinding T1 a red blue\nwinding T1 b green >red<", "two leads of `T1` are called `red`"),
    ("transformer T1\nwinding T1 a tap red >tap<", "two leads of `T1` are called `tap`"),
    ("lamp LM1 >47<", "`47` has no unit"),
    ("lamp LM1 >-6.3 V<", "`-6.3 V` is less than nothing"),
    ("lamp LM1 >-300-0-300 V<", "`-300-0-300 V` is less than nothing"),
    ("resistor R9 >1e+06< ohm", "`1e+06 ohm` has a power of ten"),
    ("resistor R9 >1e6<", "`1e6` has a power of ten"),
    ("resistor R9 470 >ohsm<", "unknown unit `ohsm`"),
    ("resistor R9 470k >100%<", "`100%` is no tolerance: it could be nothing"),
    ("change R1 >450%<", "`450%` is no tolerance: it could be nothing"),
    ("selenium CR1 >-30 V< bridge", "`-30 V` is less than nothing"),
    ("mains >-117 V< 60 Hz", "`-117 V` is less than nothing"),
    ("change C5 >-450 V<", "`-450 V` is less than nothing"),
    ("transformer T9\nwinding T9 primary a b >-117 V<", "`-117 V` is less than nothing"),
    ("transformer T9\nwinding T9 high a b >0 V<", "`0 V` is nothing at all"),
    ("fuse F1 >0 A<", "`0 A` is nothing at all"),
    ("change C5 >0 mfd<", "`0 mfd` is nothing at all"),
    ('start from "base.netck"', "a file starts from one other file only"),
]  # fmt: skip


@pytest.mark.parametrize(("lines", "headline"), ON_A_BASE, ids=[headline for _, headline in ON_A_BASE])
def test_a_change_that_can_not_be_made_is_told_at_its_word(lines: str, headline: str) -> None:
    text = f'start from "base.netck"\n{lines}\n'
    circuit, problems = built(text.replace(">", "").replace("<", ""), base=BASE)
    assert circuit is None
    assert {d.grade for d in problems} == {Grade.STOP}
    assert problems[0].headline == headline
    found = [(d.labels[0].place.line, d.labels[0].place.column, d.labels[0].place.text) for d in problems]
    if ">" in lines:
        assert found == _marked(text)


def _marked(text: str) -> list[tuple[int, int, str]]:
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        rest, column = line, 1
        while ">" in rest:
            before, _, rest = rest.partition(">")
            word, _, rest = rest.partition("<")
            found.append((number, column + len(before), word))
            column += len(before) + len(word)
    return found


ALONE = [
    ("resistor R1 1k\nlift >R1.1<", "`R1.1` is on nothing here, so it can't be lifted"),
    ("resistor R1 1k\nmove >R1.1< to chassis", "`R1.1` is on nothing here, so it can't be lifted"),
    ("strip SP1 3 lugs\n>cut SP1.1 to SP1.2<", "no joint from `SP1.1` to `SP1.2` comes from the earlier file"),
    ("can >C30<\nsection C30A 20 mfd", "a can is `grounded` or `insulated`; the line says neither"),
    ("strip >SP1< 3 lugs exposed 4", "the strip has no lug `4` that could be exposed"),
    ("resistor R2 1k\nremove >R1<", "nothing to remove: the earlier file has no part `R1`"),
    ("lug >G1<", "a lug is `grounded` or `insulated`; the line says neither"),
    ("can >C30<", "a can is `grounded` or `insulated`; the line says neither"),
    ("section >C30A< 20 mfd", "`C30A` would be a section of `C30`, and there is no such can"),
    ("resistor R1 1k\nwinding >R1< primary a b", "`R1` is a resistor, not a transformer"),
    ("choke L1 10 H\nposition >L1< up: 1 2", "`L1` is a choke, not a switch"),
    ("resistor R2 1k\nresistor >chassis< 1k", "`chassis` can't be a part's name"),
    ("resistor R1 1k\nnet >chassis<: R1.1", "`chassis` can't name a net"),
    ("battery B 22 V\nnet >B-<: B+", "`B-` is a net here and also a lead of `B`"),
    ("diode D1 1000 V\nat >D1+<: chassis", "`D1+` can be read two ways"),
    ("pot R1 1 meg\nat >R1.left<: chassis", "`R1.left` can be read two ways"),
    ("resistor R1 1k\nresistor R2 1k\nnet a: R1.1, >R3.1<", "there is no part `R3`"),
    ("lug >G1< grounded insulated", "it can't be both `grounded` and `insulated`"),
    ("basing X99: 1 heater-1, >2< grid, 2 plate", "pin 2 is given twice"),
    ("basing X99: 1 grid\nbasing >X99<: 1 plate", "there is a basing `X99` already"),
    (">mains 117 V 20 mfd<", "the mains have volts and hertz, not `20 mfd`"),
    ("can C30 >20< insulated", "`20` has no unit"),
    ("tube >V9< XYZ\nresistor R1 1k\nnet a: R1.1, V9.1, V9.plate", "netcheck does not know the base of a `XYZ`"),
    (
        "can >C30< insulated\nsection C30A 20 mfd minus can\nsection C30B 10 mfd",
        "a minus lead can't be called `can`",
    ),
    (
        "can >C30< insulated\nsection C30A 20 mfd half-moon minus B\nsection C30B 10 mfd",
        "a minus lead can't be called `B`",
    ),
    (
        "can >C30< insulated\nsection C30A 20 mfd half-moon minus half-moon",
        "a minus lead can't be called `half-moon`",
    ),
]


@pytest.mark.parametrize(("lines", "headline"), ALONE, ids=[headline for _, headline in ALONE])
def test_a_mistake_in_one_file_is_told_at_its_word(lines: str, headline: str) -> None:
    circuit, problems = built(lines.replace(">", "").replace("<", ""))
    assert circuit is None
    assert [d.headline for d in problems] == [headline]
    found = [(d.labels[0].place.line, d.labels[0].place.column, d.labels[0].place.text) for d in problems]
    assert found == _marked(lines)


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
    text = "strip SP1 3 lugs\nwire SP1.1 to SP1.2 past >SP1.2<, SP1.3\n"
    circuit, (problem,) = built(text.replace(">", "").replace("<", ""))
    assert circuit is not None
    assert (problem.rule, problem.grade) == ("past-own-end", Grade.LOOK)
    place = problem.labels[0].place
    assert [(place.line, place.column, place.text)] == _marked(text)


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
