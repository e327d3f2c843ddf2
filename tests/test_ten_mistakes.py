"""Ten mistakes in one file are ten messages, each at its own word, in one run."""

from netcheck.core.diagnostic import Grade
from tests.paper import checked

# Every mistake stands between arrows, which are taken away before the file is read.
FILE = """\
title "A file with ten mistakes"
strip SP1 5 lugs foot 3
electrolytic C1 20 mfd 450 V
tube V1 6J5
>resister< R1 470k
resistor R2 100k
resistor >R2< 220k
capacitor C2 .01 mfd
resistor R3 >50M<
capacitor C3 .05 mfd >470k<
net B+: C1+, >C9+<, R2.1
net plate: V1.plate, >V1.screen<, R2.2
net >:< C2.1, R3.1
at >SP1.6<: C2.2
net coupling: R3.2, >C2+<
net ground: chassis, C1-, C3.1, C3.2>,<
at SP1.3: V1.cathode
"""
TOLD = [
    "no statement begins with `resister`",
    "there is a part `R2` already",
    "`50M` can mean 50 thousand ohms (on old drawings) or 50 million ohms",
    "`470k` is a resistance, which a capacitor does not have",
    "there is no part `C9`",
    "`V1` is a 6J5 and has no screen",
    "a name is missing before the colon",
    "`SP1` has no lug 6",
    "`C2` is a capacitor and has no + lead",
    "the line ends in a comma, but the next line does not go on with it",
]


def test_ten_mistakes_are_ten_messages_at_the_right_line_and_column() -> None:
    expected = []
    for line, text in enumerate(FILE.split("\n"), 1):
        if ">" in text:
            column = text.index(">") + 1
            expected.append((line, column, text[column:].partition("<")[0]))
    report = checked(FILE.replace(">", "").replace("<", ""))
    places = [d.labels[0].place for d in report.diagnostics]
    assert not report.built
    assert len(expected) == len(TOLD) == 10
    assert [(p.line, p.column, p.text) for p in places] == expected
    assert [d.grade for d in report.diagnostics] == [Grade.STOP] * 10
    assert [d.headline for d in report.diagnostics] == TOLD


def test_the_same_file_without_its_mistakes_is_read() -> None:
    right = FILE.replace("resister", "resistor").replace("resistor >R2<", "resistor R4")
    for wrong, written in (
        (">50M<", "50k"), (" >470k<", ""), (" >C9+<,", ""), (" >V1.screen<,", ""), (">:<", "grid:"),
        (">SP1.6<", "SP1.5"), (">C2+<", "R4.1"), (">,<", ""),
    ):  # fmt: skip
        right = right.replace(wrong, written)
    report = checked(right.replace(">", "").replace("<", ""))
    assert report.built
    assert report.count(Grade.STOP) == 0
