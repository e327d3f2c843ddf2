"""What one hand did is told as one finding, where nets alone would leave it open."""

import pytest

from netcheck.core.diagnostic import Severity
from tests.paper import compared

RAIL = "\n".join(f"resistor R{n} {n}k" for n in range(1, 13))
ON_THE_CHASSIS = ", ".join(f"R{n}.2" for n in range(1, 13))
STAGES = f"""
{RAIL}
resistor R20 470k
resistor R21 470k
capacitor C1 .02 mfd
net grid: R1.1, R20.1, C1.1
net plate: R2.1, R21.1, C1.2
net B+: R20.2, R21.2, {", ".join(f"R{n}.1" for n in range(3, 13))}
net ground: chassis, {ON_THE_CHASSIS}
"""

COILS = """
strip AG1 2 lugs foot 2
coil L1 10 ohm
coil L2 10 ohm
resistor R1 470k
resistor R2 22k
resistor R3 33k
net antenna: AG1.1, L1.1
net tank: L2.1, R2.1, R3.1
net top: L1.2, R1.1
net ground: chassis, L2.2, R1.2, R2.2, R3.2
"""

LAMPS = "\n".join(f"lamp LM{n} 6.3 V 0.15 A" for n in range(1, 10))
HEATERS = f"""
transformer T1 "power"
winding T1 heater green-a green-b 6.3 V
{LAMPS}
net heaters: T1.green-a, {", ".join(f"LM{n}.1" for n in range(1, 10))}
net ground: chassis, T1.green-b, {", ".join(f"LM{n}.2" for n in range(1, 10))}
"""

LINE = """
plug P1 2 pins
switch S1
position S1 on: 1 2
transformer T1 "power"
winding T1 primary black-a black-b 117 V
net line-a: P1.1, S1.1
net line-b: S1.2, T1.black-a
net line-c: P1.2, T1.black-b
"""


JACKS = """
plug J1 2 pins "microphone"
plug J2 2 pins "phonograph"
resistor R1 1 meg
resistor R2 470k
net mic: J1.1, R1.1
net phono: J2.1, R2.1
net ground: chassis, J1.2, J2.2, R1.2, R2.2
"""

CATHODES = """
tube V1 6J5
tube V2 6J5
resistor R1 1k
resistor R2 1k
resistor R3 470k
resistor R4 22k
net ground: chassis, V1.cathode, V2.cathode, V1.1, V2.1, V1.2, V2.2, R1.2, R2.2
net heaters: V1.7, V2.7
net grid-1: V1.grid, R1.1
net grid-2: V2.grid, R2.1
net plate-1: V1.plate, R3.1
net plate-2: V2.plate, R4.1
net B+: R3.2, R4.2
"""

METERED = """
strip SP1 5 lugs foot 3
strip SP2 5 lugs
lift V1.cathode
lift V2.cathode
resistor R71 10 ohm inserted "to read the cathode current"
resistor R72 10 ohm inserted "to read the cathode current"
"""

RECTIFIER = """
plug P1 2 pins
resistor R31 22 ohm
selenium SE1 130 V 100 mA
resistor R21 82 ohm
resistor R22 100 ohm
lamp LM1 6.3 V 0.15 A
electrolytic C1 40 mfd 150 V
net line-a: P1.1, R31.1, R21.1
net rect: R31.2, SE1-
net B+: SE1+, C1+
net heat: R21.2, R22.1
net heat-2: R22.2, LM1.1
net ground: chassis, P1.2, C1-, LM1.2
"""


def _chain(end: int) -> str:
    return " to ".join(f"LM{n}.{end}" for n in range(1, 10))


CASES = {
    "two pins of a socket, not its mirror image": (
        CATHODES,
        """
        lift V1.plate
        lift V1.grid
        wire V1.plate to R1.1
        wire V1.grid to R3.1
        """,
        ["V1.3 and V1.5 changed places"],
    ),
    "one inserted resistor bridged, the other one loose: two": (
        CATHODES,
        f"""
        {METERED}
        at SP1.1: R71.1, V1.cathode
        at SP1.3: R71.2
        wire SP1.1 to chassis bare
        at SP2.1: R72.1, V2.cathode
        at SP2.2: R72.2
        """,
        ["R71 is inserted but bridged: both its ends are on chassis", "nothing joins SP2.2 (R72.2) to the chassis"],
    ),
    "an inserted resistor on the wrong lug of a strip, another lead loose elsewhere: two": (
        CATHODES,
        f"""
        {METERED}
        strip SP3 5 lugs foot 2
        at SP1.1: R71.1, V1.cathode
        at SP1.3: R71.2
        at SP2.1: V2.cathode
        at SP3.2: R72.1, R72.2
        wire SP3.4 to SP2.1
        move R2.2 to SP1.5
        """,
        ["R72 is inserted but bridged: both its ends are on chassis; V2.8 hangs free", "R2.2 is alone on SP1.5"],
    ),
    "a strip read from above, with an inserted resistor on it": (
        CATHODES,
        """
        strip SP1 7 lugs foot 6
        resistor R71 10 ohm inserted "to read the cathode current"
        lift V1.cathode
        wire V1.cathode to SP1.2
        at SP1.6: R71.1
        at chassis: R71.2
        lift R1.1
        lift R3.1
        wire SP1.3 to V1.grid
        wire SP1.5 to V1.plate
        at SP1.5: R1.1
        at SP1.3: R3.1
        """,
        ["the strip SP1 is wired as its mirror image"],
    ),
    "a rectifier turned round, and an exchange at the resistor inserted beside it: two": (
        RECTIFIER,
        """
        diode D1 1000 V 1 A replaces SE1
        remove SE1
        resistor R50 33 ohm inserted "silicon drops less"
        at C1+: D1.anode
        at D1.cathode: R50.1
        lift R22.2
        at R31.2: R22.2
        at LM1.1: R50.2
        """,
        ["D1 is backwards", "D1.anode and R22.2 changed places"],
    ),
    "a wire on the lug beside the right one, on a rail": (
        STAGES,
        """
        strip SP1 5 lugs foot 3
        move R2.2 to SP1.4
        at SP1.5: R1.1
        wire chassis to SP1.5 black
        """,
        ["the black wire from chassis to SP1.5 joins chassis to grid and leaves R2.2 free"],
    ),
    "the same slip of a lead, and a lead that hangs free somewhere else: two": (
        STAGES,
        """
        strip SP1 5 lugs foot 3
        strip SP2 5 lugs foot 3
        move R2.2 to SP2.1
        at SP1.5: R1.1
        wire chassis to SP1.5 black
        """,
        ["R2.2 is alone on SP2.1; it belongs on the chassis", "grid is joined to chassis by the black wire"],
    ),
    "coils that are the only leads of their nets": (
        COILS,
        """
        lift L1.1
        lift L2.1
        at AG1.1: L2.1
        at R2.1: L1.1
        """,
        ["L1.1 and L2.1 changed places"],
    ),
    "a bridge with nine lamps across it": (
        HEATERS,
        f"""
        wire T1.green-a to {_chain(1)} green
        wire T1.green-b to {_chain(2)} black
        wire T1.green-b to chassis
        wire LM4.1 to LM5.2 bare
        """,
        ["heaters is joined to chassis by the bare wire from LM4.1 to LM5.2"],
    ),
    "a fuse with both ends on one side": (
        LINE,
        """
        strip SP1 3 lugs
        move P1.1 to SP1.1
        fuse F1 1 A inserted "no fuse before"
        at S1.1: F1.1, F1.2
        """,
        ["F1 is inserted but bridged: both its ends are on line-a; P1.1 hangs free"],
    ),
    "two jacks of one kind, which a hand outside tells apart": (
        JACKS,
        """
        lift J1.1
        lift J2.1
        at R1.1: J2.1
        at R2.1: J1.1
        """,
        ["J1 and J2 took each other's place; J1 belongs on mic"],
    ),
    "a strip that is insulated, and a wire from it to a supply: two": (
        STAGES,
        f"""
        strip SP1 5 lugs foot 3 insulated
        {"".join(f"move R{n}.2 to SP1.3{chr(10)}" for n in range(1, 11))}
        wire SP1.3 to R20.2 red
        """,
        [
            "nothing joins SP1.3 (R1.2, R2.2 and 8 more) to the chassis",
            "B+ is joined to chassis by the red wire from SP1.3 to R20.2",
        ],
    ),
}


@pytest.mark.parametrize(("original", "log", "told"), CASES.values(), ids=CASES)
def test_one_slip_is_one_finding(original: str, log: str, told: list[str]) -> None:
    start = 'parts from "original.netck"' if original is HEATERS else 'start from "original.netck"'
    rewired = "\n".join((start, *(line.strip() for line in log.splitlines())))
    report = compared(original, rewired)
    errors = [d.headline for d in report.diagnostics if d.severity is Severity.ERROR]
    assert len(errors) == len(told), errors
    for words in told:
        assert any(words in headline for headline in errors), errors


def test_a_loose_lead_is_told_with_the_two_parts_inserted_side_by_side() -> None:
    log = """
    start from "original.netck"
    resistor R71 10 ohm inserted "to read the cathode current"
    resistor R72 10 ohm inserted "to read the cathode current"
    lift V1.cathode
    lift V2.cathode
    at V1.cathode: R71.1, R72.1
    at chassis: R71.2, R72.2
    """
    (error,) = [d for d in compared(CATHODES, log).diagnostics if d.severity is Severity.ERROR]
    assert error.headline == "V2.8 hangs free; it belongs on the chassis"
    assert error.why.startswith("R71 and R72 are inserted side by side, and one may belong here")
    assert {"V2.8", "R71.1", "R72.1"} <= set(error.touched.leads)
