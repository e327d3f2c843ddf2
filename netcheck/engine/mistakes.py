"""The manual pages of mistakes in a file: what keeps a netlist from being read or built."""

from collections.abc import Mapping

__all__ = ["PAGES"]

PAGES: Mapping[str, str] = {
    "syntax": """A line can't be read.

Each line says one thing, and its first word says what: a kind of part (`resistor`), `net`, `at`, `wire` and so on.
`netcheck why language` has them all. The message says what was expected at the place marked, and shows how it is
written. All lines that can't be read are told in one run.

Wrong:

    net B+1 C30A+, L3.1

Right:

    net B+1: C30A+, L3.1
""",
    "refused-character": """A character that looks like another one, or that can't be seen.

Word processors put curly quotes, long dashes and no-break spaces into text. Two names that look the same would then
differ, so they are refused, and the message names the key to press. The minus sign U+2212, both forms of the micro
sign and of the ohm sign, and fractions such as one half can be read.
""",
    "unreadable-value": """A number that has no unit, an unknown one, or one that can be read two ways.

netcheck never guesses the size of a value. `50M` on a resistor is 50,000 ohm on some drawings and 50 megohm on
others; `MF` is a microfarad on old parts and a millifarad on new ones. The message gives both readings and how to write
each.

Wrong:

    resistor R1 50M

Right:

    resistor R1 50k
""",
    "wrong-value": """A value that this kind of part does not have, or has already.

Wrong:

    resistor R1 20 mfd

Right:

    resistor R1 20k
""",
    "unknown-word": """A word that says nothing about this kind of part.

The words that are known are listed in `netcheck why language` (`paper`, `half-moon`, `grounded`); any other is a
slip, or belongs in a comment.
""",
    "broken-declaration": """The line of a part lacks something that this kind of part needs.

A can or a lug must say whether it is `grounded` or `insulated`, a strip how many lugs it has, a tube its type. The
name is known all the same, so one slip makes one message.
""",
    "declared-twice": """A name is given to a second part, or two names differ in capitals only.

A part has one line that begins with its kind. A part that comes from the earlier file is changed with `change`.
""",
    "refused-name": """A name that would read as something else: `chassis`, or one that ends in plus or minus.""",
    "undeclared-name": """A part, net or type that no line of the file has.

If one of the known names is close, the message asks whether that one is meant.
""",
    "no-such-terminal": """A part does not have this lead, pin or lug.

The message says which ones it has. Some spellings are refused because they can be read two ways: the plus of a diode,
the left end of a control.
""",
    "removed-part": """Something is connected to a part that is taken out.

When a section of a can is removed its lug is still there: write the lug (`C30.A`).
""",
    "refused-change": """A change that can't be made to what comes from the earlier file.

`remove`, `change`, `lift`, `move` and `cut` are about what an earlier file says. A lead to lift must be on something; a
lead that is still connected is moved, not fitted again. A changed part keeps its joints, so
each lead that something is soldered to must be there still: what has other leads, as a diode where a tube was, is a new
part that `replaces` the old one, which is removed. A tube of another type finds the wires at the pins where they were.
""",
    "unusable-file": """A file that is empty, missing, outside the folder of the set, or that leads back to itself.""",
    "past-own-end": """A wire is said to run past a lug that it ends on.""",
    "net-not-placed": """A reading, a load or a supply is on a net that a trace does not have.

A trace takes over the names of nets with what the drawing says of them: a name stays where most of its leads are. With
half of them on one net and half on another, or none joined at all, one line says which: `net B+1: C30.A`.
""",
    "settings": """The settings of a repository, `netcheck.toml`, say something that can't be followed.

They name the chassis, one table each, with the files of their states (`drawn`, `found`, `planned`, `rewired`; one at
least). A key that is not known stops the run, since a slip in it would otherwise change what is checked in silence. The
message names the near key and its line; a file that is named and can't be read is told at its line too.

    outputs = ["reports/{chassis}.txt", "reports/all.sarif"]
    strict = true

    [chassis.lock-cottage]
    drawn = "lock-cottage/drawn.netck"
    rewired = "lock-cottage/rewired.netck"

    [[chassis.lock-cottage.accept]]
    rule = "value-changed"
    name = "C61"
    reason = "one value bought"

A path of `outputs` with `{chassis}` in it is written for each chassis, any other once for all; the ending says the
kind. `strict` makes LOOK fail, for all or in a chassis's own table. `netcheck all --schema` prints the keys for
editors.
""",
}
