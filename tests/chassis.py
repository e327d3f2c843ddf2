"""An invented small chassis, wired lug by lug, and mends of what hands may do wrong on it, acts written out."""

from collections.abc import Mapping

from netcheck.core.mend import Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire

WIRED = """
title "Cove 3 test chassis"
state drawn
transformer T1 "power" grounded
winding T1 primary black-a black-b 117 V 8 ohm
winding T1 high red-a red-yellow red-b 300-0-300 V 200 ohm
winding T1 filament yellow-a yellow-b 5 V
winding T1 heater green-a green-b 6.3 V
cord P1
tube V1 5Y3GT
tube V2 12AU7
tube V3 6AQ5
can C30 insulated
section C30A 20 mfd 450 V half-moon
section C30B 20 mfd 450 V square
section C30C 10 mfd 450 V triangle
strip SP1 7 lugs foot 4
strip SP2 5 lugs foot 3
strip SP3 12 lugs foot 6
lug G1 grounded
choke L3 10 H 300 ohm
resistor R1 470k 1/2 W
resistor R2 220k 1 W
resistor R3 1.5k
resistor R4 470k
resistor R5 330 ohm 1 W
resistor R6 47k
capacitor C1 .02 mfd 400 V paper
capacitor C2 .05 mfd 400 V paper
electrolytic C51 22 mfd 500 V
electrolytic C52 22 mfd 500 V
electrolytic C53 10 mfd 500 V
electrolytic C54 25 mfd 25 V
selenium CR1 130 V 100 mA
fuse F1 1 A
lamp LM1 6.3 V 150 mA
pot RV1 500k

net line-a: P1.1, F1.1
net line-b: P1.2, T1.black-b
net line-c: F1.2, T1.black-a
net high-a: T1.red-a, V1.4
net high-b: T1.red-b, V1.6
net fil: T1.yellow-a, V1.2
net B+1: T1.yellow-b, V1.8, L3.1, C30A+, C51+, SP1.1
net B+2: L3.2, C30B+, C52+, R2.2, SP1.2, V3.6
net B+3: R6.2, C30C+, C53+, SP1.3
net minus: T1.red-yellow, C51-, C52-, C53-, C30-, R5.1, SP1.5, CR1-
net bias: CR1+, R5.2, SP1.6, C54-
net grid-2: V2.2, R1.1, SP2.1
net plate-2: V2.1, R2.1, C1.1, SP2.2
net cath-2: V2.3, R3.1, C54+
net grid-3: V3.1, C1.2, R4.1, SP2.4
net cath-3: V3.2
net plate-3: V3.5, C2.1
net screen: R6.1, V3.7
net grid-b: V2.7, RV1.wiper
net plate-b: V2.6, SP3.1
net cath-b: V2.8, SP3.2
net vol-top: RV1.cw, SP3.12
net heater: T1.green-a, V2.4, V2.5, V3.3, LM1.1
net ground: chassis, T1.green-b, V2.9, V3.4, LM1.2, R1.2, R3.2, R4.2, C2.2, RV1.ccw, G1
"""

# The same joints, as soldered: on lugs, by wires.
SOLDERED = """
title "Cove 3 test chassis"
state rewired
start from "original.netck"
lift V2.1, V2.2, V2.3, V2.7, V2.6, V2.8, C1.1, C1.2, R2.1, R4.1, C51+, C52+, C53+, C51-, C52-, C53-, R1.1, R3.1, R6.2
lift T1.red-a, T1.red-b, V3.1, V3.5, C2.1, SP2.1, SP2.2, SP2.4
at V2.1: R2.1, C1.1
wire V2.1 to SP2.2 white
at V2.2: R1.1
wire V2.2 to SP2.1 green
at V2.3: R3.1, C54+
wire V2.7 to RV1.wiper brown
wire V2.6 to SP3.1 blue
wire V2.8 to SP3.2 yellow
wire SP2.4 to V3.1 green 22 AWG
at SP2.4: C1.2, R4.1
wire V3.5 to C2.1 blue
at C30.A: C51+
at C30.B: C52+
at C30.C: C53+, R6.2
at SP1.5: C51-, C52-, C53-
wire SP1.5 to C30.can black
wire T1.red-a to V1.4 red
wire T1.red-b to V1.6 red
"""

_AROUND = (("V2.1", "V2.9"), ("V2.2", "V2.8"), ("V2.3", "V2.7"), ("V2.6", "V2.4"))


def _mirrored() -> Mend:
    """What is on V2 counted from the other end: leads moved, wires taken off and put on."""
    return (
        Put("R2.1", "V2.9"),
        Put("C1.1", "V2.9"),
        Cut("V2.1", "SP2.2"),
        Put("R1.1", "V2.8"),
        Cut("V2.2", "SP2.1"),
        Put("R3.1", "V2.7"),
        Cut("V2.7", "RV1.wiper"),
        Cut("V2.6", "SP3.1"),
        Cut("V2.8", "SP3.2"),
        Wire("V2.9", "SP2.2", "white"),
        Wire("V2.8", "SP2.1", "green"),
        Wire("V2.3", "RV1.wiper", "brown"),
        Wire("V2.4", "SP3.1", "blue"),
        Wire("V2.2", "SP3.2", "yellow"),
    )


MENDS: Mapping[str, Mend] = {
    "a lead to the lug beside": (Put("C1.2", "SP2.5"),),
    "a lead by a wire": (Wire("SP2.4", "SP2.2", "green 22 AWG"),),
    "the wire on the wrong pin": (Cut("SP2.4", "V3.1"), Wire("SP2.4", "V3.7", "green 22 AWG")),
    "a ring of three leads of a can": (Put("C51+", "C30.B"), Put("C52+", "C30.C"), Put("C53+", "C30.A")),
    "a can bonded wrongly": (Insulate("C30"),),
    "a foot that is not bonded": (Bond("SP1"),),
    "a transformer's leads at the rectifier": (
        Cut("T1.red-a", "V1.4"),
        Cut("T1.red-b", "V1.6"),
        Wire("T1.red-a", "V1.6", "red"),
        Wire("T1.red-b", "V1.4", "red"),
    ),
    "a socket mirrored": _mirrored(),
    "a strip gone one on": (
        *(Put(f"C5{i}-", "SP1.6") for i in (1, 2, 3)),
        Cut("SP1.5", "C30.can"),
        Wire("SP1.6", "C30.can", "black"),
    ),
    "minus leads to the chassis": (Put("C51-", "G1"), Put("C52-", "chassis"), Put("C53-", "SP2.3")),
    "an electrolytic turned": (Put("C52+", "SP1.5"), Put("C52-", "C30.B")),
    "a wire between strips": (Cut("SP1.5", "C30.can"),),
    "upper pins": (Put("R2.1", "V2.5"), Put("R4.1", "V2.6")),
    "a part to take out": (Remove("C2", "it is not in the drawing"),),
    "a lead only lifted": (Lift("C1.1"), Solder("R3.2", "SP3.12")),
    "another value": (Change("C53", "22 mfd 450 V"),),
    "many": (
        *(Put(f"C5{i}-", "SP2.3") for i in (1, 2, 3)),
        *(Put(f"R{i}.1", f"SP3.{i}") for i in (1, 2, 3, 4)),
        Wire("SP3.10", "SP2.1", "white/red"),
    ),
}
