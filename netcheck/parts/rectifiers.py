"""The diodes in a tube, by its electrodes, and in a dry rectifier, by its leads."""

from collections.abc import Collection, Iterable

__all__ = ["diode_paths", "dry_paths"]

_UNITS = ("a", "b", "c", "d")


def diode_paths(electrodes: Collection[str]) -> tuple[tuple[str, str], ...]:
    """Anode and cathode of every diode in a tube, by its electrodes: a plate in a unit that has no grid.

    A filament stands for the cathode that it lacks. The diode plates of a detector are no rectifier's. Beside a `plate`
    with a grid, a numbered plate with a cathode of its number is a rectifier too, unless a grid may be its own.
    """
    plates = [name for name in electrodes if name.rpartition("-")[0] in ("", "plate") and name.startswith("plate")]
    gridded = {_unit_of(name) for name in electrodes if name.startswith("grid")}
    return tuple(
        (plate, cathode)
        for plate in plates
        if (_unit_of(plate) not in gridded or _stands_alone(plate, electrodes))
        and (cathode := _cathode_of(plate, electrodes))
    )


def dry_paths(leads: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Anode and cathode of every diode in a dry rectifier, by its leads.

    A stack has two arms in series from minus to plus at each lead for the alternating side, whether it is a bridge, a
    doubler or centre-tapped.
    """
    names = tuple(leads)
    if "anode" in names:
        return (("anode", "cathode"),)
    inputs = [name for name in names if name.startswith("ac")]
    return (*(("-", lead) for lead in inputs), *((lead, "+") for lead in inputs)) or (("-", "+"),)


def _stands_alone(plate: str, electrodes: Collection[str]) -> bool:
    number = plate.removeprefix("plate-")
    own = {"plate", f"cathode-{number}"} <= set(electrodes) and f"grid-{number}" not in electrodes
    return own and number.isdigit()


def _unit_of(electrode: str) -> str:
    unit = electrode.rpartition("-")[2]
    return unit if unit in _UNITS else ""


def _cathode_of(plate: str, electrodes: Collection[str]) -> str:
    own = f"cathode{plate.removeprefix('plate')}"
    return next((name for name in (own, "cathode", "heater-2") if name in electrodes), "")
