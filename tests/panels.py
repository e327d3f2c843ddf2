"""Panels as the comparison makes them, one for each kind of finding; an invented receiver's places and parts."""

from collections.abc import Mapping

from netcheck.core.panel import Can, End, Line, Lug, Mark, NetCard, Panel, PartBox, Socket, Strip

Marked = Mapping[int, tuple[Mark, str]]


def _lugs(count: int, marked: Marked, foot: int = 0) -> tuple[Lug, ...]:
    plain = (Mark.PLAIN, "")
    return tuple(
        Lug(str(i), marked.get(i, plain)[0], "foot" if i == foot else "", marked.get(i, plain)[1])
        for i in range(1, count + 1)
    )


def strip(name: str, count: int, foot: int, marked: Marked) -> Strip:
    return Strip(name, _lugs(count, marked, foot))


def socket(name: str, type_: str, count: int, marked: Marked) -> Socket:
    return Socket(name, type_, {8: "key", 7: "gap", 9: "gap"}.get(count, ""), _lugs(count, marked))


def _electrode_pins(mark: Mark, electrodes: Mapping[int, str]) -> tuple[Lug, ...]:
    return tuple(Lug(str(i), mark if i in electrodes else Mark.PLAIN, electrodes.get(i, "")) for i in range(1, 8))


def _capacitor(name: str, value: str) -> PartBox:
    return PartBox(name, (value,), (End("-"),))


FLOATING = Panel(
    tops=(
        strip("SP1", 5, 3, {3: (Mark.MAKE, "chassis")}),
        strip("SP3", 5, 2, {5: (Mark.MOVE, "alone")}),
    ),
    parts=tuple(_capacitor(f"C5{i}", "22 mfd 500 V") for i in range(1, 4)),
    lines=tuple(
        line for i in range(3) for line in (Line((1, "5"), (i, "-"), Mark.MOVE), Line((0, "3"), (i, "-"), Mark.MAKE))
    ),
)
BRIDGE = Panel(
    tops=(strip("SP1", 5, 3, {2: (Mark.MOVE, "B+2")}),),
    bottoms=(strip("SP2", 7, 4, {5: (Mark.MOVE, "V5 plate")}),),
    lines=(Line((0, "2"), (0, "5"), Mark.TAKE_OFF, "yellow wire", to_bottom=True),),
)
# Both ends on one strip: the strip once, the wire as a box.
STRAP = Panel(
    tops=(strip("SP2", 7, 4, {3: (Mark.TAKE_OFF, "B+3"), 4: (Mark.TAKE_OFF, "chassis")}),),
    parts=(PartBox("bridge", (), (End("3"), End("4")), Mark.TAKE_OFF, is_joint=True),),
    lines=(Line((0, "3"), (0, "3"), Mark.TAKE_OFF), Line((0, "4"), (0, "4"), Mark.TAKE_OFF)),
)
BACKWARDS = Panel(
    tops=(
        socket("V5", "6V6GT", 8, {8: (Mark.MOVE, "V5 cathode")}),
        strip("SP2", 7, 4, {4: (Mark.MOVE, "chassis")}),
    ),
    parts=(PartBox("C54", ("27 mfd 50 V",), (End("+"), End("-"))),),
    lines=(
        Line((0, "8"), (0, "-"), Mark.MOVE),
        Line((1, "4"), (0, "+"), Mark.MOVE),
        Line((0, "8"), (0, "+"), Mark.MAKE),
        Line((1, "4"), (0, "-"), Mark.MAKE),
    ),
)
WRONG_LUG = Panel(
    tops=(strip("SP2", 7, 4, {6: (Mark.MOVE, "V4 plate"), 7: (Mark.MAKE, "V5 grid")}),),
    parts=(PartBox("C22", (".01 mfd",), (End("1", "V4 plate"), End("2"))),),
    lines=(Line((0, "6"), (0, "2"), Mark.MOVE), Line((0, "7"), (0, "2"), Mark.MAKE)),
)
HANGING = Panel(
    tops=(strip("SP2", 7, 4, {3: (Mark.MAKE, "B+3")}),),
    parts=(PartBox("R17", ("15k",), (End("1"), End("2", "B+4"))),),
    lines=(Line((0, "3"), (0, "1"), Mark.MAKE),),
)
VALUE = Panel(
    parts=(PartBox("C9", (".1 mfd", "is now .01 mfd"), (End("1", "V2 grid"), End("2", "V1 plate")), Mark.VALUE),)
)
LONG_STRIP = Panel(
    tops=(strip("SP9", 24, 3, {12: (Mark.MOVE, "V4 plate with a very long name"), 13: (Mark.MAKE, "V5 grid")}),),
    parts=(PartBox("R1", ("1k",), (End("1", "B+1"), End("2"))),),
    lines=(Line((0, "12"), (0, "2"), Mark.MOVE), Line((0, "13"), (0, "2"), Mark.MAKE)),
)
# The pins away from the gap: the ring goes below the part.
UPPER_PINS = Panel(
    tops=(socket("V3", "12AX7", 9, {4: (Mark.MOVE, "heater"), 5: (Mark.MAKE, "heater tap")}),),
    parts=(PartBox("C3", ("10 mmfd",), (End("1"), End("2", "chassis"))),),
    lines=(Line((0, "4"), (0, "1"), Mark.MOVE), Line((0, "5"), (0, "1"), Mark.MAKE)),
)
MIRRORED = Panel(
    tops=(
        Socket("V2", "as drawn", "gap", _electrode_pins(Mark.MAKE, {1: "grid", 7: "screen"})),
        Socket("V2", "as wired", "gap", _electrode_pins(Mark.MOVE, {1: "screen", 7: "grid"})),
    )
)
CAN = Panel(
    tops=(
        Can(
            "C30",
            (Lug("half-moon", Mark.MOVE, net="B+1"), Lug("square", Mark.MAKE, net="B+2"), Lug("triangle"), Lug("can")),
        ),
    ),
    parts=(PartBox("S2", ("phono",), (End("1"), End("3", "V4 grid"), End("4"))),),
    lines=(Line((0, "half-moon"), (0, "1"), Mark.MOVE), Line((0, "square"), (0, "1"), Mark.MAKE)),
)
SPLIT = Panel(
    tops=(NetCard("B+1", ("C30A+", "V7.8", "L3.1", "R1.1", "R2.2", "R3.1"), 15), NetCard("chassis", (), 57)),
    bottoms=(NetCard("bias", ("R4.1",), 1, Mark.MOVE),),
    lines=(
        Line((0, ""), (0, ""), Mark.TAKE_OFF, "touches", to_bottom=True),
        Line((1, ""), (0, ""), Mark.MAKE, "bond missing", to_bottom=True),
    ),
)
ADDED = Panel(
    tops=(strip("SP2", 7, 4, {3: (Mark.MOVE, "B+3")}), Strip("G1", (Lug("G1", Mark.MOVE, "", "chassis"),))),
    parts=(PartBox("R99", ("15k",), (End("1"), End("2")), Mark.TAKE_OFF),),
    lines=(Line((0, "3"), (0, "1"), Mark.TAKE_OFF), Line((1, "G1"), (0, "2"), Mark.TAKE_OFF)),
)

PANELS: Mapping[str, Panel] = {
    "floating": FLOATING,
    "bridge": BRIDGE,
    "strap": STRAP,
    "backwards": BACKWARDS,
    "wrong-lug": WRONG_LUG,
    "hanging": HANGING,
    "value": VALUE,
    "long-strip": LONG_STRIP,
    "upper-pins": UPPER_PINS,
    "mirrored": MIRRORED,
    "can": CAN,
    "split": SPLIT,
    "added": ADDED,
}
