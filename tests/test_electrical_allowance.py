"""What a part of another value lets into metal is what the whole circuit with that value in it lets in."""

from decimal import Decimal

import pytest
from msgspec.structs import replace

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import MICROFARAD, Dimension, Quantity
from netcheck.electrical.mains.leakage import is_over_with, leaks
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

FED = """mains 117 V 60 Hz
cord P1
switch S1
lug G1 exposed insulated
capacitor C1 .01 mfd 400 V
capacitor C2 .001 mfd 400 V
capacitor C3
diode D1 600 V 1 A
resistor R1 100k
resistor R2 1 meg
net hot: P1.1, S1.1
net switched: S1.2, C1.1, D1.anode
net other: P1.2, R1.1
net ground: chassis, C1.2, R1.2, C2.1, C3.1
net made: D1.cathode, R2.1
net shell: C2.2, R2.2, G1
net free: C3.2
"""
SIZES = (".000001", ".00047", ".0015", ".0047", ".0068", ".022", ".1")


def of_size(part: Part, size: str) -> Part:
    said = Quantity((Decimal(size) * MICROFARAD,), Dimension.CAPACITANCE, size)
    return replace(part, features=replace(part.features, quantities=(said,)))


@pytest.mark.parametrize("mains", ["117 V 60 Hz", "230 V 50 Hz", "117 V DC"])
def test_one_value_in_the_place_of_another(mains: str) -> None:
    paper = circuit(FED.replace("117 V 60 Hz", mains))
    told = set()
    for part in (p for p in paper.parts.values() if p.kind.family is Family.CAPACITOR):
        for size in SIZES:
            changed = of_size(part, size)
            whole = CircuitGraph(replace(paper, parts={**paper.parts, part.name: changed}))
            for leak in leaks(whole):
                said = is_over_with(CircuitGraph(paper), leak.metal, changed)
                assert said is leak.is_over, (part.name, size, leak)
                told.add(said)
    assert told == {True, False}
