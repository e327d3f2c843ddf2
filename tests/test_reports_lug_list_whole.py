"""A whole lug list with all that can sit on a lug, on paper and on a screen too narrow for a margin of nets."""

import pytest

from netcheck.api import lugs
from netcheck.core.source import Source
from netcheck.reports.lug_list import lug_list
from netcheck.reports.renderer import Style
from tests.paper import reader

BASE = """state found
title "Cove 2, the supply from below"
can C20 grounded
section C20A 40 mfd 450 V half-moon
section C20B 20 mfd 450 V square
section C20C 20 mfd 25 V plain
tube V1 5Y3GT
transformer T1 "power"
winding T1 high red-a red-yellow red-b 290-0-290 V 180 ohm
winding T1 filament yellow-a yellow-b 5 V 2 A
strip SP1 5 lugs foot 3 "by the can"
resistor R1 1.5k 5 W from SP1.1 to SP1.2
resistor R2 220k 1 W from SP1.2 to SP1.3
at V1.4: T1.red-a
at V1.6: T1.red-b
at V1.2: T1.yellow-a
at V1.8: T1.yellow-b
wire V1.8 to C20.A red 20 AWG cloth-covered
at SP1.3: T1.red-yellow
net a-line-with-a-name-that-is-long: SP1.2, C20B+
"""
REWIRED = """state rewired
start from "base.netck"
remove C20A
note C20 "the rivet is loose; do not pull at it, nor bend the lug of the section that is out"
electrolytic C1 47 mfd 500 V plus SP1.1 minus SP1.3
wire C20.A to SP1.1 red 20 AWG past SP1.4
spare SP1.5 "kept for the choke that comes when the set has been run in for a week"
"""

PAPER = """netcheck lugs: rewired.netck
Cove 2, the supply from below (rewired)
* copied from the file that this one starts from; nobody has looked at it on
  the chassis since
(in brackets): connected here by the drawing; which lug it is soldered to is
  not written down

C20: can, grounded
    note: the rivet is loose; do not pull at it, nor bend the lug of the section
    that is out
[ ] A    half-moon, section out  wire red 20 AWG cloth-covered to V1.8*,
                                 wire red 20 AWG to SP1.1 that passes SP1.4
                                 net V1.8 (filament-2)
[ ] B    square                  (SP1.2) net a-line-with-a-name-that-is-long
[ ] C    plain                   empty
[ ] can  common                  bolted to the chassis            chassis

V1: tube 5Y3GT, octal, clockwise seen from below
[ ] 1  nothing inside  empty
[ ] 2  heater-1        T1.yellow-a*
[ ] 3  nothing inside  empty
[ ] 4  plate-2         T1.red-a*
[ ] 5  nothing inside  empty
[ ] 6  plate-1         T1.red-b*
[ ] 7  nothing inside  empty
[ ] 8  heater-2        T1.yellow-b*, wire red 20 AWG cloth-covered to C20.A*

T1: transformer, "power"
[ ] red-a       soldered at V1.4*                                 V1.4 (plate-2)
[ ] red-yellow  soldered at SP1.3*                                chassis
[ ] red-b       soldered at V1.6*                                 V1.6 (plate-1)
[ ] yellow-a    soldered at V1.2* net V1.2 (filament-1)
[ ] yellow-b    soldered at V1.8* net V1.8 (filament-2)

SP1: strip, 5 lugs, left to right seen from below, "by the can"
[ ] 1        R1.1*, C1+, wire red 20 AWG to C20.A that passes SP1.4
             net V1.8 (filament-2)
[ ] 2        R1.2*, R2.1*, (C20.B) net a-line-with-a-name-that-is-long
[ ] 3  foot  T1.red-yellow*, R2.2*, C1-, bolted to the chassis    chassis
[ ] 4        empty, wire red 20 AWG from C20.A to SP1.1 only passes
[ ] 5        empty on purpose "kept for the choke that comes when the set has
             been run in for a week"

listed: 4 places, 22 lugs, pins and leads, 7 of them empty
copied from base.netck, not looked at: 12 joints
This checks paper, not the chassis. Pull the plug, discharge every filter
  capacitor (10 kilohm, 5 W, on insulated clips, 30 s a section, then measure;
  never a screwdriver). Power up through a lamp limiter first, with one hand in
  your pocket. Local electrical codes and a licensed technician have the last
  word.
"""

NARROW = """netcheck lugs: rewired.netck
Cove 2, the supply from below (rewired)
* copied from the file that this one starts
  from; nobody has looked at it on the chassis
  since
(in brackets): connected here by the drawing;
  which lug it is soldered to is not written down

C20: can, grounded
    note: the rivet is loose; do not pull at it,
    nor bend the lug of the section that is out
[ ] A    half-moon, section out:
         wire red 20 AWG cloth-covered to V1.8*,
         wire red 20 AWG to SP1.1 that passes
         SP1.4 net V1.8 (filament-2)
[ ] B    square: (SP1.2)
         net a-line-with-a-name-that-is-long
[ ] C    plain: empty
[ ] can  common: bolted to the chassis net chassis

V1: tube 5Y3GT, octal, clockwise seen from
    below
[ ] 1  nothing inside: empty
[ ] 2  heater-1: T1.yellow-a*
[ ] 3  nothing inside: empty
[ ] 4  plate-2: T1.red-a*
[ ] 5  nothing inside: empty
[ ] 6  plate-1: T1.red-b*
[ ] 7  nothing inside: empty
[ ] 8  heater-2: T1.yellow-b*,
       wire red 20 AWG cloth-covered to C20.A*

T1: transformer, "power"
[ ] red-a       soldered at V1.4*
                net V1.4 (plate-2)
[ ] red-yellow  soldered at SP1.3* net chassis
[ ] red-b       soldered at V1.6*
                net V1.6 (plate-1)
[ ] yellow-a    soldered at V1.2*
                net V1.2 (filament-1)
[ ] yellow-b    soldered at V1.8*
                net V1.8 (filament-2)

SP1: strip, 5 lugs, left to right seen from
    below, "by the can"
[ ] 1  R1.1*, C1+,
       wire red 20 AWG to C20.A that passes SP1.4
       net V1.8 (filament-2)
[ ] 2  R1.2*, R2.1*, (C20.B)
       net a-line-with-a-name-that-is-long
[ ] 3  foot: T1.red-yellow*, R2.2*, C1-,
       bolted to the chassis net chassis
[ ] 4  empty, wire red 20 AWG from C20.A to SP1.1
       only passes
[ ] 5  empty on purpose "kept for the choke that
       comes when the set has been run in for a
       week"

listed: 4 places, 22 lugs, pins and leads, 7 of
  them empty
copied from base.netck, not looked at: 12 joints
This checks paper, not the chassis. Pull the
  plug, discharge every filter capacitor (10
  kilohm, 5 W, on insulated clips, 30 s a section,
  then measure; never a screwdriver). Power up
  through a lamp limiter first, with one hand in
  your pocket. Local electrical codes and a
  licensed technician have the last word.
"""


@pytest.mark.parametrize(("width", "wanted"), [(100, PAPER), (50, NARROW)])
def test_a_whole_list_reads_like_this(width: int, wanted: str) -> None:
    read = reader({"rewired.netck": REWIRED, "base.netck": BASE})
    source = read("", "rewired.netck")
    assert isinstance(source, Source)
    assert lug_list(*lugs(source, read), Style(width=width)) == wanted
