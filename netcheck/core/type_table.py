"""A table of tube types in plain text: rows of cells, under each the types that it holds for and where that was read.

::

    source emissionlabs = emissionlabs.com/datasheets/{}.html

    [octal] 1 2 3 4 5 6 7 8
    5T - F1 - P2 - P1 - F2
      5Y3G 5Y3GT
      5U4G 5U4GB | emissionlabs EML5U4G; filament and plates

``{}`` in a source stands for the page, and for the type itself where no page is said; a source without it has the page
appended. Types without a source are from memory; so are those with plain words only. A hash begins a comment.
"""

from collections.abc import Mapping

from msgspec import Struct

from netcheck.core.kind import Standing
from netcheck.core.shipped import shipped

__all__ = ["TypeRow", "TypeTable", "read_types", "squeezed", "table_of"]


class TypeRow(Struct, frozen=True):
    """What a table says of one type: its section with the labels of its columns, the row's cells, who says so."""

    type: str
    section: str
    labels: tuple[str, ...]
    cells: tuple[str, ...]
    standing: Standing
    source: str


class _Entry(Struct, frozen=True):
    type: str
    row: str
    said: str


class TypeTable(Struct, frozen=True):
    """A table that has been read. Only the rows of the types asked for are taken apart."""

    sources: Mapping[str, str]
    labels: Mapping[str, tuple[str, ...]]
    entries: Mapping[str, Mapping[str, _Entry]]

    def find(self, printed: str, *sections: str) -> TypeRow | None:
        """The row of a type as printed on the glass, in the sections named or in any; ``6BQ5/EL84`` is one tube."""
        for name in printed.split("/"):
            for section in sections or self.entries:
                entry = self.entries[section].get(squeezed(name))
                if entry is not None:
                    return self._row(section, entry)
        return None

    def types(self, *sections: str) -> tuple[str, ...]:
        """Every type as printed, in the order of the table."""
        return tuple(entry.type for section in sections or self.entries for entry in self.entries[section].values())

    def _row(self, section: str, entry: _Entry) -> TypeRow:
        said = [self._spelled(part.strip(), entry.type) for part in entry.said.split(";")]
        standing = Standing.SOURCE if any(is_source for is_source, _ in said) else Standing.MEMORY
        source = "; ".join(text for _, text in said if text)
        return TypeRow(entry.type, section, self.labels[section], tuple(entry.row.split()), standing, source)

    def _spelled(self, part: str, type_: str) -> tuple[bool, str]:
        key, _, page = part.partition(" ")
        if key not in self.sources:
            return False, part
        source = self.sources[key]
        return True, source.replace("{}", page or type_) if "{}" in source or not page else f"{source}, {page}"


def squeezed(printed: str) -> str:
    """A type's name without hyphens and blanks, which printings differ in."""
    return printed.replace("-", "").replace(" ", "")


def table_of(package: str, name: str) -> TypeTable:
    """The table in a file that a package ships."""
    return read_types(shipped(package, name))


def read_types(text: str) -> TypeTable:
    """The table that a text holds; a type that is in one section twice keeps its first row."""
    sources: dict[str, str] = {}
    labels: dict[str, tuple[str, ...]] = {}
    entries: dict[str, dict[str, _Entry]] = {}
    row, types = "", dict[str, _Entry]()
    for line in text.splitlines():
        if line.startswith(" "):
            names, _, said = line.partition("|")
            for name in names.split():
                types.setdefault(squeezed(name), _Entry(name, row, said))
        elif line.startswith("["):
            section, _, columns = line[1:].partition("]")
            labels[section] = tuple(columns.split())
            types = entries.setdefault(section, {})
        elif line.startswith("source "):
            key, _, source = line.removeprefix("source ").partition(" = ")
            sources[key.strip()] = source
        elif not line.startswith("#"):
            row = line
    return TypeTable(sources, labels, entries)
