"""Old and new values and ratings held against each other, role by role."""

from collections.abc import Iterator
from decimal import Decimal

from msgspec import Struct

from netcheck.compare.bands import OutOfBand, compared_dimensions, picks, verdict, winding_verdict
from netcheck.compare.first_capacitor import overloads
from netcheck.compare.pair import Pair
from netcheck.compare.roles.pairing import PartPair
from netcheck.compare.roles.reduction import reduced
from netcheck.compare.tapped import of_sections
from netcheck.compare.windings import of_windings
from netcheck.compare.words.describe import listed
from netcheck.core.article import with_article
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Grade
from netcheck.core.kind import Family, Junction
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.core.spelling import spelled
from netcheck.parts.capacitor import CLASSES

__all__ = ["Misvalued", "judged_ratings", "judged_values", "role_names"]


class Misvalued(Struct, frozen=True):
    """A value outside the band or a rating too low: the parts, both values as written, and how grave it is.

    ``names`` says whose place the new part has. ``picks`` are the values of today for the old one, spelled.
    ``now`` is empty where the new part does not say its rating; ``winding`` names the one of which it speaks.
    """

    names: str
    old: Part
    new: Part
    then: str
    now: str
    grade: Grade
    decade: bool = False
    picks: tuple[str, ...] = ()
    dimension: Dimension | None = None
    several: bool = False
    winding: str = ""


def role_names(roles: PartPair) -> str:
    """``C51 (in place of C30A)``, and one name where a part keeps its own."""
    old, new = listed([p.name for p in roles.old]), listed([p.name for p in roles.new])
    return new if old == new else f"{new} (in place of {old})"


def judged_values(pair: Pair) -> Iterator[Misvalued]:
    """Every part whose value is outside its band; groups by what they amount to."""
    elsewhere = {part.name for overload in overloads(pair) for part in overload.new}
    for roles in pair.pairing.pairs:
        if elsewhere.issuperset(part.name for part in roles.new):
            continue
        if _is_group(roles):
            yield from _group_value(pair, roles)
            continue
        old, new = roles.old[0], roles.new[0]
        if roles.is_unchanged:
            continue
        alike = old.kind is new.kind  # a diode in a tube's place is compared as what it does
        types = old.features.type, new.features.type
        if alike and all(types) and not _is_same_type(*types):
            then, now = with_article(old.features.type), with_article(new.features.type)
            yield Misvalued(role_names(roles), old, new, then, now, Grade.LOOK)
        yield from _windings_outside(roles)
        found = [*_outside(pair, roles)]
        yield from sorted(found, key=lambda judged: judged.grade.rank)[:1]
    yield from _sections_outside(pair)


def _sections_outside(pair: Pair) -> Iterator[Misvalued]:
    """What stands between two lugs of a tapped resistor, held against the ohms that were there."""
    for one in of_sections(pair):
        amount = sum((value.amount for value in one.then), Decimal(0))
        told = verdict(one.old, Dimension.RESISTANCE, amount, one.now.amount) if one.now.amount is not None else None
        if told is not None and one.now.amount is not None:
            first, last = one.lugs
            several = len(one.new) > 1
            names = f"{listed([part.name for part in one.new])} (in place of {one.old.name} {first} to {last})"
            then, now = (spelled(each, Dimension.RESISTANCE) for each in (amount, one.now.amount))
            together = f"{now} together" if several else now
            yield Misvalued(names, one.old, one.new[0], then, together, told.grade, told.decade, several=several)


def _outside(pair: Pair, roles: PartPair) -> Iterator[Misvalued]:
    old, new = roles.old[0], roles.new[0]
    for dimension in compared_dimensions(old, new):
        pairs = zip(old.features.all_of(dimension), new.features.all_of(dimension), strict=False)
        for then, now in pairs:
            told = verdict(old, dimension, then.amount, now.amount)
            if told is not None and now.amount < then.amount and _leaks_less(pair, new):
                told = OutOfBand(Grade.NOTE)
            if told is not None:
                fitted = _spelled_picks(told, then, dimension)
                values = (_printed(then), _printed(now))
                yield Misvalued(role_names(roles), old, new, *values, told.grade, told.decade, fitted)


def _windings_outside(roles: PartPair) -> Iterator[Misvalued]:
    """One finding a winding, its volts first: the ohms of a winding for other volts are others too."""
    old, new = roles.old[0], roles.new[0]
    told = set[str]()
    for each in sorted(of_windings(old, new), key=lambda each: each.dimension is not Dimension.VOLTAGE):
        found = winding_verdict(each.dimension, each.ratio)
        if found is None or each.winding in told:
            continue
        told.add(each.winding)
        names = f"the winding {each.winding} of {role_names(roles)}"
        grade = found.grade if each.alike else Grade.LOOK
        values = (_printed(each.then), _printed(each.now))
        yield Misvalued(names, old, new, *values, grade, found.decade, winding=each.winding)


def _leaks_less(pair: Pair, new: Part) -> bool:
    """Whether a part is from the line to metal, where less capacitance is what keeps a hand from harm.

    A class Y part is made for that place; what another one is wired to says it.
    """
    if not {"Y1", "Y2"}.isdisjoint(new.features.words):
        return True
    if new.kind.family is not Family.CAPACITOR or not pair.real.circuit.has(Family.CORD):
        return False
    from netcheck.electrical.mains.line import line_of  # of a set without a cord nothing is known of the line
    from netcheck.electrical.mains.line_parts import LinePosition, on_line

    line = line_of(pair.real)
    found = () if line is None else on_line(pair.real, line)
    return any(each.part.name == new.name and each.place is not LinePosition.ACROSS for each in found)


def _spelled_picks(told: OutOfBand, then: Quantity, dimension: Dimension) -> tuple[str, ...]:
    if told.grade is Grade.NOTE:
        return ()
    return tuple(spelled(amount, dimension) for amount in picks(dimension, then.amount) if amount != then.amount)


def _is_group(roles: PartPair) -> bool:
    return len(roles.old) + len(roles.new) > 2


def _printed(quantity: Quantity) -> str:
    return " ".join(quantity.written.split())


# The same tube under two names, from memory.
_TWINS = (
    {"5AR4", "GZ34"}, {"6BQ5", "EL84"}, {"6CA7", "EL34"}, {"6CA4", "EZ81"}, {"6V4", "EZ80"}, {"6X4", "EZ90"},
    {"12AX7", "ECC83", "7025"}, {"12AU7", "ECC82"}, {"12AT7", "ECC81"}, {"6DJ8", "ECC88"}, {"6267", "EF86"},
    {"6BM8", "ECL82"}, {"6AQ5", "EL90", "6005"}, {"6AL5", "EB91"}, {"0A2", "OA2"}, {"0B2", "OB2"},
)  # fmt: skip


def _is_same_type(one: str, other: str) -> bool:
    """A suffix says bulb, base or rating, not another tube: 6V6, 6V6GT and 6V6-G are one."""
    first, second = ({_stem(name) for name in text.split("/")} for text in (one, other))
    return bool(first & second) or any(first & twins and second & twins for twins in _TWINS)


def _stem(name: str) -> str:
    plain = name.upper().replace("-", "").replace(" ", "")
    digits = [i for i, sign in enumerate(plain) if sign.isdigit()]
    return plain[: digits[-1] + 1] if digits else plain


def _group_value(pair: Pair, roles: PartPair) -> Iterator[Misvalued]:
    old, new = reduced(roles.old, pair.original), reduced(roles.new, pair.as_shown)
    dimension = roles.new[0].kind.principal
    if not old or not new or old.amount is None or new.amount is None or dimension is not roles.old[0].kind.principal:
        return
    told = verdict(roles.old[0], dimension, old.amount, new.amount) if dimension is not None else None
    if told is not None and dimension is not None:
        then, now = spelled(old.amount, dimension), spelled(new.amount, dimension)
        several = len(roles.new) > 1
        together = f"{now} together" if several else now
        yield Misvalued(
            role_names(roles), roles.old[0], roles.new[0], then, together, told.grade, told.decade, several=several
        )


_TWICE_THE_PEAK = Decimal(8).sqrt()  # a capacitor is charged to the peak; the next half wave adds as much


def judged_ratings(pair: Pair) -> Iterator[Misvalued]:
    """Every part that stands less than the one whose place it has: fewer volts, watts or amperes.

    Ratings are held against each other as written; what a part stands for a moment (its surge) is not a rating.
    """
    for roles in pair.pairing.pairs:
        if _is_group(roles):
            yield from _group_rating(pair, roles)
        elif not roles.is_unchanged:
            yield from _one_rating(roles)
            yield from _winding_rating(roles)


def _one_rating(roles: PartPair) -> Iterator[Misvalued]:
    old, new = roles.old[0], roles.new[0]
    for dimension in new.kind.rated:
        if dimension not in old.kind.rated:
            continue
        for then in (_backwards(old, new, said) for said in old.features.all_of(dimension)):
            now = _counterpart(new, then)
            if now is not None and now.amount < then.amount:
                values = (_printed(then), _printed(now))
                yield Misvalued(role_names(roles), old, new, *values, Grade.STOP, dimension=dimension)
        volts = old.features.first(dimension)
        if dimension is Dimension.VOLTAGE and volts and _says_no_volts(new):
            needed = _printed(_backwards(old, new, volts))
            yield Misvalued(role_names(roles), old, new, needed, "", Grade.NOTE, dimension=dimension)


def _winding_rating(roles: PartPair) -> Iterator[Misvalued]:
    """The amperes that a winding may give."""
    old, new = roles.old[0], roles.new[0]
    for each in of_windings(old, new):
        if each.dimension is Dimension.CURRENT and each.now.amount < each.then.amount:
            names = f"the winding {each.winding} of {role_names(roles)}"
            values = (_printed(each.then), _printed(each.now))
            yield Misvalued(names, old, new, *values, Grade.STOP, dimension=each.dimension, winding=each.winding)


def _backwards(old: Part, new: Part, then: Quantity) -> Quantity:
    """A stack is known by the alternating volts that it takes, a diode by its inverse volts: 2.83 times as many."""
    if (old.kind.junction, new.kind.junction, then.dimension) != (
        Junction.SELENIUM,
        Junction.SILICON,
        Dimension.VOLTAGE,
    ):
        return then
    volts = (then.amount * _TWICE_THE_PEAK).quantize(Decimal(1))
    return Quantity((volts,), Dimension.VOLTAGE, f"{volts} V inverse")


def _says_no_volts(new: Part) -> bool:
    """A capacitor or rectifier that says neither its volts nor a class; fuses and switches mostly don't."""
    told = new.features.first(Dimension.VOLTAGE) or set(CLASSES).intersection(new.features.words)
    return not told and not new.kind.family.closes


def _counterpart(new: Part, then: Quantity) -> Quantity | None:
    """The new rating of the same current. Of a class X or Y part only AC counts: its class stands for the rest."""
    classed = bool(set(CLASSES).intersection(new.features.words))
    alternating = then.current is Current.AC
    if then.dimension is Dimension.VOLTAGE and classed and not alternating:
        return None
    alike = (q for q in new.features.all_of(then.dimension) if (q.current is Current.AC) is alternating)
    return next(alike, None)


def _group_rating(pair: Pair, roles: PartPair) -> Iterator[Misvalued]:
    old, new = reduced(roles.old, pair.original), reduced(roles.new, pair.as_shown)
    rated = roles.new[0].kind.rated
    if not old or not new or set(CLASSES).intersection(roles.new[0].features.words):
        return
    for then, now, dimension in (
        (old.volts, new.volts, Dimension.VOLTAGE),
        (old.watts, new.watts, Dimension.POWER),
    ):
        if dimension in rated and then is not None and now is not None and now < then:
            words = (spelled(then, dimension), spelled(now, dimension))
            several = len(roles.new) > 1
            values = (words[0], f"{words[1]} together" if several else words[1])
            parts = (roles.old[0], roles.new[0])
            yield Misvalued(role_names(roles), *parts, *values, Grade.STOP, dimension=dimension, several=several)
