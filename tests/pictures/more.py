"""Panels of the rarer cards, and whole sheets of an invented receiver."""

import json
import re
from collections.abc import Callable, Mapping
from functools import cache

from netcheck import api
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Put
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
from netcheck.core.report import Accepted, Report
from netcheck.core.source import Source
from netcheck.reports.drawing import DrawnPages, Paper, sheet, underside, whole_sheet
from tests.panels import BACKWARDS, HANGING, MIRRORED, MISSING, ROWS, WRONG_LUG, socket, strip
from tests.paper import compared, reader
from tests.pictures.crowded import CROWDED, CROWDED_DONE

__all__ = ["MORE", "SHEETS"]

OFF, ON, PLAIN = Mark.OFF, Mark.ON, Mark.PLAIN
_LUGS = strip("SP1", 5, 3, {1: "B+2", 2: "AVC line of the first IF", 3: "chassis", 5: "V4 grid"})


def _moves(part: PartBox, *lines: tuple[str, str, Mark], place: Strip | Socket | Can = _LUGS) -> Panel:
    """A part under a place, and lines from its leads to the lugs."""
    return Panel((place, part), tuple(Line((1, lead), (0, lug), mark) for lead, lug, mark in lines))


_CUTS = ("half-moon", "square", "triangle", "plain", "can")
_TURN = Done("rotate C1 one lug", ("C1.A", "C1.B"))
MORE: Mapping[str, Panel] = {
    "lamp": _moves(PartBox("PL1", ("6.3 V", "150 mA"), (End("1"), End("2", "heater")), Form.LAMP), ("1", "5", ON)),
    "choke": _moves(PartBox("L3", ("12 H 300 ohm",), (End("1"), End("2")), Form.COIL), ("1", "1", OFF), ("2", "2", ON)),
    "one lead": _moves(PartBox("ANT1", (), (End("1"),)), ("1", "5", OFF)),
    "no lead": Panel((PartBox("B1", ("90 V",), (), mark=OFF),)),
    "stack the other way round": _moves(
        PartBox("SE1", ("130 V", "100 mA"), (End("-"), End("+")), Form.STACK), ("+", "1", OFF), ("-", "5", ON)
    ),
    "diode with long leads": _moves(
        PartBox("D1", ("1N4007",), (End("cathode side"), End("anode", "line-a")), Form.DIODE), ("cathode side", "1", ON)
    ),
    "control": _moves(
        PartBox("RV1", ("500k", "log"), (End("ccw"), End("wiper"), End("cw", "detector load")), Form.BOX),
        ("ccw", "3", OFF), ("wiper", "5", ON), ("ccw", "1", PLAIN),
    ),
    "transformer under a socket": _moves(
        PartBox(
            "T1", ("power",),
            (End("red-a"), End("red-b", "net-7"), End("green-a", "heater"), End("green-b"), End("shield", "chassis")),
            Form.WINDINGS,
            windings=(
                Winding("high", "290-0-290 V", ("red-a", "red-b")), Winding("heater", "6.3 V", ("green-a", "green-b")),
            ),
        ),
        ("red-a", "4", OFF), ("green-b", "2", ON), ("red-a", "6", ON),
        place=socket("V7", "5Y3GT", 8, {4: "high-a", 6: "high-b", 2: "heater"}),
    ),
    "nets": Panel(
        (
            NetCard("AVC", (), 1), NetCard("B+", (), 4), NetCard("grid", ("V1.1", "R2.1"), 2),
            PartBox("R9", ("1 meg", "1/2 W"), (End("1"), End("2")), Form.RESISTOR),
        ),
        (Line((3, "1"), (0, ""), OFF), Line((3, "2"), (1, ""), OFF), Line((3, "1"), (2, ""), ON)),
    ),
    "chassis under a part": Panel(
        (_LUGS, PartBox("C9", (".05 mfd",), (End("1"), End("2")), Form.CAPACITOR), BareChassis()),
        (Line((1, "1"), (0, "1"), PLAIN), Line((1, "2"), (2, ""), ON)),
    ),
    "cap": _moves(
        PartBox("C5", ("100 mmfd",), (End("1"), End("2", "AVC")), Form.CAPACITOR), ("1", "cap", ON), ("1", "8", OFF),
        place=Socket("V2", "6K7", "key", (*(Lug(str(n)) for n in range(1, 9)), Lug("cap", net="first IF"))),
    ),
    "pin to pin": Panel(
        (socket("V4", "6SQ7", 8, {2: "grid", 5: "diode"}),), (Line((0, "2"), (0, "5"), OFF, "slate wire", "slate"),)
    ),
    "strip to strip": Panel(
        (_LUGS, strip("SP2", 3, 2, {1: "line-a"}), strip("SP3", 3, 2, {3: "B+2"})),
        (
            Line((0, "1"), (1, "1"), ON, "red-white wire", "red-white"), Line((0, "5"), (1, "3"), OFF, "wire", ""),
            Line((1, "1"), (2, "3"), ON, "bare wire", "bare"), Line((0, "4"), (2, "1"), PLAIN, "tan wire", "tan"),
        ),
    ),
    "single lugs": Panel(
        (
            Strip("G1", (Lug("G1", "", "chassis"),)),
            Strip("SP9", tuple(Lug(str(n), "foot" * (n == 9)) for n in range(1, 15))),
            PartBox("R1", ("1k",), (End("1"), End("2")), Form.RESISTOR),
        ),
        (Line((2, "1"), (0, "G1"), OFF), Line((2, "2"), (1, "9"), ON)),
    ),
    "can with every mark": _moves(
        PartBox("R7", ("2.2k",), (End("1"), End("2")), Form.RESISTOR), ("1", "half-moon", OFF), ("2", "plain", ON),
        ("1", "can", ON),
        place=Can("C30", tuple(Lug(name, net=f"B+{n}") for n, name in enumerate(_CUTS))),
    ),
    "turned can": Panel(
        (
            Can("C1", (
                Lug("half-moon", net="B+1", now="B+2", off=(_TURN,)), Lug("square", net="B+2", now="B+1", on=(_TURN,)),
                Lug("triangle", now=" ", on=(_TURN,)), Lug("can", net="chassis"),
            )),
        )
    ),
    "pin at the top": _moves(
        PartBox("R4", ("47 ohm",), (End("1"), End("2")), Form.RESISTOR), ("1", "4", OFF), ("2", "1", ON),
        place=Socket("V3", "6X4", "gap", (Lug("1", "plate", "a"), *(Lug(str(n)) for n in (2, 3)),
                                          Lug("4", "heater", "line-b"), *(Lug(str(n)) for n in (5, 6, 7)))),
    ),
    "winding with nets": _moves(
        PartBox(
            "T3", ("output",), (End("blue", "V5 plate"), End("red", "B+2"), End("green", "voice"), End("black")),
            Form.WINDINGS,
            windings=(Winding("primary", "180 ohm", ("blue", "red")), Winding("secondary", "", ("green", "black"))),
        ),
        ("blue", "1", OFF), ("blue", "2", ON), ("green", "5", PLAIN),
    ),
    "two strips and a part": Panel(
        (_LUGS, strip("SP2", 3, 2, {1: "line-a"}), PartBox("C9", (".05 mfd",), (End("1"), End("2")), Form.CAPACITOR)),
        (Line((0, "4"), (1, "1"), OFF, "red wire", "red"), Line((2, "1"), (0, "1"), OFF), Line((2, "2"), (0, "5"), ON)),
    ),
    "fuse": Panel(
        (
            PartBox("F1", ("1 A", "250 V"), (End("1"), End("2", "line-b")), Form.FUSE, ON, done=Done("mend", ("F1",))),
            PartBox("SW1", (), (End("1"), End("2")), Form.BOX, OFF),
        ),
        (Line((0, "1"), (1, "2"), ON),),
    ),
    "without orders": Panel(
        (
            Socket(
                "V2", "6AL5", "gap",
                tuple(Lug(str(n), net="grid" * (n == 2), now="plate" * (n == 3)) for n in range(1, 8)),
            ),
        ),
    ),
}  # fmt: skip

_A, _B = Source("original.netck", "tube V1 6J5\n"), Source("rewired.netck", "tube V1 6J5\nresistor R1 1k\n")
_LEAST, _MORE = Label(_A.whole, ""), Label(_B.whole, "it is here")


def _found(rule: str, grade: Grade, headline: str, do: str, panel: Panel | None = None) -> Diagnostic:
    return Diagnostic(rule, grade, headline, (_MORE, _LEAST), do=do, panel=panel)


_VALUES = Panel(
    values=(
        Value("C9 (in place of C8)", ".01 mfd", ".1 mfd", "fit .1 mfd, 400 V or more"),
        Value("R1", "1k", "2.2k", "", Done("change R1", ("R1",))),
    )
)
_NAMED = Panel(rows=(LeadRow("V1.3", "", "plate"), LeadRow("V1.5", "grid", "")))
_CLOSING = ("compared: 189 leads of 67 parts on 41 nets", "NOT CHECKED: 12 of 40 joints are copied")
_CAUTIONS = ("Metal of this set can be at line voltage.", "Discharge every filter capacitor first.")
_MANY = Report(
    "draw", "Cove 2", ("original.netck", "rewired.netck"),
    (
        _found("lead-on-wrong-net", Grade.STOP, "`C22.2` is on SP2.6; it belongs on SP2.7", "move it", WRONG_LUG),
        _found("leads-exchanged", Grade.STOP, "the leads of C54 are exchanged", "turn C54 round", BACKWARDS),
        _found("part-missing", Grade.LOOK, "L3 is missing", "put L3 in", MISSING),
        _found("pins-mirrored", Grade.LOOK, "`V2` is wired as if seen from above", "turn every lead of V2", MIRRORED),
        _found("part-added", Grade.NOTE, "R17 hangs by one end", "put it on", HANGING),
        _found("floating-ground", Grade.STOP, "twenty leads are on a lug that is no ground", "bond it", ROWS),
        _found("stays-charged", Grade.NOTE, "the filter stays charged", "fit a bleeder"),
        _found("value-changed", Grade.LOOK, "two values differ", "fit what was there", _VALUES),
        _found("renamed", Grade.NOTE, "grid", "leave it", _NAMED),
    ),
    (Accepted(_found("renamed", Grade.NOTE, "AVC is called avc", ""), "his hand"),), _CLOSING, unchecked=_CLOSING[1:],
    cautions=_CAUTIONS,
)  # fmt: skip
_CLEAN = Report("draw", "Cove 2", ("a.netck", "b.netck"), (), (), _CLOSING, unchecked=_CLOSING[1:], cautions=_CAUTIONS)

PLACED = """title "Cove 2"
state rewired
strip SP1 4 lugs foot 3
strip SP2 3 lugs insulated
tube V1 6V6GT
tube V2 6AU6
tube V3 6X4
can C1 grounded
section C1A 40 mfd 450 V half-moon
section C1B 20 mfd 450 V square
transformer T1
winding T1 primary black-a black-b 117 V
lug G1 grounded
note SP1 "lug 2 is loose in its rivet"
resistor R1 1k from SP1.1 to V1.5
resistor R2 47k from SP1.2 to C1.A
net B+: SP1.4, V1.screen, R2.2, C1.B
wire SP1.4 to SP2.1 red 22 AWG past SP1.3
at SP1.3: V1.1
spare SP2.3 "test point"
place chassis 300 200
place SP1 100 50
place SP2 200 50 turned
place V1 60 120
place V2 150 150
place C1 250 150
place T1 100 150
place V3 62 121
"""
DRAWN = """title "Cove 2"
state drawn
strip SP1 4 lugs foot 3
tube V1 6J5
tube V2 6J5
resistor R1 1k from SP1.1 to V1.8
resistor R2 47k from SP1.2 to V1.3
resistor R3 470k from SP1.4 to SP1.3
capacitor C1 .01 mfd from SP1.2 to SP1.4
wire SP1.1 to V2.8 green
wire SP1.2 to V2.3 red 22 AWG
net grid: V1.5, SP1.4
net heat: V1.heater-1, V2.heater-1
net out: V2.plate, SP1.2
net bias: V2.grid, R4.1
resistor R4 1k
net bias-2: R4.2, V1.8
net ground: chassis, V1.heater-2, V2.heater-2
place SP1 100 50
place V1 60 120
"""
# R1 is on the lug beside, C1 is turned onto the foot, the red wire goes to another pin, R3 is of another value.
DONE = (
    DRAWN.replace("state drawn", "state rewired")
    .replace("R1 1k from SP1.1", "R1 1k from SP1.4")
    .replace("from SP1.2 to SP1.4\nwire", "from SP1.2 to SP1.3\nwire")
    .replace("V2.3 red", "V2.5 red")
    .replace("R3 470k", "R3 4.7k")
)


@cache
def _compared() -> Report:
    return compared(DRAWN, DONE)


def _below(text: str, report: Report | None, paper: Paper) -> DrawnPages:
    state = Source("rewired.netck", text)
    own, places = api.lugs(state, reader({}))
    return underside(report or own, places, paper)


def _whole(paper: Paper) -> DrawnPages:
    state = Source("rewired.netck", DONE)
    graph = api.circuit_of(state, reader({}))
    assert graph is not None
    report = _compared()
    assert any(isinstance(act, Put) for found in report.diagnostics for mend in found.mends for act in mend)
    return whole_sheet(report, graph, laid_in_steps, paper)


def laid_in_steps(dot: str) -> str:
    """Where an engine might put everything: three columns of nodes, lines straight between their middles."""
    sizes = re.findall(r"^\t(k\d+) \[height=([\d.]+) width=([\d.]+)\]", dot, flags=re.MULTILINE)
    step = 50.0 if "rankdir=LR" in dot else 40.0
    tall = step * len(sizes) + 60
    middles = {name: (90 + 165.0 * (n % 3), tall - 40 - step * n) for n, (name, *_) in enumerate(sizes)}
    edges = []
    for a, b, more in re.findall(r"^\t(k\d+) -- (k\d+) \[(.*)\]", dot, flags=re.MULTILINE):
        (x, y), (end, low) = middles[a], middles[b]
        way = " ".join(f"{x + (end - x) * n / 3:.2f},{y + (low - y) * n / 3:.2f}" for n in range(4))
        at = {"lp": f"{(x + end) / 2:.2f},{(y + low) / 2:.2f}"} if "label=" in more else {}
        edges.append({"comment": re.findall(r"comment=(\w+)", more)[0], "pos": f"s,0,0 {way}", **at})
    objects = [{"name": name, "pos": f"{x:.2f},{y:.2f}"} for name, (x, y) in middles.items()]
    return json.dumps({"bb": f"0,0,510,{tall:.2f}", "objects": objects, "edges": edges})


SHEETS: Mapping[str, Callable[[Paper], DrawnPages]] = {
    "findings": lambda paper: sheet(_MANY, paper),
    "nothing found": lambda paper: sheet(_CLEAN, paper),
    "a state from below": lambda paper: _below(PLACED, None, paper),
    "what is to do from below": lambda paper: _below(DONE, _compared(), paper),
    "a crowded chassis from below": lambda paper: _below(CROWDED_DONE, compared(CROWDED, CROWDED_DONE), paper),
    "the whole circuit": _whole,
}
