"""The keys of findings: what a service remembers under one is found again by a later version."""

import hashlib

import pytest
from msgspec.structs import replace

from netcheck.core.diagnostic import Diagnostic, Grade, Label, Touched
from netcheck.core.source import Source
from netcheck.reports.keys import caution_key, keyed

DRAWN = Source("sets/original.netck", "net B-: C52-, R7.2\n")
REWIRED = Source("sets/faulty.netck", "# of June\nat SP1.2: C52-, R7.2\n")
WRONG = Diagnostic(
    "lead-on-wrong-net", Grade.STOP, "C52- is on SP1.2",
    (Label(REWIRED.between(20, 24), "it is here"), Label(DRAWN.between(8, 12))),
    touched=Touched(("C52-",), ("C52",), ("chassis", "B-")),
)  # fmt: skip
SYNTAX = Diagnostic("syntax", Grade.STOP, "no statement begins so", (Label(REWIRED.between(10, 12)),))


def key(*found: Diagnostic) -> list[str]:
    return [one for one, _ in keyed(found)]


# Written down when keys were first given out: another figure here makes every service forget what it was told.
KEPT = [(WRONG, "eeb2fd8daac79993"), (SYNTAX, "17eb432b16cd2073")]


@pytest.mark.parametrize(("found", "kept"), KEPT)
def test_a_key_is_what_it_was(found: Diagnostic, kept: str) -> None:
    assert key(found) == [kept]


def test_the_key_of_a_caution_is_what_it_was() -> None:
    said = ("caution", "Metal of this set can be at line voltage.", "faulty.netck")
    assert caution_key("sets/faulty.netck", said[1]) == hashlib.sha256(repr(said).encode()).hexdigest()[:16]
    assert caution_key("faulty.netck", said[1]) == "659598c564a086e0"


def test_a_key_stays_where_a_finding_moves_or_is_worded_anew_and_not_where_it_is_another() -> None:
    moved = replace(WRONG, labels=(Label(REWIRED.between(2, 4)), *WRONG.labels[1:]), headline="C52- is off", why="x")
    turned = replace(WRONG, touched=Touched(("C52-",), ("C52",), ("B-", "chassis")))
    elsewhere = replace(
        WRONG, labels=(Label(replace_name(REWIRED, "other/faulty.netck").between(20, 24)), WRONG.labels[1])
    )
    assert key(moved) == key(turned) == key(elsewhere) == key(WRONG)
    others = (
        replace(WRONG, rule="loose-lead"),
        replace(WRONG, touched=Touched(("C53-",), ("C52",), ("B-", "chassis"))),
        replace(WRONG, touched=Touched(("C52-",), ("C53",), ("B-", "chassis"))),
        replace(WRONG, touched=Touched(("C52-",), ("C52",), ("B-",))),
        replace(WRONG, labels=WRONG.labels[:1]),
        replace(SYNTAX, labels=(Label(REWIRED.between(13, 18)),)),
        SYNTAX,
    )
    assert len({*key(WRONG), *(one for other in others for one in key(other))}) == 1 + len(others)


def test_of_several_alike_each_has_its_own() -> None:
    assert len(set(key(WRONG, WRONG, WRONG))) == 3
    assert key(WRONG, SYNTAX, WRONG)[0::2] == key(WRONG, WRONG)


def replace_name(source: Source, name: str) -> Source:
    return Source(name, source.text)
