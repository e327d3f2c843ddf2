"""Work rightly done on the amplifier and on the two invented sets."""

from tests.silence.bridges import bridge_for
from tests.silence.jobs import all_of, changed, either

__all__ = ["SALLOW", "TARN", "WEIR"]

SALLOW = (
    all_of("""
remove CR1, C35, C36
strip SP3 4 lugs foot 1
lift T1.brown-a, T1.brown-b
at SP3.1: T1.brown-a
at SP3.4: T1.brown-b
diode D5  1N4007|1N4004|1000 V 1 A  anode SP3.3 cathode SP3.4 replaces CR1
electrolytic C95 47 mfd  100 V|160 V  plus SP3.1 minus SP3.3 replaces C35
electrolytic C96 47 mfd  100 V|160 V  plus SP3.1 minus SP3.2 replaces C36
wire SP3.3 to R31.1 violet
wire SP3.2 to R31.2 violet
"""),
    changed("""
C30A  40 mfd|47 mfd  450 V|500 V
C30B  22 mfd|20 mfd  450 V|500 V
C30C  22 mfd|20 mfd  450 V|500 V
"""),
    all_of("""
remove C31, C32
strip SP6 5 lugs foot 3
electrolytic C91 22 mfd  450 V|500 V  plus SP6.1 minus SP6.3 replaces C31
electrolytic C92 12 mfd  450 V|500 V  plus SP6.5 minus SP6.3 replaces C32
move R8.1 to SP6.5
wire SP6.1 to R29.2 red
wire SP6.5 to R30.2 red
"""),
    either(
        all_of("""
remove V6
strip SP1 5 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
at SP1.1: T1.red-a
at SP1.5: T1.red-b
diode D1  BY133|1300 V 1 A|1200 V 3 A  anode SP1.1 cathode SP1.2 replaces V6.plate-2
diode D2  BY133|1300 V 1 A|1200 V 3 A  anode SP1.5 cathode SP1.2 replaces V6.plate-1
resistor R95  100 ohm|120 ohm  10 W|20 W  from SP1.2 to SP1.4 inserted "silicon drops less"
wire SP1.4 to C30.A red
"""),
        bridge_for(
            "V6",
            "SP1",
            "R95  100 ohm|120 ohm  10 W|20 W",
            ends=("C30.A", "C30.can"),
            nets=("high-a", "B+1", "ground"),
        ),
    ),
    changed("""
R28 4.7k  10 W
R34 220k  2 W
R24 100 ohm  1 W|2 W
R29 3.3k  1 W|2 W
"""),
    all_of("""
lug G1 grounded
remove C1, C4
electrolytic C71 27 mfd  50 V|35 V  plus V1.5 minus G1 replaces C1
electrolytic C74 22 mfd  50 V|35 V  plus V2.6 minus G1 replaces C4
"""),
)

TARN = (
    all_of("""
remove V3
strip SP2 5 lugs foot 3
resistor R51  68 ohm|56 ohm|82 ohm  5 W|10 W  from SP1.2 to SP2.4 inserted "silicon drops less"
diode D1  1N4007|1000 V 1 A|1N5408  anode SP2.4 cathode SP2.1 replaces V3
wire SP2.1 to SP1.4 red
resistor R50  240 ohm|220 ohm  10 W|20 W  from R21.2 to V2.2 replaces V3.heater
"""),
    changed("""
C1  40 mfd|47 mfd  200 V|250 V
C2  22 mfd|20 mfd  200 V|250 V
C3  22 mfd  35 V|50 V
C4  .01 mfd|.0047 mfd  250 V  Y2
C5  .01 mfd  275 V  X2
C6  .022 mfd 630 V film
"""),
    all_of("""
strip SP5 3 lugs foot 2
lift P1.1
at SP5.1: P1.1
fuse F1  1 A slow|3/4 A slow  from SP5.1 to SP5.3 inserted "no fuse in the original"
wire SP5.3 to SP1.1 gray
"""),
    all_of("""
resistor R60  220k|150k  1 W from SP1.4 to SP1.5 added "empties the filter after switch-off"
meant B+1: R60.1
meant B-: R60.2
"""),
    changed("""
R32 1k  5 W
R21 120 ohm  10 W|15 W
R4 150 ohm  1 W|2 W
R31 22 ohm  5 W|10 W
"""),
)

WEIR = (
    either(
        all_of("""
remove V3
strip SP1 5 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
at SP1.1: T1.red-a
at SP1.5: T1.red-b
diode D1  BY133|1200 V 1 A|1300 V 1 A  anode SP1.1 cathode SP1.2 replaces V3.plate-2
diode D2  BY133|1200 V 1 A|1300 V 1 A  anode SP1.5 cathode SP1.2 replaces V3.plate-1
resistor R51  270 ohm|330 ohm  10 W from SP1.2 to SP1.4 inserted "silicon drops less"
wire SP1.4 to C1+ red
"""),
        bridge_for("V3", "SP1", "R51  270 ohm|330 ohm  10 W", ends=("C1+", "C1-"), nets=("high-a", "B+1", "ground")),
    ),
    changed("""
C1  10 mfd  450 V|500 V
C2  22 mfd|20 mfd  450 V|500 V
C3  22 mfd  50 V|35 V
C4  10 mfd  450 V|500 V
C6  .022 mfd 630 V film
"""),
    all_of("""
resistor R60  220k|330k  2 W from C2+ to C2- added "empties the filter after switch-off"
meant B+2: R60.1
meant ground: R60.2
"""),
    changed("""
R4 250 ohm  2 W|3 W
R5 47k 1 W
"""),
    all_of("""
change F1 1 A slow
"""),
    all_of("""
lift T1.black-a, T1.black-b
at F1.2: T1.black-b
at P1.2: T1.black-a
"""),
)
