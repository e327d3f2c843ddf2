"""The key of a finding, which stays the same while the finding moves to another line or is worded anew.

Formats for services have it as their fingerprint and none has a time: the same report gives the same bytes.
"""

from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from netcheck.core.diagnostic import Diagnostic

__all__ = ["caution_key", "keyed"]


def keyed(diagnostics: Iterable[Diagnostic]) -> Iterator[tuple[str, Diagnostic]]:
    """Each finding after its key: 16 hexadecimal digits.

    It is a hash of the rule, of the leads, parts and nets touched (the texts underlined, where a finding touches
    none), and of the base names of the files; a second finding that is the same in all of these is counted into its
    own.
    """
    seen: dict[tuple[object, ...], int] = {}
    for diagnostic in diagnostics:
        identity = _identity(diagnostic)
        seen[identity] = seen.get(identity, 0) + 1
        yield _hashed((*identity, seen[identity])), diagnostic


def caution_key(file: str, text: str) -> str:
    """The key of a caution about the set in a file, which is the same whatever is found there."""
    return _hashed(("caution", text, PurePosixPath(file).name))


def _identity(diagnostic: Diagnostic) -> tuple[object, ...]:
    touched = diagnostic.touched
    names = (touched.leads, touched.parts, touched.nets)
    marked = () if any(names) else tuple(label.place.text for label in diagnostic.labels)
    files = tuple(PurePosixPath(label.place.source.name).name for label in diagnostic.labels)
    return (diagnostic.rule, *(tuple(sorted(group)) for group in names), marked, files)


def _hashed(identity: tuple[object, ...]) -> str:
    import hashlib  # only the formats with keys pay for it

    return hashlib.sha256(repr(identity).encode("utf-8", "backslashreplace")).hexdigest()[:16]
