"""What one hand did is told as one finding, where nets alone would leave it open."""

import pytest

from netcheck.core.diagnostic import Grade
from tests.cathodes import CATHODES
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


JACKS = """
plug J1 2 pins "microphone"
plug J2 2 pins "phonograph"
resistor R1 1 meg
resistor R2 470k
net mic: J1.1, R1.1
net phono: J2.1, R2.1
net ground: chassis, J1.2, J2.2, R1.2, R2.2
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
    "two jacks of one kind, which a hand outside tells apart": (
        JACKS,
        """
        lift J1.1
        lift J2.1
        at R1.1: J2.1
        at R2.1: J1.1
        """,
        ["J1 and J2 changed places; J1 belongs on mic"],
    ),
    "a strip that is insulated, and a wire from it to a supply: two": (
        STAGES,
        f"""
        strip SP1 5 lugs foot 3 insulated
        {"".join(f"move R{n}.2 to SP1.3{chr(10)}" for n in range(1, 11))}
        wire SP1.3 to R20.2 red
        """,
        [
            "SP1.3 with R1.2, R2.2 and 8 more is not connected to the chassis",
            "B+ is joined to chassis by the red wire from SP1.3 to R20.2",
        ],
    ),
    "the same with few leads": (
        STAGES,
        """
        strip SP1 5 lugs foot 3 insulated
        move R1.2 to SP1.3
        move R2.2 to SP1.3
        wire SP1.3 to R20.2 red
        """,
        [
            "SP1.3 with R1.2 and R2.2 is not connected to the chassis",
            "B+ is joined to chassis by the red wire from SP1.3 to R20.2",
        ],
    ),
    "a return on a strip that is insulated by design": (
        STAGES,
        """
        strip SP1 5 lugs foot 3 insulated
        move R20.1 to SP1.foot
        wire SP1.foot to R1.1
        move R2.2 to SP1.foot
        """,
        ["R2.2 is on grid (SP1.3); it belongs on chassis"],
    ),
    "a branch of the chassis cut off, and a wire from it to a supply: two": (
        STAGES,
        f"""
        strip SP1 5 lugs
        {"".join(f"move R{n}.2 to SP1.2{chr(10)}" for n in range(1, 8))}
        wire R1.2 to R20.2 red
        """,
        ["R1.2, R2.2", "B+ is joined to chassis by the red wire from R1.2 to R20.2"],
    ),
}


@pytest.mark.parametrize(("original", "log", "told"), CASES.values(), ids=CASES)
def test_one_slip_is_one_finding(original: str, log: str, told: list[str]) -> None:
    start = 'parts from "original.netck"' if original is HEATERS else 'start from "original.netck"'
    rewired = "\n".join((start, *(line.strip() for line in log.splitlines())))
    report = compared(original, rewired)
    errors = [d.headline for d in report.diagnostics if d.grade is Grade.STOP]
    assert len(errors) == len(told), errors
    for words in told:
        assert any(words in headline for headline in errors), errors
