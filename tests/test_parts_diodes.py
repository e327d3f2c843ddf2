"""Which way current goes in a tube and in a dry rectifier, and which of their leads may change places."""

import pytest

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Features
from netcheck.parts import KINDS, SOCKET
from netcheck.parts.rectifiers import diode_paths, dry_paths

# Receiving Tube Manual RC-30 (1975), RC-19 (1959) for the older ones: electrodes by the base diagrams.
PATHS = {
    "5Y3GT": {("plate-1", "heater-2"), ("plate-2", "heater-2")},
    "6X4": {("plate-1", "cathode"), ("plate-2", "cathode")},
    "35Z5GT": {("plate", "cathode")},
    "25Z6": {("plate-a", "cathode-a"), ("plate-b", "cathode-b")},
    "6AL5": {("plate-a", "cathode-a"), ("plate-b", "cathode-b")},
    "6SQ7GT": set(),  # its diodes are a detector's
    "6V6GT": set(),
    "12AX7": set(),
}
# By pins: what may change places without a sound. Not a heater with a tap, nor diodes with cathodes of their own.
FREE = {
    "5Y3GT": {frozenset("28"), frozenset("46")},
    "6X4": {frozenset("34"), frozenset("16")},
    "6SQ7GT": {frozenset("78"), frozenset("45")},
    "6T8": {frozenset("45")},
    "6H6": {frozenset("27")},
    "25Z6": {frozenset("27")},
    "6V6GT": {frozenset("27")},
    "35Z5GT": set(),
    "12AX7": set(),
    "1S4": set(),
}


def electrodes(type_: str) -> set[str]:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert not isinstance(shape, Flaw)
    return {terminal.electrode for terminal in shape.terminals if terminal.electrode}


@pytest.mark.parametrize("type_", PATHS)
def test_the_diodes_of_a_tube_lead_from_its_plates(type_: str) -> None:
    assert set(diode_paths(sorted(electrodes(type_)))) == PATHS[type_]


@pytest.mark.parametrize(
    ("also", "paths"),
    [
        ("plate-2 cathode-2", {("plate-2", "cathode-2")}),  # as the rectifier beside a pentode
        ("plate-2 cathode-2 grid-2", set()),  # a grid that may be its own
        ("plate-2", set()),  # no cathode of its number
        ("plate-b cathode-b", {("plate-b", "cathode-b")}),
        ("plate-b", {("plate-b", "cathode")}),
    ],
)
def test_a_rectifier_beside_a_tube_with_grids(also: str, paths: set[tuple[str, str]]) -> None:
    assert set(diode_paths(("plate", "cathode", "grid", "screen", *also.split()))) == paths


@pytest.mark.parametrize("type_", FREE)
def test_pins_that_may_change_places(type_: str) -> None:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert not isinstance(shape, Flaw)
    assert {frozenset(pair) for pair in shape.free} == FREE[type_]
    assert shape.free == shape.free[:]  # several ask, one after the other


# A bridge has four diodes, a doubler two in series; both send current from minus to plus.
DRY = {
    "anode cathode": {("anode", "cathode")},
    "+ -": {("-", "+")},
    "+ - ac": {("-", "ac"), ("ac", "+")},
    "+ - ac-1 ac-2": {("-", "ac-1"), ("-", "ac-2"), ("ac-1", "+"), ("ac-2", "+")},
}


@pytest.mark.parametrize("leads", DRY)
def test_the_diodes_of_a_dry_rectifier(leads: str) -> None:
    assert set(dry_paths(leads.split())) == DRY[leads]
    assert len(dry_paths(iter(leads.split()))) == len(DRY[leads])


@pytest.mark.parametrize("type_", ["", "6SA8", "6V6GT", "6SQ7GT"])
def test_a_socket_has_the_pins_of_its_tube(type_: str) -> None:
    tube, socket = (kind.shape(Features(type=type_)) for kind in (KINDS["tube"], SOCKET))
    if isinstance(tube, Flaw) or isinstance(socket, Flaw):
        assert tube == socket
        return
    assert [t.name for t in socket.terminals] == [t.name for t in tube.terminals]
    assert (socket.leads, socket.free, socket.tied, socket.ordered, socket.ring) == ((), (), (), tube.ordered, True)
    for one, other in zip(tube.terminals, socket.terminals, strict=True):
        assert {*one.aliases, one.electrode} - {""} == set(other.aliases)
