"""A part of another kind is in the place of one that it can't replace.

An electrolytic in a coupling place, between two nets neither of which is a return, leaks, and the voltage across it may
reverse: STOP. One that takes the place of a paper capacitor to a return has a polarity, and the original has none to
check it against: LOOK below 1 mfd, else NOTE. Film for an electrolytic is fine, so are silicon for selenium and a diode
for a rectifier tube. Anything for a fuse is STOP, a fast fuse for a slow one LOOK. A fixed part for one that can be
set, and a resistor for a choke, are LOOK.

Original:

    capacitor C1 .05 mfd 400 V paper
    resistor R1 220k
    resistor R2 470k
    net plate: R1.1, C1.1
    net grid: C1.2, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    remove C1
    electrolytic C51 .047 mfd 450 V plus R1.1 minus R2.1 replaces C1

Right:

    start from "original.netck"
    remove C1
    capacitor C51 .047 mfd 630 V film from R1.1 to R2.1 replaces C1

Source: common practice of the trade.
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from msgspec import Struct

from netcheck.compare.pair import Pair
from netcheck.compare.reference import references
from netcheck.compare.words.describe import fitting
from netcheck.compare.words.pictures import value_only
from netcheck.core.article import with_article
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.engine.rule import Finding, Rule
from netcheck.parts.capacitor import ADJUSTABLE, DIELECTRICS

# What has leads of its own that another rule compares one by one: which part is in their place is asked there.
_OTHERS = (Family.TUBE, Family.TRANSFORMER, Family.SWITCH, Family.CORD, Family.PLUG, Family.NETWORK, Family.PLACE)
_BYPASS = Decimal("0.000001")  # at 1 mfd and above a paper capacitor filters, as an electrolytic does

# What a resistor may take the place of, with a word on it. Whatever else differs is STOP.
_FIXED_FOR_SET = (Grade.LOOK, "it can no longer be adjusted")
_BY_A_RESISTOR: Mapping[Family, tuple[Grade, str]] = {
    Family.LAMP: (Grade.NOTE, "a ballast lamp holds its current, a resistor does not"),
    Family.CONTROL: _FIXED_FOR_SET,
}
_CHOKE_BY_A_RESISTOR = (Grade.LOOK, "a resistor filters less than a choke, and drops more")
_FUSES = "a fuse opens on a short; nothing else in its place does"


class _Misfit(Struct, frozen=True):
    """The two parts, what each is in words, and how grave that is."""

    old: Part
    new: Part
    then: str
    now: str
    grade: Grade
    why: str


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for roles in pair.pairing.pairs:
        old = roles.old[0]
        ends = pair.original.terminals(old) if old.kind.family is Family.CAPACITOR else ()
        at_return = any(pair.original.circuit.nets[at] in known for at in ends)
        for new in roles.new:
            misfit = _misfit(old, new, at_return=at_return)
            if misfit is not None:
                yield _finding(misfit)


def _misfit(old: Part, new: Part, *, at_return: bool) -> _Misfit | None:
    families = (old.kind.family, new.kind.family)
    if any(family in _OTHERS for family in families):
        return None
    if families == (Family.CAPACITOR, Family.ELECTROLYTIC):
        return _polarised(old, new, at_return=at_return)
    if old.kind is new.kind:
        return _same_kind(old, new)
    if old.kind.family is new.kind.family or all(family.stores for family in families):
        return None
    grade, why = _tolerated(old) if new.kind.family is Family.RESISTOR else (Grade.STOP, "")
    return _Misfit(old, new, _named(old), _named(new), grade, _FUSES if Family.FUSE in families else why)


def _tolerated(old: Part) -> tuple[Grade, str]:
    return _CHOKE_BY_A_RESISTOR if old.kind.is_choke else _BY_A_RESISTOR.get(old.kind.family, (Grade.STOP, ""))


def _same_kind(old: Part, new: Part) -> _Misfit | None:
    if old.kind.family is Family.FUSE and {_speed(old), _speed(new)} == {"slow", "fast"}:
        why = "it blows on the rush of current at switching on" if _speed(old) == "slow" else "it blows too late"
        return _Misfit(old, new, f"a {_speed(old)} fuse", f"a {_speed(new)} fuse", Grade.LOOK, why)
    if old.kind.family is Family.CAPACITOR and _is_set(old) and not _is_set(new):
        return _Misfit(old, new, f"a {_material(old)}one", "fixed", *_FIXED_FOR_SET)
    return None


def _polarised(old: Part, new: Part, *, at_return: bool) -> _Misfit:
    words = (f"a {_material(old)}capacitor", "an electrolytic")
    if not at_return:
        why = "it leaks, and the voltage across a coupling capacitor may reverse"
        return _Misfit(old, new, *words, Grade.STOP, why)
    value = old.features.first(Dimension.CAPACITANCE)
    small = value is not None and value.amount < _BYPASS
    why = "the original has no polarity, so which way round it goes is not checked"
    if small:
        why += "; an electrolytic also bypasses poorly at high frequencies"
    return _Misfit(old, new, *words, Grade.LOOK if small else Grade.NOTE, why)


def _finding(misfit: _Misfit) -> Finding:
    old, new = misfit.old, misfit.new
    names = new.name if new.name == old.name else f"{new.name} (in place of {old.name})"
    return Finding(
        fitting(
            f"{names} is {misfit.now}; the original has {misfit.then}",
            f"{new.name} is {misfit.now}; the original has {misfit.then}",
        ),
        (Label(new.place, "now"), Label(old.place, "in the original")),
        do=f'fit {misfit.then}, or accept it: `accept kind-unsuitable {new.name} "why"`',
        why=misfit.why,
        touched=Touched((), (new.name, old.name)),
        grade=misfit.grade,
        panel=value_only(old, new, misfit.then, misfit.now),
    )


def _material(part: Part) -> str:
    known = (*DIELECTRICS, *sorted(ADJUSTABLE))
    return next((f"{word} " for word in known if word in part.features.words), "")


def _is_set(part: Part) -> bool:
    return bool(set(ADJUSTABLE).intersection(part.features.words))


def _speed(fuse: Part) -> str:
    """The word said last: a ``change`` may leave the old one before it."""
    return next((word for word in reversed(fuse.features.words) if word in ("slow", "fast")), "")


def _named(part: Part) -> str:
    return with_article(part.kind.trade_word)


RULE = Rule("kind-unsuitable", Grade.STOP, _check, __doc__, About.VALUE)
