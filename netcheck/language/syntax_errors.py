"""The table of mistakes in a line's form: by statement, what is said and what is proposed.

A line that does not parse is shown to each row in turn; the first whose ``where`` finds a place tells it.
"""

from collections.abc import Callable

from msgspec import Struct

from netcheck.language import misfits
from netcheck.language.corrections import (
    colon_after,
    comma_before,
    example,
    in_two,
    intended_before,
    not_here,
    one_lug,
    partner,
    quoted,
    side_after,
    to_before,
    usual_unit,
    without_it,
)
from netcheck.language.situation import LineToken, Situation

__all__ = ["MISTAKES", "Mistake"]


class Mistake(Struct, frozen=True):
    """One row. ``statements`` are first words, none for any; a headline may hold {here} {before} {first} {place}."""

    statements: str
    where: Callable[[Situation], LineToken | None]
    headline: str
    do: Callable[[Situation], str]

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
    ),
    Mistake(
        "accept",
        misfits.no_nth_name(2),
        "`accept` names a rule, a part, lead or net, and why it is all right",
        example,
    ),
    Mistake(
        "net meant at position basing",
        misfits.no_colon,
        "the colon is missing after {before}",
        colon_after,
    ),
    Mistake(
        "",
        misfits.no_quotes,
        "a text in quotes is expected here",
        quoted,
    ),
    Mistake(
        "",
        misfits.colour_of_lead,
        "{here} is a colour, and no lead",
        without_it,
    ),
    Mistake(
        "",
        misfits.no_comma,
        "a comma is missing before {here}",
        comma_before,
    ),
    Mistake(
        "start parts",
        misfits.no_from,
        "{first} goes with `from` and a file",
        example,
    ),
    Mistake(
        "",
        misfits.no_text,
        "a text in quotes is expected here",
        quoted,
    ),
    Mistake(
        "fit",
        misfits.no_leads,
        "`fit` says which part, and where each of its leads goes",
        example,
    ),
    Mistake(
        "wire move cut supply",
        misfits.no_to,
        "{first} needs two points with `to` between them",
        to_before,
    ),
    Mistake(
        "all",
        misfits.no_in,
        "`all` says which parts, then `in` which unit",
        example,
    ),
    Mistake(
        "",
        misfits.one_lead,
        "{place} says where one lead goes and not the other",
        partner,
    ),
    Mistake(
        "state",
        misfits.no_state,
        "`state` is one of drawn, found, planned, rewired",
        example,
    ),
    Mistake(
        "position",
        misfits.no_name_after(":"),
        "a name is missing after {before}",
        one_lug,
    ),
    Mistake(
        "",
        misfits.no_name_after(",", ":"),
        "a name is missing after {before}",
        example,
    ),
    Mistake(
        "",
        misfits.no_name_after("to", "from", "plus", "minus", "anode", "cathode", "past", "replaces"),
        "a name is missing after {before}",
        example,
    ),
    Mistake(
        "tube",
        misfits.no_nth_name(2),
        "the type of the tube is missing",
        example,
    ),
    Mistake(
        "net meant at basing position",
        misfits.early_colon,
        "a name is missing before the colon",
        example,
    ),
    Mistake(
        "net at wire fit lift move cut",
        misfits.sign('"'),
        "a text in quotes needs its word before it",
        intended_before,
    ),
    Mistake(
        "remove spare accept lift",
        misfits.after_reason,
        "no comma belongs here",
        in_two,
    ),
    Mistake(
        "",
        misfits.sign(","),
        "no comma belongs here",
        not_here,
    ),
    Mistake(
        "",
        misfits.sign(":"),
        "no colon belongs here",
        not_here,
    ),
    Mistake(
        "",
        misfits.sign('"'),
        "no text in quotes belongs here",
        not_here,
    ),
    Mistake(
        "mains volts draws supply meter leakage",
        misfits.no_value,
        "a value with its unit is expected here",
        usual_unit,
    ),
    Mistake(
        "place",
        misfits.no_name_after(),
        "two lengths belong here: from the left edge, and from the back edge",
        example,
    ),
    Mistake(
        "winding",
        misfits.no_side,
        "`each` goes with `side`: of each side of the tap",
        side_after,
    ),
    Mistake(
        "winding",
        misfits.no_value,
        "the leads of a winding come before its values",
        example,
    ),
    Mistake(
        "",
        misfits.no_name_after(),
        "a name is missing here",
        example,
    ),
    Mistake(
        "",
        misfits.anything,
        "{here} does not belong here",
        example,
    ),
)
