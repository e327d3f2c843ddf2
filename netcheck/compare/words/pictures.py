"""The picture that a rule gives its finding. What draws one up is loaded by the first finding: most runs have none."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from netcheck.compare.pair import Pair
from netcheck.compare.words.rewording import drawn
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Diagnostic

if TYPE_CHECKING:
    from netcheck.core.panel import Panel

__all__ = ["missing_part", "part_too_many", "pictured", "value_only"]


def pictured(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Every finding that has a mend with the picture of its first; what its rule knows of values stays."""
    return tuple(_with_picture(pair, diagnostic) if diagnostic.mends else diagnostic for diagnostic in found)


def _with_picture(pair: Pair, diagnostic: Diagnostic) -> Diagnostic:
    from netcheck.compare.words.panels import panel_of

    return drawn(diagnostic, panel_of(pair, diagnostic.mends[0]))


def missing_part(pair: Pair, part: Part) -> "Panel":
    """A part of the original with the nets of its ends, dashed."""
    from netcheck.compare.words.panels import part_only
    from netcheck.core.panel import Mark

    return part_only(pair.original, part, Mark.ON)


def part_too_many(pair: Pair, part: Part) -> "Panel":
    """A part of the rewired state with the nets of its ends, heavy."""
    from netcheck.compare.words.panels import part_only
    from netcheck.core.panel import Mark

    return part_only(pair.real, part, Mark.OFF)


def value_only(old: Part, new: Part, then: str, now: str) -> "Panel":
    """One part with its new value and its old one."""
    from netcheck.core.panel import Panel, Value

    was = then if old.name == new.name else f"{then} ({old.name})"
    return Panel(values=(Value(new.name, now, was),))
