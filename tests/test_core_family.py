"""What families, seats and kinds are asked: which parts by their nature say yes."""

import re
from pathlib import Path

import pytest

from netcheck import parts
from netcheck.core.family import Family, Seat
from netcheck.parts import KINDS

# By what the parts are: which store, make contact, resist; which have pins, lugs with neighbours, an order.
FACTS = {
    "stores": {"capacitor", "electrolytic"},
    "closes": {"fuse", "switch"},
    "resists": {"resistor", "control"},
}
SEATS = {"has_pins": {"socket", "plug"}, "holds_by_lugs": {"strip", "can"}, "counted": {"strip", "socket"}}


@pytest.mark.parametrize("fact", FACTS)
def test_families_by_what_they_do(fact: str) -> None:
    assert {family.name.lower() for family in Family if getattr(family, fact)} == FACTS[fact]


@pytest.mark.parametrize("fact", SEATS)
def test_seats_by_how_they_are_told(fact: str) -> None:
    assert {seat.name.lower() for seat in Seat if getattr(seat, fact)} == SEATS[fact]
    assert all(re.fullmatch("|.* seen from below", seat.counted) for seat in Seat)


@pytest.mark.parametrize(
    ("fact", "words"),
    [
        ("is_chain", {"candohm"}),
        ("is_choke", {"choke"}),
        ("holds_leads", {"can", "lug", "network", "plug", "strip", "tube"}),
    ],
)
def test_kinds_by_what_is_asked_of_them(fact: str, words: set[str]) -> None:
    assert {word for word, kind in KINDS.items() if getattr(kind, fact)} == words


def test_every_module_of_a_kind_is_known_by_its_word() -> None:
    folder = Path(parts.__file__).parent
    modules = {path.stem for path in folder.glob("*.py") if "KIND = PartKind(" in path.read_text(encoding="utf-8")}
    assert sorted(KINDS) == sorted(modules)
    assert len(KINDS) == len(modules)
    assert [kind.word for kind in KINDS.values()] == list(KINDS)
    assert "socket" not in KINDS  # no line declares one
