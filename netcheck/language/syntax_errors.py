"""The table of mistakes in a line's form: by statement, what is said, what is proposed, and malformed examples.

A line that does not parse is shown to each row in turn; the first whose ``where`` finds a place tells it.
"""

from collections.abc import Callable

from msgspec import Struct

from netcheck.language import misfits
from netcheck.language.corrections import (
    colon_after,
    comma_before,
    example,
    intended_before,
    not_here,
    partner,
    quoted,
    side_after,
    to_before,
    usual_unit,
)
from netcheck.language.situation import LineToken, Situation

__all__ = ["MISTAKES", "Mistake"]


class Mistake(Struct, frozen=True):
    """One row. ``statements`` are first words, none for any; a headline may hold {here} {before} {first} {place}."""

    statements: str
    where: Callable[[Situation], LineToken | None]
    headline: str
    do: Callable[[Situation], str]
    examples: tuple[str, ...]

    def applies(self, line: Situation) -> LineToken | None:
        """The place that the row tells of, where the line makes this mistake."""
        if self.statements and line.first not in self.statements.split():
            return None
        return self.where(line)


MISTAKES = (
    Mistake(
        "position",
        misfits.no_nth_name(2),
        "`position` names the switch and then the position",
        example,
        ("position S2: 1 3", "position S2"),
    ),
    Mistake(
        "accept",
        misfits.no_nth_name(2),
        "`accept` names a rule, a part, lead or net, and why it is all right",
        example,
        ("accept value-changed", 'accept value-changed "one bought"'),
    ),
    Mistake(
        "net meant at position basing",
        misfits.no_colon,
        "the colon is missing after {before}",
        colon_after,
        ("net B+1 C30A+", "at SP1.3, C51-", "position S2 phono 1 3", "basing X99 1 grid", "net B+1", "meant B+2 R70.1"),
    ),
    Mistake(
        "",
        misfits.no_quotes,
        "a text in quotes is expected here",
        quoted,
        ("remove C22 left out", "accept value-changed C61 one value", "spare V4.5 bare on purpose"),
    ),
    Mistake(
        "",
        misfits.no_comma,
        "a comma is missing before {here}",
        comma_before,
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
    Mistake(
        "start parts",
        misfits.no_from,
        "{first} goes with `from` and a file",
        example,
        ('start "original.netck"', "parts original.netck"),
    ),
    Mistake(
        "",
        misfits.no_text,
        "a text in quotes is expected here",
        quoted,
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
    Mistake(
        "fit",
        misfits.no_leads,
        "`fit` says which part, and where each of its leads goes",
        example,
        ("fit R41", "fit R41 C30.A C30.B"),
    ),
    Mistake(
        "wire move cut supply",
        misfits.no_to,
        "{first} needs two points with `to` between them",
        to_before,
        ("wire SP1.1, C30.A red", "move R14.2 SP2.1", "cut SP1.2", "supply boost 280 V", "wire SP1.1 C30.A"),
    ),
    Mistake(
        "all",
        misfits.no_in,
        "`all` says which parts, then `in` which unit",
        example,
        ("all capacitors mfd", "all capacitors", "all capacitors, mfd"),
    ),
    Mistake(
        "",
        misfits.one_lead,
        "{place} says where one lead goes and not the other",
        partner,
        (
            "electrolytic C51 22 mfd 500 V plus C30.A",
            "electrolytic C51 minus SP1.1 22 mfd",
            "resistor R1 1k from SP1.1 SP1.2",
            "diode D1 anode SP1.1",
            "fit C51 cathode SP1.1",
        ),
    ),
    Mistake(
        "state",
        misfits.no_state,
        "`state` is one of drawn, found, planned, rewired",
        example,
        ("state", "state rewird", 'state "drawn"'),
    ),
    Mistake(
        "",
        misfits.no_name_after(",", ":"),
        "a name is missing after {before}",
        example,
        ("net B+1: C30A+,, L3.1", "net B+1: , L3.1", "net B+1:", 'covers C30, "L3"'),
    ),
    Mistake(
        "",
        misfits.no_name_after("to", "from", "plus", "minus", "anode", "cathode", "past", "replaces"),
        "a name is missing after {before}",
        example,
        ("wire SP1.1 to", "resistor R1 1k replaces", 'move R1.1 to "SP1"', "volts B+1 to"),
    ),
    Mistake(
        "tube",
        misfits.no_nth_name(2),
        "the type of the tube is missing",
        example,
        ("tube V1", 'tube V1 "output"'),
    ),
    Mistake(
        "net meant at basing position",
        misfits.early_colon,
        "a name is missing before the colon",
        example,
        ("net: B+1", "at: C51-", "basing: 1 grid"),
    ),
    Mistake(
        "net at wire fit lift move cut",
        misfits.sign('"'),
        "a text in quotes needs its word before it",
        intended_before,
        ('move R14.2 to SP2.1 "the wafer was worn"', 'net B+1: C30A+ "added"', 'wire A to B red "why"'),
    ),
    Mistake(
        "",
        misfits.sign(","),
        "no comma belongs here",
        not_here,
        ("resistor R1 470k, 1 W", "volts B+1, 325 V", "common B-, chassis", 'title "one", "two"'),
    ),
    Mistake(
        "",
        misfits.sign(":"),
        "no colon belongs here",
        not_here,
        ("resistor R1: 470k", "volts B+1: 325 V", "remove C22: C23"),
    ),
    Mistake(
        "",
        misfits.sign('"'),
        "no text in quotes belongs here",
        not_here,
        ('common B- "the return"', 'title "one" "two"', 'mains 117 V "at the wall"'),
    ),
    Mistake(
        "mains volts draws supply meter leakage",
        misfits.no_value,
        "a value with its unit is expected here",
        usual_unit,
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
    Mistake(
        "place",
        misfits.no_name_after(),
        "two lengths belong here: from the left edge, and from the back edge",
        example,
        ("place V5", "place V5 12", "place V5 12 mm"),
    ),
    Mistake(
        "winding",
        misfits.no_side,
        "`each` goes with `side`: of each side of the tap",
        side_after,
        ("winding T1 high red-a tap red-b 310-0-310 V 100 ohm each", "winding T1 high 1 2 3 100 ohm each end"),
    ),
    Mistake(
        "winding",
        misfits.no_value,
        "the leads of a winding come before its values",
        example,
        ("winding T1 primary black-a black-b 117 V 6 ohm center",),
    ),
    Mistake(
        "",
        misfits.no_name_after(),
        "a name is missing here",
        example,
        ("resistor", "basing X99: 1", "common", "accept", "winding T1 primary", "change C28"),
    ),
    Mistake(
        "",
        misfits.anything,
        "{here} does not belong here",
        example,
        ("common B- chassis", "move R1.1 to SP1.1 red", "state drawn twice", "lift R1.1 to SP1.1"),
    ),
)
