"""The parts of a chain of layers, while they are read and after."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from netcheck.core.circuit import Part, Removal
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.kind import Features, PartKind
from netcheck.core.quantity import Quantity
from netcheck.language import tree

__all__ = ["Draft", "Inventory"]


@dataclass(slots=True)
class Draft:
    """A part while its layers are read."""

    kind: PartKind
    name: tree.Word
    features: Features
    clauses: tree.Clauses
    flawed: bool = False
    windings: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    winding_values: dict[str, tuple[Quantity, ...]] = field(default_factory=dict)
    positions: list[tuple[str, tuple[tuple[str, ...], ...]]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Inventory:
    """The parts after each layer: ``stages[i]`` are those present once layer i is done, ``gone`` those taken out."""

    stages: tuple[Mapping[str, Part], ...]
    gone: Mapping[str, Part]
    removals: tuple[Removal, ...]
    fits: tuple[tuple[int, str, tree.Lead], ...]
    diagnostics: tuple[Diagnostic, ...]
