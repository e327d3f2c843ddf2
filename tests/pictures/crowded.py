"""A chassis on which things stand close, so that a name has to go to whichever side is free; two leads to move."""

__all__ = ["CROWDED", "CROWDED_DONE"]

CROWDED = """title "Cove 3"
state drawn
can C1 grounded
section C1A 40 mfd 450 V half-moon
section C1B 20 mfd 450 V square
section C1C 20 mfd 25 V plain
strip SP1 4 lugs foot 3
strip SP2 3 lugs
tube V1 6J5
tube V2 12AX7
tube V3 6X4
transformer T1 "power"
winding T1 primary black-a black-b 117 V
winding T1 heater green-a green-b 6.3 V 2 A
lug G1 grounded
lug G2 insulated
tube V4 6X4
strip SP3 3 lugs
strip SP4 3 lugs
strip SP5 3 lugs
strip SP6 3 lugs
strip SP8 3 lugs
strip SP9 3 lugs
strip SP7 2 lugs
resistor R1 1.5k 5 W from SP1.1 to C1.A
resistor R2 220k 1 W from SP1.2 to V1.5
resistor R3 470 ohm 1 W from V1.8 to SP1.3
resistor R4 10k 1 W from C1.B to SP1.4
capacitor C3 .01 mfd 600 V from SP1.4 to V2.2
wire SP2.1 to V2.1 yellow
wire C1.A to V3.7 red 20 AWG
wire SP2.3 to C1.C
place chassis 170 120
place SP1 36 9
place C1 80 18
place V1 36 34
place SP2 36 56
place V2 84 66
place SP3 84 48
place SP4 84 84
place V3 124 28
place SP5 124 10
place SP6 124 46
place SP7 146 28
place V4 20 90
place SP8 20 71
place SP9 20 109
place G1 40 90
place T1 140 98
place G2 137 96
"""
# A lead is on the pin beside, a wire comes from another section of the can, a capacitor is ten times too large.
CROWDED_DONE = (
    CROWDED.replace("state drawn", "state rewired")
    .replace("SP1.2 to V1.5", "SP1.2 to V1.4")
    .replace("wire C1.A to V3.7", "wire C1.B to V3.7")
    .replace(".01 mfd 600", "0.1 mfd 600")
)
