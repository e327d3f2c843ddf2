"""How many parts `covers` leaves out of the comparison, so that silence is not mistaken for agreement.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    covers R1

Right:

    start from "original.netck"

Source: the `covers` line of the file.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.core.diagnostic import About, Grade, Label
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    count = pair.pairing.uncovered
    if not count:
        return
    covers = pair.real.circuit.covers or pair.original.circuit.covers
    parts = "part is" if count == 1 else "parts are"
    yield Finding(
        f"{count} {parts} outside `covers` and not checked",
        tuple(Label(cover.place) for cover in covers[:1]),
        do="take the `covers` line out to compare the whole chassis",
    )


RULE = Rule("not-compared", Grade.NOTE, _check, __doc__, About.ITSELF)
