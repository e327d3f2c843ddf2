"""The parts of a chain of layers, while they are read and after."""

from collections.abc import Iterator, Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.core.circuit import Part, Removal
from netcheck.core.diagnostic import Diagnostic, Flaw
from netcheck.core.kind import Features, PartKind, Shape
from netcheck.core.quantity import Quantity
from netcheck.language import tree
from netcheck.model.load import Layer

__all__ = ["Inventory", "PartSoFar", "Shapes", "touched", "with_members"]


class PartSoFar(Struct):
    """A part while its layers are read; ``told`` says that something on its line was refused and is told."""

    kind: PartKind
    name: tree.Word
    features: Features
    clauses: tree.Clauses
    told: bool = False
    flawed: bool = False
    windings: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    winding_values: dict[str, tuple[Quantity, ...]] = field(default_factory=dict)
    positions: list[tuple[str, tuple[tuple[str, ...], ...]]] = field(default_factory=list)


class Inventory(Struct, frozen=True):
    """The parts after each layer: ``stages[i]`` are those present once layer i is done, ``gone`` those taken out."""

    stages: tuple[Mapping[str, Part], ...]
    gone: Mapping[str, Part]
    removals: tuple[Removal, ...]
    fits: tuple[tuple[int, str, tree.Lead], ...]
    diagnostics: tuple[Diagnostic, ...]


class Shapes:
    """The terminals of parts; of parts that are declared alike they are worked out once."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, int], tuple[Features, Shape | Flaw]] = {}

    def of(self, kind: PartKind, features: Features) -> Shape | Flaw:
        """Those of one part, or why it has none."""
        key = kind.word, id(features)  # which is its own as long as the features are kept beside it
        if key not in self._known:
            self._known[key] = features, kind.shape(features)
        return self._known[key][1]


def with_members(draft: PartSoFar, sections: Mapping[str, str], returns: Mapping[str, str]) -> Features:
    """The features of a part with its windings, positions and sections; most parts have none of them."""
    if not (draft.windings or draft.positions or sections or returns):
        return draft.features
    return replace(
        draft.features,
        windings=tuple(draft.windings),
        winding_values=dict(draft.winding_values),
        positions=tuple(draft.positions),
        sections=tuple(sections),
        marks=sections,
        returns=returns,
    )


def touched(layer: Layer) -> Iterator[str]:
    """The parts of which a layer says anything; all others stay what they were."""
    yield from (statement.name.text for statement in layer.of(tree.Part))
    yield from (statement.name.text for statement in layer.of(tree.Change))
    for section in layer.of(tree.Section):
        yield from (section.name.text, section.name.text[:-1])
    yield from (winding.part.text for winding in layer.of(tree.Winding))
    yield from (position.switch.text for position in layer.of(tree.Position))
    yield from (name.text for removal in layer.of(tree.Remove) for name in removal.names)
