"""The power-up as it is printed, word for word: what is known of a set, what is known in part, what is not."""

import pytest

from netcheck.bench.power import LinePower
from netcheck.bench.power_sheet import power_tables
from netcheck.bench.power_up import PowerUp, Volts
from netcheck.core.caution import Dangers
from netcheck.core.sheet import Sheet, Table
from netcheck.electrical.table.rows import ChargeRow, Emptying
from netcheck.reports import SHEETS, Style

LINES = (
    Volts("bias", "SP1.5", -30.4, (-18.2, -16.1), None, -46.0, 0.2),
    Volts("B+1", "SP1.1", 300.0, (140.4, 161.0), None, 440.0, 0.1),
    Volts("B+2", "SP1.2", 250.0, (0.2, 132.0), 265.0, 440.0, 0.2, chart_of="V1 plate"),
    Volts("B+3", "SP1.3", None, None, None, 440.0, below=440.0),
    Volts("B+4", "SP1.4", None, (0.0, 9.9), None, None),
    Volts("AVC", "SP2.1", -0.2, (-0.1, 0.0), None, -1.0, little=0.55),
)
ELECTRODES = (
    Volts("V1 plate", "V1.3", 262.0, None, 265.0, 440.0, 0.2),
    Volts("V1 cathode", "V1.8", 9.8, (4.0, 6.1), None, 9.8, 0.5),
    Volts("V2 plate", "V2.3", 262.0, None, 265.0, None, 0.2, chart_of="V1 plate"),
)
CHARGES = (
    ChargeRow("C1", Emptying(474.0, (31.6, 40.0))),
    ChargeRow("C2", Emptying(150.0, (0.3, 0.6))),
    ChargeRow("C3", Emptying(61.0, (0.0, 0.1))),
    ChargeRow("C4", Emptying(300.0, (None, None))),
)
WHOLE = PowerUp(
    "B-",
    "SP1.3",
    117.0,
    LinePower(61.4, 0.656, ()),
    LINES,
    ELECTRODES,
    CHARGES,
    ("V5", "V6"),
    ("F1 1 A slow", "F2 0.5 A"),
)
PART = PowerUp("chassis", "chassis", 117.0, LinePower(18.0, 0.2, ("V3", "LM1")), LINES[1:2], (), (), (), ())
NONE = PowerUp("chassis", "chassis", None, None, (), (), (), (), (), "the file has no `mains` line")

HOT_TELEVISION = """Power-up: first
[ ] Run the set, not the instruments, from a 1:1 isolation transformer; instruments stay earthed.
    Antenna and ground off.
[ ] Filament lamp in series with the line: 75 to 100 W. The set takes about 61 W.
[ ] Half line (variac) with the lamp, only as long as the supply's readings take: a sweep tube
    without drive overheats. Then full line with the lamp; then without it.
[ ] Fuse: 1 to 1.25 A slow, 1.5 to 2 times the running 0.66 A (about). In the file: F1 1 A slow, F2
    0.5 A.
[ ] All tubes in, speaker connected, one hand in your pocket.

Volts to B-, in this order
V5 and V6: a rectifier tube gives nothing until it is hot, and little at half line: there, low or
  no volts are not a fault.
Where the chart has a reading, that is what counts; it had its own meter and line.
* The chart's reading of V1 plate; the same volts belong at B+2, V2 plate.
    point       red    black  half line     half        full line     reading     off at  chart
[ ] bias        SP1.5  SP1.3  -18 to -16 V  __________  -30 V ±20 %   __________  -40 V
[ ] B+1         SP1.1  SP1.3  140 to 161 V  __________  300 V ±10 %   __________  390 V
[ ] B+2         SP1.2  SP1.3  up to 132 V   __________  265 V ±20 %   __________  344 V   265 V*
[ ] B+3         SP1.3  SP1.3                __________  below 440 V   __________
[ ] B+4         SP1.4  SP1.3  up to 9.9 V   __________  not known     __________
[ ] AVC         SP2.1  SP1.3  up to 0.0 V   __________  below 0.55 V  __________
[ ] V1 plate    V1.3   SP1.3                __________  265 V ±20 %   __________  344 V   265 V
[ ] V1 cathode  V1.8   SP1.3  4 to 6.1 V    __________  9.8 V ±50 %   __________  13 V
[ ] V2 plate    V2.3   SP1.3                __________  265 V ±20 %   __________          265 V*

Switch off if
The lamp stays bright for more than three seconds.
A line reads nothing while the one before it has its volts, or a bias line reads nothing: at once.
A line is above its limit in the table.
Smoke, a hiss, a hot can or a red plate; any resistor that smells. Pull the plug first, look
afterwards.

Afterwards, plug out: discharge
Calculated; measure before touching. By hand: 10 kilohm, 5 W, on insulated clips, 30 s a section,
  then measure; never a screwdriver. Look again after a minute: some of the volts come back.
The picture tube, anode: to its own outer coating, through an insulated lead with a resistor in
  it, twice. Wear goggles.
    capacitor  from at most  below 60 V after          measured
[ ] C1         474 V         32 s                      __________
[ ] C2         150 V         1 s                       __________
[ ] C3         61 V          at once                   __________
[ ] C4         300 V         never by itself: by hand  __________
"""

KNOWN_IN_PART = """Power-up: first
[ ] Filament lamp in series with the line: 25 W. The set takes at least 18 W (V3, LM1 not known).
[ ] Half line (variac) with the lamp, all readings; then full line with the lamp; then without it.
[ ] Fuse: 0.315 to 0.4 A slow, 1.5 to 2 times the running 0.20 A (at least). The file has no fuse.
[ ] All tubes in, speaker connected, one hand in your pocket.

Volts to chassis, in this order
    point  red    black    half line     half        full line    reading     off at  chart
[ ] B+1    SP1.1  chassis  140 to 161 V  __________  300 V ±10 %  __________  390 V
"""

UNKNOWN = """Power-up: first
[ ] Filament lamp in series with the line: the file does not say what the set takes; begin with 60
    W.
[ ] Half line (variac) with the lamp, all readings; then full line with the lamp; then without it.
[ ] Fuse: not known, as what the set takes is not. The file has no fuse.
[ ] All tubes in, speaker connected, one hand in your pocket.

Volts: not known
No volts can be computed: the file has no `mains` line.
"""


def printed(tables: tuple[Table, ...]) -> str:
    sheet = Sheet("bench", "Cove 2", "found", ("a.netck",), tables)
    return SHEETS[".txt"](sheet, Style()).partition("by ____________\n\n")[2]


def test_a_whole_sheet_reads_like_this() -> None:
    assert printed(power_tables(WHOLE, Dangers(hot=True, television=True))) == HOT_TELEVISION


@pytest.mark.parametrize(("found", "wanted"), [(PART, KNOWN_IN_PART), (NONE, UNKNOWN)])
def test_what_is_not_known_is_said(found: PowerUp, wanted: str) -> None:
    assert printed(power_tables(found, Dangers())[:2]) == wanted


def test_without_charges_the_hands_are_told_all_the_same() -> None:
    (*_, last) = power_tables(NONE, Dangers(television=True))
    assert last.before[0] == "Discharge every filter capacitor."
    assert "picture tube, anode" in last.before[-1]
