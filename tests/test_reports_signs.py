"""What is drawn for each act of a mend: which joints come off and go on, and what is left without any of them."""

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.core.panel import Mark
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.graph import CircuitGraph
from netcheck.reports.drawing.whole.signs import changes, signs_of, without
from tests.paper import circuit

CIRCUIT = circuit("""state rewired
strip SP1 4 lugs foot 3
can C20 insulated
section C20A 40 mfd 450 V half-moon
section C20B 20 mfd 450 V square
resistor R1 1k 1 W from SP1.1 to SP1.2
resistor R2 1k 1 W from SP1.2 to SP1.4
resistor R3 1k 1 W
wire SP1.1 to C20.A red 20 AWG
wire SP1.2 to C20.B
net bias: R2.2, C20.can, R3.1
""")
OFF, ON = Mark.OFF, Mark.ON
Signed = tuple[Mark, str, str, str]


def report(*mends: Mend) -> Report:
    """A report with a finding for each mend."""
    place = (Label(Source("a.netck", "x").whole),)
    return Report("compare", "t", ("a",), tuple(Diagnostic("x", Grade.STOP, "h", place, mends=(one,)) for one in mends))


def signs(*mends: Mend) -> list[tuple[int, Signed]]:
    names = [point.name for point in CIRCUIT.points]
    found = signs_of(report(*mends), CircuitGraph(CIRCUIT))
    return [(one.number, (one.mark, names[one.a], names[one.b], one.words)) for one in found]


SIGNS: list[tuple[Act, list[Signed]]] = [
    (Put("R1.2", "SP1.4"), [(OFF, "R1.2", "SP1.2", ""), (ON, "R1.2", "SP1.4", "")]),
    (Lift("R1.1"), [(OFF, "R1.1", "SP1.1", "")]),
    (Lift("R2.2"), [(OFF, "R2.2", "SP1.4", "")]),  # listed under a net too, but soldered to a lug
    (Lift("R3.1"), [(OFF, "R3.1", "bias", "")]),
    (Lift("C20A+"), []),  # inside of the can no iron gets at it
    (Lift("C20.A"), [(OFF, "C20.A", "SP1.1", "red 20 AWG")]),
    (Cut("SP1.1", "C20.A"), [(OFF, "SP1.1", "C20.A", "red 20 AWG")]),
    (Cut("SP1.2", "C20.B"), [(OFF, "SP1.2", "C20.B", "wire")]),
    (Cut("SP1.1", "R1.1"), [(OFF, "SP1.1", "R1.1", "")]),
    (Remove("R1"), [(OFF, "R1.1", "SP1.1", ""), (OFF, "R1.2", "SP1.2", "")]),
    (Remove("C20A"), []),
    (Remove("C99"), []),
    (Solder("R3.2", "SP1.4"), [(ON, "R3.2", "SP1.4", "")]),
    (Wire("SP1.1", "SP1.4", ""), [(ON, "SP1.1", "SP1.4", "wire")]),
    (Wire("SP1.1", "SP1.4", "red"), [(ON, "SP1.1", "SP1.4", "red")]),
    (Bond("C20"), [(ON, "C20.can", "chassis", "bond")]),
    (Insulate("C20"), []),
    (Insulate("SP1"), [(OFF, "SP1.3", "chassis", "bond")]),
    (Change("R1", "2k"), []),
]


@pytest.mark.parametrize(("act", "wanted"), SIGNS, ids=[act.line for act, _ in SIGNS])
def test_an_act_is_drawn_at_the_joints_that_hands_undo_and_make(act: Act, wanted: list[Signed]) -> None:
    assert signs((act,)) == [(1, one) for one in wanted]


def test_a_joint_that_two_findings_name_is_drawn_once_under_the_first() -> None:
    found = signs((Lift("R1.1"),), (Cut("SP1.1", "R1.1"), Solder("R3.2", "SP1.1")))
    assert found == [(1, (OFF, "R1.1", "SP1.1", "")), (2, (ON, "R3.2", "SP1.1", ""))]


def test_only_what_is_changed_or_taken_out_is_marked_itself() -> None:
    found = changes(report((Change("R1", "2k"), Lift("R2.1")), (Remove("R3"),)))
    assert [(one.number, one.part, one.out) for one in found] == [(1, "R1", False), (2, "R3", True)]


# The acts, and which of these are still one: R1.1 on SP1.1, R1.2 on SP1.2, SP1.1 with C20.A, SP1.2 with C20.B.
ONE = (("R1.1", "SP1.1"), ("R1.2", "SP1.2"), ("SP1.1", "C20.A"), ("SP1.2", "C20.B"))
LEFT: list[tuple[tuple[Mend, ...], str]] = [
    (((Put("R1.2", "SP1.4"),),), "1011"),
    (((Lift("R1.1"),),), "0111"),
    (((Cut("SP1.1", "C20.A"),),), "1101"),
    (((Remove("R1"),),), "0011"),
    (((Remove("C20A"), Change("R1", "2k"), Remove("C99")),), "1111"),
    (((Cut("SP1.1", "C20.A"),), (Cut("SP1.1", "C20.A"), Cut("SP1.2", "C20.B"))), "1100"),
    (((Cut("SP1.1", "C20.A"),), (Cut("SP1.1", "C20.A"),)), "1101"),
]


@pytest.mark.parametrize(("mends", "wanted"), LEFT, ids=["put", "lift", "cut", "out", "none", "in part", "twice"])
def test_what_comes_off_is_off_once_and_all_else_stays(mends: tuple[Mend, ...], wanted: str) -> None:
    left = without(report(*mends), CIRCUIT)
    assert "".join(str(int(left.net_of(a) == left.net_of(b))) for a, b in ONE) == wanted
    assert left.parts == CIRCUIT.parts


def test_nothing_that_goes_on_is_on_already() -> None:
    left = without(report((Solder("R3.2", "SP1.4"), Wire("SP1.1", "SP1.4", "")), (Bond("C20"),)), CIRCUIT)
    assert left.nets == CIRCUIT.nets
    apart = without(report((Insulate("SP1"),)), CIRCUIT)
    assert apart.net_of("SP1.3") != apart.net_of("chassis") == CIRCUIT.net_of("SP1.3")
