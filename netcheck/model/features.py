"""The items of a declaration, read by what its kind of part allows."""

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.core.article import with_article
from netcheck.core.diagnostic import Diagnostic, Flaw, Grade
from netcheck.core.kind import Basing, Family, Features, PartKind
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.language import tree
from netcheck.language.values import has_power, unknown_unit
from netcheck.model.messages import stop
from netcheck.model.printed import TUBE_SUFFIXES, coded, unitless
from netcheck.model.sizes import unfit
from netcheck.model.unknown_words import unknown_word

__all__ = ["NONE", "changed", "electrodes_of", "features_of", "from_end_to_end", "is_refused", "twins"]

_MEASURE = {
    Dimension.RESISTANCE: "a resistance",
    Dimension.CAPACITANCE: "a capacitance",
    Dimension.INDUCTANCE: "an inductance",
    Dimension.VOLTAGE: "a voltage",
    Dimension.CURRENT: "a current",
    Dimension.POWER: "a power",
    Dimension.FREQUENCY: "a frequency",
    Dimension.SENSITIVITY: "a meter's sensitivity",
    Dimension.TOLERANCE: "a tolerance",
    Dimension.GAUGE: "a wire gauge",
    Dimension.LUGS: "a count of lugs",
    Dimension.PINS: "a count of pins",
    Dimension.WIRES: "a count of wires",
    Dimension.PLATES: "a count of plates",
}

# What describes the material goes with the old part; what describes the mounting stays.
_MATERIAL = frozenset(
    {
        "paper",
        "film",
        "mica",
        "ceramic",
        "oil",
        "X1",
        "X2",
        "Y1",
        "Y2",
        "slow",
        "fast",
        "carbon",
        "wirewound",
        "flameproof",
    }
)

NONE: Mapping[str, Any] = {}
"""What a part without any has, one for all: an empty dictionary of its own is larger than a resistor's values."""

# What adds up along a winding.
_ALONG = frozenset({Dimension.VOLTAGE, Dimension.RESISTANCE})


_SEVERAL = "exposed"  # the argument that takes as many numbers as follow
_SAID_TWICE = {"foot": "say one, and join the other lug to it with a `wire`"}


class _Reading(Struct):
    """What has been read so far of one declaration."""

    kind: PartKind
    name: str
    quantities: list[Quantity] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    arguments: dict[str, str] = field(default_factory=dict)
    type: str = ""
    description: str = ""
    problems: list[Diagnostic] = field(default_factory=list)
    convention: Mapping[Dimension, str] = field(default_factory=dict)


def features_of(
    kind: PartKind,
    name: str,
    items: Sequence[tree.Item],
    basings: Mapping[str, Basing],
    convention: Mapping[Dimension, str] = MappingProxyType({}),
) -> tuple[Features, tuple[Diagnostic, ...]]:
    """The features that the items say, and what can't be read of them.

    ``convention`` is the unit that the sheet has its numbers in, by dimension.
    """
    reading = _Reading(kind, name, convention=convention)
    rest = list(items)
    while rest:
        item = rest.pop(0)
        if isinstance(item, tree.Value) and kind.family is Family.TUBE and not reading.type:
            reading.type = item.place.text  # `6K7` and `5R4` also read as ohms
        elif isinstance(item, tree.Value):
            _take_value(reading, item)
        elif item.place.text.startswith('"'):
            reading.description = item.text
        elif kind.typed and not reading.type and item.text not in kind.words:
            reading.type = item.text
        elif item.text in kind.arguments:
            _take_argument(reading, item, rest)
        else:
            _take_word(reading, item, rest)
    said = {quantity.dimension for quantity in reading.quantities}
    known = (quantity for quantity in kind.of_type(reading.type) if quantity.dimension not in said)
    features = Features(
        (*reading.quantities, *known),
        tuple(reading.words),
        reading.arguments or NONE,
        reading.type,
        basings.get(reading.type),
        description=reading.description,
    )
    return features, tuple(reading.problems)


def is_refused(items: Iterable[tree.Item], problems: Iterable[Diagnostic]) -> bool:
    """Whether some of a line's items can't be read, which the language has told, or are no items of its part."""
    unread = any(isinstance(item, tree.Value) and item.quantity is None for item in items)
    return unread or any(problem.grade is Grade.STOP for problem in problems)


def changed(old: Features, new: Features, kind: PartKind) -> Features:
    """The old features with those of a ``change`` put over them, dimension by dimension.

    A tolerance belongs to the value that it was printed with, so a new principal value drops the old one.
    """
    said = {q.dimension for q in new.quantities}
    if kind.principal in said:
        said.add(Dimension.TOLERANCE)
    kept = tuple(q for q in old.quantities if q.dimension not in said)
    words = tuple(w for w in old.words if w not in _MATERIAL and w not in new.words and not _opposed(w, new.words))
    return replace(
        old,
        quantities=kept + new.quantities,
        words=words + new.words,
        arguments={**old.arguments, **new.arguments},
        type=new.type or old.type,
        description=new.description or old.description,
        basing=new.basing if new.type else old.basing,
    )


def electrodes_of(replaced: Iterable[tree.Word]) -> Mapping[str, tuple[str, ...]]:
    """The electrodes among what a part replaces, by their tube."""
    found: dict[str, tuple[str, ...]] = {}
    for word in replaced:
        name, dot, electrode = word.text.partition(".")
        if dot:
            found[name] = (*found.get(name, ()), electrode)
    return found or NONE


def from_end_to_end(statement: tree.Winding) -> tuple[Quantity, ...]:
    """A winding's values; ohms and volts said of `each side` of its tap as those of the whole."""
    values = tuple(v.quantity for v in statement.values if v.quantity is not None)
    sides = len(statement.leads) - 1
    if not statement.each_side or sides < 1:
        return values
    return tuple(
        replace(q, amounts=(q.amount * sides,), written=f"{q.written} each side")
        if q.dimension in _ALONG and len(q.amounts) == 1
        else q
        for q in values
    )


def twins(part: str, statement: tree.Winding, known: Iterable[str]) -> list[Diagnostic]:
    """Leads of a part that have one name can't be told apart; the later of two is the place to mend."""
    seen, found = set(known), []
    for lead in statement.leads:
        if lead.text in seen:
            headline = f"two leads of `{part}` are called `{lead.text}`"
            do = f"tag them `{lead.text}-a` and `{lead.text}-b`"
            found.append(stop("broken-declaration", lead.place, headline, do))
        seen.add(lead.text)
    return found


def _opposed(word: str, words: Iterable[str]) -> bool:
    pairs = {"grounded": "insulated", "insulated": "grounded"}
    return pairs.get(word) in set(words)


def _take_value(reading: _Reading, item: tree.Value) -> None:
    quantity, kind = item.quantity, reading.kind
    if quantity is None:
        return
    if kind.principal is Dimension.CAPACITANCE and quantity.dimension is Dimension.RESISTANCE:
        printed = coded(item.place.text)  # `473K` also reads as ohms
        for value in printed:
            _take_value(reading, tree.Value(value, item.place))
        if printed:
            return
    if quantity.dimension not in kind.dimensions:
        allowed = _listed(_MEASURE[d] for d in Dimension if d in kind.dimensions)
        one = with_article(kind.word)
        headline = f"`{quantity.written}` is {_MEASURE[quantity.dimension]}, which {one} does not have"
        do = f"{reading.name} can have {allowed}" if allowed else f"{one} has no values"
        reading.problems.append(stop("wrong-value", item.place, headline, do))
        return
    reading.problems.extend(unfit((item,), kind.principal))
    twice = [q for q in reading.quantities if q.dimension is quantity.dimension]
    if twice and quantity.dimension not in kind.repeated and not _pair(twice, quantity):
        reading.problems.append(
            stop(
                "wrong-value",
                item.place,
                f"`{reading.name}` has {_MEASURE[quantity.dimension]} already: `{twice[0].written}`",
                "take one of the two away",
            )
        )
        return
    reading.quantities.append(quantity)


def _pair(earlier: Sequence[Quantity], later: Quantity) -> bool:
    """An AC and a DC rating stand beside each other."""
    currents = {q.current for q in earlier} | {later.current}
    return later.dimension is Dimension.VOLTAGE and len(currents) > len(earlier) and Current.AC in currents


def _take_argument(reading: _Reading, item: tree.Word, rest: list[tree.Item]) -> None:
    """An argument with the word behind it; a hand may touch several lugs, and they are said together."""
    before = reading.arguments.get(item.text)
    if before is not None and item.text != _SEVERAL:
        headline, do = f"`{item.text}` is said twice", _SAID_TWICE.get(item.text, "take one of the two away")
        reading.problems.append(stop("wrong-value", item.place, headline, do))
        del rest[:1]
        return
    if rest and item.text == _SEVERAL:
        taken = [rest.pop(0).place.text]
        while rest and isinstance(rest[0], tree.Word) and rest[0].text.isdigit():
            taken.append(rest.pop(0).place.text)
        reading.arguments[item.text] = " ".join(filter(None, (before, *taken)))
        return
    if rest:
        reading.arguments[item.text] = rest.pop(0).place.text
        return
    reading.problems.append(
        stop("wrong-value", item.place, f"`{item.text}` needs a word after it", f"like this: `{reading.kind.example}`")
    )


def _take_word(reading: _Reading, item: tree.Word, rest: list[tree.Item]) -> None:
    kind, text = reading.kind, item.text
    if text in kind.words:
        reading.words.append(text)
    elif text == "half" and "half-moon" in kind.words and rest and rest[0].place.text == "moon":
        rest.pop(0)
        reading.words.append("half-moon")
    elif kind.family is Family.TUBE and text.upper() in TUBE_SUFFIXES:
        reading.type += text.upper()
    elif text.startswith("#") and kind.family is Family.LAMP:
        reading.type = text.removeprefix("#")
    elif kind.principal is Dimension.CAPACITANCE and coded(text):
        for value in coded(text):
            _take_value(reading, tree.Value(value, item.place))
    elif text[0].isdigit() or text[0] == ".":
        _take_number(reading, item, rest)
    else:
        reading.problems.append(unknown_word(item, kind, rest))


def _take_number(reading: _Reading, item: tree.Word, rest: list[tree.Item]) -> None:
    """A number whose unit was not read: bare, or with a word that is no unit."""
    unit = rest[0] if rest and isinstance(rest[0], tree.Word) else None
    if unit is not None and unit.text not in reading.kind.words | reading.kind.arguments:
        rest.pop(0)
        outcome: Quantity | Flaw = unknown_unit(item.text, unit.text)
        place = item.place if has_power(item.text) else unit.place
    else:
        outcome = _unitless(item.text, reading)
        place = item.place
    if isinstance(outcome, Flaw):
        reading.problems.append(stop("unreadable-value", place, outcome.headline, outcome.help))
    else:
        _take_value(reading, tree.Value(outcome, item.place))


def _unitless(number: str, reading: _Reading) -> Quantity | Flaw:
    """A bare number; where a type is called so, as a lamp may be, nothing tells which of the two is meant."""
    outcome = unitless(number, reading.kind, reading.convention)
    if isinstance(outcome, Flaw) and reading.kind.of_type(number):
        return Flaw(outcome.headline, f"write `#{number}` for the {reading.kind.word} of that number, or add the unit")
    return outcome


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words)
