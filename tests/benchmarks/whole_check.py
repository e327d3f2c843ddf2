"""What a whole ``netcheck check`` of a 100-part chassis with its supply costs, beside importing what it may use.

Run it from the project's folder: ``python -m tests.benchmarks.whole_check``.
"""

import statistics
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.whole_run import seconds

PARTS = 100
RUNS = 15
BASELINE = (sys.executable, "-c", "import lark, pint, networkx, numpy")
NOTHING = (sys.executable, "-c", "pass")

# Silicon, a choke, a doubler's worth of lines, cathode bypasses and a chart: every engine has to run.
SUPPLY = """state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 275-0-275 V 150 ohm
diode D1 1000 V 1 A
diode D2 1000 V 1 A
choke L1 8 H 200 ohm
electrolytic C1 40 mfd 600 V
electrolytic C2 40 mfd 600 V
resistor R1 100k 2 W
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high-a: T1.red-a, D1.anode
net high-b: T1.red-b, D2.anode
net B+1: D1.cathode, D2.cathode, C1+, L1.1
net B+2: L1.2, C2+, R1.1
net ground: chassis, T1.red-yellow, C1-, C2-, R1.2
volts B+1 360 V
volts B+2 340 V
draws B+2 40 mA
"""
STAGE = """tube V{n} 6J5
resistor R{n}1 22k 2 W
resistor R{n}2 100k 1/2 W
resistor R{n}3 2.7k 1/2 W
resistor R{n}4 1 meg 1/2 W
electrolytic C{n}1 10 mfd 600 V
electrolytic C{n}2 25 mfd 50 V
capacitor C{n}3 .02 mfd 600 V paper
net B{n}: R{n}1.2, C{n}1+, R{n}2.1
net B+2: R{n}1.1
net plate{n}: R{n}2.2, V{n}.plate, C{n}3.1
net cathode{n}: V{n}.cathode, R{n}3.1, C{n}2+
net grid{n}: V{n}.grid, R{n}4.1
net ground: C{n}1-, C{n}2-, C{n}3.2, R{n}3.2, R{n}4.2, V{n}.heater-1, V{n}.heater-2
"""
SUPPLY_PARTS, STAGE_PARTS = 9, 8


def main() -> None:
    """Interleaves the runs, so that a busy machine slows all of them alike, and prints the medians."""
    stages = -(-(PARTS - SUPPLY_PARTS) // STAGE_PARTS)
    with tempfile.TemporaryDirectory() as folder:
        chassis = Path(folder) / "chassis.netck"
        chassis.write_text(SUPPLY + "".join(STAGE.format(n=n) for n in range(1, stages + 1)), encoding="utf-8")
        whole = (sys.executable, "-m", "netcheck", "check", str(chassis))
        kinds = (whole, BASELINE, NOTHING)
        for argv in kinds:  # the first run compiles and fills the disk's cache
            seconds(argv, 0)
        times = [[seconds(argv, 0) for argv in kinds] for _ in range(RUNS)]
    run, baseline, nothing = (statistics.median(column) for column in zip(*times, strict=True))
    parts = SUPPLY_PARTS + stages * STAGE_PARTS
    sys.stdout.write(
        f"netcheck check, {parts} parts    {run * 1000:6.0f} ms\n"
        f"importing the libraries      {baseline * 1000:6.0f} ms\n"
        f"python alone                 {nothing * 1000:6.0f} ms\n"
        f"ratio                        {run / baseline:6.2f}   (median of {RUNS} interleaved runs)\n"
    )


if __name__ == "__main__":
    main()
