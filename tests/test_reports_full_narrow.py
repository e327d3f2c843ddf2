"""The full report word for word where there is little room, and where the screen has plain signs alone."""

import pytest
from msgspec.structs import replace

from netcheck.core.diagnostic import Grade, Label
from netcheck.reports.renderer import Style
from tests.test_reports_full import DRAWN, REPORT, REWIRED, VALUE, WRONG, full

LABELS = (
    Label(DRAWN.whole),
    Label(REWIRED.between(13, 13), "a label that is rather long and has no room beside its mark"),
)
BARE = replace(
    WRONG, grade=Grade.NOTE, rule="unused", headline="nothing is said", labels=LABELS, why="", do=""
)  # fmt: skip

NARROW = """netcheck compare: original.netck,
  faulty.netck

1  STOP  C52- is on SP1.2 (chassis); it
         belongs on SP1.3 (B-)
         [return-on-wrong-common]
  line 2 of faulty.netck
      at SP1.2: C52-, R7.2
                ‾‾‾‾ it is soldered here
  line 2 of original.netck
          net B-: C52-, C53-, R7.2
                  ‾‾‾‾
  why: the chassis is not the return of this
       set
  do:  move the lead of C52- from SP1.2 to
       SP1.3

2  LOOK  R9 is 470 Ω; the original has 4.7k
         [value-changed]
  lines 3 to 4 of faulty.netck
      resistor R9 470 Ω 1/2 W,
      ‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾

3  NOTE  nothing is said   [unused]
  in original.netck
  line 1 of faulty.netck
      state rewired
                   ‾
      a label that is rather long and has no
      room beside its mark

accepted: C61 is .047 mfd   [value-changed] "one value bought"

compared: 2 parts, 4 leads

1 STOP, 1 LOOK, 1 NOTE, 1 accepted
"""

PLAIN = """netcheck compare: original.netck, faulty.netck

1  STOP  C52- is on SP1.2 (chassis); it belongs on SP1.3 (B-)
         [return-on-wrong-common]
  line 2 of faulty.netck
      at SP1.2: C52-, R7.2
                ^^^^ it is soldered here
  line 2 of original.netck
          net B-: C52-, C53-, R7.2
                  ^^^^
  why: the chassis is not the return of this set
  do:  move the lead of C52- from SP1.2 to SP1.3

2  LOOK  R9 is 470 ohm; the original has 4.7k   [value-changed]
  lines 3 to 4 of faulty.netck
      resistor R9 470 ohm 1/2 W,
      ^^^^^^^^^^^^^^^^^^^^^^^^^^

3  NOTE  nothing is said   [unused]
  in original.netck
  line 1 of faulty.netck
      state rewired
                   ^
           a label that is rather long and has no room beside its mark

accepted: C61 is .047 mfd   [value-changed] "one value bought"

compared: 2 parts, 4 leads

1 STOP, 1 LOOK, 1 NOTE, 1 accepted
"""


@pytest.mark.parametrize(("style", "wanted"), [(Style(width=44), NARROW), (Style(width=70, unicode=False), PLAIN)])
def test_a_report_in_little_room_reads_like_this(style: Style, wanted: str) -> None:
    assert full(replace(REPORT, diagnostics=(WRONG, VALUE, BARE)), style) == wanted
