"""The page of the whole language: every kind of part and every statement, with a line that is right."""

from collections.abc import Iterator, Mapping

from netcheck.core.kind import PartKind
from netcheck.language.examples import EXAMPLES
from netcheck.parts import KINDS

__all__ = ["NAME", "STATEMENTS", "language_page"]

NAME = "language"

_BEGINNING = """The language of the lists.

A list is a plain text file whose name ends in `.netck`. Each line says one thing, and its first word says what. The
order of the lines does not matter. `#` begins a comment. A line that ends in a comma goes on in the next one, which
is indented. What is in quotes is your own words. Names are made of Latin letters, digits and . + - / _ without blanks.
"""

STATEMENTS: Mapping[str, str] = {
    "title": "what set it is; `television` in it is taken at its word",
    "state": "or `state drawn`, `state found`, `state planned`; `state rewired unfinished` while work is left",
    "mains": "the line voltage, with its frequency; `mains 117 V DC`",
    "note": "a remark, on a part or on the whole, which the lug list shows",
    "all": "how the drawing writes values that have no unit; `all resistors in ohms`",
    "include": "the parts and basings of another file",
    "start": "a work log: everything of another file, and then what was changed",
    "parts": "a trace: only the parts of another file; every joint is written again as it is",
    "covers": "compare only these parts, nets and cans; all else is NOT CHECKED",
    "net": "a net of the drawing: its name, then every lead on it; `chassis` is a lead like any other",
    "meant": "where the leads of a part that was added belong, as if the drawing had them",
    "at": "what is soldered to a lug or a pin, as you see it",
    "wire": "from here to there, `to` again for the next lug; then colour and gauge, and what it runs past unsoldered, "
    "as in `wire SP1.1 to C30.A red 20 AWG past SP1.4`",
    "fit": "where the two leads of a part go; the same may follow in the part's own line",
    "spare": "bare on purpose",
    "common": "where the returns go, if that is not the chassis",
    "apart": "must never be joined directly; in quotes why",
    "place": "where its middle is, from the left edge and from the back edge",
    "volts": "a reading of the chart, to the common; `volts C5+ to C5- 12 V` across a part",
    "draws": "all that a line draws from here to its next electrolytic, the tubes on it included; without a sign",
    "supply": "a voltage that something else makes: so much is the first point above the second; in quotes "
    "where it comes from",
    "meter": "the meter that the chart was taken with; `meter 11 meg`",
    "leakage": "the limit of line current to the chassis, if it is not 0.5 mA",
    "remove": "taken out; without a reason it is told as missing; `remove L3 bridged` leaves a wire in its place",
    "lift": "a lead off everything it was on; what hung on it stays joined",
    "move": "a lead off everything, and onto another point",
    "cut": "one joint undone: a wire, or a lead off this point alone",
    "change": "another part at the same leads; only what is written changes",
    "accept": "a finding that is all right: its rule, the part, lead or net, and why",
    "section": "",
    "winding": "",
    "position": "",
    "basing": "",
}
"""What each statement that is no part says; those of a part have a chapter of their own."""

_OF_PARTS = """
Where the leads of a part go may follow in its own line, each lead with its colour; `anode` and `cathode` of a diode:

    resistor R41 2.7k 1 W from C30.A to C30.B
    electrolytic C51 22 mfd 500 V plus C30.A red minus SP1.3 black
    diode D1 1N4007 anode T1.red-a cathode SP1.1

Codes and numbers are written as they are printed on the part; no comment begins inside a word:

    capacitor C7 103 500 V ceramic
    capacitor C8 473J 630 V film
    lamp LM2 #47

A can and a lug say whether they are `grounded` or `insulated`, since nothing else tells it. Two names that differ in
capital letters only are refused.

Windings: the part, a name of your own, the leads by colour, then the values.

    winding T1 primary black-a black-b 117 V
    winding T1 high red-a tap red-b 310-0-310 V 90 ohm each side
    winding T1 filament yellow-a yellow-b 5 V 3 A
    winding T1 filament-2 green-a green-b 6.3 V 4 A

A second winding of one kind has another name: `filament-2`, `heater`. Two leads of one colour are told apart by
`-a` and `-b`. A coil or choke with taps has its leads in a winding too, from one end to the other:

    coil L1 240 uH
    winding L1 all 1 2 3

A winding of several taps has a lead for each of its volts:

    winding T2 high red-a tap-a tap-b red-b 300-50-0-300 V

A gang is as many capacitors as it has sections:

    capacitor C1A 365 mmfd variable
    capacitor C1B 365 mmfd variable

Positions: the switch, the position, then which lugs are closed in it.

    position S2 phono: 1 3, 4 6
    position S2 radio: 1 2, 4 5

A tube that netcheck does not know gets its base once for the file:

    basing X99: 1 grid, 2 cathode, 3 heater-1, 4 heater-2, 5 screen, 6 suppressor+shield, 7 none, cap plate

Electrodes are plate, cathode, grid, screen, suppressor, grid-3 and so on, diode-1, diode-2, heater-1, heater-2,
heater-tap, filament-1, filament-2, shell, shield, target; `none` is a pin without one, `internal` a pin that must stay
empty. Two on one pin have a + between them. A rectifier beside a pentode in one bulb is plate-b and cathode-b; the
pentode's electrodes end in -a.
"""

_MORE_JOINTS = """
A whole strip, can or socket may be written in one line, lug by lug:

    at SP1: 1 C51- R7.2, 3 C53+

What is joined without being written: the foot of a strip and whatever is `grounded` to the chassis, and the pins of a
tube that are one electrode. What is not: the shell of a metal tube, the common of an insulated can, what a wire only
runs `past`, the contacts of a switch.
"""

_MORE_CHANGES = """
A change may be to another kind of part, or to another tube or lamp:

    change C28 electrolytic 22 mfd 450 V
    change V7 tube 5Y3GT
"""

_NEW_PARTS = """
A part that was not there says why it is there, at the end of its line:

    electrolytic C51 22 mfd 500 V plus SP1.1 minus SP1.3 replaces C30A
    fuse F2 1 A slow from SP1.1 to SP1.2 inserted "no fuse before"
    resistor R70 220k from SP1.1 to chassis added "bleeder"

`replaces` takes the place of a part of the original, `inserted` is in series where a joint was, `added` is anywhere
else; where its leads belong is said by `meant`. Diodes take the place of a tube plate by plate, a resistor that of its
heater; the socket stays when the tube is removed, and its pins are lugs:

    remove V7 "silicon now"
    diode D3 1N4007 anode V7.6 cathode V7.8 replaces V7.plate-1
    diode D4 1N4007 anode V7.4 cathode V7.8 replaces V7.plate-2
    resistor R60 150 ohm 10 W from V8.2 to V8.7 replaces V8.heater

A change of the circuit on purpose says so, at the end of a `net`, `at`, `wire`, `fit`, `lift`, `move` or `cut`:

    move S1.1 to P1.1 intended "switch on the hot side"
    wire P1.2 to S1.2 black intended "as the rule of today"
"""

_LEADS = """
Leads, pins and lugs are written with the name of the part:

    R41.1 R41.2      the ends of a resistor, either way round
    C30A+ C31-       plus and minus of an electrolytic
    D1.cathode       the band of a diode; D1.anode the other end
    V7.8 V7.cathode  a pin of a tube, by number or by electrode
    SP1.3            a lug of a strip, from left to right, seen from below
    C30.A C30.can    the lug of a section, and the can itself
    T1.red-a         a lead of a transformer, by its colour
    T1.frame         its frame, where it is grounded or insulated
    RV1.ccw RV1.wiper RV1.cw
    P1.hot P1.neutral P1.earth
    SP1.foot G1      the foot of a strip; a lug by its own name
    B+1              a net by its name
    chassis

In a tube with two units alike, `-a` is unit 1 and `-b` unit 2 of the tube manual: V3.plate-a is pin 6 of a 12AX7 and
pin 5 of a 6SN7, V3.plate-b pin 1 and pin 2. If in doubt, write the pin.

Values are written as they are printed: `20 mfd`, `.05 mfd`, `250 mmfd`, `470k`, `2.2 meg`, `4k7`, `1/2 W`, `10%`,
`310-0-310 V`, `65 mA`, `12 H`, `2.5 mH`, `240 uH`, `60 Hz`, `455 kc`, `10.7 mc`, `1.5 kV`. A number alone is ohms on a
resistor, and refused elsewhere unless an `all` line gives its unit. One that can be read two ways (`50M`, `MF`) is
refused, with both ways to write it.
"""

_CHAPTERS = (
    ("The beginning of a list", ("title", "state", "mains", "meter", "leakage", "all", "note", "covers")),
    ("Files", ("include", "start", "parts")),
    ("Joints", ("net", "at", "wire", "fit", "spare", "common", "apart")),
    ("Where things sit", ("place",)),
    ("Readings", ("volts", "draws", "supply")),
    ("Changes", ("remove", "lift", "move", "cut", "change", "meant", "accept")),
)


_MORE_SITES = """
Turn the chassis upside down with its back edge away from you, and measure with a ruler to the middle of each thing:
first from the left edge, then from the back edge. A length without a unit is in millimetres. `turned` is for a strip
that runs from back (lug 1) to front. The place of `chassis` is its far corner: how wide and how deep it is. `netcheck
draw` shows everything that has a place where it sits.

    place chassis 330 mm 210 mm
    place V5 4-1/2 2.25 in
    place SP2 3-3/8 5 in turned
"""


def language_page() -> str:
    """The page, in the form of a rule's."""
    beginning, files, joints, sites, readings, changes = (_chapter(*one) for one in _CHAPTERS)
    parts = (_BEGINNING, beginning, files, _parts(), joints + _MORE_JOINTS, sites + _MORE_SITES, readings)
    return "\n".join((*parts, changes + _MORE_CHANGES + _NEW_PARTS + _LEADS))


def _chapter(heading: str, words: tuple[str, ...]) -> str:
    lines = (f"    {EXAMPLES[word]}\n        {STATEMENTS[word]}\n" for word in words)
    return f"{heading}:\n\n{''.join(lines)}"


def _parts() -> str:
    kinds = "".join(line for kind in KINDS.values() for line in _kind(kind))
    return f"Parts: the kind, a name, then values and words as printed on the part.\n\n{kinds}{_OF_PARTS}"


def _kind(kind: PartKind) -> Iterator[str]:
    yield f"    {kind.example}\n"
    if kind.notes:
        yield f"        {kind.notes}\n"
    words = sorted(kind.words, key=str.lower)
    if words:
        yield f"        words: {', '.join(words)}\n"
