"""The table of basings against published pages, typed a second time with the page beside each row.

In the pages' letters: a is an anode, ad a diode's, f a filament and h a heater (both are heaters here), ct its tap;
``?`` is what the page doesn't say of a pin.
"""

import re

import pytest

from netcheck.core.kind import Features, Shape
from netcheck.parts import KINDS
from netcheck.parts.basings import basing_of, known_types

NAMES = {
    "nc": "", "ic": "", "h": "heater", "f": "heater", "hct": "heater-tap", "fct": "heater-tap", "a": "plate",
    "a1": "plate-1", "a2": "plate-2", "a'": "plate-a", "a''": "plate-b", "k": "cathode", "k'": "cathode-a",
    "k''": "cathode-b", "g1": "grid", "g'": "grid-a", "g''": "grid-b", "g2": "screen", "g3": "grid-3",
    "g5": "grid-5", "g1p": "grid-b", "g2p": "screen-b", "gt": "grid-a", "at": "plate-a", "ap": "plate-b",
    "kt": "cathode-a", "kp": "cathode-b", "ad": "diode", "ad1": "diode-1", "ad2": "diode-b", "ad3": "diode-3",
    "kd2": "cathode-b", "s": "shield", "sh": "shell",
}  # fmt: skip

TABLE = "electronics-notes.com and radio-electronics.com, table of pin connections"
SHEET = "data sheet of the EH make, cdn.shopify.com/s/files/1/0623/7490/4013/files/"
# The type, its pins in order, the page.
PINS: list[tuple[str, str, str]] = [
    ("AZ41", "ic a2 ic ic ic a1 f f", TABLE),
    ("DAF91", "f+g3 ic ad g2 a g1 f", TABLE),
    ("DAF96", "f+g3 ic ad g2 a g1 f", TABLE),
    ("DF91", "f+g3 a g2 ic f+g3 g1 f", TABLE),
    ("DF96", "f+g3 a g2 ic f+g3 g1 f", TABLE),
    ("DL92", "f a g1 g2 fct+g3 a f", TABLE),
    ("DL94", "f a g2 nc fct+g3 g1 f", TABLE),
    ("DL96", "f a g2 nc fct+g3 g1 f", TABLE),
    ("EABC80", "ad3 ad2 kd2 h h ad1 k g1 a", TABLE),
    ("EB91", "k' a'' h h k'' s a'", TABLE),
    ("ECC81", "a'' g'' k'' h h a' g' k' hct", TABLE),
    ("ECC82", "a'' g'' k'' h h a' g' k' hct", TABLE),
    ("12AX7", "a'' g'' k'' h h a' g' k' hct", "guitarkitbuilder.com/12ax7-tube-datasheet"),
    ("EL84", "ic ? ? ? ? ic ? ic ?", f"{TABLE}: internal connections on 1 6 8"),
    ("6V6GT", "nc h a g2 g1 nc h k", f"{SHEET}TUBEEH-62413.pdf"),
    ("KT90", "nc h a g2 g1 nc h k", f"{SHEET}TUBEEH-67150.pdf"),
    ("6SN7GT", "g'' a'' k'' g' a' k' h h", f"{SHEET}TUBEEH-72382.pdf"),
    ("ECC32", "g'' a'' k'' g' a' k' h h", "server.idemdito.org/blog/histo/radio/tube/tube-amp2v.htm"),
    ("ECC35", "g'' a'' k'' g' a' k' h h", "server.idemdito.org/blog/histo/radio/tube/tube-amp2v.htm"),
    ("EF80", "k g1 k ? ? ? ? ? g3", "tubeofile.com/tubes/EF80"),
    ("6SJ7", "sh ? g3 ? ? ? ? ?", "tubeofile.com/api/tubes/6SJ7"),
    ("6CG7", "a'' g'' k'' h h a' g' k' ?", f"{SHEET}TUBEEH-66052.pdf (pin 9 is free in that make)"),
    ("6FQ7", "a'' g'' k'' h h a' g' k' nc", f"{SHEET}TUBEEH-66052.pdf"),
    ("6AQ8", "a'' g'' k'' h h a' g' k' s", f"{SHEET}TUBEEH-75984.pdf"),
    ("6BM8", "gt kp g1p h h ap g2p kt at", f"{SHEET}TUBEEH-75985.pdf"),
    ("EL34", "g3 h a g2 g1 ? h k", f"{SHEET}TUBEEH-60146.pdf"),
    ("300B", "f a g1 f", f"{SHEET}TUBEEH-60258.pdf"),
    ("6L6G", "nc h a g2 g1 nc h k", "Wikipedia, 6L6"),
    ("6BY6", "g1 k+g5 h h a g2 g3", "tubeofile.com/api/tubes/6BY6"),
    ("5U4G", "? f ? a2 ? a1 ? f", "emissionlabs.com/datasheets/EML5U4G.html"),
    ("5R4GY", "nc ? nc a2 nc a1 nc ?", "tubeofile.com/api/tubes/5R4"),
    ("12X4", "a2 nc h ? ? ? ?", "tubeofile.com/api/tubes/12X4"),
    ("6X4", "a2 nc h h nc a1 k", "GE, data sheet of the 6X4, scribd.com/document/708372590"),
    ("GZ37", "? ? nc ? nc ? nc ?", "tubeofile.com/api/tubes/GZ37: pins 3 5 7 are absent"),
    ("EZ40", "? ? ic ic ic ? ? ?", "tubeofile.com/api/tubes/EZ40"),
    ("0A2", "a k ? k a ? k", "angelfire.com/electronic/funwithtubes/eq_fig-28-gif.html"),
    ("0B2", "a k ? k a ? k", "angelfire.com/electronic/funwithtubes/eq_fig-28-gif.html"),
    ("12AZ7", "? ? ? h h ? ? ? hct", "tubeofile.com/api/tubes/12AZ7"),
    ("12BH7", "? ? ? h h ? ? ? hct", "tubeofile.com/api/tubes/12BH7"),
]  # fmt: skip

# Types that a page calls equal in their pins, the first one to each of the others.
EQUAL: list[tuple[str, str]] = [
    ("6SN7GT 12SN7GT 12SN7GTA 12SX7GT 12SX7 1633 6SN7GTA 6SN7GTB 6SN7W", "tubeofile.com/api/tubes/12SX7"),
    ("6L6G 25L6GT 35L6GT 50L6GT 12L6GT 12W6GT 6W6GT 6046", "Wikipedia, 25L6: base 7AC, like the 6L6"),
    ("12AT7 12AZ7", "tubeofile.com/api/tubes/12AZ7: same 9A pins"),
    ("ECC81 ECC82 ECC83 12BH7 12BH7A", "tubeofile.com/api/tubes/12BH7: pin-compatible"),
    ("ECH81 UCH81 HCH81 ECH83 12AJ8 6AJ8", "tubeofile.com/api/tubes/HCH81: same pins, other heaters"),
    ("6AX4GT 25AX4GT 6AU4GT", "vinylsavor.blogspot.com/2016/03/tube-of-month-6au4.html: pins of the octal dampers"),
    ("6L6G 6L6GA 6L6GB 6L6GC 5881 6L6WGB", "tubeofile.com/api/tubes/6P3P: equivalents"),
    ("80 5Z3", "tubeofile.com/api/tubes/5Z3: same UX4 base"),
    ("37 56 76", "tubeofile.com/api/tubes/76: like the 56 but for the heater; the 37 has the same base"),
    ("5U4G 5Z3P 274B", "tubeofile.com/api/tubes/5Z3P: equivalents"),
    ("6SJ7 5693 12SJ7", "tubeofile.com/api/tubes/6SJ7"),
    ("7N7 14N7", "tubeofile.com/api/tubes/7N7: pin functions are identical"),
    ("ECH81 ECH83", "radiomuseum.org/forum/ech83_qru.html: the pins are identical"),
    ("6BE6 6BY6 6CS6", "tubeofile.com/api/tubes/6BY6: 7CH"),
]  # fmt: skip

# A type and the designation of its base, as a page has it.
BASES = [
    ("EF86", "9CQ", "en.wikipedia.org/wiki/EF86"),
    ("76", "5A", "tubeofile.com/api/tubes/76"),
    ("5T4", "5T", "tubeofile.com/api/tubes/5T4"),
    ("5X4G", "5Q", "tubeofile.com/api/tubes/5T4"),
    ("12X4", "5BS", "tubeofile.com/api/tubes/12X4"),
    ("6BY6", "7CH", "tubeofile.com/api/tubes/6BY6"),
    ("6SN7GT", "8BD", "articles on the 6SN7"),
    ("25L6GT", "7AC", "Wikipedia, 25L6"),
    ("12AZ7", "9A", "tubeofile.com/api/tubes/12AZ7"),
]


def electrodes(type_: str) -> list[str]:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert isinstance(shape, Shape), shape
    return [terminal.electrode for terminal in shape.terminals]


def called(type_: str) -> list[set[str]]:
    """All names of each pin; a heater's two ends are alike here."""
    shape = KINDS["tube"].shape(Features(type=type_))
    assert isinstance(shape, Shape), shape
    return [
        {word.removesuffix("-1").removesuffix("-2") if word.startswith("heater") else word for word in words}
        for words in ({terminal.electrode, *terminal.aliases} for terminal in shape.terminals)
    ]


@pytest.mark.parametrize(("type_", "pins", "source"), PINS)
def test_pins_as_published(type_: str, pins: str, source: str) -> None:
    names = called(type_)
    wanted = [pin.split("+") for pin in pins.split()]
    assert len(names) == len(wanted), source
    seen = set[str]()
    for number, (words, found) in enumerate(zip(wanted, names, strict=True), start=1):
        # Of several pins with one electrode, only the first answers to what it is joined with.
        said = words[:1] if words[0] in seen else words
        seen.add(words[0])
        if words != ["?"]:
            assert {NAMES[word] for word in said} <= found, (number, words, found)


@pytest.mark.parametrize(("types", "source"), EQUAL)
def test_types_that_are_equal_in_their_pins(types: str, source: str) -> None:
    first, *others = types.split()
    assert others, source
    for other in others:
        assert electrodes(other) == electrodes(first), other


@pytest.mark.parametrize(("type_", "base", "source"), BASES)
def test_bases_as_published(type_: str, base: str, source: str) -> None:
    basing = basing_of(type_)
    assert basing is not None
    assert basing.base == base, source


def test_the_table_of_pins_is_named_for_rows_that_it_has() -> None:
    """A line of plain words that begins like a source would be taken for one, and name a row that nobody wrote."""
    rows = {type_ for type_, _, page in PINS if page.startswith(TABLE)} | {"ECC83"}
    named = {
        row
        for type_ in known_types()
        if (basing := basing_of(type_)) is not None
        for row in re.findall(r"pin-connections\.php, row ([^;]+)", basing.source)
    }
    assert named
    assert named <= rows
