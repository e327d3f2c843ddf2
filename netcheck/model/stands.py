"""``place`` lines: two lengths as a ruler shows them, to millimetres from the left and the back edge."""

import re
from collections.abc import Iterator, Mapping

from netcheck.core.circuit import Part, Stand
from netcheck.core.diagnostic import Diagnostic, Label
from netcheck.core.wording import significant
from netcheck.language import tree
from netcheck.model.load import Layer
from netcheck.model.messages import near, stop

__all__ = ["LONGEST", "outside", "stands"]

LONGEST = 1500.0
"""In mm; the largest chassis of a television console is less than half of it."""

_INCH = 25.4
_WRITTEN = r"(-)?(?:(\d{1,6})-)?(?:(\d{1,6}\.?\d{0,6}|\.\d{1,6})|(\d{1,3})/([1-9]\d{0,2}))(mm|in)?"
_HOW = "write it as in `place SP1 120 85`, or in inches `place SP1 4-3/4 3.5 in`"


def stands(layer: Layer, present: Mapping[str, Part]) -> tuple[dict[str, Stand], list[Diagnostic]]:
    """The places that a layer gives, by name, and what is wrong with its lines."""
    found: dict[str, Stand] = {}
    problems: list[Diagnostic] = []
    for statement in layer.of(tree.Stand):
        told = _name_flaw(statement, present, found) or _length_flaw(statement)
        if told is not None:
            problems.append(told)
            continue
        right, front = _lengths(statement)
        name = statement.name.text
        written = _written(statement)
        found[name] = Stand(name, right or 0.0, front or 0.0, statement.turned, statement.place, written)
    return found, problems


def outside(found: Mapping[str, Stand]) -> Iterator[Diagnostic]:
    """What would sit beside the chassis, where its size is given."""
    size = found.get("chassis")
    for stand in found.values() if size is not None else ():
        if size is not None and (stand.right > size.right or stand.front > size.front):
            headline = f"`{stand.part}` would sit beside the chassis, which is {size.measures}"
            do = "measure from the left edge, then from the back edge"
            yield stop("wrong-value", stand.place, headline, do, Label(size.place, "its size"))


def _name_flaw(statement: tree.Stand, present: Mapping[str, Part], found: Mapping[str, Stand]) -> Diagnostic | None:
    word = statement.name
    if word.text in found:
        headline = f"`{word.text}` has two places"
        return stop("declared-twice", word.place, headline, "take one away", Label(found[word.text].place, "first"))
    part = present.get(word.text)
    if part is not None and part.host:
        headline = f"`{word.text}` is in the can `{part.host}` and has no place of its own"
        lengths = word.place.source.text[word.place.end : statement.place.end]
        return stop("wrong-value", word.place, headline, f"write `place {part.host} {' '.join(lengths.split())}`")
    if part is None and word.text != "chassis":
        do = near(word.text, [*present, "chassis"]) or "a place is that of a part, or `chassis` for its size"
        return stop("undeclared-name", word.place, f"there is no part `{word.text}`", do)
    return None


def _length_flaw(statement: tree.Stand) -> Diagnostic | None:
    for word, length in zip((statement.right, statement.front), _lengths(statement), strict=True):
        if length is None:
            return stop("wrong-value", word.place, f"`{word.text}` is no length that a ruler shows", _HOW)
        if length < 0:
            do = "both are measured from the edge inwards, from the left edge and from the back edge"
            return stop("wrong-value", word.place, f"`{word.text}` is outside of the chassis", do)
        if length > LONGEST:
            headline = f"`{word.text}` is {significant(length / 1000, 3)} m from the edge; no chassis is as large"
            return stop("wrong-value", word.place, headline, f"without `in` a length is in millimetres; {_HOW}")
    return None


def _lengths(statement: tree.Stand) -> tuple[float | None, float | None]:
    """In mm; a unit written once holds for both."""
    right, front = _unit(statement.right, statement.right_unit), _unit(statement.front, statement.front_unit)
    return _mm(statement.right, right or front), _mm(statement.front, front or right)


def _written(statement: tree.Stand) -> tuple[str, str]:
    right, front = _unit(statement.right, statement.right_unit), _unit(statement.front, statement.front_unit)
    return _length(statement.right, right or front), _length(statement.front, front or right)


def _length(word: tree.Word, unit: str) -> str:
    return f"{word.text.removesuffix('mm').removesuffix('in')} {unit or 'mm'}"


def _unit(word: tree.Word, after: tree.Word | None) -> str:
    return after.text if after is not None else word.text[-2:] if word.text.endswith(("mm", "in")) else ""


def _mm(word: tree.Word, unit: str) -> float | None:
    read = re.fullmatch(_WRITTEN, word.text)
    if read is None:
        return None
    minus, whole, plain, over, under, _ = read.groups()
    if whole is not None and over is None:
        return None  # `4-5` may be anything
    length = float(plain) if plain else int(whole or 0) + int(over) / int(under)
    return (-length if minus else length) * (_INCH if unit == "in" else 1.0)
