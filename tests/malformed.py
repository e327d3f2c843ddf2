"""Malformed lines, for each row of the table of mistakes in a line's form: what is said, and lines it is said of."""

__all__ = ["MALFORMED"]

MALFORMED: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("`position` names the switch and then the position", ("position S2: 1 3", "position S2")),
    (
        "`accept` names a rule, a part, lead or net, and why it is all right",
        ("accept value-changed", 'accept value-changed "one bought"'),
    ),
    (
        "the colon is missing after {before}",
        ("net B+1 C30A+", "at SP1.3, C51-", "position S2 phono 1 3", "basing X99 1 grid", "net B+1", "meant B+2 R70.1"),
    ),
    (
        "a text in quotes is expected here",
        ("remove C22 left out", "accept value-changed C61 one value", "spare V4.5 bare on purpose"),
    ),
    (
        "{here} is a colour, and no lead",
        ("net a: P1.neutral white, F1.2", "at SP1.1: P1.hot, F1.1 red", "meant B+2: R70.1 green-yellow"),
    ),
    (
        "a comma is missing before {here}",
        (
            "net B+1: C30A+ L3.1",
            "at SP1.3: C51- R7.2",
            "covers C30 L3",
            "remove C22 C23",
            "lift T1.red-a T1.red-b",
            "basing X99: 1 grid 2 cathode",
            "apart B- chassis",
            'accept value-changed C61 C62 "one bought"',
        ),
    ),
    ("{first} goes with `from` and a file", ('start "original.netck"', "parts original.netck")),
    (
        "a text in quotes is expected here",
        (
            "title Harrow Point 7",
            "title",
            "note C30",
            "include basings.netck",
            "start from original.netck",
            "accept value-changed C61",
            "fuse F1 1 A added no fuse",
            "fuse F1 1 A inserted",
            "move R14.2 to SP2.1 intended",
        ),
    ),
    ("`fit` says which part, and where each of its leads goes", ("fit R41", "fit R41 C30.A C30.B")),
    (
        "{first} needs two points with `to` between them",
        ("wire SP1.1, C30.A red", "move R14.2 SP2.1", "cut SP1.2", "supply boost 280 V", "wire SP1.1 C30.A"),
    ),
    ("`all` says which parts, then `in` which unit", ("all capacitors mfd", "all capacitors", "all capacitors, mfd")),
    (
        "{place} says where one lead goes and not the other",
        (
            "electrolytic C51 22 mfd 500 V plus C30.A",
            "electrolytic C51 minus SP1.1 22 mfd",
            "resistor R1 1k from SP1.1 SP1.2",
            "diode D1 anode SP1.1",
            "fit C51 cathode SP1.1",
        ),
    ),
    ("`state` is one of drawn, found, planned, rewired", ("state", "state rewird", 'state "drawn"')),
    ("a name is missing after {before}", ("position S2 standby:",)),
    ("a name is missing after {before}", ("net B+1: C30A+,, L3.1", "net B+1: , L3.1", "net B+1:", 'covers C30, "L3"')),
    (
        "a name is missing after {before}",
        ("wire SP1.1 to", "resistor R1 1k replaces", 'move R1.1 to "SP1"', "volts B+1 to"),
    ),
    ("the type of the tube is missing", ("tube V1", 'tube V1 "output"')),
    ("a name is missing before the colon", ("net: B+1", "at: C51-", "basing: 1 grid")),
    (
        "a text in quotes needs its word before it",
        ('move R14.2 to SP2.1 "the wafer was worn"', 'net B+1: C30A+ "added"', 'wire A to B red "why"'),
    ),
    ("no comma belongs here", ('remove V6 "silicon now", C30A', 'spare V4.5 "bare", V4.6')),
    (
        "no comma belongs here",
        ("resistor R1 470k, 1 W", "volts B+1, 325 V", "common B-, chassis", 'title "one", "two"'),
    ),
    ("no colon belongs here", ("resistor R1: 470k", "volts B+1: 325 V", "remove C22: C23")),
    ("no text in quotes belongs here", ('common B- "the return"', 'title "one" "two"', 'mains 117 V "at the wall"')),
    (
        "a value with its unit is expected here",
        (
            "volts B+1 325",
            "draws B+2",
            "mains 117",
            "meter sensitive",
            "leakage small",
            "supply boost to B+1 280",
            "volts B+1 to B- high",
        ),
    ),
    (
        "two lengths belong here: from the left edge, and from the back edge",
        ("place V5", "place V5 12", "place V5 12 mm"),
    ),
    (
        "`each` goes with `side`: of each side of the tap",
        ("winding T1 high red-a tap red-b 310-0-310 V 100 ohm each", "winding T1 high 1 2 3 100 ohm each end"),
    ),
    ("the leads of a winding come before its values", ("winding T1 primary black-a black-b 117 V 6 ohm center",)),
    ("a name is missing here", ("resistor", "basing X99: 1", "common", "accept", "winding T1 primary", "change C28")),
    (
        "{here} does not belong here",
        ("common B- chassis", "move R1.1 to SP1.1 red", "state drawn twice", "lift R1.1 to SP1.1"),
    ),
)
