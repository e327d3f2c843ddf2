"""The small picture of a bridge: two places joined by a line, or one place with the wire as a box under it."""

import pytest

from netcheck.core.panel import Mark, Panel, PartBox, PlaceCard
from tests.paper import compared

ORIGINAL = """
state drawn
resistor R1 470k
resistor R2 22k
capacitor C1 .02 mfd
tube V1 6V6GT
strip SP1 5 lugs foot 3
strip SP2 3 lugs foot 2
can C30 insulated
section C30A half-moon 20 mfd 450 V
section C30B square 20 mfd 450 V
net grid: R1.1, V1.5, SP1.2
net plate: R2.1, V1.3, C1.1, SP1.4, SP2.3
net screen: V1.4, SP1.5, C30A+
net cathode: V1.8, C30B+
net ground: chassis, R1.2, R2.2, C1.2, C30.can
"""

ON_ONE_PLACE = {
    "a wire along a strip": ("wire SP1.2 to SP1.4 yellow", ["SP1"], "yellow wire", ("2", "4")),
    "a wire of no colour": ("wire SP1.2 to SP1.4", ["SP1"], "wire", ("2", "4")),
    "solder between neighbours": ("at SP1.4: SP1.5", ["SP1"], "bridge", ("4", "5")),
    "two pins of a socket": ("wire V1.4 to V1.5 red", ["V1"], "red wire", ("4", "5")),
    "two lugs of a can": ("wire C30.A to C30.B", ["C30"], "wire", ("half-moon", "square")),
}


def _panel(line: str) -> Panel:
    (found,) = compared(ORIGINAL, f'state rewired\nstart from "original.netck"\n{line}\n').diagnostics
    assert found.rule == "extra-connection"
    assert found.panel is not None
    return found.panel


def _names(cards: tuple[PlaceCard, ...]) -> list[str]:
    return [card.name for card in cards]


@pytest.mark.parametrize(("line", "places", "word", "ends"), ON_ONE_PLACE.values(), ids=ON_ONE_PLACE)
def test_a_joint_on_one_place_shows_that_place_once(
    line: str, places: list[str], word: str, ends: tuple[str, str]
) -> None:
    panel = _panel(line)
    assert _names(panel.tops) == places
    assert panel.bottoms == ()
    (box,) = panel.parts
    assert isinstance(box, PartBox)
    assert (box.name, box.is_joint, tuple(end.label for end in box.ends)) == (word, True, ends)
    assert [(x.upper, x.lower, x.mark) for x in panel.lines] == [((0, e), (0, e), Mark.TAKE_OFF) for e in ends]


def test_a_wire_between_two_places_shows_both() -> None:
    panel = _panel("wire SP1.2 to SP2.3 red")
    assert (_names(panel.tops), _names(panel.bottoms), panel.parts) == (["SP1"], ["SP2"], ())
    assert [(x.label, x.to_bottom) for x in panel.lines] == [("red wire", True)]
