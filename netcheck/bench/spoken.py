"""A mend as it is said to somebody with an iron in the hand; as lines of a file it is in ``core.mend``."""

from collections.abc import Mapping
from types import MappingProxyType

from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire

__all__ = ["spoken"]

_SAID: Mapping[type[Act], str] = MappingProxyType(
    {
        Lift: "take {0.point} off all that it is on",
        Put: "move {0.point} to {0.to}",
        Solder: "solder {0.point} to {0.to}",
        Cut: "undo the joint between {0.a} and {0.b}",
        Wire: "run a wire from {0.a} to {0.b} {0.words}",
        Bond: "join {0.part} to the chassis by its mounting",
        Insulate: "keep {0.part} off the chassis",
        Change: "fit {0.part} of {0.words}",
        Remove: "take {0.part} out",
    }
)


def spoken(mend: Mend) -> tuple[str, ...]:
    """Each act of a mend as an order, in the order of hands."""
    return tuple(map(_order, mend))


def _order(act: Act) -> str:
    if isinstance(act, Change) and not act.words:  # of a part of which the file says no value
        return f"fit another {act.part}"
    return _SAID[type(act)].format(act).rstrip()
