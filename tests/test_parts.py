"""Every kind of part: its terminals, what is one point, what is on the chassis, what may change places."""

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import TypedDict, Unpack

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Basing, Features, Pin, Role, Shape, Standing
from netcheck.core.quantity import Dimension, Quantity
from netcheck.parts import KINDS

UNITS: Mapping[str, Dimension] = {
    "ohm": Dimension.RESISTANCE, "k": Dimension.RESISTANCE, "mfd": Dimension.CAPACITANCE, "H": Dimension.INDUCTANCE,
    "mH": Dimension.INDUCTANCE, "V": Dimension.VOLTAGE, "A": Dimension.CURRENT, "mA": Dimension.CURRENT,
    "W": Dimension.POWER, "%": Dimension.TOLERANCE, "lugs": Dimension.LUGS, "pins": Dimension.PINS,
    "wires": Dimension.WIRES, "plates": Dimension.PLATES,
}  # fmt: skip
MEASURE = re.compile(r"(\d*\.?\d+) ?([A-Za-z%]+)(?= |$)")

T1 = (("primary", ("black-a", "black-b")), ("high", ("red-a", "red-yellow", "red-b")))
PHONO = (("radio", (("1", "2"),)), ("phono", (("1", "10"), ("3", "4"))))
MARKS = {"A": "half-moon", "B": "square", "C": "square", "D": ""}


class Members(TypedDict, total=False):  # what other statements say of a part
    basing: Basing
    windings: tuple[tuple[str, tuple[str, ...]], ...]
    positions: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]
    sections: tuple[str, ...]
    marks: Mapping[str, str]
    returns: Mapping[str, str]


ABC: Members = {"sections": ("A", "B", "C", "D"), "marks": MARKS}
OWN = Basing("X99", "", (Pin("1", "grid"), Pin("2", "cathode"), Pin("5", "grid"), Pin("cap", "plate")), Standing.FILE)


def features_of(declaration: str, **members: Unpack[Members]) -> Features:
    """Reads a declaration that is right, as the language does: ``KIND NAME item...``."""
    word, _, rest = declaration.partition(" ")
    kind, rest = KINDS[word], rest.partition(" ")[2]
    quantities = tuple(Quantity((Decimal(m[1]),), UNITS[m[2]], m[0]) for m in MEASURE.finditer(rest) if m[2] in UNITS)
    items = [w for w in MEASURE.sub(lambda m: "" if m[2] in UNITS else m[0], rest).split() if w]
    type_ = items.pop(0) if kind.typed and items else ""
    arguments = {items.pop(at): items.pop(at) for at in range(len(items) - 1, -1, -1) if items[at] in kind.arguments}
    assert {q.dimension for q in quantities} <= kind.dimensions
    assert set(items) <= kind.words
    return Features(quantities, tuple(items), arguments, type_, **members)


def shape_of(declaration: str, **members: Unpack[Members]) -> Shape:
    shape = KINDS[declaration.split(maxsplit=1)[0]].shape(features_of(declaration, **members))
    assert isinstance(shape, Shape), shape
    return shape


def spelled(shape: Shape) -> str:
    """The terminals in order, each with its other names: ``1 A=half-moon``."""
    return " ".join("=".join((t.name, *t.aliases)) for t in shape.terminals)


# Terminals are those of the language's own table.
TERMINALS: list[tuple[str, Members, str]] = [
    ("resistor R41 2.7k 1 W 10%", {}, "1 2"),
    ("candohm R20 6.8k 220 ohm 47 ohm", {}, "1 2 3 4"),
    ("candohm R20 6.8k grounded", {}, "1 2 frame"),
    ("capacitor C14 .01 mfd 400 V paper", {}, "1 2"),
    ("capacitor C14 .01 mfd 400 V paper outer 2", {}, "1 2"),
    ("electrolytic C51 22 mfd 500 V", {}, "+ -"),
    ("can C30 insulated", ABC, "A=half-moon B C D can=-"),
    ("can C30 grounded common-plus", ABC, "A=half-moon B C D can=+"),
    ("can C30 insulated", {**ABC, "returns": {"A": "black", "B": "black", "C": "blue"}},
     "A=half-moon B C D black blue can=-"),
    ("section C30A 20 mfd 450 V half-moon", {}, "+ -"),
    ("section C30A 20 mfd 450 V minus black", {}, "+ -"),
    ("coil L5 2.5 mH", {}, "1 2"),
    ("coil L5 2.5 mH", {"windings": (("main", ("1", "2", "3")),)}, "1 2 3"),
    ("choke L3 12 H", {}, "1 2"),
    ("choke L3 12 H insulated", {}, "1 2 frame"),
    ("transformer T1", {"windings": T1}, "black-a black-b red-a red-yellow red-b"),
    ("transformer T1 grounded", {"windings": T1}, "black-a black-b red-a red-yellow red-b frame=shield"),
    ("selenium CR1 5 plates", {}, "+ -"),
    ("selenium CR1 bridge", {}, "+ - ac-1 ac-2"),
    ("selenium CR1 doubler", {}, "+ - ac"),
    ("selenium CR1 centre-tapped", {}, "+ - ac"),
    ("diode D1", {}, "anode=a cathode=k=band"),
    ("diode D1 1N4007 1000 V 1 A", {}, "anode=a cathode=k=band"),
    ("tube V9 X99", {"basing": OWN}, "1=grid=grid-1 2=cathode 3 4 5 cap=plate=anode"),
    ("pot RV1 500k", {}, "ccw wiper cw"),
    ("pot RV1 500k tapped insulated", {}, "ccw wiper cw tap frame"),
    ("rheostat R30 10 ohm", {}, "1 wiper"),
    ("switch S1", {}, "1 2"),
    ("switch S2 drawn radio", {"positions": PHONO}, "1 2 3 4 10"),
    ("lamp LM1 6.3 V 150 mA", {}, "1 2"),
    ("fuse F1 1 A slow", {}, "1 2"),
    ("battery B1 67.5 V", {}, "+ -"),
    ("speaker LS1 3.2 ohm", {}, "1 2"),
    ("cord P1", {}, "1 2"),
    ("cord P1 2 wires polarized", {}, "hot neutral"),
    ("cord P1 3 wires", {}, "hot neutral earth"),
    ("strip SP1 3 lugs", {}, "1 2 3"),
    ("strip SP1 3 lugs foot 3", {}, "1 2 3=foot"),
    ("lug G1 grounded", {}, "lug"),
    ("plug J1 2 pins", {}, "1 2"),
    ("network PC1 4 pins", {}, "1 2 3 4"),
]  # fmt: skip


@pytest.mark.parametrize(("declaration", "members", "terminals"), TERMINALS)
def test_terminals(declaration: str, members: Members, terminals: str) -> None:
    assert spelled(shape_of(declaration, **members)) == terminals


def test_no_kind_is_left_out_of_the_table() -> None:
    assert {declaration.split()[0] for declaration, _, _ in TERMINALS} == set(KINDS)


# What may change places without a difference: ends without polarity, in common practice of the trade.
FREE: list[tuple[str, Members, tuple[tuple[str, str], ...]]] = [
    *((line, Members(), (("1", "2"),)) for line in (
        "resistor R1", "candohm R1 47 ohm", "capacitor C1 outer 1", "capacitor C1 outer 2", "coil L1",
        "choke L1 grounded", "switch S1", "lamp LM1", "fuse F1", "speaker LS1", "cord P1",
    )),
    *((line, Members(), ()) for line in (
        "candohm R1 47 ohm 47 ohm", "electrolytic C1", "section C1A", "selenium CR1", "selenium CR1 doubler",
        "diode D1", "pot RV1", "battery B1", "cord P1 polarized", "cord P1 3 wires", "strip SP1 2 lugs",
        "plug J1 2 pins", "network PC1 2 pins", "can C30 grounded", "lug G1 grounded",
    )),
    ("selenium CR1 bridge", {}, (("ac-1", "ac-2"),)),
    ("rheostat R30", {}, (("1", "wiper"),)),
    ("transformer T1", {"windings": (("heater", ("green-a", "green-b")),)}, ()),
    ("switch S2", {"positions": (("on", (("4", "3"),)), ("off", ()))}, (("3", "4"),)),
    ("switch S2", {"positions": PHONO}, ()),
]  # fmt: skip


@pytest.mark.parametrize(("declaration", "members", "free"), FREE)
def test_what_may_change_places(declaration: str, members: Members, free: tuple[tuple[str, str], ...]) -> None:
    assert shape_of(declaration, **members).free == free


BONDED: list[tuple[str, Members, tuple[str, ...]]] = [
    ("strip SP1 5 lugs foot 3", {}, ("3",)),
    ("strip SP1 5 lugs foot 3 grounded", {}, ("3",)),
    ("strip SP1 5 lugs foot 3 insulated", {}, ()),
    ("strip SP1 5 lugs", {}, ()),
    ("can C30 grounded", ABC, ("can",)),
    ("can C30 insulated", ABC, ()),
    ("lug G1 grounded", {}, ("lug",)),
    ("lug G1 insulated", {}, ()),
    ("transformer T1 grounded", {"windings": T1}, ("frame",)),
    ("transformer T1 insulated", {"windings": T1}, ()),
    ("choke L3 grounded", {}, ("frame",)),
    ("pot RV1 grounded", {}, ("frame",)),
    ("switch S1 grounded", {}, ("frame",)),
]


@pytest.mark.parametrize(("declaration", "members", "bonded"), BONDED)
def test_what_is_on_the_chassis(declaration: str, members: Members, bonded: tuple[str, ...]) -> None:
    assert shape_of(declaration, **members).bonded == bonded


@pytest.mark.parametrize(
    ("declaration", "polarity"),
    [
        ("electrolytic C1", ("+", "-")),
        ("section C30A", ("+", "-")),
        ("battery B1", ("+", "-")),
        ("selenium CR1", ("+", "-")),  # plus is the cathode end: EIA marking, from memory
        ("selenium CR1 bridge", ("+", "-")),
        ("diode D1", ("cathode", "anode")),
        ("resistor R1", None),
    ],
)
def test_polarity_is_plus_or_cathode_first(declaration: str, polarity: tuple[str, str] | None) -> None:
    assert shape_of(declaration).polarity == polarity


@pytest.mark.parametrize(
    ("declaration", "role"),
    [
        ("strip SP1 3 lugs foot 2", Role.LUG),
        ("can C30 grounded", Role.LUG),
        ("lug G1 grounded", Role.LUG),
        ("network PC1 2 pins", Role.LUG),
        ("plug J1 2 pins", Role.LEAD),
        ("switch S1", Role.LEAD),
    ],
)
def test_roles(declaration: str, role: Role) -> None:
    assert {t.role for t in shape_of(declaration, **ABC).terminals} == {role}


@pytest.mark.parametrize(
    ("declaration", "ordered", "ring"),
    [
        ("strip SP1 3 lugs", "1 2 3", False),
        ("plug J1 3 pins", "1 2 3", False),
        ("can C30 grounded", "A B C D", False),
        ("tube V1 6X4", "1 2 3 4 5 6 7", True),
        ("tube V1 6K7", "1 2 3 4 5 6 7 8", True),  # its cap has no neighbour
        ("resistor R1", "", False),
    ],
)
def test_neighbours(declaration: str, ordered: str, *, ring: bool) -> None:
    shape = shape_of(declaration, **ABC)
    assert (" ".join(shape.ordered), shape.ring) == (ordered, ring)


# (declaration, members, headline of the flaw)
FLAWS: list[tuple[str, Members, str]] = [
    ("candohm R20", {}, "no section of the candohm has a value"),
    ("capacitor C1 outer 3", {}, "no end `3` can be the outer foil"),
    ("can C30", ABC, "a can is `grounded` or `insulated`; the line says neither"),
    ("can C30 grounded insulated", ABC, "it can't be both `grounded` and `insulated`"),
    ("can C30 grounded", {**ABC, "returns": {"A": "can"}}, "a minus lead can't be called `can`"),
    ("can C30 grounded", {**ABC, "returns": {"A": "B"}}, "a minus lead can't be called `B`"),
    ("section C30A half-moon plain", {}, "a section has one mark, not `half-moon` and `plain`"),
    ("transformer T1 grounded", {"windings": (("a", ("frame", "blue")),)},
     "a lead can't be called `frame` where the frame is `grounded`"),
    ("transformer T1 insulated", {"windings": (("a", ("shield", "blue")),)},
     "a lead can't be called `shield` where the frame is `insulated`"),
    ("switch S2 grounded", {"positions": (("on", (("1", "frame"),)),)},
     "a lead can't be called `frame` where the frame is `grounded`"),
    ("selenium CR1 bridge doubler", {}, "a stack is either `bridge` or `doubler`"),
    ("tube V1", {}, "the tube's type is not stated"),
    ("tube V1 6V7GT", {}, "netcheck does not know the base of a `6V7GT`"),
    ("switch S2 drawn tape", {"positions": PHONO}, "the switch has no position `tape`"),
    ("switch S2 drawn on", {}, "a switch without `position` lines is not drawn `on`, but `closed` or `open`"),
    ("cord P1 4 wires", {}, "a line cord can't have `4 wires`"),
    ("strip SP1", {}, "the number of lugs is not stated"),
    ("strip SP1 0 lugs", {}, "a part can't have `0 lugs`"),
    ("strip SP1 2.5 lugs", {}, "a part can't have `2.5 lugs`"),
    ("strip SP1 61 lugs", {}, "a part can't have `61 lugs`"),
    ("strip SP1 3 lugs foot 4", {}, "the strip has no lug `4` that could be its foot"),
    ("strip SP1 3 lugs grounded", {}, "which lug of the strip is grounded is not stated"),
    ("strip SP1 3 lugs foot 1 grounded insulated", {}, "it can't be both `grounded` and `insulated`"),
    ("lug G1", {}, "a lug is `grounded` or `insulated`; the line says neither"),
    ("plug J1", {}, "the number of pins is not stated"),
    ("network PC1", {}, "the number of pins is not stated"),
]  # fmt: skip


@pytest.mark.parametrize(("declaration", "members", "headline"), FLAWS)
def test_flaws_say_what_to_write(declaration: str, members: Members, headline: str) -> None:
    flaw = KINDS[declaration.split(maxsplit=1)[0]].shape(features_of(declaration, **members))
    assert isinstance(flaw, Flaw)
    assert flaw.headline == headline
    assert flaw.help


@pytest.mark.parametrize(
    ("kind", "terminal", "readings"),
    [("diode", sign, ("`.cathode`", "`.anode`")) for sign in "+-"]
    + [("pot", name, ("`.ccw`", "`.wiper`", "`.cw`")) for name in ("1", "2", "3", "left", "right")],
)
def test_a_terminal_with_two_readings_is_refused_with_both(kind: str, terminal: str, readings: tuple[str, ...]) -> None:
    assert all(reading in KINDS[kind].refused[terminal] for reading in readings)
    assert terminal not in spelled(shape_of(f"{kind} X1")).replace("=", " ").split()


@pytest.mark.parametrize("word", KINDS)
def test_the_example_is_right_and_the_registry_names_it(word: str) -> None:
    kind = KINDS[word]
    assert kind.word == word
    assert kind.example.split()[0] == word
    assert any(kind.example.split()[1].startswith(letter) for letter in kind.letters)
    assert shape_of(kind.example).terminals or word == "transformer"
    assert kind.repeated <= kind.dimensions
    assert kind.principal is None or kind.principal in kind.dimensions
    assert not kind.words & kind.arguments


@given(
    st.sampled_from(sorted(KINDS)),
    st.lists(st.sampled_from(sorted(set().union(*(kind.words for kind in KINDS.values())))), max_size=3),
    st.integers(-1, 70),
    st.dictionaries(st.sampled_from("ABCD"), st.sampled_from(["black", "blue", "A", "can"]), max_size=3),
)
def test_any_shape_speaks_of_its_own_terminals(
    word: str, words: list[str], count: int, returns: dict[str, str]
) -> None:
    counts = tuple(Quantity((Decimal(count),), d, str(count)) for d in (Dimension.LUGS, Dimension.PINS))
    members: Members = {**ABC, "windings": T1, "positions": PHONO, "returns": returns}
    features = Features(counts, tuple(words), {"foot": "2"}, "6SN7", **members)
    shape = KINDS[word].shape(features)
    if isinstance(shape, Flaw):
        assert shape.headline
        return
    names = [t.name for t in shape.terminals]
    called = [word for t in shape.terminals for word in (t.name, *t.aliases)]
    groups = (*shape.tied, *shape.free, shape.bonded, shape.ordered, shape.polarity or ())
    assert len(called) == len(set(called))
    assert all(set(group) <= set(names) for group in groups)
