"""Panels as the comparison makes them, one for each kind of finding; an invented receiver's places and parts."""

from collections.abc import Mapping

from netcheck.core.panel import (
    BareChassis,
    Can,
    Done,
    End,
    Form,
    LeadRow,
    Line,
    Lug,
    Mark,
    NetCard,
    Panel,
    PartBox,
    Socket,
    Strip,
    Value,
    Winding,
)

OFF, ON = Mark.OFF, Mark.ON


def _lugs(count: int, nets: Mapping[int, str], foot: int = 0) -> tuple[Lug, ...]:
    return tuple(Lug(str(i), "foot" if i == foot else "", nets.get(i, "")) for i in range(1, count + 1))


def strip(name: str, count: int, foot: int, nets: Mapping[int, str]) -> Strip:
    return Strip(name, _lugs(count, nets, foot))


def socket(name: str, type_: str, count: int, nets: Mapping[int, str]) -> Socket:
    return Socket(name, type_, {8: "key", 7: "gap", 9: "gap"}.get(count, ""), _lugs(count, nets))


def _electrolytic(name: str, value: str, plus: str = "", minus: str = "") -> PartBox:
    return PartBox(name, (value,), (End("+", plus), End("-", minus)), Form.ELECTROLYTIC)


FLOATING = Panel(
    cards=(
        strip("SP1", 5, 3, {3: "chassis"}),
        strip("SP3", 5, 2, {5: "alone"}),
        *(_electrolytic(f"C5{i}", "22 mfd 500 V", f"B+{i}") for i in range(1, 4)),
    ),
    lines=tuple(line for i in (2, 3, 4) for line in (Line((i, "-"), (1, "5"), OFF), Line((i, "-"), (0, "3"), ON))),
)
BRIDGE = Panel(
    cards=(strip("SP1", 5, 3, {2: "B+2"}), strip("SP2", 7, 4, {5: "V5 plate"})),
    lines=(
        Line((0, "2"), (1, "5"), OFF, "yellow wire", "yellow 22 AWG", Done("cut SP1.2 to SP2.5", ("SP1.2", "SP2.5"))),
    ),
)
# Both ends on one strip: the strip once, the wire under it.
STRAP = Panel(
    cards=(strip("SP2", 7, 4, {3: "B+3", 4: "chassis"}),),
    lines=(Line((0, "3"), (0, "4"), OFF, "red wire", "red"),),
)
BACKWARDS = Panel(
    cards=(
        socket("V5", "6V6GT", 8, {8: "V5 cathode"}),
        strip("SP2", 7, 4, {4: "chassis"}),
        _electrolytic("C54", "27 mfd 50 V"),
    ),
    lines=(
        Line((2, "-"), (0, "8"), OFF),
        Line((2, "+"), (1, "4"), OFF),
        Line((2, "+"), (0, "8"), ON),
        Line((2, "-"), (1, "4"), ON),
    ),
)
WRONG_LUG = Panel(
    cards=(
        strip("SP2", 7, 4, {6: "V4 plate", 7: "V5 grid"}),
        PartBox("C22", (".01 mfd",), (End("1", "V4 plate"), End("2")), Form.CAPACITOR),
    ),
    lines=(
        Line((1, "2"), (0, "6"), OFF, done=Done("move C22.2 to SP2.7", ("C22.2", "SP2.6"))),
        Line((1, "2"), (0, "7"), ON, done=Done("move C22.2 to SP2.7", ("C22.2", "SP2.7"))),
    ),
)
HANGING = Panel(
    cards=(
        strip("SP2", 7, 4, {3: "B+3"}),
        PartBox("R17", ("15k",), (End("1"), End("2", "B+4")), Form.RESISTOR),
    ),
    lines=(Line((1, "1"), (0, "3"), ON),),
)
WRONG_PIN = Panel(
    cards=(strip("SP2", 5, 3, {1: "grid-5"}), socket("V5", "6V6GT", 8, {4: "screen", 5: "grid-5"})),
    lines=(
        Line((0, "1"), (1, "4"), OFF, "green wire", "green"),
        Line((0, "1"), (1, "5"), ON, "green wire", "green"),
    ),
)
VALUE = Panel(values=(Value("C9", ".01 mfd", ".1 mfd", "fit .1 mfd"),))
LONG_STRIP = Panel(
    cards=(
        strip("SP9", 24, 3, {12: "V4 plate with a very long name", 13: "V5 grid"}),
        PartBox("R1", ("1k",), (End("1", "B+1"), End("2")), Form.RESISTOR),
    ),
    lines=(Line((1, "2"), (0, "12"), OFF), Line((1, "2"), (0, "13"), ON)),
)
# The pins away from the gap.
UPPER_PINS = Panel(
    cards=(
        socket("V3", "12AX7", 9, {4: "heater", 5: "heater tap"}),
        PartBox("C3", ("10 mmfd",), (End("1"), End("2", "chassis")), Form.CAPACITOR),
    ),
    lines=(Line((1, "1"), (0, "4"), OFF), Line((1, "1"), (0, "5"), ON)),
)
# A tapped resistor whose first lug is bridged to its last.
BRIDGED_PART = Panel(
    cards=(
        strip("SP2", 5, 3, {1: "B+2"}),
        PartBox("R20", ("1k 2.2k 8.2k",), (End("1"), End("4")), Form.RESISTOR),
    ),
    lines=(Line((1, "1"), (1, "4"), OFF), Line((1, "1"), (0, "2"), ON)),
)
# The same without another card, in which no side is taken.
BRIDGED_ALONE = Panel(
    cards=(PartBox("R20", ("1k 2.2k 8.2k",), (End("1"), End("4")), Form.RESISTOR),),
    lines=(Line((0, "1"), (0, "4"), OFF),),
)
_MOVED = Done("move R2.1 to V2.7", ("V2.1",))
MIRRORED = Panel(
    cards=(
        Socket(
            "V2",
            "12AV6",
            "gap",
            tuple(
                Lug(
                    str(i),
                    net=f"net-{i}",
                    now=f"net-{8 - i}" if i != 4 else "",
                    off=(_MOVED,) if i in (1, 2, 3) else (),
                    on=(_MOVED,) if i in (5, 6, 7) else (),
                )
                for i in range(1, 8)
            ),
        ),
    )
)
MIRRORED_STRIP = Panel(
    cards=(
        Strip(
            "SP4",
            tuple(Lug(str(i), net=f"grid-{i}", now=f"plate-{7 - i}", off=(_MOVED,)) for i in range(1, 7)),
        ),
    )
)
_CAN_LUGS = (Lug("half-moon", net="B+1"), Lug("square", net="B+2"), Lug("triangle", net="B+3"), Lug("can", net="minus"))
CAN = Panel(
    cards=(Can("C30", _CAN_LUGS), *(_electrolytic(f"C5{i}", "22 mfd 500 V", minus="minus") for i in (1, 2, 3))),
    lines=tuple(
        line
        for i, (now, right) in enumerate(
            zip(("half-moon", "square", "triangle"), ("square", "triangle", "half-moon"), strict=True), 1
        )
        for line in (Line((i, "+"), (0, now), OFF), Line((i, "+"), (0, right), ON))
    ),
)
BONDED = Panel(cards=(Can("C30", _CAN_LUGS), BareChassis()), lines=(Line((0, "can"), (1, ""), OFF, "bond"),))
SPLIT = Panel(
    cards=(
        NetCard("B+1", ("C30A+", "V7.8", "L3.1", "R1.1", "R2.2", "R3.1"), 15),
        PartBox("R4", ("1k",), (End("1"), End("2", "bias"))),
    ),
    lines=(Line((1, "1"), (0, ""), OFF),),
)
REMOVED = Panel(
    cards=(
        PartBox("R99", ("15k",), (End("1"), End("2")), Form.RESISTOR, OFF, done=Done("remove R99", ("R99",))),
        strip("SP2", 7, 4, {3: "B+3"}),
        Strip("G1", (Lug("G1", "", "chassis"),)),
    ),
    lines=(
        Line((0, "1"), (1, "3"), OFF, done=Done("remove R99", ("R99.1", "SP2.3"))),
        Line((0, "2"), (2, "G1"), OFF, done=Done("remove R99", ("R99.2", "G1"))),
    ),
)
MISSING = Panel(cards=(PartBox("L3", ("12 H",), (End("1", "B+1"), End("2", "B+2")), Form.COIL, ON),))
_HIGH = Winding("high", "290-0-290 V 180 ohm", ("red-a", "red-yellow", "red-b"))
RECTIFIER = Panel(
    cards=(
        PartBox(
            "T1", ("power",), (End("red-a"), End("red-yellow", "minus"), End("red-b")), Form.WINDINGS, windings=(_HIGH,)
        ),
        socket("V7", "5Y3GT", 8, {4: "high-a", 6: "high-b"}),
    ),
    lines=(
        Line((0, "red-a"), (1, "6"), OFF),
        Line((0, "red-b"), (1, "4"), OFF),
        Line((0, "red-a"), (1, "4"), ON),
        Line((0, "red-b"), (1, "6"), ON),
    ),
)
SELENIUM = Panel(
    cards=(
        PartBox("CR1", ("130 V 100 mA",), (End("+"), End("-", "line-a")), Form.STACK),
        PartBox("D1", ("1N4007",), (End("cathode"), End("anode", "line-a")), Form.DIODE),
        PartBox("F1", ("1 A",), (End("1"), End("2", "line-b")), Form.FUSE),
        strip("SP1", 3, 2, {1: "B+1", 3: "B+2"}),
    ),
    lines=(Line((0, "+"), (3, "1"), OFF), Line((1, "cathode"), (3, "3"), ON), Line((2, "1"), (3, "3"), ON)),
)
ROWS = Panel(
    rows=tuple(
        LeadRow(
            f"C{i}-",
            "SP3.5 (alone)",
            "SP1.3 (chassis)",
            (Done(f"move C{i}- to SP1.3", ("SP3.5",)),),
            (Done(f"move C{i}- to SP1.3", ("SP1.3",)),),
        )
        for i in range(20)
    )
)

PANELS: Mapping[str, Panel] = {
    "floating": FLOATING,
    "bridge": BRIDGE,
    "strap": STRAP,
    "backwards": BACKWARDS,
    "wrong-lug": WRONG_LUG,
    "wrong-pin": WRONG_PIN,
    "hanging": HANGING,
    "value": VALUE,
    "long-strip": LONG_STRIP,
    "upper-pins": UPPER_PINS,
    "bridged-part": BRIDGED_PART,
    "bridged-alone": BRIDGED_ALONE,
    "mirrored": MIRRORED,
    "mirrored-strip": MIRRORED_STRIP,
    "can": CAN,
    "bonded": BONDED,
    "split": SPLIT,
    "removed": REMOVED,
    "missing": MISSING,
    "rectifier": RECTIFIER,
    "selenium": SELENIUM,
    "rows": ROWS,
}
