"""The full report: exact look, narrow screens, plain ASCII, hostile text."""

from html import unescape
from textwrap import dedent

import pytest
from msgspec.structs import replace

from netcheck.core.diagnostic import Diagnostic, Grade, Label, Touched
from netcheck.core.report import Accepted, Report
from netcheck.core.source import Place, Source
from netcheck.reports import FORMATS, SCREENS, Style, counted

REWIRED = Source(
    "faulty.netck", "state rewired\nat SP1.2: C52-, R7.2\nresistor R9 470 Ω 1/2 W,\n  from SP1.2 to V3.5 # 20 µF\n"
)
DRAWN = Source("original.netck", "state drawn\r\n\tnet B-: C52-, C53-, R7.2\r\n")


def place(source: Source, text: str) -> Place:
    start = source.text.index(text)
    return source.between(start, start + len(text))


WRONG = Diagnostic(
    "return-on-wrong-common",
    Grade.STOP,
    "C52- is on SP1.2 (chassis); it belongs on SP1.3 (B-)",
    (Label(place(REWIRED, "C52-"), "it is soldered here"), Label(place(DRAWN, "C52-"))),
    why="the chassis is not the return of this set",
    do="move the lead of C52- from SP1.2 to SP1.3",
    touched=Touched(("C52-",), ("C52",), ("B-", "chassis")),
)
VALUE = Diagnostic(
    "value-changed",
    Grade.LOOK,
    "R9 is 470 Ω; the original has 4.7k",
    (Label(place(REWIRED, "resistor R9 470 Ω 1/2 W,\n  from SP1.2 to V3.5")),),
)
ACCEPTED = Accepted(replace(VALUE, headline="C61 is .047 mfd"), "one value bought")
REPORT = Report(
    "compare",
    "Harrow Point 7",
    ("original.netck", "faulty.netck"),
    (WRONG, VALUE),
    (ACCEPTED,),
    ("compared: 2 parts, 4 leads",),
)


def full(report: Report, style: Style | None = None) -> str:
    return FORMATS[".txt"](report, style or Style())


def test_look() -> None:
    assert full(REPORT) == dedent(
        """\
        netcheck compare: original.netck, faulty.netck

        1  STOP  C52- is on SP1.2 (chassis); it belongs on SP1.3 (B-)   [return-on-wrong-common]
          line 2 of faulty.netck
              at SP1.2: C52-, R7.2
                        ‾‾‾‾ it is soldered here
          line 2 of original.netck
                  net B-: C52-, C53-, R7.2
                          ‾‾‾‾
          why: the chassis is not the return of this set
          do:  move the lead of C52- from SP1.2 to SP1.3

        2  LOOK  R9 is 470 Ω; the original has 4.7k   [value-changed]
          lines 3 to 4 of faulty.netck
              resistor R9 470 Ω 1/2 W,
              ‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾

        accepted: C61 is .047 mfd   [value-changed] "one value bought"

        compared: 2 parts, 4 leads

        1 STOP, 1 LOOK, 1 accepted
        """
    )


def test_plain_ascii_where_the_screen_can_do_no_more() -> None:
    text = full(REPORT, Style(unicode=False))
    assert text.isascii()
    assert "R9 is 470 ohm" in text
    assert "resistor R9 470 ohm 1/2 W,\n      ^^^^^^^^^^^^^^^^^^^^^^^^^^\n" in text


def test_colour_adds_only_escapes() -> None:
    coloured = full(REPORT, Style(colour=True))
    bare = coloured
    for code in ("1;31", "1;33", "1", "2", "0"):
        bare = bare.replace(f"\033[{code}m", "")
    assert bare == full(REPORT)
    assert "\033[1;31m1  STOP\033[0m  C52-" in coloured


@pytest.mark.parametrize("width", [40, 60, 100])
@pytest.mark.parametrize("unicode", [True, False])
def test_narrow_screens_hold_every_line(width: int, *, unicode: bool) -> None:
    text = full(replace(REPORT, accepted=()), Style(width=width, unicode=unicode))
    assert max(map(len, text.splitlines())) <= width
    assert " ".join(WRONG.do.split()) in " ".join(text.split())


def test_marks_on_one_line_share_its_text() -> None:
    both = replace(WRONG, labels=(Label(place(REWIRED, "C52-"), "one"), Label(place(REWIRED, "R7.2"), "other")))
    text = full(replace(REPORT, diagnostics=(both,)))
    assert text.count("line 2 of faulty.netck") == 1
    assert "‾‾‾‾ one\n                      ‾‾‾‾ other\n" in text


def test_a_place_without_a_character_and_the_file_as_such() -> None:
    at_end = REWIRED.between(13, 13)
    text = full(
        replace(REPORT, diagnostics=(replace(WRONG, labels=(Label(at_end, "here"), Label(DRAWN.whole)), do=""),))
    )
    assert "      state rewired\n                   ‾ here\n" in text
    assert "  in original.netck\n  why:" in text


def test_text_of_a_file_cannot_reach_the_terminal() -> None:
    hostile = Source("a\033[2J.netck", "at SP1.2: C52\u202e\033]0;x\007-\n")
    found = Diagnostic("x", Grade.NOTE, "`C52\033[31m`\r\nerror: none", (Label(hostile.between(10, 22), "\x9b1m"),))
    for render in (*FORMATS.values(), *SCREENS.values()):
        text = render(replace(REPORT, diagnostics=(found,), title="\033", closing=("\033[0m",)), Style())
        assert not {c for c in text if not c.isprintable()} - {"\n"}
        assert "<U+001B>" in unescape(text)
    assert "C52<U+202E><U+001B>]0;x<U+0007>-" in full(replace(REPORT, diagnostics=(found,)))


@pytest.mark.parametrize(
    ("report", "line"),
    [
        (replace(REPORT, diagnostics=(), accepted=()), "no findings"),
        (replace(REPORT, diagnostics=(WRONG, WRONG), accepted=()), "2 STOP"),
        (
            replace(REPORT, accepted=(), built=False),
            "1 STOP, 1 LOOK; mend these lines first: nothing has been checked or compared yet",
        ),
    ],
)
def test_last_line_counts(report: Report, line: str) -> None:
    assert counted(report) == line
    assert full(report).endswith(f"\n\n{line}\n")
