"""The parts of a chain of layers, while they are read and after."""

from collections.abc import Iterator, Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.core.circuit import Part, Removal
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.kind import Features, PartKind
from netcheck.core.quantity import Quantity
from netcheck.language import tree
from netcheck.model.load import Layer

__all__ = ["Inventory", "PartSoFar", "touched", "with_members"]


class PartSoFar(Struct):
    """A part while its layers are read."""

    kind: PartKind
    name: tree.Word
    features: Features
    clauses: tree.Clauses
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
    for statement in layer.statements:
        match statement:
            case tree.Part() | tree.Change():
                yield statement.name.text
            case tree.Section():
                yield from (statement.name.text, statement.name.text[:-1])
            case tree.Winding():
                yield statement.part.text
            case tree.Position():
                yield statement.switch.text
            case tree.Remove():
                yield from (name.text for name in statement.names)
            case _:
                pass
