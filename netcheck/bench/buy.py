"""What to order for a work: each new part with what it has to stand, computed where the file allows."""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from netcheck.bench.made import CAPACITOR_VOLTS, DIODE_VOLTS, FILM_VOLTS, RESISTOR_WATTS, next_made, preferred
from netcheck.bench.power import fuse_for
from netcheck.core.circuit import Circuit, Part
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.table.supply import SupplyTable

__all__ = ["Basis", "Group", "Need", "Picks", "lines_of", "needs"]

WATTS_TIMES = 2.0  # a resistor is run at half of what it is rated for (common practice)
AMPERES_TIMES = 2.0  # a rectifier likewise
LEAST_WATTS = 0.5
SAME = Decimal("0.005")

Picks = Callable[[Dimension, Decimal], tuple[Decimal, ...]]


class Group(Enum):
    """How an order is laid out."""

    ELECTROLYTIC = "Electrolytics"
    LINE = "Line capacitors: class X or Y, nothing else"
    CAPACITOR = "Film, mica and ceramic capacitors"
    RESISTOR = "Resistors"
    RECTIFIER = "Rectifiers"
    FUSE = "Fuses"
    OTHER = "The rest"


@dataclass(frozen=True, slots=True)
class Need:
    """One part to buy. ``value`` is as the file has it, ``others`` values that serve as well.

    ``least`` are volts or watts that it has to stand at least, computed or taken from the part that it replaces;
    ``why`` says which. ``size`` is the next size made; None where the largest is too small or nothing is known.
    """

    part: str
    group: Group
    value: str
    others: tuple[str, ...]
    least: str
    size: float | None
    why: str
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Basis:
    """What the needs are worked out from: both states, the supply as computed (None where it could not be)."""

    old: Circuit | None
    new: Circuit
    table: SupplyTable | None
    classes: Mapping[str, str]  # the class that a capacitor's place on the line asks for, by part
    amperes: float | None  # from the line
    picks: Picks


def needs(basis: Basis) -> tuple[Need, ...]:
    """Every part that is new or another than it was, in the order of the groups, then of the file."""
    found = [_need(basis, part) for part in basis.new.parts.values() if _is_new(basis, part)]
    order = list(Group)
    return tuple(sorted(found, key=lambda need: order.index(need.group)))


def _is_new(basis: Basis, part: Part) -> bool:
    was = None if basis.old is None else basis.old.parts.get(part.name)
    if basis.old is None:
        return bool(part.replaces or part.added or part.inserted)
    if was is None:
        return True
    return (was.features.quantities, was.features.type) != (part.features.quantities, part.features.type)


def _need(basis: Basis, part: Part) -> Need:
    if part.name in basis.classes or part.kind.word == "capacitor":
        return _capacitor(basis, part)
    make = {"electrolytic": _electrolytic, "section": _electrolytic, "resistor": _resistor, "rheostat": _resistor,
            "diode": _rectifier, "selenium": _rectifier, "fuse": _fuse}.get(part.kind.word, _other)  # fmt: skip
    return make(basis, part)


def _replaced(basis: Basis, part: Part) -> tuple[Part, ...]:
    """The parts whose place it takes: never less than they are rated for."""
    if basis.old is None:
        return tuple(basis.new.gone[name] for name in part.replaces if name in basis.new.gone)
    names = part.replaces or (part.name,)
    return tuple(basis.old.parts[name] for name in names if name in basis.old.parts)


def _rated(parts: tuple[Part, ...], dimension: Dimension) -> float:
    said = [q for part in parts for q in part.features.all_of(dimension) if q.current is not Current.AC]
    return max((float(q.amount) for q in said), default=0.0)


def _value(part: Part) -> str:
    principal = part.kind.principal
    said = part.features.first(principal) if principal is not None else None
    return said.written if said is not None else "value not said"


def _others(basis: Basis, part: Part) -> tuple[str, ...]:
    """What the trade fits for the old value besides; of a value that is not made, what is made next to it."""
    principal = part.kind.principal
    own = part.features.first(principal) if principal is not None else None
    if principal is None or own is None:
        return ()
    old = [said.amount for was in _replaced(basis, part) if (said := was.features.first(principal)) is not None]
    found = [pick for amount in (*old, own.amount) for pick in basis.picks(principal, amount) if pick != own.amount]
    series = "E24" if principal is Dimension.RESISTANCE else "E12"
    made = Decimal(f"{preferred(float(own.amount), series):.3g}")
    if abs(made / own.amount - 1) > SAME and not found:
        found = [made]
    return tuple(dict.fromkeys(_written(pick, principal) for pick in found))


def _written(amount: Decimal, dimension: Dimension) -> str:
    if dimension is Dimension.CAPACITANCE:
        return f"{float(amount * 1_000_000):g} mfd"
    ohms = float(amount)
    return f"{ohms / 1e6:g} meg" if ohms >= 1e6 else f"{ohms / 1e3:g}k" if ohms >= 1e3 else f"{ohms:g} ohm"


def _electrolytic(basis: Basis, part: Part) -> Need:
    row = next((one for one in basis.table.capacitors if one.name == part.name), None) if basis.table else None
    rated = _rated(_replaced(basis, part), Dimension.VOLTAGE)
    seen = [abs(volts) for volts in (row.peak, row.cold_high) if math.isfinite(volts)] if row else []
    least = max([*seen, rated])
    words = [f"computed {max(seen):.0f} V at its worst"] if seen else ["its volts are not computed"]
    words += [f"the old one {rated:g} V"] if rated else []
    if row is not None and row.amperes >= 0.0005:
        words.append(f"ripple {1000 * row.amperes:.0f} mA")
    return _of_volts(basis, part, Group.ELECTROLYTIC, (least, CAPACITOR_VOLTS, "; ".join(words)))


def _of_volts(basis: Basis, part: Part, group: Group, found: tuple[float, tuple[int, ...], str]) -> Need:
    least, sizes, why = found
    size = next_made(least, sizes) if least else None
    said = f"{least:.0f} V" if least else "not known"
    kind = next((word for word in ("film", "mica", "ceramic", "paper") if word in part.features.words), "")
    return Need(part.name, group, _value(part), _others(basis, part), said, size, why, kind)


def _capacitor(basis: Basis, part: Part) -> Need:
    asked = basis.classes.get(part.name)
    if asked is not None:
        said = [word for word in ("X1", "X2", "Y1", "Y2") if word in part.features.words]
        why = f"its place on the line asks for {asked}; the file has {' '.join(said) or 'no class'}"
        return Need(part.name, Group.LINE, _value(part), _others(basis, part), "the mains", None, why, asked)
    rated = _rated(_replaced(basis, part), Dimension.VOLTAGE)
    lines = [abs(line.cold_high) for line in basis.table.lines if math.isfinite(line.cold_high)] if basis.table else []
    least = max([*lines, rated], default=0.0)
    words = [f"the set's highest line, cold: {max(lines):.0f} V"] if lines else []
    words += [f"the old one {rated:g} V"] if rated else []
    return _of_volts(
        basis, part, Group.CAPACITOR, (least, FILM_VOLTS, "; ".join(words) or "its volts are not computed")
    )


def _resistor(basis: Basis, part: Part) -> Need:
    row = next((one for one in basis.table.resistors if one.name == part.name), None) if basis.table else None
    rated = _rated(_replaced(basis, part), Dimension.POWER)
    least = max(WATTS_TIMES * row.watts if row else 0.0, rated)
    words = [f"computed heat {row.watts:.2g} W, twice that"] if row else ["its heat is not computed"]
    words += [f"the old one {rated:g} W"] if rated else []
    size = next_made(max(least, LEAST_WATTS), RESISTOR_WATTS) if least else None
    said = f"{least:.2g} W" if least else "not known"
    return Need(part.name, Group.RESISTOR, _value(part), _others(basis, part), said, size, "; ".join(words))


def _rectifier(basis: Basis, part: Part) -> Need:
    rows = [one for one in basis.table.rectifiers if one.name.partition(" ")[0] == part.name] if basis.table else []
    volts = [one.inverse_high for one in rows if one.inverse_high is not None]
    least = max(volts, default=0.0)
    words = [f"computed {max(volts):.0f} V backwards, cold at high line"] if volts else ["its volts are not computed"]
    if rows:
        mean = max(one.mean for one in rows)
        words.append(f"{1000 * mean:.0f} mA mean: {max(1.0, math.ceil(AMPERES_TIMES * mean)):g} A")
    size = next_made(least, DIODE_VOLTS) if least else None
    said = f"{least:.0f} V" if least else "not known"
    kind = part.features.type or part.kind.word
    return Need(part.name, Group.RECTIFIER, kind, (), said, size, "; ".join(words), kind)


def _fuse(basis: Basis, part: Part) -> Need:
    if basis.amperes is None:
        return Need(part.name, Group.FUSE, _value(part), (), "not known", None, "what the set takes is not computed")
    low, high = fuse_for(basis.amperes)
    size = f"{low:g} A" if low == high else f"{low:g} to {high:g} A"
    why = f"1.5 to 2 times the {basis.amperes:.2f} A that the set takes, or more where not all is known"
    return Need(part.name, Group.FUSE, _value(part), (), size, None, why)


def _other(_: Basis, part: Part) -> Need:
    values = " ".join(
        (part.features.type, *(q.written for q in part.features.quantities), *part.features.words)
    ).strip()
    return Need(part.name, Group.OTHER, values or part.kind.word, (), "", None, "", part.kind.word)


def lines_of(found: tuple[Need, ...]) -> Iterator[tuple[Need, ...]]:
    """Needs that one line of an order serves: the same group, value, size and kind."""
    groups: dict[tuple[object, ...], list[Need]] = {}
    for need in found:
        size = need.size if need.size is not None else need.least
        groups.setdefault((need.group, need.value, size, need.kind), []).append(need)
    yield from (tuple(group) for group in groups.values())
