"""Netlists that are on no disk: a few texts by name, checked and compared through the public pipelines."""

from collections.abc import Callable, Mapping

from netcheck.api import check, compare, compare_three
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic, Flaw
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.build import build

ORIGINAL, FOUND, REWIRED = "original.netck", "found.netck", "rewired.netck"


def reader(texts: Mapping[str, str]) -> Callable[[str, str], Source | Flaw]:
    """What netlists refer to, from a few texts by name; each is read once, as the reader from disk does."""
    known = {name: Source(name, text) for name, text in texts.items()}

    def read(_: str, written: str) -> Source | Flaw:
        return known.get(written, Flaw(f"there is no file `{written}`"))

    return read


def checked(text: str, **others: str) -> Report:
    """One state on its own."""
    read, first = _first(text, others)
    return check(first, read)


def compared(original: str, rewired: str, **others: str) -> Report:
    """Two states; the rewired one may start from ``original.netck``, and from the others by their names."""
    read = reader({ORIGINAL: original, REWIRED: rewired, **_named(others)})
    first, second = read("", ORIGINAL), read("", REWIRED)
    assert isinstance(first, Source)
    assert isinstance(second, Source)
    return compare(first, second, read)


def compared_three(original: str, found: str, rewired: str) -> Report:
    """Three states; a later one may start from ``original.netck`` and ``found.netck``."""
    read = reader({ORIGINAL: original, FOUND: found, REWIRED: rewired})
    states = [read("", name) for name in (ORIGINAL, FOUND, REWIRED)]
    first, second, third = (state for state in states if isinstance(state, Source))
    return compare_three(first, second, third, read)


def built(text: str, **others: str) -> tuple[Circuit | None, tuple[Diagnostic, ...]]:
    """A circuit and what is wrong with its file."""
    read, first = _first(text, others)
    return build(first, read)


def circuit(text: str, **others: str) -> Circuit:
    """The circuit of a file that has no error."""
    found, problems = built(text, **others)
    assert found is not None, [d.headline for d in problems]
    return found


def nets(state: Circuit) -> frozenset[frozenset[str]]:
    """The partition of points by name, nets of one point left out."""
    groups: dict[int, set[str]] = {}
    for point, net in zip(state.points, state.nets, strict=True):
        groups.setdefault(net, set()).add(point.name)
    return frozenset(frozenset(names) for names in groups.values() if len(names) > 1)


def line_of(diagnostic: Diagnostic) -> str:
    """One line a finding, as editors read it."""
    place = diagnostic.labels[0].place
    return f"{place}: {diagnostic.grade.value}: {diagnostic.headline} [{diagnostic.rule}]"


def places(diagnostics: tuple[Diagnostic, ...]) -> list[tuple[str, int, str]]:
    """The file, line and ``grade: rule`` of each finding, sorted."""
    return sorted(
        (d.labels[0].place.source.name, d.labels[0].place.line, f"{d.grade.value}: {d.rule}") for d in diagnostics
    )


def _first(text: str, others: Mapping[str, str]) -> tuple[Callable[[str, str], Source | Flaw], Source]:
    read = reader({"state.netck": text, **_named(others)})
    first = read("", "state.netck")
    assert isinstance(first, Source)
    return read, first


def _named(others: Mapping[str, str]) -> dict[str, str]:
    return {f"{name}.netck": text for name, text in others.items()}
