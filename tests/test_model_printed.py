"""What stands on parts and sheets, and is typed as it stands: codes, colours, suffixes, a convention, a whole strip."""

import re
from decimal import Decimal

import pytest

from netcheck.core.quantity import Dimension
from tests.paper import built, circuit, nets

PARTS = (
    "strip SP1 4 lugs\nresistor R7 1k\nelectrolytic C51 8 mfd 450 V\nelectrolytic C53 8 mfd 450 V\nlug G1 grounded\n"
)

# IEC 60062: two figures, the zeros, a letter for the tolerance; 473J is 47 nF 5 %, 104K 100 nF 10 %.
CODES = {
    "473J": ("4.7E-8", "5"), "103K": ("1E-8", "10"), "104Z": ("1E-7", ""), "222G": ("2.2E-9", "2"),
    "4n7": ("4.7E-9", ""),
}  # fmt: skip


@pytest.mark.parametrize(("code", "said"), CODES.items())
def test_a_printed_code_is_read(code: str, said: tuple[str, str]) -> None:
    features = circuit(f"capacitor C1 {code} 400 V\nresistor R1 1k from C1.1 to C1.2\n").parts["C1"].features
    assert [q.amount for q in features.all_of(Dimension.CAPACITANCE)] == [Decimal(said[0])]
    assert [q.amount for q in features.all_of(Dimension.TOLERANCE)] == ([Decimal(said[1])] if said[1] else [])
    assert [q.amount for q in features.all_of(Dimension.VOLTAGE)] == [Decimal(400)]


DOUBTFUL = {
    "capacitor C1 103": "`103` can be a printed code for .01 mfd, or 103 mmfd",
    "capacitor C1 104M": "`104M` can mean 104 thousand ohms (on old drawings) or 104 million ohms",
    "capacitor C1 .05": "`.05` can mean .05 mfd or .05 mmfd",
    "all capacitors in mfd\ncapacitor C1 250":
        "`250` would be 250 mfd by the convention of this sheet, which no such part has",
}  # fmt: skip


@pytest.mark.parametrize(("line", "headline"), DOUBTFUL.items())
def test_a_number_that_can_be_two_things_is_refused_with_spellings_that_work(line: str, headline: str) -> None:
    _, (problem, *_) = built(f"{line}\n")
    assert problem.headline.replace("0.0", ".0") == headline
    proposals = [text for text in re.findall(r"`([^`]+)`", problem.do) if "f" in text]
    assert proposals
    for text in proposals:
        first = line.rpartition("\n")[2].rpartition(" ")[0]
        assert built(f"{first} {text}\n")[0] is not None, text


def test_the_sheet_says_its_units_once() -> None:
    state = circuit(
        "all capacitors in mfd\nall resistors in ohms\n"
        "capacitor C1 .05 400 V\nelectrolytic C2 20 450 V\nresistor R1 470\n"
        "net a: C1.1, C2+, R1.1\nnet b: C1.2, C2-, R1.2\n"
    )
    values = [state.parts[name].features.quantities[0].amount for name in ("C1", "C2", "R1")]
    assert values == [Decimal("5E-8"), Decimal("20E-6"), Decimal(470)]


def test_a_convention_holds_for_its_own_file_only() -> None:
    base = "all capacitors in mfd\ncapacitor C1 .05\nnet a: C1.1\nnet b: C1.2\n"
    assert built('start from "base.netck"\nchange C1 .1\n', base=base)[0] is None
    assert built('start from "base.netck"\nall capacitors in mfd\nchange C1 .1\n', base=base)[0] is not None


@pytest.mark.parametrize(
    ("line", "headline"),
    [
        ("all condensers in ohms", "`ohms` is no unit of condensers"),
        ("all tubes in volts", "`tubes` is no sort of part"),
        ("all capacitors in mfdd", "`mfdd` is no unit of capacitors"),
    ],
)
def test_a_convention_that_says_nothing_is_refused(line: str, headline: str) -> None:
    state, problems = built(f"{line}\nresistor R1 1k\n")
    assert state is None
    assert [d.headline for d in problems] == [headline]
    assert all(built(f"{text}\nresistor R1 1k\n")[0] is not None for text in re.findall("`([^`]+)`", problems[0].do))


def test_a_lamp_has_its_number_and_what_follows_is_a_comment() -> None:
    state = circuit(
        "lamp PL1 #47  # by the dial\nlamp PL2 6.3 V .15 A # 47\nnet a: PL1.1, PL2.1\nnet b: PL1.2, PL2.2\n"
    )
    assert state.parts["PL1"].features.type == "47"
    assert state.parts["PL2"].features.type == ""
    volts = [state.parts[name].features.first(Dimension.VOLTAGE) for name in ("PL1", "PL2")]
    assert [q.amount for q in volts if q is not None] == [Decimal("6.3"), Decimal("6.3")]


@pytest.mark.parametrize("line", ["tube V3 6V6 GT", "tube V3 6V6GT", "tube V3 5R4 GY", "tube V3 6K7 G"])
def test_a_suffix_may_stand_apart(line: str) -> None:
    state = circuit(f"{line}\nspare V3.1\n")
    assert state.parts["V3"].features.type == line.removeprefix("tube V3 ").replace(" ", "")


def test_half_moon_may_be_two_words() -> None:
    state = circuit(
        "can C30 insulated\nsection C30A 20 mfd 450 V half moon\nresistor R1 1k from C30.half-moon to C30-\n"
    )
    assert state.parts["C30"].features.marks == {"A": "half-moon"}


def test_a_whole_strip_in_one_line() -> None:
    lug_by_lug = circuit(f"{PARTS}at SP1.1: C51-, R7.2\nat SP1.3: C53+\nat SP1.4: R7.1\n")
    at_once = circuit(f"{PARTS}at SP1: 1 C51- R7.2, 3 C53+, 4 R7.1, 2\n")
    assert nets(at_once) == nets(lug_by_lug)


def test_a_lug_is_no_strip() -> None:
    state, problems = built(f"{PARTS}at G1: C51- R7.2\n")
    assert state is None
    assert [d.do for d in problems] == ["write `at G1: C51-, R7.2`"]


def test_the_leads_of_a_part_have_colours() -> None:
    line = "electrolytic C9 8 mfd 450 V plus SP1.1 red minus SP1.2 black-yellow replaces C51"
    plain = line.replace(" red", "").replace(" black-yellow", "")
    state = circuit(PARTS + line + "\n")
    assert nets(state) == nets(circuit(PARTS + plain + "\n"))
    assert [join.words for join in state.joins if join.how.value == "lead"] == ["red", "black-yellow"]
    fitted = circuit(PARTS + "fit R7 from SP1.1 brown to SP1.2 brown\n")
    assert [join.words for join in fitted.joins] == ["brown", "brown", ""]


def test_the_second_winding_of_a_name_has_one_message_with_its_line() -> None:
    text = "transformer T1\nwinding T1 filament yellow-a yellow-b 5 V\nwinding T1 filament green-a green-b 6.3 V\n"
    text += "lamp PL1 6.3 V .15 A from T1.green-a to T1.green-b\n"
    state, problems = built(text)
    assert state is None
    assert [d.headline for d in problems] == ["`T1` has a filament already"]
    (line,) = [piece for piece in problems[0].do.split("`") if piece.startswith("winding ")]
    assert line == "winding T1 filament-2 green-a green-b 6.3 V"
    assert built(text.replace("winding T1 filament green-a green-b 6.3 V", line))[0] is not None
