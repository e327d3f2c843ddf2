"""The basings of common tube types: which electrode is on which pin, seen from below.

One row a group of types that share a basing. A row gives its base designation, the electrodes pin by pin in the short
form of the tube manuals, then the types. Rows are from memory unless ``_SOURCES`` names where they were read.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Basing, Pin, Standing

__all__ = ["basing_flaw", "basing_of", "known_types", "unknown_type"]

# H heater, F filament, P plate, K cathode, G grid, Su suppressor, D diode plate, T target; HT and FT their taps.
# S shell (also the base sleeve of a glass tube), IS inner shield, IC internal connection, J a link inside the tube,
# O a second grid that serves as the oscillator's plate, - nothing. A small letter is the unit in the envelope: a is
# unit 1 of the manual, or the triode of a mixed pair. Electrodes that share a pin are joined by a plus sign, the one
# that the pin is known by first.
_TABLE = """
octal 1    2  3  4   5  6    7  8    cap
5T    -    F1 -  P2  -  P1   -  F2   -   5Y3G 5Y3GT 5Y3 5U4G 5U4GA 5U4GB 5U4 5R4GY 5R4GYA 5R4GYB 5W4GT
5T    S    F1 -  P2  -  P1   -  F2   -   5T4 5W4
5Q    -    -  P2 -   P1 -    F1 F2   -   5X4G 5Y4G
5L    -    H1 -  P2  -  P1   -  H2+K -   5V4G 5V4GA
5L    S    H1 -  P2  -  P1   -  H2+K -   5Z4
5DA   -    H1 -  P2  -  P1   -  H2+K -   5AR4 GZ34
6S    -    H1 P1 -   P2 -    H2 K    -   6X5G 6X5GT
6S    S    H1 P1 -   P2 -    H2 K    -   6X5
6AD   -    H1 HT -   P  -    H2 K    -   35Z5GT 35Z5G 35Z5 45Z5GT
5AA   -    H1 -  -   P  -    H2 K    -   35Z4GT
7Q    -    H1 Pb Kb  Pa -    H2 Ka   -   25Z6GT 25Z6G 50Y6GT 117Z6GT
7Q    S    H1 Pb Kb  Pa -    H2 Ka   -   6H6 6H6GT 12H6 25Z6
4CG   -    -  K  -   P  -    H1 H2   -   6W4GT 6AX4GT 6AX4GTB 6U4GT 12AX4GT 25W4GT
4AJ   -    K  J  -   P  -    J  -    -   0A3 0B3 0C3 0D3 VR75 VR90 VR105 VR150
7AC   -    H1 P  G2  G1 -    H2 K    -   6V6GT 6V6G 6V6GTA 12V6GT 6L6G 6L6GA 6L6GB 6L6GC 5881 KT66 6Y6G 6W6GT 25L6GT \
                                         25L6G 35L6GT 35L6 50L6GT 50L6 50C6G
7AC   S    H1 P  G2  G1 -    H2 K    -   6V6 6L6 25L6
7S    -    H1 P  G2  G1 -    H2 K+Su -   6F6G 6F6GT 6K6GT 6K6G 25A6G
7S    S    H1 P  G2  G1 -    H2 K+Su -   6F6 25A6
7S    S    H1 P  G2  G1 -    H2 K    -   6550 KT88
8ET   Su   H1 P  G2  G1 -    H2 K    -   EL34 6CA7
6AM   -    H1 -  G2  G1 -    H2 K    P   6BQ6GT 6BQ6GTB 6DQ6 6DQ6A 6DQ6B 25BQ6GT 12DQ6A
5BT   -    H1 K  -   G1 -    H2 G2   P   6BG6G 6CD6G 19BG6G 25CD6G
8BD   Gb   Pb Kb Ga  Pa Ka   H1 H2   -   6SN7GT 6SN7GTA 6SN7GTB 6SN7 12SN7GT 6SL7GT 6SL7 12SL7GT 6BL7GT 6BX7GT
8B    S    H1 Pb Gb  Ga Pa   H2 K    -   6N7
6Q    S    H1 P  -   G  -    H2 K    -   6J5 6C5
6Q    -    H1 P  -   G  -    H2 K    -   6J5GT 6C5GT 6P5GT 12J5GT
5M    S    H1 -  P   -  -    H2 K    G   6F5
5M    -    H1 -  P   -  -    H2 K    G   6F5G 6F5GT
7R    S    H1 P  G2  Su -    H2 K    G1  6K7 6J7 6S7
7R    -    H1 P  G2  Su -    H2 K    G1  6K7G 6K7GT 6J7G 6J7GT 6U7G 12K7GT 12J7GT
7V    S    H1 P  D2  D1 -    H2 K    G   6Q7 6R7
7V    -    H1 P  D2  D1 -    H2 K    G   6Q7G 6Q7GT 6R7GT 12Q7GT
8E    S    H1 P  D2  D1 G2   H2 K+Su G1  6B8
7T    S    H1 P  G24 G3 -    H2 K+G5 G1  6L7
8A    S    H1 P  G35 G1 O    H2 K    G4  6A8
8A    -    H1 P  G35 G1 O    H2 K    G4  6A8G 6A8GT 12A8GT
8N    S    H1 Su G1  K  G2   H2 P    -   6SK7 6SK7GT 12SK7 12SK7GT 6SJ7 6SJ7GT 12SJ7 12SJ7GT 6SS7 6AC7
8Q    S    G  K  D2  D1 P    H1 H2   -   6SQ7 6SQ7GT 12SQ7 12SQ7GT 6SR7 12SR7
8R    G5+S H1 P  G24 G1 K    H2 G3   -   6SA7 12SA7 6SB7Y
8AD   S    H1 P  G24 G1 K+G5 H2 G3   -   6SA7GT 12SA7GT

loctal 1  2 3  4  5  6  7 8
5AB    H1 - P1 -  -  P2 K H2 7Y4
6AA    H1 P G2 -  -  G1 K H2 7C5 35A5 50A5
8V     H1 P G2 Su IS G1 K H2 7A7 14A7

7-pin_miniature 1     2    3   4  5     6   7
5BS             P2    -    H1  H2 -     P1  K    6X4 6X4W 12X4
5BQ             -     -    H1  H2 P     HT  K    35W4
7CV             K     G1   H1  H2 G1    G2  P    50C5 35C5 25C5 12C5
7BZ             G1    K    H1  H2 P     G2  G1   6AQ5 6AQ5A 6005 12AQ5 50B5 35B5
7CH             G1    K+G5 H1  H2 P     G24 G3   6BE6 12BE6 6BY6
7BK             G1    Su   H1  H2 P     G2  K    6AU6 6AU6A 12AU6 6BA6 12BA6 6BD6 12BD6
7CM             G1    K    H1  H2 P     G2  Su   6CB6 6CB6A 6BH6 6BJ6 6DE6
7BD             G1    K+Su H1  H2 P     G2  K+Su 6AG5 6BC5 6AK5 5654
7BT             G     K    H1  H2 D2    D1  P    6AV6 12AV6 6AT6 12AT6
6BT             Ka    Pb   H1  H2 Kb    IS  Pa   6AL5 12AL5
7BF             Pb    Pa   H1  H2 Ga    Gb  K    6J6 6J6A
6BG             P     -    H1  H2 P     G   K    6C4
5BO             P     K    IC  K  P     IC  K    0A2 OA2 0B2 OB2
7AT             F1+G5 P    G24 G1 F1+G5 G3  F2   1R5 DK91
6AR             F1+Su P    G2  IC F1+Su G1  F2   1T4 DF91
7BA             F1    P    G1  G2 FT+Su P   F2   3S4
6BX             F1    P    G2  -  FT+Su G1  F2   3V4 DL94 DL96

9-pin_miniature 1    2      3     4  5  6  7     8  9
9A              Pb   Gb     Kb    H1 H2 Pa Ga    Ka HT     12AX7 12AX7A ECC83 7025 12AU7 12AU7A ECC82 12AT7 ECC81 \
                                                           12AY7 12BH7 12BH7A 12AZ7
9AJ             Pb   Gb     Kb    H1 H2 Pa Ga    Ka IS     6CG7 6BQ7A 6BK7A 6BK7B 6BZ7
9DE             Pb   Gb     Kb    H1 H2 Pa Ga    Ka IS     6DJ8 ECC88
9LP             Pb   Gb     Kb    H1 H2 Pa Ga    Ka -      6FQ7
9CV             IC   G1     K+Su  H1 H2 IC P     IC G2     6BQ5 EL84
9M              P1   IC     K     H1 H2 IC P2    IC IC     6CA4 EZ81 6V4 EZ80
9CQ             G2   IS     K     H1 H2 P  IS    Su G1     6267 EF86
9AQ             K    G1     K     H1 H2 IS P     G2 Su     6BX6 EF80
9AE             Pa   Gb     G2b   H1 H2 Pb K+Sub Ka Ga     6U8 6U8A ECF82
9DA             Pa   Ga     Ka    H1 H2 Pb G2b   Gb Kb+Sub 6AN8 6AN8A
9EX             Ga   Kb+Sub Gb    H1 H2 Pb G2b   Ka Pa     6BM8 ECL82
9CA             G24b Gb     K+G5b H1 H2 Pb G3b   Pa Ga     6AJ8 ECH81

rimlock 1  2  3  4  5  6  7  8
B8A     H1 P1 IC IC IC P2 K  H2 EZ40
B8A     IC P1 IC IC IC P2 F1 F2 AZ41

4-pin 1  2  3  4
4C    F1 P2 P1 F2 80 5Z3 83
4D    F1 P  G  F2 45 2A3 26 71A 01A 12A

5-pin 1  2  3  4  5  cap
5A    H1 P  G  K  H2 -   27 37 56 76
5B    F1 P  G1 G2 F2 -   47
5D    H1 P2 P1 K  H2 -   84 6Z4
5E    H1 P  G2 K  H2 G1  24A 35 36 51

6-pin 1  2  3  4  5    6  cap
6B    H1 P  G2 G1 K+Su H2 -   41 42 43 2A5
6E    H1 Pb Kb Ka Pa   H2 -   25Z5
6F    H1 P  G2 Su K    H2 G1  57 58 77 78 6C6 6D6
6G    H1 P  D2 D1 K    H2 G   55 75 85 2A6
6R    H1 P  G  T  K    H2 -   6E5 6G5 6U5

7-pin 1  2 3   4  5  6    7  cap
7C    H1 P G35 O  G1 K    H2 G4  2A7 6A7
7D    H1 P G2  D2 D1 K+Su H2 G1  2B7 6B7
"""

_NO_CAP = ("cap", "none")
# Where a row was read. A row that was read in part stays one from memory, and says which pins were read.
_SOURCES: tuple[tuple[str, Standing, str], ...] = (
    (
        "5U4G 5U4GA 5U4GB 5U4",
        Standing.SOURCE,
        "emissionlabs.com/datasheets/EML5U4G.html: filament 2 and 8, plates 4 and 6",
    ),
    ("5R4GY 5R4GYA 5R4GYB", Standing.MEMORY, "plates 4 and 6, nothing on 1 3 5 7: tubeofile.com/api/tubes/5R4"),
    ("6L6 6L6G 6L6GA 6L6GB 6L6GC", Standing.SOURCE, "Wikipedia, 6L6"),
    ("6V6 6V6G 6V6GT 6V6GTA", Standing.MEMORY, "pins 4 5 6 8: boothillamps.com"),
    ("6SJ7 6SJ7GT", Standing.MEMORY, "pins 1 and 3: tubeofile.com/api/tubes/6SJ7"),
    ("6SN7GT 6SN7GTA 6SN7GTB 6SN7", Standing.MEMORY, "heater 7 8: a published 50 W amplifier"),
    ("12X4", Standing.MEMORY, "pins 1 to 3: tubeofile.com/api/tubes/12X4"),
    ("6BE6 12BE6 6BY6", Standing.SOURCE, "tubeofile.com/api/tubes/6BY6, of the same base 7CH"),
    ("6BH6", Standing.MEMORY, "heater 3 4: a published 50 W amplifier"),
    (
        "12AX7 12AX7A ECC83 12AU7 12AU7A ECC82 12AT7 ECC81",
        Standing.SOURCE,
        "guitarkitbuilder.com/12ax7-tube-datasheet; electronics-notes.com, pin table",
    ),
    ("12BH7 12BH7A 12AZ7", Standing.MEMORY, "heater 4 5 9: tubeofile.com"),
    ("6BQ5 EL84", Standing.MEMORY, "internal connections 1 6 8: electronics-notes.com, pin table"),
    ("0A2 OA2 0B2 OB2", Standing.MEMORY, "anodes 1 and 5, cathodes 2 4 7: a published shunt-regulated supply"),
    ("1T4 DF91", Standing.MEMORY, "internal connection 4: electronics-notes.com, pin table"),
    ("DL94 DL96", Standing.MEMORY, "nothing on pin 4: electronics-notes.com, pin table"),
    ("EZ40", Standing.MEMORY, "internal connections 3 4 5: tubeofile.com/api/tubes/EZ40"),
    ("AZ41", Standing.MEMORY, "internal connections 1 3 4 5: electronics-notes.com, pin table"),
)

_SHORT = r"(Su|IS|IC|[HFPKGDTSJO-])(\d+|T)?([ab])?"
_NAMES: Mapping[str, str] = {
    "H": "heater",
    "F": "filament",
    "P": "plate",
    "K": "cathode",
    "G": "grid",
    "Su": "suppressor",
    "D": "diode",
    "T": "target",
    "S": "shell",
    "IS": "shield",
    "IC": "internal",
    "J": "jumper",
    "O": "grid-2",
    "-": "none",
}
# Grids by the numbers of the manual: a second grid is the screen, and so are two that are joined.
_GRIDS: Mapping[str, tuple[str, ...]] = {
    "1": ("grid",),
    "2": ("screen",),
    "24": ("screen", "grid-4"),
    "35": ("screen", "grid-3", "grid-5"),
}
_ELECTRODE = (
    r"(plate|anode|cathode|grid|screen|suppressor|diode|target|deflector|starter)(-[1-9])?(-[a-d])?"
    r"|(heater|filament)-([1-9]|tap)|shell|shield|jumper|none|internal"
)
_LABEL = r"[1-9]|1[0-4]|cap"
_WORDS = (
    "plate", "cathode", "grid", "grid-1", "grid-3", "screen", "suppressor", "diode-1", "heater-1", "heater-2",
    "heater-tap", "filament-1", "shell", "shield", "target", "none", "internal",
)  # fmt: skip


def basing_of(type: str) -> Basing | None:  # noqa: A002 - the word of the trade
    """The basing of a type as printed on the glass; hyphens and blanks don't count, ``6BQ5/EL84`` names one tube."""
    table = _basings()
    return next((table[key] for name in type.split("/") if (key := _squeezed(name)) in table), None)


def known_types() -> tuple[str, ...]:
    """Every type with a basing, as printed, in the order of the table."""
    return tuple(basing.type for basing in _basings().values())


def basing_flaw(basing: Basing) -> Flaw | None:
    """The first thing that is wrong with a basing that a file declares."""
    labels = [pin.label for pin in basing.pins]
    for pin in basing.pins:
        if not re.fullmatch(_LABEL, pin.label):
            return Flaw(f"basing `{basing.type}`: a tube has no pin `{pin.label}`", "pins are 1 to 14 and `cap`")
        if labels.count(pin.label) > 1:
            return Flaw(f"basing `{basing.type}`: pin {pin.label} is said twice", "keep the one that is right")
        for name in pin.electrode.split("+"):
            if not re.fullmatch(_ELECTRODE, name):
                help_ = _guess(name, _WORDS) or f"electrodes are {', '.join(_WORDS)}"
                return Flaw(f"basing `{basing.type}`: `{name}` is no electrode", help_)
    return None


def unknown_type(printed: str) -> Flaw:
    """What to say of a tube whose basing is neither in the table nor declared."""
    guess = _guess(printed, known_types())
    declare = f"write which electrode is on which pin: `basing {printed}: 1 shell, 2 heater-1, 3 plate, ...`"
    return Flaw(f"the basing of tube type `{printed}` is not known", f"{guess} if not, {declare}" if guess else declare)


def _guess(word: str, words: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(word, words)
    return f"did you mean {' or '.join(f'`{name}`' for name in near)}?" if near else ""


@cache
def _basings() -> Mapping[str, Basing]:
    return {_squeezed(basing.type): basing for basing in _rows()}


def _squeezed(printed: str) -> str:
    return printed.replace("-", "").replace(" ", "")


def _rows() -> Iterator[Basing]:
    sources = {type_: (standing, text) for types, standing, text in _SOURCES for type_ in types.split()}
    socket, labels = "", tuple[str, ...]()
    for line in _TABLE.splitlines():
        base, *cells = line.split() or [""]
        if cells[:1] == ["1"]:
            socket, labels = base.replace("_", " "), tuple(cells)
        elif cells:
            electrodes = [_electrodes(short) for short in cells[: len(labels)]]
            pins = tuple(Pin(label, e) for label, e in zip(labels, electrodes, strict=True) if (label, e) != _NO_CAP)
            for type_ in cells[len(labels) :]:
                yield Basing(type_, base, pins, *sources.get(type_, (Standing.MEMORY, "")), socket)


@cache
def _electrodes(short: str) -> str:
    """``K+G5`` of the table in full: ``cathode+grid-5``."""
    return "+".join(name for part in short.split("+") for name in _in_full(part))


def _in_full(short: str) -> tuple[str, ...]:
    found = re.fullmatch(_SHORT, short)
    if found is None:
        raise ValueError(short)
    letters, number, unit = found.groups()
    tail = f"-{unit}" if unit else ""
    if letters == "G" and number in _GRIDS:
        return tuple(grid + tail for grid in _GRIDS[number])
    middle = "" if number is None else f"-{number.replace('T', 'tap')}"
    return (_NAMES[letters] + middle + tail,)
