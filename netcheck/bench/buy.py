"""What to order for a work: each new part with what it has to stand, computed where the file allows."""

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.alike import is_renewed
from netcheck.bench.ordered import Picks, ordered, serving
from netcheck.bench.power import fuse_for
from netcheck.bench.typed import kind_and_type
from netcheck.core.circuit import Circuit, Part
from netcheck.core.kind import MOUNTINGS, Family
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.core.spelling import spelled
from netcheck.electrical.network.elements import part_of
from netcheck.electrical.table.rows import WITHIN_TOLERANCE, CapacitorRow, FirstFilter
from netcheck.electrical.table.supply import SupplyTable
from netcheck.parts import SOCKET
from netcheck.parts.capacitor import ADJUSTABLE, CLASSES
from netcheck.parts.diode_types import SILICON_MARGIN
from netcheck.parts.made import CAPACITOR_VOLTS, DIODE_VOLTS, FILM_VOLTS, RESISTOR_WATTS, next_made

__all__ = ["Basis", "LineClass", "Need", "OrderGroup", "needs"]

WATTS_TIMES = 2.0  # a resistor is run at half of what it is rated for (common practice)
LEAST_WATTS = 0.5
SUPPLY_VOLTS = 100.0  # what an old electrolytic was rated for that holds a plate supply and no cathode or bias
_TUNED = frozenset({*ADJUSTABLE, "mica"})


class OrderGroup(Enum):
    """How an order is laid out."""

    ELECTROLYTIC = "Electrolytics"
    LINE = "Line capacitors: class X or Y, nothing else"
    CAPACITOR = "Film, mica and ceramic capacitors"
    RESISTOR = "Resistors"
    RECTIFIER = "Rectifiers"
    FUSE = "Fuses"
    OTHER = "The rest"


class Need(Struct, frozen=True):
    """One part to buy. ``value`` is what to order, ``fitted`` what the file has, ``others`` what serves as well.

    ``computed`` is what it has to stand (volts; of a resistor watts) and ``was`` what the part was rated for that goes
    out; ``size`` is the next one made above both. Each is None where it is not known, and ``size`` also where none is
    made so large. ``amperes`` are ripple, of a rectifier the mean, of a fuse what the set takes; ``sizes`` the fuses
    that fit. ``kind`` is a material, class or type; ``note`` what else there is to know. ``bound`` says that nothing
    was computed but the least that is possible there; ``rated`` is what the file gives a part of which nothing else is
    known.
    """

    part: str
    group: OrderGroup
    value: str
    fitted: str = ""
    others: tuple[str, ...] = ()
    computed: float | None = None
    was: float | None = None
    size: float | None = None
    amperes: float | None = None
    sizes: tuple[float, float] | None = None
    kind: str = ""
    note: str = ""
    rated: str = ""
    bound: bool = False

    @property
    def least(self) -> float | None:
        """What it has to stand at least: never less than the part that goes out."""
        return max((one for one in (self.computed, self.was) if one is not None), default=None)


class LineClass(Struct, frozen=True):
    """What a capacitor's place on the line asks for; ``most`` is the largest value that may be there, or empty."""

    asked: str
    most: str = ""


class Basis(Struct, frozen=True):
    """What the needs are worked out from: both states, the supply as computed (None where it could not be).

    ``seen`` are the most volts that a capacitor ever sees, ``heat`` the watts in resistors, of those that are
    computed; ``line_peak`` is the peak of a
    high line in a set without a transformer before its supply, None in others.
    """

    old: Circuit | None
    new: Circuit
    table: SupplyTable | None
    seen: Mapping[str, float]
    heat: Mapping[str, float]
    line_peak: float | None
    classes: Mapping[str, LineClass]
    amperes: float | None
    picks: Picks


def needs(basis: Basis) -> tuple[Need, ...]:
    """Every part that is new or another than it was, in the order of the groups, then of the file."""
    found = [_need(basis, part) for part in basis.new.parts.values() if _is_new(basis, part)]
    order = list(OrderGroup)
    return tuple(sorted(found, key=lambda need: order.index(need.group)))


def _is_new(basis: Basis, part: Part) -> bool:
    was = None if basis.old is None else basis.old.parts.get(part.name)
    if basis.old is None:
        return bool(part.replaces or part.added or part.inserted)
    if was is None or part.kind is SOCKET:
        return was is None
    return _bought(was) != _bought(part) or is_renewed(basis.old, basis.new, part.name)


def _bought(part: Part) -> tuple[object, ...]:
    """What of a part another one would have to be bought for: not how it is mounted."""
    features = part.features
    return part.kind.word, features.quantities, features.type, frozenset(features.words) - MOUNTINGS


def _need(basis: Basis, part: Part) -> Need:
    if part.name in basis.classes:
        return _line_capacitor(basis, part)
    make = {Family.ELECTROLYTIC: _electrolytic, Family.CAPACITOR: _capacitor, Family.RESISTOR: _resistor,
            Family.CONTROL: _resistor, Family.RECTIFIER: _rectifier, Family.FUSE: _fuse}  # fmt: skip
    one_value = not part.kind.is_chain and not part.kind.divides
    return make.get(part.kind.family, _other)(basis, part) if one_value else _other(basis, part)


def _replaced(basis: Basis, part: Part) -> tuple[Part, ...]:
    """The parts whose place it takes: never less than they are rated for."""
    if basis.old is None:
        return tuple(basis.new.gone[name] for name in part.replaces if name in basis.new.gone)
    names = part.replaces or (part.name,)
    return tuple(basis.old.parts[name] for name in names if name in basis.old.parts)


def _was(basis: Basis, part: Part, dimension: Dimension) -> float | None:
    said = [q for one in _replaced(basis, part) for q in one.features.all_of(dimension) if q.current is not Current.AC]
    return max((float(q.amount) for q in said), default=None)


class _Value(Struct, frozen=True):
    """The value to order, the one in the file, what serves."""

    value: str
    fitted: str = ""
    others: tuple[str, ...] = ()


def _valued(basis: Basis, part: Part) -> _Value:
    dimension = part.kind.principal
    said = part.features.first(dimension) if dimension is not None else None
    if said is None or dimension not in (Dimension.CAPACITANCE, Dimension.RESISTANCE):
        return _Value("not said" if said is None else _written(said))
    # A link of 0 ohm is in no series.
    if not said.amount or _TUNED.intersection(part.features.words) or part.name in basis.classes:
        return _Value(_written(said))

    def kept(amount: Decimal) -> bool:
        return all(_within(row, part.name, said.amount, amount) for row in _first_filters(basis, part))

    take = ordered(said.amount, dimension, basis.picks, kept)
    old = [was.amount for one in _replaced(basis, part) if (was := one.features.first(dimension)) is not None]
    others = serving(take, old, dimension, basis.picks, kept)
    spell = tuple(_spelled(one, said) for one in others)
    return _Value(_written(said) if take == said.amount else _spelled(take, said), _written(said), spell)


def _written(said: Quantity) -> str:
    return " ".join(said.written.split())


def _spelled(amount: Decimal, like: Quantity) -> str:
    """An amount as the file would write it: many write no nought before the point."""
    text = spelled(amount, like.dimension)
    return text.removeprefix("0") if like.written.startswith(".") else text


def _first_filters(basis: Basis, part: Part) -> tuple[FirstFilter, ...]:
    rows = basis.table.first_filters if basis.table is not None else ()
    return tuple(row for row in rows if part.name in row.capacitors)


def _within(row: FirstFilter, name: str, fitted: Decimal, amount: Decimal) -> bool:
    """Whether another value in a rectifier tube's first capacitor leaves the tube within its limit."""
    others = row.farads - (float(fitted) if name in row.capacitors else 0.0)
    return others + float(amount) <= row.most * WITHIN_TOLERANCE


def _finite(figures: tuple[float, ...]) -> float | None:
    known = [abs(one) for one in figures if math.isfinite(one)]
    return max(known) if known else None


def _most_seen(rows: Sequence[CapacitorRow], row: CapacitorRow) -> float | None:
    """Volts in use or cold; where those in use are not known, the cold ones if nothing in use is more anywhere."""
    in_use = _finite(tuple(one.peak for one in rows)) or 0.0
    if not math.isfinite(row.peak) and math.isfinite(row.cold_high) and abs(row.cold_high) < in_use:
        return None
    return _finite((row.peak, row.cold_high))


def _electrolytic(basis: Basis, part: Part) -> Need:
    row = next((one for one in basis.table.capacitors if one.name == part.name), None) if basis.table else None
    was, value = _was(basis, part, Dimension.VOLTAGE), _valued(basis, part)
    computed = _most_seen(basis.table.capacitors, row) if basis.table and row is not None else None
    notes = [f"{one.tube}: {spelled(Decimal(str(one.most)), Dimension.CAPACITANCE)} at most, or what is within 20 %"
             for one in _first_filters(basis, part)]  # fmt: skip
    bound = computed is None and basis.line_peak is not None and (was or 0.0) >= SUPPLY_VOLTS
    computed = basis.line_peak if bound else computed
    amperes = row.amperes if row is not None and math.isfinite(row.amperes) else None
    need = Need(part.name, OrderGroup.ELECTROLYTIC, value.value, value.fitted, value.others, computed, was,
                amperes=amperes, bound=bound, rated=_rated(part, Dimension.VOLTAGE))  # fmt: skip
    return _sized(need, CAPACITOR_VOLTS, "; ".join(notes))


def _sized(need: Need, sizes: tuple[float, ...], note: str = "") -> Need:
    return replace(need, size=next_made(need.least, sizes) if need.least else None, note=note)


def _line_capacitor(basis: Basis, part: Part) -> Need:
    asked, value = basis.classes[part.name], _valued(basis, part)
    said = " ".join(word for word in CLASSES if word in part.features.words)
    notes = (
        f"the file has {said or 'no class'}",
        f"no more than {asked.most.removeprefix('0')} here" if asked.most else "",
    )
    return Need(
        part.name, OrderGroup.LINE, value.value, value.fitted, kind=asked.asked, note="; ".join(filter(None, notes))
    )


def _capacitor(basis: Basis, part: Part) -> Need:
    """A plate swings as far again as its supply; the maker of the set reckoned with that, so his figure counts too."""
    was, value, computed = _was(basis, part, Dimension.VOLTAGE), _valued(basis, part), basis.seen.get(part.name)
    if computed is not None and was is None:
        computed = max((abs(one) for one in basis.seen.values()), default=computed)
    kind = next((word for word in ("film", "mica", "ceramic", "paper") if word in part.features.words), "")
    need = Need(part.name, OrderGroup.CAPACITOR, value.value, value.fitted, value.others, computed, was, kind=kind,
                rated=_rated(part, Dimension.VOLTAGE))  # fmt: skip
    return _sized(need, FILM_VOLTS)


def _resistor(basis: Basis, part: Part) -> Need:
    was, value, watts = _was(basis, part, Dimension.POWER), _valued(basis, part), basis.heat.get(part.name)
    heat = WATTS_TIMES * watts if watts is not None else None
    least = max((one for one in (heat, was) if one is not None), default=None)
    size = next_made(max(least, LEAST_WATTS), RESISTOR_WATTS) if least is not None else None
    rated = _rated(part, Dimension.POWER) if least is None else ""
    return Need(part.name, OrderGroup.RESISTOR, value.value, value.fitted, value.others, heat, was, size, rated=rated)


def _rated(part: Part, dimension: Dimension) -> str:
    said = part.features.first(dimension)
    return _written(said) if said is not None else ""


def _rectifier(basis: Basis, part: Part) -> Need:
    rows = [one for one in basis.table.rectifiers if part_of(one.name) == part.name] if basis.table else []
    volts = _finite(tuple(one.inverse_high for one in rows if one.inverse_high is not None))
    mean = max((one.mean for one in rows), default=None)
    kind = part.features.type or part.kind.word
    size = next_made(SILICON_MARGIN * volts, DIODE_VOLTS) if volts else None
    return Need(part.name, OrderGroup.RECTIFIER, kind, computed=volts, size=size, amperes=mean, kind=kind)


def _fuse(basis: Basis, part: Part) -> Need:
    value = _valued(basis, part)
    if basis.amperes is None:
        return Need(part.name, OrderGroup.FUSE, value.value, note="what the set takes is not computed")
    return Need(part.name, OrderGroup.FUSE, value.value, amperes=basis.amperes, sizes=fuse_for(basis.amperes))


def _other(_: Basis, part: Part) -> Need:
    features = part.features
    values = " ".join((*(q.written for q in features.quantities), *features.words))
    return Need(part.name, OrderGroup.OTHER, f"{kind_and_type(part)} {values}".strip(), kind=part.kind.word)
