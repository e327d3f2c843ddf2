"""The can of a multi-section electrolytic: its lugs and its common, as places to solder to."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Role, Seat, Shape, Terminal, mounting_of

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    mounting = mounting_of(features)
    if isinstance(mounting, Flaw):
        return mounting
    if not mounting:
        return Flaw(
            "a can is `grounded` or `insulated`; the line says neither",
            "twist tabs in metal: `grounded`; in a phenolic wafer: `insulated`; if in doubt, or in a sleeve: "
            "measure from can to chassis with the can's wires off",
        )
    returns = tuple(dict.fromkeys(features.returns.values()))
    clash = next((name for name in returns if name in (*features.sections, *features.marks.values(), "can")), None)
    if clash:
        return Flaw(f"a minus lead can't be called `{clash}`", "that is a lug of the can; name the lead by its colour")
    lugs = tuple(Terminal(letter, Role.LUG, _marks(letter, features)) for letter in features.sections)
    leads = tuple(Terminal(name, Role.LUG) for name in returns)
    common = Terminal("can", Role.LUG, ("+" if "common-plus" in features.words else "-",))
    bonded = ("can",) if mounting == "grounded" else ()
    return Shape((*lugs, *leads, common), bonded=bonded, ordered=features.sections)


def _marks(letter: str, features: Features) -> tuple[str, ...]:
    """The section's mark as a second name for its lug, where no other section bears the same."""
    mark = features.marks.get(letter, "")
    return (mark,) if mark and list(features.marks.values()).count(mark) == 1 else ()


KIND = PartKind(
    word="can",
    family=Family.PLACE,
    seat=Seat.CAN,
    example="can C30 insulated",
    shape=_shape,
    words=MOUNTINGS | {"common-plus", "exposed"},
    place=True,
    letters=("C",),
    notes="a lug per section, by its letter or its mark, and `can`, the common; `common-plus` where that is the plus",
)
