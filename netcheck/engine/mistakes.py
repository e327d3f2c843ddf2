"""The manual pages of mistakes in a file: what keeps a netlist from being read or built."""

from collections.abc import Mapping

__all__ = ["PAGES"]

PAGES: Mapping[str, str] = {
    "syntax": """A line can't be read as a statement.

One statement stands on a line and its first word says what it is: a kind of part (`resistor`), `net`, `at`,
`wire` and so on. The message says what was expected at the place marked, and shows the form. Every line that
can't be read is told in one run.

Wrong:

    net B+1 C30A+, L3.1

Right:

    net B+1: C30A+, L3.1
""",
    "refused-character": """A character that looks like another one, or that can't be seen.

Word processors put curly quotes, long dashes and no-break spaces into text. Two names that look the same would
then differ, so they are refused with the key to press. The minus sign U+2212, both forms of the micro sign and
of the ohm sign, and fractions such as one half are read.
""",
    "unreadable-value": """A number that has no unit, an unknown one, or one that can be read two ways.

A value never changes its size silently. `50M` on a resistor is 50,000 ohm on some drawings and 50 megohm on
others; `MF` is a microfarad on old parts and a millifarad on new ones. The message says both readings and how
to write each.

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

Words that are known are read (`paper`, `half-moon`, `grounded`); another one is a slip or belongs in a comment.
""",
    "broken-declaration": """A declaration lacks what its kind needs.

A can or a lug says whether it is `grounded` or `insulated`, a strip how many lugs it has, a tube its type.
The name counts as declared all the same, so that one slip makes one message.
""",
    "declared-twice": """A name is declared a second time, or two names differ in capitals only.

A part is declared once, with its kind. A part that comes from the base is changed with `change`.
""",
    "refused-name": """A name that would read as something else, such as `chassis` or one that ends in a sign.""",
    "undeclared-name": """A part, net or type that no line declares.

Where one declared name is near, the message asks whether that one is meant.
""",
    "no-such-terminal": """A part does not have this terminal.

The message says which terminals the part has. Some spellings are refused because they can be read two ways:
the plus of a diode, the left end of a control.
""",
    "removed-part": """A joint to a part that is taken out.

When a section of a can is removed its lug is still there: write the lug (`C30.A`).
""",
    "refused-change": """A change that can't be made to what comes from the base.

`remove`, `change`, `lift`, `move` and `cut` speak of what an earlier file says. Something to lift must be on
something; a lead that is still joined is moved, not fitted again.
""",
    "unusable-file": """A file that is empty, missing, outside the repository, or that leads back to itself.""",
    "past-own-end": """A wire is said to pass a lug that it ends on.""",
}
