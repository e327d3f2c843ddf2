"""What every row of the table of basings must be: a whole socket, units with all they need, alike in its family."""

import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from importlib.resources import files

import pytest

from netcheck.core.kind import Basing, Features, Role, Shape, Standing
from netcheck.parts import KINDS
from netcheck.parts.basings import basing_flaw, basing_of, known_types

PLACES = {
    "octal": 8, "loctal": 8, "rimlock": 8, "7-pin miniature": 7, "9-pin miniature": 9,
    "4-pin": 4, "5-pin": 5, "6-pin": 6, "7-pin": 7,
}  # fmt: skip
COLD = ("5BO", "4AJ", "4R")  # gas tubes without a heater
UNITS = ("", "-a", "-b")
TYPES = known_types()


def known(type_: str) -> Basing:
    basing = basing_of(type_)
    assert basing is not None
    return basing


def names_of(basing: Basing) -> Counter[str]:
    """How often each electrode comes on its own or as the first of a pin; what shares a pin is counted too."""
    words = {"filament-1": "heater-1", "filament-2": "heater-2", "filament-tap": "heater-tap"}
    return Counter(words.get(name, name) for pin in basing.pins for name in pin.electrode.split("+"))


def has_a_whole_socket(type_: str) -> None:
    basing = known(type_)
    assert basing.type == type_
    labels = [pin.label for pin in basing.pins]
    assert [label for label in labels if label != "cap"] == [str(n + 1) for n in range(PLACES[basing.socket])]
    assert len(labels) == len(set(labels))
    assert labels.count("cap") == ("cap" in labels[-1:])
    assert basing_flaw(basing) is None
    assert basing.standing is not Standing.FILE
    assert basing.source or basing.standing is Standing.MEMORY


def has_one_heater_of_two_ends_and_a_tap_at_most(type_: str) -> None:
    basing = known(type_)
    names = names_of(basing)
    assert names["heater-tap"] <= 1
    if basing.base in COLD:
        assert not any(name.startswith("heater") for name in names)
    else:
        # A filament's minus end is on two pins of the battery miniatures.
        assert 1 <= names["heater-1"] <= 2
        assert names["heater-2"] == 1
        assert names["heater-1"] == 1 or basing.base in ("6AR", "7AT", "7AV")


def has_in_every_unit_what_its_electrodes_ask_for(type_: str) -> None:
    basing = known(type_)
    names = set(names_of(basing))
    source = {"cathode"} if not {"heater-1"} <= names or "cathode" in names else {"heater-1"}
    for unit in UNITS:
        plates = {name for name in names if re.fullmatch(rf"plate(-\d)?{unit}", name)}
        grids = {name for name in names if re.fullmatch(rf"(grid|screen)(-\d)?{unit}", name)}
        assert bool(f"grid{unit}" in names) or not grids, "a unit with a screen has a control grid"
        assert plates or not grids, "a grid has its plate"
        assert f"screen{unit}" in names or f"suppressor{unit}" not in names or basing.base == "7CH"
        assert not plates or names & {f"cathode{unit}", *source}, "a plate has what it draws from"
    assert any(name.startswith(("plate", "diode")) for name in names)


def ties_pins_of_one_electrode_and_no_others(type_: str) -> None:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert isinstance(shape, Shape)
    at = defaultdict(list)
    for terminal in shape.terminals:
        if terminal.role in (Role.LEAD, Role.SHELL):
            at[terminal.electrode].append(terminal.name)
    assert shape.tied == tuple(tuple(pins) for pins in at.values() if len(pins) > 1)


@pytest.mark.parametrize("type_", TYPES)
def test_every_type(type_: str) -> None:
    has_a_whole_socket(type_)
    has_one_heater_of_two_ends_and_a_tap_at_most(type_)
    has_in_every_unit_what_its_electrodes_ask_for(type_)
    ties_pins_of_one_electrode_and_no_others(type_)


def test_no_type_stands_twice() -> None:
    """The reader takes the first row of a type, so the text is looked at."""
    text = (files("netcheck.parts") / "basings.txt").read_text(encoding="utf-8")
    lines = [line.partition("|")[0] for line in text.splitlines() if line.startswith(" ")]
    every = Counter(name.replace("-", "") for line in lines for name in line.split())
    assert [name for name, times in every.items() if times > 1] == []
    assert sum(every.values()) == len(TYPES) >= 700


def families() -> Iterator[tuple[str, list[str]]]:
    """Types that differ in their heater alone, by what they are called: 6AU6 and 12AU6, ECC85 and PCC85."""
    of = defaultdict[tuple[str, str], list[str]](list)
    for type_ in TYPES:
        american = re.match(r"([2-9]|\d\d)([A-Z]{2}\d)", type_)
        european = re.fullmatch(r"[EHPUX]([A-Z]{1,4}\d{2,3})", type_)
        if american and known(type_).base not in ("5T", "5Q", "5L"):
            of[american[2], known(type_).socket].append(type_)
        elif european:
            of[european[1], known(type_).socket].append(type_)
    yield from ((letters, types) for (letters, _), types in of.items() if len(types) > 1)


# 6BZ7 and 12BZ7 are two tubes by chance; the glass 6SA7-GT has its fifth grid on another pin than the metal 6SA7.
STRANGERS = {"BZ7", "SA7"}


@pytest.mark.parametrize(("letters", "types"), list(families()))
def test_members_of_a_family_are_alike(letters: str, types: list[str]) -> None:
    """Their shells apart: a metal tube has one on a pin that a glass tube leaves empty."""
    plain = {
        tuple("none" if pin.electrode == "shell" else pin.electrode for pin in known(type_).pins) for type_ in types
    }
    assert len(plain) == 1 + (letters in STRANGERS), types


def test_how_many_types_are_known_from_where(capsys: pytest.CaptureFixture[str]) -> None:
    """Printed, so that the share is seen; a type from memory says so in the list of lugs."""
    rows = [known(type_) for type_ in TYPES]
    read = [row for row in rows if row.standing is Standing.SOURCE]
    own = [row for row in read if "of the same base" not in row.source]
    with capsys.disabled():
        said = f"{len(own)} read, {len(read) - len(own)} read by their base, {len(rows) - len(read)} from memory"
        print(f"\n{len(rows)} tube types: {said}")  # noqa: T201 - meant to be seen
    assert len(own) >= 90
    assert len(rows) >= 700
    assert 2 * len(read) > len(rows), "a type from memory alone goes out before the sourced ones are the minority"
