"""What is written and comes to nothing: a lamp's number where it is a comment, a basing that no tube takes."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.kind import Family
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.language.lines import LAMP_NUMBER
from netcheck.model.load import Layer
from netcheck.model.messages import look, near
from netcheck.parts import KINDS

__all__ = ["idle_lines"]

_BLANKS = re.compile(r"[ \t]*")


def idle_lines(chain: Sequence[Layer], stages: Sequence[Mapping[str, Part]]) -> Iterator[Diagnostic]:
    """A finding for each; ``stages`` are the parts after each layer of the chain."""
    for layer, present in zip(chain, stages, strict=True):
        yield from _commented(layer.of(tree.Part))
        if layer.of(tree.Basing):
            yield from _not_taken(layer, present)


def _commented(parts: Iterable[tree.Part]) -> Iterator[Diagnostic]:
    """Lamps whose number stands behind something else than their name."""
    for part in parts:
        if KINDS[part.kind.text].family is not Family.LAMP:
            continue
        source, blanks = part.place.source, _BLANKS.match(part.place.source.text, part.place.end)
        number = LAMP_NUMBER.match(source.text, blanks.end() if blanks else part.place.end)
        if number is not None and not any(item.place.text.startswith("#") for item in part.items):
            headline = f"`{number[0]}` is a comment here, and says nothing of {part.name.text}"
            do = f"write it behind the name: `{part.kind.text} {part.name.text} {number[0]}`"
            yield look("unknown-word", Place(source, number.start(), number.end() - number.start()), headline, do)


def _not_taken(layer: Layer, present: Mapping[str, Part]) -> Iterator[Diagnostic]:
    """Basings of the file's own; one that is included may serve other sets."""
    taken = {part.features.basing.type for part in present.values() if part.features.basing is not None}
    types = {part.features.type: name for name, part in present.items() if part.kind.family is Family.TUBE}
    for word in (basing.type for basing in layer.of(tree.Basing) if basing.place.source is layer.source):
        if word.text in taken:
            continue
        owner = types.get(word.text)
        headline = f"no tube of this file is a `{word.text}`, so this basing says nothing"
        do = f"write it in the file that declares {owner}" if owner else near(word.text, types) or "take the line out"
        yield look("undeclared-name", word.place, headline, do)
