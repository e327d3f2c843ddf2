"""What a rectifier tube takes as its first filter capacitor, by type: the most, and who says so."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from netcheck.core.kind import Standing

__all__ = ["FirstCapacitor", "diode_paths", "first_capacitor_of", "first_capacitors"]


@dataclass(frozen=True, slots=True)
class FirstCapacitor:
    """The largest capacitor, in farads, that a type of tube may charge directly."""

    type: str
    most: Decimal
    standing: Standing
    source: str


# Types | the largest first capacitor in mfd | where that was read, or what is known of it from memory.
_TABLE = """
5Y3 5Y3G 5Y3GT              | 20 | source: tubeofile.com/api/tubes/5Y3 (older data of the 5Y3-G show 10)
5U4 5U4G                    | 40 | source: emissionlabs.com/datasheets/EML5U4G.html, 170 to 230 ohm in each plate
5U4GA 5U4GB                 | 40 | memory: as the 5U4-G
5T4                         | 40 | source: tubeofile.com/api/tubes/5T4, 150 ohm in each plate; larger needs more
5R4GY 5R4GYA                |  4 | source: tubeofile.com/api/tubes/5R4, 250 ohm in each plate
5R4GYB                      | 20 | source: tubeofile.com/api/tubes/5R4
274B                        |  4 | source: monoandstereo.com/2021/05/tube-of-month-5u4.html
5AR4 GZ34                   | 60 | memory: 50 to 200 ohm in each plate, more at higher volts
EZ40                        | 50 | source: tubeofile.com/api/tubes/EZ40, 125 to 300 ohm in each plate
AZ41                        | 50 | source: ifv.227.in.net, 200 ohm in each plate
EZ80 6V4 EZ81 6CA4          | 50 | memory: 125 to 300 ohm in each plate
6X4 6X4W 12X4               | 10 | memory: typical operation; more needs more resistance in the plates
6X5 6X5G 6X5GT              | 10 | memory: typical operation; more needs more resistance in the plates
35Z5 35Z5G 35Z5GT 35W4      | 40 | memory: 15 ohm in the plate at 117 V
25Z6 25Z6G 25Z6GT 50Y6GT    | 40 | memory: 15 ohm in each plate at 117 V
117Z3                       | 40 | memory: 20 ohm in the plate at 117 V
"""
_MFD = Decimal("0.000001")


@cache
def first_capacitors() -> tuple[FirstCapacitor, ...]:
    """Every type of the table."""
    return tuple(_rows())


def first_capacitor_of(tube_type: str) -> FirstCapacitor | None:
    """The limit of a type as printed on the glass; None where it is no rectifier or is not in the table."""
    names = [name.upper().replace("-", "").replace(" ", "") for name in tube_type.split("/")]
    return next((row for name in names for row in first_capacitors() if row.type == name), None)


def _rows() -> Iterator[FirstCapacitor]:
    for line in _TABLE.strip().splitlines():
        types, most, said = (field.strip() for field in line.split("|"))
        word, _, source = said.partition(": ")
        standing = Standing.SOURCE if word == "source" else Standing.MEMORY
        for name in types.split():
            yield FirstCapacitor(name, Decimal(most) * _MFD, standing, source)


_UNITS = ("a", "b", "c", "d")


def diode_paths(electrodes: Collection[str]) -> tuple[tuple[str, str], ...]:
    """Anode and cathode of every diode in a tube, by its electrodes: a plate in a unit that has no grid.

    A filament stands for the cathode that it lacks. The diode plates of a detector are no rectifier's.
    """
    plates = [name for name in electrodes if name.rpartition("-")[0] in ("", "plate") and name.startswith("plate")]
    gridded = {_unit_of(name) for name in electrodes if name.startswith("grid")}
    return tuple(
        (plate, cathode)
        for plate in plates
        if _unit_of(plate) not in gridded and (cathode := _cathode_of(plate, electrodes))
    )


def _unit_of(electrode: str) -> str:
    unit = electrode.rpartition("-")[2]
    return unit if unit in _UNITS else ""


def _cathode_of(plate: str, electrodes: Collection[str]) -> str:
    own = f"cathode{plate.removeprefix('plate')}"
    return next((name for name in (own, "cathode", "heater-2") if name in electrodes), "")
