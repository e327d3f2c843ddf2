"""Published power supplies, written anew as netlists; the source of each is named beside it.

What a source leaves open (a winding's volts, a load) is ours and says so in a comment.
"""

# A two-rail shunt-regulated supply: angelfire.com/electronic/funwithtubes, eq_fig-28, a schematic in words.
SHUNT_REGULATED = """
title "Two rails, shunt regulated"
state drawn
mains 117 V 60 Hz
cord P1 polarized
switch S1
fuse F1 1/2 A slow
transformer T1 rise 0%
winding T1 primary 1 2         117 V
winding T1 high    h1 ct h2    325-0-325 V 40 mA
winding T1 heater  5 6         6.3 V
diode D1 1N4007 1000 V 1 A
diode D2 1N4007 1000 V 1 A
can C1 insulated                 # both shells are at the negative rail, not at ground
section C1A 100 mfd 450 V
can C2 insulated
section C2A 100 mfd 450 V
resistor R1 1.5k 2 W
net line-a: P1.neutral, T1.1
net line-b: P1.hot, S1.1
net line-c: S1.2, F1.1
net line-d: F1.2, T1.2
net ha: T1.h1, D1.anode
net hb: T1.h2, D2.anode
net X:  D1.cathode, D2.cathode, C1A+, R1.1
net BP: R1.2, C2A+
net CT: T1.ct, C1-, C2-
"""
REGULATORS = """
tube V1 0A2
tube V2 0B2
tube V3 0B2
resistor R2 1.8k 2 W
resistor R3 12k 5 W
resistor R4 36k 1 W
net BP: R2.1
net shunt: R2.2, V1.1
net above: V1.5, R3.1
net middle: V1.4, V2.1
net below: V1.7, R3.2
net ground: chassis, V2.4, V3.1
net low: V3.5, R4.1
net CT: V3.2
net CT: V3.7, R4.2
electrolytic C3 10 mfd 150 V     # ours: across the negative rail, its plus at the ground
net ground: C3+
net CT: C3-
"""

# A full-wave doubler with four dropping sections: the same site, a stereo amplifier's page. Its winding's volts and
# the load are ours.
DOUBLER = """
title "Doubler with dropping sections"
state drawn
mains 117 V 60 Hz
cord P1
transformer T1 rise 0%
winding T1 primary 1 2 117 V
winding T1 high top bottom 117 V 20 ohm
diode D1 1N4007 1000 V 1 A
diode D2 1N4007 1000 V 1 A
can C1 insulated                 # its negative is the winding's lower end
section C1A 100 mfd 200 V
electrolytic C2 100 mfd 200 V
electrolytic C3 50 mfd 400 V
electrolytic C4 40 mfd 350 V
electrolytic C5 40 mfd 350 V
electrolytic C6 40 mfd 350 V
resistor R1 470 ohm 1 W
resistor R2 1k 1 W
resistor R3 3.3k 1/2 W
resistor R4 39k 1/2 W
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net top: T1.top, D1.anode, D2.cathode
net bottom: T1.bottom, C1-, C2+
net ground: chassis, D2.anode, C2-, C3-, C4-, C5-, C6-
net B1: D1.cathode, C1A+, R1.1
net B2: R1.2, C3+, R2.1
net B3: R2.2, C4+, R3.1
net B4: R3.2, C5+, R4.1
net B5: R4.2, C6+
draws B2 20 mA
draws B5 1 mA
"""

# The supply of a 50 W monoblock: the same site, Amp-50_W_4_6L6; its winding's volts and the load are ours. The second
# heater winding stands on a divider of B+.
ELEVATED = """
title "Bridge, choke and an elevated heater winding"
state drawn
mains 117 V 60 Hz
cord P1
transformer T1 rise 0%
winding T1 primary 1 2 117 V
winding T1 high 3 4 300 V 30 ohm
winding T1 heater-a 5 6 7 6.3 V
winding T1 heater-b 8 9 6.3 V
diode D1 1N4007 1000 V 1 A
diode D2 1N4007 1000 V 1 A
diode D3 1N4007 1000 V 1 A
diode D4 1N4007 1000 V 1 A
capacitor C9 .002 mfd 6000 V
electrolytic C1 100 mfd 450 V
electrolytic C2 100 mfd 450 V
choke L1 5 H 300 mA 80 ohm
resistor R1 220k 1 W
resistor R2 220k 1 W
resistor R3 100k 1 W
resistor R4 33k 1/2 W
lamp LM1 6.3 V 150 mA
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net ha: T1.3, D1.anode, D3.cathode, C9.1
net hb: T1.4, D2.anode, D4.cathode, C9.2
net raw: D1.cathode, D2.cathode, C1+, R1.1, L1.1
net +400: L1.2, C2+, R2.1, R3.1
net elevated: R3.2, R4.1, T1.8
net lamp: T1.9, LM1.1
net elevated: LM1.2
net ground: chassis, D3.anode, D4.anode, C1-, C2-, R1.2, R2.2, R4.2, T1.6
draws +400 100 mA
"""

# A phono amplifier of 12SQ7, 50L6 and 35Z5 (from memory); its load is ours.
PHONO = """
title "Phono amplifier"
state drawn
mains 117 V 60 Hz
common BM
cord P1
resistor R9 130 ohm 5 W
tube V1 12SQ7
tube V2 50L6GT
tube V3 35Z5GT
electrolytic C4 40 mfd 150 V
electrolytic C5 40 mfd 150 V
resistor R8 1k 1 W
resistor R7 150 ohm 1 W
resistor R6 220k 1/2 W
net LN: P1.1, R9.1, V3.5
net h1: R9.2, V3.2
net h2: V3.7, V2.7
net h3: V2.2, V1.8
net BM: P1.2, V1.7, V1.3, C4-, C5-, R7.2
net B1: V3.8, C4+, R8.1, V2.plate
net B2: R8.2, C5+, V2.screen, R6.1
net k2: V2.cathode, R7.1
net p1: R6.2, V1.plate
"""
