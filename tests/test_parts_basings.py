"""The table of basings against outside facts, and the tube's shape that follows from a basing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Basing, Features, Pin, Role, Shape, Standing
from netcheck.parts import KINDS, SOCKET
from netcheck.parts.basings import basing_of

# What the electrodes are called in the facts, pin by pin: F and H are both heaters here, NC and - are no electrode.
NAMES = {
    "NC": "", "-": "", "IC": "", "S": "shell", "H1": "heater-1", "H2": "heater-2", "HT": "heater-tap", "P": "plate",
    "P1": "plate-1", "P2": "plate-2", "Pa": "plate-a", "Pb": "plate-b", "K": "cathode", "Ka": "cathode-a",
    "Kb": "cathode-b", "G1": "grid", "Ga": "grid-a", "Gb": "grid-b", "G2": "screen", "G3": "grid-3", "G5": "grid-5",
    "Su": "suppressor", "D1": "diode-1", "D2": "diode-2",
}  # fmt: skip

MEMORY = "from memory, as in the receiving-tube manuals"
# (types, base, pins in order and the cap, source)
FACTS: list[tuple[str, str, str, str]] = [
    ("5U4G 5Y3GT", "5T", "NC H1 - P2 - P1 - H2", "emissionlabs.com EML5U4G: filament 8+2, anodes 4+6; 5Y3 from memory"),
    ("5R4GY", "5T", "NC H1 NC P2 NC P1 NC H2", "tubeofile.com 5R4: plates on 4 and 6, none on 1 3 5 7"),
    ("80", "4C", "H1 P2 P1 H2", MEMORY),
    ("6X4 12X4", "5BS", "P2 NC H1 H2 NC P1 K", "pins 1 to 3: tubeofile.com 12X4; the rest from memory"),
    ("6X5GT", "6S", "NC H1 P1 - P2 - H2 K", MEMORY),
    ("35Z5GT", "6AD", "NC H1 HT - P - H2 K", MEMORY),
    ("35W4", "5BQ", "NC NC H1 H2 P HT K", MEMORY),
    ("6V6GT 50L6GT 35L6GT", "7AC", "NC H1 P G2 G1 - H2 K", "6V6 pins 4 5 6 8: boothillamps.com; the rest from memory"),
    ("6L6G", "7AC", "NC H1 P G2 G1 NC H2 K", "Wikipedia, 6L6"),
    ("6L6", "7AC", "S H1 P G2 G1 NC H2 K", "Wikipedia, 6L6; pin 1 is the shell of the metal tube"),
    ("50C5 35C5", "7CV", "K G1 H1 H2 G1 G2 P", MEMORY),
    ("50B5 35B5", "7BZ", "G1 K H1 H2 P G2 G1", MEMORY),
    ("12BE6 6BE6 6BY6", "7CH", "G1 K H1 H2 P G2 G3", "tubeofile.com 6BY6, of the same base"),
    ("12BA6 6BA6 6AU6", "7BK", "G1 Su H1 H2 P G2 K", MEMORY),
    ("12AV6 6AV6 6AT6", "7BT", "G1 K H1 H2 D2 D1 P", MEMORY),
    ("6SQ7 12SQ7", "8Q", "S G1 K D2 D1 P H1 H2", MEMORY),
    ("6SK7 12SK7", "8N", "S H1 Su G1 K G2 H2 P", MEMORY),
    ("6SJ7", "8N", "S H1 Su G1 K G2 H2 P", "tubeofile.com 6SJ7: pin 1 shell, pin 3 suppressor"),
    ("6SA7 12SA7", "8R", "G5 H1 P G2 G1 K H2 G3", MEMORY),
    ("6SN7GT 6SL7GT", "8BD", "Gb Pb Kb Ga Pa Ka H1 H2", "base: articles on the 6SN7; the rest from memory"),
    ("6J5", "6Q", "S H1 P - G1 - H2 K", MEMORY),
    ("6K7", "7R", "S H1 P G2 Su - H2 K G1", MEMORY),
    ("6H6", "7Q", "S H1 Pb Kb Pa - H2 Ka", MEMORY),
    ("12AX7 12AU7 12AT7", "9A", "Pb Gb Kb H1 H2 Pa Ga Ka HT", "guitarkitbuilder.com; electronics-notes.com pin table"),
    ("6BQ5 EL84", "9CV", "IC G1 K H1 H2 IC P IC G2", MEMORY),
    ("0A2 0B2", "5BO", "P K IC K P IC K", "anodes 1 5, cathodes 2 4 7: a published regulated supply; the rest memory"),
]  # fmt: skip


def shape_of(type_: str) -> Shape:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert isinstance(shape, Shape), shape
    return shape


def pins_of(type_: str, role: Role) -> set[str]:
    return {t.name for t in shape_of(type_).terminals if t.role is role}


@pytest.mark.parametrize(
    ("type_", "base", "pins"), [(type_, base, pins) for types, base, pins, _ in FACTS for type_ in types.split()]
)
def test_basings_of_the_books(type_: str, base: str, pins: str) -> None:
    basing = basing_of(type_)
    assert basing is not None
    assert basing.base == base
    assert [t.electrode for t in shape_of(type_).terminals] == [NAMES[pin] for pin in pins.split()]


# Heater pins as wired in published circuits: a 50 W amplifier, and the 12BH7 and 12AZ7 pages of tubeofile.com.
@pytest.mark.parametrize(
    ("type_", "pins"),
    [
        ("6L6", "2 7"), ("6SN7GT", "7 8"), ("6BH6", "3 4"), ("12AX7", "4 5 9"), ("12BH7", "4 5 9"), ("12AZ7", "4 5 9"),
    ],
)  # fmt: skip
def test_heater_pins_of_published_circuits(type_: str, pins: str) -> None:
    heaters = [t.name for t in shape_of(type_).terminals if t.electrode.startswith("heater")]
    assert " ".join(heaters) == pins


# Internal connections: EZ40 by tubeofile.com ("do not ground or connect externally"), the others by the pin table of
# electronics-notes.com, which also has pin 4 of the DL94 and DL96 as really not connected.
@pytest.mark.parametrize(
    ("type_", "pins", "role"),
    [
        ("EZ40", "3 4 5", Role.INTERNAL_PIN),
        ("DF91", "4", Role.INTERNAL_PIN),
        ("AZ41", "1 3 4 5", Role.INTERNAL_PIN),
        ("EL84", "1 6 8", Role.INTERNAL_PIN),
        ("DL94", "4", Role.SPARE_PIN),
        ("DL96", "4", Role.SPARE_PIN),
        ("6V6GT", "1 6", Role.SPARE_PIN),  # pin 6 carries a grid stopper in practice: boothillamps.com
        ("6SJ7", "1", Role.SHELL),  # tubeofile.com 6SJ7
    ],
)
def test_pins_without_an_electrode(type_: str, pins: str, role: Role) -> None:
    assert pins_of(type_, role) == set(pins.split())


# Interchangeable ends in common practice: heater ends unless tapped or on the cathode, plates of one full-wave
# rectifier, diode plates of one cathode.
@pytest.mark.parametrize(
    ("type_", "free"),
    [
        ("5Y3GT", "2-8 6-4"),
        ("6X4", "3-4 6-1"),
        ("6SQ7", "7-8 5-4"),
        ("6V6GT", "2-7"),
        ("6H6", "2-7"),  # its diodes have cathodes of their own
        ("12AX7", ""),
        ("35Z5GT", ""),
        ("35W4", ""),
        ("5V4G", "6-4"),  # the cathode sits on heater pin 8
        ("1T4", ""),  # grid 3 sits on one end of the filament
        ("0A2", ""),
    ],
)
def test_pins_that_may_change_places(type_: str, free: str) -> None:
    assert " ".join("-".join(pair) for pair in shape_of(type_).free) == free


@pytest.mark.parametrize(
    ("type_", "tied"), [("50C5", "2-5"), ("6AQ5", "1-7"), ("0A2", "1-5 2-4-7"), ("0D3", "3-7"), ("6SN7GT", "")]
)
def test_pins_of_one_electrode_are_one_point(type_: str, tied: str) -> None:
    assert " ".join("-".join(group) for group in shape_of(type_).tied) == tied


@pytest.mark.parametrize(
    ("type_", "word", "pin"),
    [
        ("6V6GT", "grid", "5"), ("6V6GT", "grid-1", "5"), ("6V6GT", "screen", "4"), ("6V6GT", "grid-2", "4"),
        ("6V6GT", "cathode", "8"), ("50C5", "grid", "2"), ("6K7", "grid", "cap"), ("6SK7", "grid-3", "3"),
        ("6SA7", "shell", "1"), ("6SA7", "grid-3", "8"), ("6SA7", "grid-4", "4"), ("6BE6", "grid-5", "2"),
        ("12AX7", "plate-a", "6"), ("12AX7", "plate-b", "1"), ("12AX7", "anode-a", "6"), ("12AX7", "grid-1-b", "2"),
        ("6SN7GT", "cathode-a", "6"), ("6SN7GT", "cathode-b", "3"), ("12AX7", "heater-tap", "9"),
        ("5Y3GT", "filament-2", "8"), ("5V4G", "cathode", "8"), ("6A8", "grid-2", "6"), ("6SQ7", "diode-1", "5"),
    ],
)  # fmt: skip
def test_an_electrode_by_its_names(type_: str, word: str, pin: str) -> None:
    assert [t.name for t in shape_of(type_).terminals if word in t.aliases] == [pin]


@pytest.mark.parametrize("spelled", ["6V6GT", "6V6-GT", "6V6 GT", "VR-XYZ/6V6GT"])
def test_hyphens_blanks_and_double_names(spelled: str) -> None:
    basing = basing_of(spelled)
    assert basing is not None
    assert basing.type == "6V6GT"


@pytest.mark.parametrize("spelled", ["", "-", "/", "6v6gt", "6V6GTX", "cap"])
def test_nothing_else_is_guessed(spelled: str) -> None:
    assert basing_of(spelled) is None


def test_an_unknown_type_names_the_near_ones() -> None:
    flaw = KINDS["tube"].shape(Features(type="6SQ8"))
    assert isinstance(flaw, Flaw)
    assert flaw.help.startswith("did you mean `6SQ7`")
    assert "`basing 6SQ8: " in flaw.help


def test_a_declared_basing_comes_before_the_table() -> None:
    own = Basing("6V6GT", "", (Pin("1", "plate"), Pin("3", "none")), Standing.FILE)
    shape = KINDS["tube"].shape(Features(type="6V6GT", basing=own))
    assert isinstance(shape, Shape)
    assert [(t.name, t.role, t.key) for t in shape.terminals] == [
        ("1", Role.LEAD, "plate"),
        ("2", Role.SPARE_PIN, "2"),
        ("3", Role.SPARE_PIN, "3"),
    ]


@pytest.mark.parametrize(
    ("pins", "headline", "hint"),
    [
        ([("1", "gird")], "basing `X99`: `gird` is no electrode", "did you mean `grid`"),
        ([("1", "cathode+")], "basing `X99`: `` is no electrode", "electrodes are plate"),
        ([("15", "grid")], "basing `X99`: a tube has no pin `15`", "pins are 1 to 14"),
        ([("999999999", "grid")], "basing `X99`: a tube has no pin `999999999`", "pins are 1 to 14"),
        ([("²", "grid")], "basing `X99`: a tube has no pin `²`", "pins are 1 to 14"),
        ([("1", "grid"), ("1", "plate")], "basing `X99`: pin 1 is given twice", "keep the one"),
    ],
)
def test_a_declared_basing_is_looked_at(pins: list[tuple[str, str]], headline: str, hint: str) -> None:
    own = Basing("X99", "", tuple(Pin(*pin) for pin in pins), Standing.FILE)
    flaw = KINDS["tube"].shape(Features(type="X99", basing=own))
    assert isinstance(flaw, Flaw)
    assert flaw.headline == headline
    assert hint in flaw.help


ELECTRODES = st.sampled_from([
    "none", "internal", "shell", "plate", "plate-1", "plate-2", "anode-b", "grid", "grid-1", "grid-2", "grid-3",
    "screen", "suppressor", "cathode", "heater-1", "heater-2", "filament-1", "heater-tap", "heater-2+cathode",
    "cathode+shell",
])  # fmt: skip


@given(st.dictionaries(st.sampled_from([*map(str, range(1, 15)), "cap"]), ELECTRODES, min_size=1))
def test_any_declared_basing_gives_a_sound_socket(pins: dict[str, str]) -> None:
    own = Basing("X99", "", tuple(Pin(label, electrode) for label, electrode in pins.items()), Standing.FILE)
    shape = KINDS["tube"].shape(Features(type="X99", basing=own))
    assert isinstance(shape, Shape)
    names = [t.name for t in shape.terminals]
    called = [word for t in shape.terminals for word in (t.name, *t.aliases)]
    assert set(pins) <= set(names)
    assert len(called) == len(set(called))
    assert all(t.electrode in called for t in shape.terminals if t.electrode)
    assert all(len({t.electrode for t in shape.terminals if t.name in group}) == 1 for group in shape.tied)
    assert not {pin for pair in shape.free for pin in pair} & {pin for group in shape.tied for pin in group}


# As the manuals have them; a pin without an electrode has a number and no other name, and a cap has no neighbour.
LEFT = {
    "6C4": "1=plate 2 3=heater-1 4=heater-2 5=plate 6=grid 7=cathode",
    "6K7": "1=shell 2=heater-1 3=plate 4=screen 5=suppressor 6 7=heater-2 8=cathode cap=grid",
}


@pytest.mark.parametrize("type_", LEFT)
def test_a_socket_without_its_tube_answers_to_the_same_names(type_: str) -> None:
    shape = SOCKET.shape(Features(type=type_))
    assert isinstance(shape, Shape)
    for terminal, line in zip(shape.terminals, LEFT[type_].split(), strict=True):
        name, *electrode = line.split("=")
        assert terminal.name == name
        assert set(electrode) <= set(terminal.aliases)
        assert bool(terminal.aliases) == bool(electrode)
    assert {t.role for t in shape.terminals} == {Role.LUG}
    assert shape.ring
    assert shape.ordered == tuple(t.name for t in shape.terminals if t.name != "cap")
