"""A part has another name than in the original, and was recognised by its kind, its value and what it is wired to.

That is a NOTE: `replaces` would say it. If several like parts could not be told apart, it is LOOK: the comparison goes
on with the likeliest pairing. A file that uses the original's names in another order throughout gets one NOTE, if
everything agrees with the names put right.

Original:

    resistor R1 470k
    resistor R2 10k
    capacitor C1 .02 mfd
    net grid: R1.1, C1.1
    net plate: C1.2, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    resistor R1 470k
    resistor R2 10k
    capacitor C7 .02 mfd
    net grid: R1.1, C7.1
    net plate: C7.2, R2.1
    net ground: chassis, R1.2, R2.2

Right:

    start from "original.netck"

Source: the original.
"""

from collections.abc import Iterator, Sequence

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    if pair.permuted:
        yield _permuted(pair.permuted)
    for old, new in pair.pairing.recognised:
        yield Finding(
            f"{new.name} is taken to be the original's {old.name}",
            (Label(new.place, "now"), Label(old.place, "in the original")),
            do=f"if so, write `replaces {old.name}` after it; if not, say what it is for",
            touched=Touched((), (new.name, old.name)),
        )
    if pair.pairing.undecided:
        names = [part.name for part in pair.pairing.undecided]
        yield Finding(
            fitting(f"{listed(names)} could not be told apart by their wiring", "some parts could not be told apart"),
            tuple(Label(part.place, "in the original") for part in pair.pairing.undecided[:3]),
            do="write `replaces` after each new part, with the part whose place it takes",
            touched=Touched((), tuple(names)),
            grade=Grade.LOOK,
        )


def _permuted(found: Sequence[tuple[Part, Part]]) -> Finding:
    """One NOTE for all of them. It touches none by name: what else is to be said of a part must not fall silent."""
    by_name = sorted(found, key=lambda pair: pair[0].place.order)
    first_old, first_new = by_name[0]
    shown = [f"{old.name} is now {new.name}" for old, new in by_name]
    number = f"{len(by_name)} parts have another one's name and are wired alike"
    return Finding(
        fitting(f"{number}: {listed(shown, 2)}", number),
        (Label(first_new.place, "now"), Label(first_old.place, "in the original")),
        why=f"read this way, kind, value and every joint agree: {', '.join(shown)}",
        do="nothing to do at the bench; use the original's names, or write `replaces` after each part",
    )


RULE = Rule("renamed", Grade.NOTE, _check, __doc__, About.ITSELF)
