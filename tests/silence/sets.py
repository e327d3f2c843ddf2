"""The sets that hands work on: the samples as drawn, and two invented ones for what no sample has."""

from collections.abc import Mapping

from tests.campaign.reading import text_of

__all__ = ["SETS"]

# A transformerless set with a rectifier tube in its series string; B- is off the chassis.
_TARN = """title "Tarn 4 kitchen set"
state drawn
mains 117 V 60 Hz
common B-
apart B-, chassis "one side of the line is on B-"
cord P1
switch S1
tube V1 12SQ7GT
tube V2 50L6GT
tube V3 35Z5GT
resistor R21 120 ohm 10 W
resistor R30 220k 1/2 W
resistor R31 22 ohm 5 W
resistor R32 1k 5 W
resistor R1 10 meg 1/2 W
resistor R2 220k 1/2 W
resistor R3 470k 1/2 W
resistor R4 150 ohm 1 W
electrolytic C1 40 mfd 200 V
electrolytic C2 20 mfd 200 V
electrolytic C3 20 mfd 25 V
capacitor C4 .01 mfd 400 V paper
capacitor C5 .01 mfd 400 V paper
capacitor C6 .02 mfd 400 V paper
transformer T1 "output" grounded
winding T1 primary blue red 180 ohm
winding T1 secondary green black 0.5 ohm
speaker LS1 3.2 ohm
strip SP1 5 lugs foot 3
plug J1 2 pins "pickup"
net line: P1.1, R21.1, R31.1, C5.1, SP1.1
net plate: R31.2, V3.5, SP1.2
net h1: R21.2, V3.2
net h2: V3.7, V2.2
net h3: V2.7, V1.8
net B+1: V3.8, C1+, R32.1, T1.red, SP1.4
net B+2: R32.2, C2+, V2.4, R2.2
net grid: J1.1, R1.1, V1.2
net af: V1.6, R2.1, C6.1
net drive: C6.2, R3.1, V2.5
net cath: V2.8, R4.1, C3+
net anode: V2.3, T1.blue
net voice: T1.green, LS1.1
net B-: S1.2, V1.7, V1.3, V1.4, V1.5, R1.2, R3.2, R4.2, C1-, C2-, C3-, R30.1, C4.1, J1.2, SP1.5
net off: P1.2, S1.1, C5.2
net frame: chassis, R30.2, C4.2, T1.black, LS1.2
accept hot-chassis R30 "as made; knobs and back are insulated"
volts B+1 125 V
volts B+2 110 V
spare V1.1, V3.3
"""

# A transformer, a full-wave tube, a choke, no bias: the plainest of all.
_WEIR = """title "Weir 6 record player"
state drawn
mains 117 V 60 Hz
cord P1
fuse F1 1 A slow
transformer T1 "power" grounded
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 250-0-250 V 200 ohm
winding T1 filament yellow-a yellow-b 5 V
winding T1 heater green-a green-b 6.3 V
tube V1 6SQ7
tube V2 6V6GT
tube V3 5Y3GT
choke L1 10 H 300 ohm
resistor R1 10 meg 1/2 W
resistor R2 220k 1/2 W
resistor R3 470k 1/2 W
resistor R4 250 ohm 2 W
resistor R5 47k 1 W
electrolytic C1 10 mfd 450 V
electrolytic C2 20 mfd 450 V
electrolytic C3 20 mfd 25 V
electrolytic C4 10 mfd 450 V
capacitor C6 .02 mfd 600 V paper
transformer T2 "output"
winding T2 primary blue red 250 ohm
winding T2 secondary green black 0.5 ohm
speaker LS1 3.2 ohm
plug J1 2 pins "pickup"
net in-a: P1.1, F1.1
net in-b: F1.2, T1.black-a
net in-c: P1.2, T1.black-b
net fil: T1.yellow-a, V3.2
net high-a: T1.red-a, V3.4
net high-b: T1.red-b, V3.6
net B+1: T1.yellow-b, V3.8, C1+, L1.1
net B+2: L1.2, C2+, T2.red, V2.4, R5.1
net B+3: R5.2, C4+, R2.2
net grid: J1.1, R1.1, V1.2
net af: V1.6, R2.1, C6.1
net drive: C6.2, R3.1, V2.5
net cath: V2.8, R4.1, C3+
net anode: V2.3, T2.blue
net voice: T2.green, LS1.1
net heat: T1.green-a, V1.7, V2.2
net ground: chassis, T1.red-yellow, T1.green-b, V1.8, V2.7, V1.3, V1.4, V1.5, V1.1
net ground: R1.2, R3.2, R4.2, C1-, C2-, C3-, C4-, J1.2, T2.black, LS1.2
spare V2.1
"""

SETS: Mapping[str, str] = {
    **{name: text_of(name, "original") for name in ("harrow-point", "skerry", "marram", "sallow-street")},
    "tarn": _TARN,
    "weir": _WEIR,
}
"""The original of each set."""
