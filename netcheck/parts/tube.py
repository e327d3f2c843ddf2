"""The tube: a pin for every place of its socket, named by number or by electrode."""

from collections.abc import Iterator, Mapping
from functools import lru_cache

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Basing, Family, Features, PartKind, Pin, Role, Seat, Shape, Terminal, numbered
from netcheck.parts.basings import basing_flaw, basing_of, unknown_type

__all__ = ["KIND", "SOCKET"]

_ROLES: Mapping[str, Role] = {
    "none": Role.SPARE_PIN,
    "internal": Role.INTERNAL_PIN,
    "shell": Role.SHELL,
    "shield": Role.SHELL,
}
_NAMELESS = (Role.SPARE_PIN, Role.INTERNAL_PIN)
# What a basing may call an electrode, and the name that it is known by here.
_SAME: Mapping[str, str] = {
    "grid-1": "grid",
    "anode": "plate",
    "anode-1": "plate-1",
    "anode-2": "plate-2",
    "filament-1": "heater-1",
    "filament-2": "heater-2",
    "filament-tap": "heater-tap",
}
# Other words for an electrode, where no other electrode of the tube bears them.
_ALSO: Mapping[str, str] = {
    **{known: name for name, known in _SAME.items()},
    "screen": "grid-2",
    "suppressor": "grid-3",
}
_UNITS = ("a", "b", "c", "d")


def _shape(features: Features) -> Shape | Flaw:
    if not features.type:
        return Flaw("the tube's type is not stated", f"like this: `{KIND.example}`")
    basing = features.basing or basing_of(features.type)
    if basing is None:
        return unknown_type(features.type)
    flaw = basing_flaw(features.basing) if features.basing else None
    return flaw or _socket(basing)


@lru_cache(maxsize=256)
def _socket(basing: Basing) -> Shape:
    pins = {pin: tuple(_renamed(name, _SAME) or name for name in pin.electrode.split("+")) for pin in _places(basing)}
    electrodes: dict[str, list[str]] = {}
    for pin, names in pins.items():
        if _ROLES.get(names[0]) not in _NAMELESS:
            electrodes.setdefault(names[0], []).append(pin.label)
    return Shape(
        tuple(_terminals(pins, electrodes)),
        tied=tuple(tuple(labels) for labels in electrodes.values() if len(labels) > 1),
        free=tuple(_free(pins, electrodes)),
        ordered=tuple(pin.label for pin in pins if pin.label != "cap"),
        ring=True,
    )


def _places(basing: Basing) -> Iterator[Pin]:
    """Every place of the socket in order, those without a mention as not connected, then the cap."""
    named = {pin.label: pin for pin in basing.pins}
    last = max((int(label) for label in named if label != "cap"), default=0)
    yield from (named.get(label) or Pin(label, "none") for label in numbered(last))
    yield from (pin for label, pin in named.items() if label == "cap")


def _renamed(name: str, names: Mapping[str, str]) -> str:
    """The electrode's name in a table that knows nothing of units; empty where it is not in there."""
    stem, _, unit = name.rpartition("-")
    if unit not in _UNITS:
        return names.get(name, "")
    return f"{names[stem]}-{unit}" if stem in names else ""


def _terminals(pins: Mapping[Pin, tuple[str, ...]], electrodes: Mapping[str, list[str]]) -> Iterator[Terminal]:
    taken = {*electrodes, *(pin.label for pin in pins)}
    for pin, (name, *shared) in pins.items():
        role = _ROLES.get(name, Role.LEAD)
        if role in _NAMELESS:
            yield Terminal(pin.label, role)
            continue
        words = (*shared, *(_renamed(word, _ALSO) for word in (name, *shared)))
        more = tuple(dict.fromkeys(word for word in words if word and word not in taken))
        taken.update(more)
        # Of several pins with one electrode, the first answers to its name.
        first = electrodes[name][0] == pin.label
        said = pin.electrode if pin.electrode.startswith("filament") else ""
        yield Terminal(pin.label, role, (name, *more) if first else more, name, said=said)


def _free(pins: Mapping[Pin, tuple[str, ...]], electrodes: Mapping[str, list[str]]) -> Iterator[tuple[str, str]]:
    alone = {names[0]: pin.label for pin, names in pins.items() if names == (names[0],)}
    single = {name for name, labels in electrodes.items() if len(labels) == 1}
    pairs = []
    # A tapped heater has its lamp section at one end, and a cathode on a heater pin makes that end the output.
    if "heater-tap" not in electrodes:
        pairs.append(("heater-1", "heater-2"))
    if not any(name.startswith("grid") for name in electrodes):
        pairs.append(("plate-1", "plate-2"))
    if sum(1 for name in electrodes if name.startswith("cathode")) <= 1:
        pairs.append(("diode-1", "diode-2"))
    for one, other in pairs:
        if {one, other} <= single and one in alone and other in alone:
            yield alone[one], alone[other]


def _bare(features: Features) -> Shape | Flaw:
    """The socket without its tube: every pin a lug that answers to its electrode's name as before."""
    shape = _shape(features)
    if isinstance(shape, Flaw):
        return shape
    lugs = (Terminal(t.name, Role.LUG, tuple(w for w in (*t.aliases, t.electrode) if w)) for t in shape.terminals)
    return Shape(tuple(lugs), ordered=shape.ordered, ring=True)


SOCKET = PartKind(
    word="socket",
    family=Family.PLACE,
    seat=Seat.SOCKET,
    example="",
    shape=_bare,
    typed=True,
    place=True,
)
"""What is left of a tube that is removed: its pins are lugs."""

KIND = PartKind(
    word="tube",
    family=Family.TUBE,
    seat=Seat.SOCKET,
    example="tube V5 6V6GT",
    shape=_shape,
    typed=True,
    letters=("V",),
    notes="pins by number or electrode: `V5.8` is `V5.cathode`; a `basing` line gives the base of an unknown type",
)
