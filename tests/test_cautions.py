"""What is said for safety: to which set, on which paper, and that no word of it endangers who follows it."""

import html
import json
import re
from pathlib import Path

import pytest

from netcheck.api import check, compare, lugs, supply
from netcheck.cli import main
from netcheck.core.caution import DISCHARGE, Dangers, cautions
from netcheck.core.report import Report
from netcheck.rules import RULES
from netcheck.sheets import bench
from netcheck.system.files import read, reader
from tests.paper import checked, compared
from tests.test_rules import MANUALS, examples, run

ROOT = Path(__file__).parents[1]
HOT, TELEVISION, SELENIUM = (cautions(Dangers(**{word: True}))[0] for word in ("hot", "television", "selenium"))
COMMON = cautions(Dangers())[0]
SET = """
state {state}
mains 120 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
resistor R1 22k 5 W
capacitor C9 {size} mfd {kind}
net line: P1.1, D1.anode
net B-: P1.2, C1-, R1.2, C9.1
net B+: D1.cathode, C1+, R1.1
net ground: chassis, C9.2
common B-
"""
BY_TRANSFORMER = """
cord P1
transformer T1
winding T1 primary black-a black-b 117 V
tube V1 6SJ7
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net ground: chassis, V1.1, V1.2, V1.7
"""


def _sample(name: str) -> Path:
    return ROOT / "samples" / name


def _of(command: str, name: str) -> tuple[str, ...]:
    source = read(_sample(name))
    match command:
        case "check":
            return check(source, reader(source)).cautions
        case "lugs":
            return lugs(source, reader(source))[0].cautions
        case "supply":
            return supply(source, reader(source))[0].cautions
        case _:
            sheet = bench(source, read=reader(source))[1]
            assert sheet is not None
            return sheet.cautions


def _pair(folder: str, state: str) -> Report:
    first, second = read(_sample(f"{folder}/original.netck")), read(_sample(f"{folder}/{state}.netck"))
    return compare(first, second, reader(first, second))


# A set off the line, a television off the line with selenium, and one behind a transformer.
@pytest.mark.parametrize("command", ["check", "lugs", "supply", "bench"])
@pytest.mark.parametrize(
    ("sample", "said"),
    [
        ("skerry/original.netck", (HOT, SELENIUM, COMMON)),
        ("marram/original.netck", (HOT, TELEVISION, SELENIUM, COMMON)),
        ("harrow-point/original.netck", (COMMON,)),
    ],
)
def test_every_paper_for_hands_has_the_cautions_of_its_set(command: str, sample: str, said: tuple[str, ...]) -> None:
    assert _of(command, sample) == said


@pytest.mark.parametrize("folder", ["skerry", "marram"])
def test_the_sheet_of_findings_has_them_too(folder: str, tmp_path: Path) -> None:
    said = _pair(folder, "faulty").cautions
    assert HOT in said
    sheet = tmp_path / "sheet.svg"
    main(["compare", *(str(_sample(f"{folder}/{state}.netck")) for state in ("original", "faulty")), "-o", str(sheet)])
    words = html.unescape(" ".join(re.findall(r"<text[^>]*>([^<]*)</text>", sheet.read_text(encoding="utf-8"))))
    assert all(line in " ".join(words.split()) for line in said)


def test_work_that_puts_the_line_on_the_chassis_is_hot_though_another_finding_tells_it() -> None:
    joined = compared(BY_TRANSFORMER, 'state rewired\nstart from "original.netck"\nwire P1.2 to chassis black\n')
    assert [d.rule for d in joined.diagnostics if d.rule == "hot-chassis"] == []
    assert any("line" in d.why for d in joined.diagnostics if d.rule == "extra-connection")
    assert joined.cautions == (HOT, COMMON)
    assert checked(BY_TRANSFORMER).cautions == (COMMON,)


def test_of_several_sets_each_caution_says_whose_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    names = [str(_sample(f"{folder}/original.netck")) for folder in ("skerry", "harrow-point")]
    main(["check", *names, "--json"])
    said = json.loads(capsys.readouterr().out)["cautions"]
    assert [line.partition(": ")[2] for line in said[:-1]] == [HOT, SELENIUM]
    assert all("skerry" in line.partition(": ")[0] for line in said[:-1])
    assert said[-1] == COMMON


@pytest.mark.parametrize("line", ['title "Marsh 10 television"', 'title "TV chassis 4"', 'note "a television set"'])
def test_a_television_is_known_by_its_title_or_a_note(line: str) -> None:
    assert TELEVISION in checked(line + BY_TRANSFORMER).cautions


def test_a_television_is_known_by_its_boost() -> None:
    assert TELEVISION in checked(BY_TRANSFORMER + "net boost: V1.8\nsupply boost to chassis 400 V\n").cautions
    assert TELEVISION not in checked('title "Tvedt 4"' + BY_TRANSFORMER).cautions


# JEDEC and Pro Electron picture tubes, what makes their anode's volts; then tubes of radios and oscilloscopes.
@pytest.mark.parametrize("type_", ["10BP4", "21AMP4A", "21FBP22", "AW43-80", "A59-11W", "1B3GT", "1X2A", "EY86"])
def test_a_television_is_known_by_tubes_that_nothing_else_has(type_: str) -> None:
    assert TELEVISION in checked(_with_a(type_)).cautions


@pytest.mark.parametrize("type_", ["1D5GP", "1A4P", "6BQ6GT", "5UP1", "1P5GT", "EZ80", "1B4P", "A4110"])
def test_other_tubes_make_no_television(type_: str) -> None:
    assert TELEVISION not in checked(_with_a(type_)).cautions


def _with_a(type_: str) -> str:
    return f"basing {type_}: 1 plate, 2 heater-1, 3 heater-2\ntube V9 {type_}\n{BY_TRANSFORMER}"


# What a restorer must not be told, or must be, sentence by sentence.
@pytest.mark.parametrize(
    ("text", "words"),
    [
        (HOT, "Run the set, not the instruments, from a 1:1 isolation transformer; instruments stay earthed"),
        (HOT, "A variac or a lamp limiter does not isolate"),
        (HOT, "Until then, connect no antenna or ground"),
        (TELEVISION, "holds thousands of volts for days. Discharge its anode to its own outer coating"),
        (TELEVISION, "wear goggles"),
        (TELEVISION, "Don't run it for long at reduced line voltage"),
        (SELENIUM, "pull the plug, then leave the room and air it"),
        (COMMON, f"Pull the plug, discharge every filter capacitor ({DISCHARGE})"),
        (COMMON, "lamp limiter first, with one hand in your pocket"),
    ],
)
def test_the_sentences_say_it(text: str, words: str) -> None:
    assert words in text


def test_a_way_to_discharge_has_ohms_watts_and_time_enough() -> None:
    ohms, watts, seconds = (float(n) for n in re.findall(r"(\d+) (?:kilohm|W|s)\b", DISCHARGE))
    # 450 V on 100 mfd through 10 kilohm: 30 time constants leave nothing, and the resistor sheds no more than it holds.
    assert seconds >= 10 * ohms * 1000 * 100e-6
    assert 450**2 * 100e-6 / 2 / seconds < watts
    assert "never a screwdriver" in DISCHARGE


def test_never_is_followed_by_how_to_discharge_by_hand(capsys: pytest.CaptureFixture[str]) -> None:
    main(["supply", str(_sample("skerry/original.netck"))])
    printed = " ".join(capsys.readouterr().out.split())
    assert f"never: nothing bleeds it. Discharge it by hand ({DISCHARGE})." in printed
    assert (
        "discharge after switching off (with S1 closed), calculated; measure before touching: discharge from below 60 V"
        in printed
    )


def _do(text: str, rule: str) -> str:
    (found,) = [d for d in checked(text).diagnostics if d.rule == rule]
    return found.do


# C x V x 2 pi f at 120 V 60 Hz: 45.2 mA a mfd, so 0.5 mA is .011 mfd.
@pytest.mark.parametrize(
    ("size", "order"),
    [
        (".05", "fit a Y2 (or a Y1) of 0.01 mfd or less, or leave C9 out"),
        (".01", "fit a Y2 (or a Y1) of the same value, rated for the line voltage"),
    ],
)
def test_a_capacitor_to_metal_is_replaced_by_what_keeps_the_limit(size: str, order: str) -> None:
    text = SET.format(state="rewired", size=size, kind="400 V paper")
    assert _do(text, "line-capacitor-class") == order
    fitted = SET.format(state="rewired", size=".01", kind="275 V Y2")
    assert not [d for d in checked(fitted).diagnostics if d.rule in ("hot-chassis", "line-capacitor-class")]


def test_a_leak_through_a_capacitor_names_what_to_fit() -> None:
    text = SET.format(state="rewired", size=".05", kind="275 V Y2")
    assert _do(text, "hot-chassis").startswith("fit a Y2 of 0.01 mfd or less for C9, or leave C9 out")


@pytest.mark.parametrize(
    ("more", "kept"), [("", "R9 alone passes more than the limit: leave it if the original has it"),
                       ("R10", "R9 and R10 alone pass more than the limit: leave them if the original has them")],
)  # fmt: skip
def test_what_drains_the_chassis_stays(more: str, kept: str) -> None:
    text = SET.format(state="rewired", size=".01", kind="275 V Y2") + "resistor R9 200k\nat C9.1: R9.1\nat C9.2: R9.2\n"
    text += more and f"resistor {more} 220k\nat C9.1: {more}.1\nat C9.2: {more}.2\n"
    # 120 V across 220k are 0.55 mA already.
    assert _do(text, "hot-chassis").startswith(f"fit a Y2 of 0.0047 mfd or less for C9; {kept}, or accept it")


RETURN = """
mains 120 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
resistor R1 22k 5 W
net line: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1
net ground: chassis, P1.2, C1-, R1.2
"""


def test_the_return_of_a_supply_is_not_taken_off_the_chassis() -> None:
    order = _do(RETURN, "hot-chassis")
    assert order.startswith("leave the joint if the original has it, it is the return of the supply")
    assert "polarized cord" in order
    (beside,) = [
        d
        for d in compared(RETURN, 'state rewired\nstart from "original.netck"\n').diagnostics
        if d.rule == "hot-chassis"
    ]
    assert beside.do.startswith("leave the joint, it is the return of the supply")
    line_b = "net line-b: P1.2, T1.black-b\n"
    slip = BY_TRANSFORMER.replace(line_b, "").replace("chassis,", "chassis, P1.2, T1.black-b,")
    assert _do(slip, "hot-chassis").startswith("undo that joint")


APART = RETURN.replace("net ground: chassis, P1.2, C1-, R1.2\n", """common B-
capacitor C9 .001 mfd 275 V Y2
net B-: P1.2, C1-, R1.2, C9.1
net ground: chassis, C9.2
""")  # fmt: skip
JOINED = 'state rewired\nstart from "original.netck"\ncommon chassis\nwire P1.2 to chassis intended "as later sets"\n'


def test_a_joint_that_the_original_does_not_have_is_not_left() -> None:
    """The return of the supply was apart from the chassis, whatever the work calls the common."""
    assert _beside(APART, JOINED) == (
        "undo that joint: in the original the supply returns apart from the chassis; or accept it: "
        '`accept hot-chassis P1 "why"`'
    )


CORD = """
cord P1 added "not on the drawing"
at D1.anode: P1.1
at C1-: P1.2
meant line: P1.1
meant {net}: P1.2
"""


def test_a_drawing_without_its_cord_has_the_joint_where_the_cord_is_meant_to_be() -> None:
    apart, joined = (
        set_.replace("cord P1\n", "").replace("P1.1, ", "").replace("P1.2, ", "") for set_ in (APART, RETURN)
    )
    assert _beside(apart, JOINED + CORD.format(net="B-")).startswith("undo that joint")
    work = 'state rewired\nstart from "original.netck"\n' + CORD.format(net="ground")
    assert _beside(joined, work).startswith("leave the joint if the original has it")


def test_a_resistor_that_the_original_does_not_have_is_not_left_either() -> None:
    set_ = SET.format(state="drawn", size=".001", kind="275 V Y2")
    work = 'state rewired\nstart from "original.netck"\nchange C9 .01 mfd\n'
    new = 'resistor R9 220k added "bleeder"\nat C9.1: R9.1\nat C9.2: R9.2\n'
    assert "R9 alone passes more than the limit: take it out, the original does not have it, or" in _beside(
        set_, work + new
    )


def _beside(original: str, rewired: str) -> str:
    (order,) = [d.do for d in compared(original, rewired).diagnostics if d.rule == "hot-chassis"]
    return order


def test_a_fuse_is_not_given_a_size_that_nobody_worked_out() -> None:
    assert "`fuse F1 ... A slow" in _do("state rewired" + BY_TRANSFORMER, "no-line-fuse")


@pytest.mark.parametrize(("name", "manual"), MANUALS)
def test_no_right_example_has_the_line_on_metal(name: str, manual: str) -> None:
    assert "hot-chassis" not in {d.rule for d in run(examples(manual), "Right").diagnostics}, name


def test_the_rules_of_the_line_rest_on_standards() -> None:
    sources = {rule.name: rule.rule.manual.partition("Source: ")[2] for rule in RULES}
    assert not [name for name, manual in MANUALS if re.search(r"topic|thread|forum", manual.partition("Source: ")[2])]
    for name in ("hot-chassis", "fuse-on-neutral", "branch-before-fuse", "line-capacitor-class", "rating-too-low"):
        assert re.search(r"IEC|NFPA|service manuals", sources[name]), name
