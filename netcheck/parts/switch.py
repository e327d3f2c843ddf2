"""The switch: the lugs that its positions name; a closed contact is a part, never a join."""

from itertools import pairwise

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, Terminal, framed
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

_LUGS_OF_ONE_CONTACT = 2
_BY_ITSELF = ("closed", "open")
"""The positions of a switch that has none by a name."""


def _shape(features: Features) -> Shape | Flaw:
    names = [name for name, _ in features.positions]
    drawn = features.arguments.get("drawn")
    if drawn is not None and names and drawn not in names:
        return Flaw(f"the switch has no position `{drawn}`", f"it has {', '.join(names)}")
    if drawn is not None and not names and drawn not in _BY_ITSELF:
        return Flaw(
            f"a switch without `position` lines is not drawn `{drawn}`, but `closed` or `open`",
            f"write `drawn closed`, or say what {drawn} closes, as in `position S2 {drawn}: 1 2`",
        )
    lugs = {lug for _, groups in features.positions for group in groups for lug in group} or {"1", "2"}
    ordered = tuple(sorted(lugs, key=_by_number))
    free = tuple(pairwise(ordered)) if len(lugs) <= _LUGS_OF_ONE_CONTACT else ()
    return framed(Shape(tuple(Terminal(lug) for lug in ordered), free=free), features)


def _by_number(lug: str) -> tuple[bool, int, str]:
    """Numbered lugs first, 2 before 10."""
    number = int(lug) if lug.isascii() and lug.isdigit() else None
    return (number is None, number or 0, lug)


KIND = PartKind(
    word="switch",
    family=Family.SWITCH,
    seat=Seat.TERMINALS,
    example="switch S2 drawn closed",
    shape=_shape,
    principal=Dimension.CURRENT,
    rated=(Dimension.VOLTAGE, Dimension.CURRENT),
    dimensions=frozenset({Dimension.CURRENT, Dimension.VOLTAGE}),
    words=MOUNTINGS | {"exposed"},
    arguments=frozenset({"drawn"}),
    letters=("S", "SW"),
    notes="lugs come from its `position` lines; without any it has the lugs 1 and 2, and is drawn `closed` or `open`",
)
