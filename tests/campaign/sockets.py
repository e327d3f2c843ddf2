"""The sockets of the samples' tubes, pin by pin, written down a second time: from memory of the tube manuals."""

from collections.abc import Mapping

__all__ = ["SOCKETS", "free_pins"]

_ROWS = """
5Y3GT  - heater-1 - plate-2 - plate-1 - heater-2
5U4G   - heater-1 - plate-2 - plate-1 - heater-2
6SA7   shell heater-1 plate grid-2 grid cathode heater-2 grid-3
6SK7   shell heater-1 grid-3 grid cathode grid-2 heater-2 plate
6SJ7   shell heater-1 grid-3 grid cathode grid-2 heater-2 plate
6SQ7   shell grid cathode diode-2 diode-1 plate heater-1 heater-2
6J5    shell heater-1 plate - grid - heater-2 cathode
6V6GT  - heater-1 plate grid-2 grid - heater-2 cathode
6L6    shell heater-1 plate grid-2 grid - heater-2 cathode
6SN7   grid-b plate-b cathode-b grid-a plate-a cathode-a heater-1 heater-2
12BA6  grid grid-3 heater-1 heater-2 plate grid-2 cathode
6BA6   grid grid-3 heater-1 heater-2 plate grid-2 cathode
12BE6  grid cathode heater-1 heater-2 plate grid-2 grid-3
12AV6  grid cathode heater-1 heater-2 diode-2 diode-1 plate
6AV6   grid cathode heater-1 heater-2 diode-2 diode-1 plate
35Z5GT - heater-1 heater-tap - plate - heater-2 cathode
50L6GT - heater-1 plate grid-2 grid - heater-2 cathode
12SQ7GT shell grid cathode diode-2 diode-1 plate heater-1 heater-2
50C5   cathode grid heater-1 heater-2 grid grid-2 plate
6AQ5   grid cathode heater-1 heater-2 plate grid-2 grid
12AU7  plate-b grid-b cathode-b heater-1 heater-2 plate-a grid-a cathode-a heater-tap
"""

SOCKETS: Mapping[str, Mapping[str, str]] = {
    name: {str(n): "none" if e == "-" else e for n, e in enumerate(electrodes, start=1)}
    for name, *electrodes in (row.split() for row in _ROWS.strip().splitlines())
}

_PAIRS = (("heater-1", "heater-2"), ("plate-1", "plate-2"), ("diode-1", "diode-2"))


def free_pins(tube: str) -> tuple[tuple[str, str], ...]:
    """Pins of a type that may change places: heater ends, the plates of a rectifier, of a detector."""
    at = {electrode: pin for pin, electrode in SOCKETS[tube].items()}
    return tuple((at[a], at[b]) for a, b in _PAIRS if a in at and b in at and "heater-tap" not in at)
