"""What the rewired state is to be compared with: the original with the declared changes made to it."""

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.circuit import Circuit, How, Join
from netcheck.engine.rule import Finding
from netcheck.model.closure import closure
from netcheck.model.points import lead_name

__all__ = ["ChangedOriginal", "expected", "shorted"]


class ChangedOriginal(Struct, frozen=True):
    """The original as it should be now, and the declared changes that change nothing.

    ``followed`` are new lugs that a declared change ends on, each with the net of the original that it is taken for.
    """

    circuit: Circuit
    idle: tuple[Finding, ...]
    followed: tuple[tuple[str, str], ...] = ()


def expected(original: Circuit, rewired: Circuit) -> ChangedOriginal:
    """The original with the rewired file's removals, its intended changes and what it means."""
    declared = rewired.intended or rewired.meant or any(removal.bridged for removal in rewired.removals)
    return _changed(original, rewired) if declared else ChangedOriginal(replace(original, meant=()), ())


def _changed(original: Circuit, rewired: Circuit) -> ChangedOriginal:
    from netcheck.compare.roles.declared import with_declared

    return with_declared(original, rewired)


def shorted(rewired: Circuit, original: Circuit) -> Circuit:
    """The rewired state with every part that is ``inserted`` bridged, so that it must equal the original."""
    bridges: list[Join] = []
    for part in rewired.parts.values():
        if part.inserted is None or part.name in original.parts or len(part.leads) != 2:
            continue
        a, b = (rewired.index[lead_name(part, t.name)] for t in part.leads)
        if rewired.nets[a] != rewired.nets[b]:
            bridges.append(Join(a, b, How.WIRE, part.place, part.place, bridges=part.name))
    joins = (*rewired.joins, *bridges)
    return replace(rewired, joins=joins, nets=closure(len(rewired.points), joins)) if bridges else rewired
