"""Old and new values held against each other, by what the trade takes for the same."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from netcheck.compare.describe import listed
from netcheck.compare.pair import Pair
from netcheck.compare.pairing import PartPair
from netcheck.compare.reduction import reduced
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Severity
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.core.spelling import spelled

__all__ = ["Judged", "judged_ratings", "judged_values"]

_CLASSES = frozenset({"X1", "X2", "Y1", "Y2"})


@dataclass(frozen=True, slots=True)
class Judged:
    """A value outside the band: the parts, both values as written, and how grave it is."""

    names: str
    old: Part
    new: Part
    then: str
    now: str
    severity: Severity
    decade: bool = False


@dataclass(frozen=True, slots=True)
class _Band:
    """Ratios of new to old: silent inside ``same``, then a note, then a warning, else an error."""

    same: tuple[str, str]
    note: tuple[str, str] = ("1", "1")
    warning: tuple[str, str] = ("1", "1")

    def severity(self, ratio: Decimal) -> Severity | None:
        for (low, high), severity in (
            (self.same, None),
            (self.note, Severity.NOTE),
            (self.warning, Severity.WARNING),
        ):
            if Decimal(low) <= ratio <= Decimal(high):
                return severity
        return Severity.ERROR


# Sources: the manual page of value-changed. A fuse is the one part where less is the safe side.
_ELECTROLYTIC = _Band(("0.8", "1.2"), ("0.8", "1.5"), ("0.8", "2"))
_BANDS = {
    "resistor": _Band(("0.9", "1.1"), ("0.8", "1.2")),
    "candohm": _Band(("0.9", "1.1"), ("0.8", "1.2")),
    "capacitor": _Band(("0.8", "1.2")),
    "electrolytic": _ELECTROLYTIC,
    "section": _ELECTROLYTIC,
    "pot": _Band(("0.7", "1.3")),
    "rheostat": _Band(("0.7", "1.3")),
    "choke": _Band(("0.8", "1.5"), warning=("0.5", "2")),
    "coil": _Band(("0.8", "1.2"), warning=("0.5", "2")),
    "fuse": _Band(("1", "1"), warning=("0", "1")),
}
_PER_CENT = Decimal("0.0000001")


def judged_values(pair: Pair) -> Iterator[Judged]:
    """Every part whose principal value is outside its band; groups by what they amount to."""
    for roles in pair.pairing.pairs:
        if len(roles.old) + len(roles.new) > 2:
            yield from _group_value(pair, roles)
            continue
        old, new = roles.old[0], roles.new[0]
        yield from _types(old, new)
        band, principal = _BANDS.get(new.kind.word), new.kind.principal
        if band is None or principal is None or old.kind.principal is not principal:
            continue
        for then, now in zip(old.features.all_of(principal), new.features.all_of(principal), strict=False):
            judged = _judged(band, then.amount, now.amount)
            if judged:
                yield Judged(_names(old, new), old, new, then.written, now.written, *judged)


def _judged(band: _Band, then: Decimal, now: Decimal) -> tuple[Severity, bool] | None:
    if not then:
        return None
    ratio = (now / then).quantize(_PER_CENT)
    severity = band.severity(ratio)
    if severity is None:
        return None
    decade = any(abs(ratio / step - 1) <= Decimal("0.2") for step in (Decimal("0.1"), Decimal(10), Decimal(1000)))
    return severity, decade or abs(ratio * 1000 - 1) <= Decimal("0.2")


def _types(old: Part, new: Part) -> Iterator[Judged]:
    """Another tube type in the same socket."""
    if old.features.type and new.features.type and old.features.type != new.features.type:
        then, now = old.features.type, new.features.type
        yield Judged(_names(old, new), old, new, f"a {then}", f"a {now}", Severity.WARNING)


def _group_value(pair: Pair, roles: PartPair) -> Iterator[Judged]:
    old, new = reduced(roles.old, pair.original), reduced(roles.new, pair.rewired)
    band = _BANDS.get(roles.new[0].kind.word)
    principal = roles.new[0].kind.principal
    if not old or not new or old.amount is None or new.amount is None or band is None or principal is None:
        return
    judged = _judged(band, old.amount, new.amount)
    if judged:
        then, now = spelled(old.amount, principal), spelled(new.amount, principal)
        yield Judged(_group_names(roles), roles.old[0], roles.new[0], then, f"{now} together", *judged)


def judged_ratings(pair: Pair) -> Iterator[Judged]:
    """Every part that stands fewer volts or watts than the one whose place it has."""
    for roles in pair.pairing.pairs:
        old, new = roles.old[0], roles.new[0]
        if len(roles.old) + len(roles.new) > 2:
            yield from _group_rating(pair, roles)
            continue
        for dimension in (Dimension.VOLTAGE, Dimension.POWER):
            if old.kind.place or old.kind.typed or dimension not in _RATED.get(new.kind.word, ()):
                continue
            then, now = old.features.first(dimension), new.features.first(dimension)
            if then and now and now.amount < then.amount and _comparable(new, then, now):
                yield Judged(_names(old, new), old, new, then.written, now.written, Severity.ERROR)


_RATED = {
    "resistor": (Dimension.POWER,),
    "candohm": (Dimension.POWER,),
    "pot": (Dimension.POWER,),
    "rheostat": (Dimension.POWER,),
    "capacitor": (Dimension.VOLTAGE,),
    "electrolytic": (Dimension.VOLTAGE,),
    "section": (Dimension.VOLTAGE,),
    "diode": (Dimension.VOLTAGE,),
    "selenium": (Dimension.VOLTAGE,),
}


def _comparable(new: Part, then: Quantity, now: Quantity) -> bool:
    """AC volts are not held against DC volts; a class X or Y says by itself what it stands on the line."""
    classed = bool(_CLASSES & set(new.features.words))
    mixed = Current.AC in (then.current, now.current) and then.current is not now.current
    return not classed and not mixed


def _group_rating(pair: Pair, roles: PartPair) -> Iterator[Judged]:
    old, new = reduced(roles.old, pair.original), reduced(roles.new, pair.rewired)
    if not old or not new:
        return
    for then, now, dimension in (
        (old.volts, new.volts, Dimension.VOLTAGE),
        (old.watts, new.watts, Dimension.POWER),
    ):
        if then is not None and now is not None and now < then:
            words = (spelled(then, dimension), spelled(now, dimension))
            yield Judged(_group_names(roles), roles.old[0], roles.new[0], *words, Severity.ERROR)


def _names(old: Part, new: Part) -> str:
    return new.name if old.name == new.name else f"{new.name} (for {old.name})"


def _group_names(roles: PartPair) -> str:
    return f"{listed([p.name for p in roles.new])} (for {listed([p.name for p in roles.old])})"
