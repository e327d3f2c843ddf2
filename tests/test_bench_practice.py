"""Measuring practice that is written down outside the project, held against the plan of a supply."""

from netcheck.bench.expected import Want
from netcheck.bench.plan import Plan, Step, plan_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SUPPLY = """
state {state}
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 290-0-290 V 180 ohm
winding T1 filament yellow-a yellow-b 5 V 0.2 ohm
winding T1 heater green-a green-b 6.3 V 0.2 ohm
electrolytic C1 20 mfd 450 V
resistor R1 100k 1 W
tube V1 6V6GT
{rectifier}
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high-a: T1.red-a, {plates[0]}
net high-b: T1.red-b, {plates[1]}
net fil-a: T1.yellow-a{filament}
net B+: T1.yellow-b, {cathodes}, C1+, R1.1
net heater: T1.green-b, V1.7
net ground: chassis, T1.green-a, V1.2, T1.red-yellow, C1-, R1.2
"""

TUBE = SUPPLY.format(
    state="drawn", rectifier="tube V2 5Y3GT", plates=("V2.4", "V2.6"), filament=", V2.2", cathodes="V2.8"
)
SILICON = SUPPLY.format(
    state="rewired",
    rectifier="diode D1 1000 V 1 A\ndiode D2 1000 V 1 A",
    plates=("D1.anode", "D2.anode"),
    filament="",
    cathodes="D1.cathode, D2.cathode",
)


def _plan(text: str) -> Plan:
    return plan_of(CircuitGraph(circuit(text)), tubes_in=False)


def _between(found: Plan, one: str, other: str) -> list[Step]:
    nets, name = found.chassis.nets, found.chassis.net_name
    return [s for s in found.steps if s.joint is None and {name(nets[s.red]), name(nets[s.black])} == {one, other}]


def test_heater_pins_read_below_an_ohm_and_the_filament_of_the_rectifier_reads_open_to_the_chassis() -> None:
    """Short-circuit tests of TM 11-6625-353-35: heater pairs below 1 ohm, rectifier filament to chassis infinite.

    Here the filament is B+, so what is read is the bleeder and what the electrolytic leaks: a lower limit, no value.
    """
    found = _plan(TUBE)
    (heater,) = _between(found, "heater", "chassis")
    assert heater.expected.high < 1.0
    for net in ("fil-a", "B+"):
        (row,) = _between(found, net, "chassis")
        # 100k, and side by side with what 20 mfd may leak; it climbs as the capacitor charges (common practice).
        assert 20_000 < row.expected.low < 100_000 < row.expected.high < 125_000
        assert "slow" in row.why
        assert found.chassis.names[row.black] == "chassis"  # the same manual: negative lead to the chassis


def test_silicon_makes_the_winding_conduct_to_b_plus_where_the_tube_was_open() -> None:
    """Common practice: with the rectifier tube pulled nothing leads from the plates to B+; a diode reads both ways."""
    tube, silicon = _plan(TUBE), _plan(SILICON)
    assert not [s for s in tube.steps if s.expected.want is Want.CONDUCTS]
    conducting = [s for s in silicon.steps if s.expected.want is Want.CONDUCTS]
    ends = {(silicon.chassis.names[s.red], silicon.chassis.names[s.black]) for s in conducting}
    assert ends == {("D1.anode", "D1.cathode"), ("D2.anode", "D2.cathode")}
