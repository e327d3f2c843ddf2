"""Reading netlists; what is wrong with a file is said with its place.

Paths are texts here: loading pathlib takes a third as long as starting Python, and only a mistake needs more than this.
"""

import os
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import Flaw
from netcheck.core.errors import EnvironmentFault
from netcheck.core.source import Source

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["LARGEST", "LONGEST_LINE", "read", "reader", "reason", "roots"]

LARGEST = 16_000_000
"""Bytes of the largest netlist read: some hundred times a set of a thousand parts."""

LONGEST_LINE = 100_000
"""Bytes of the longest line read; a line of hand-written text has some hundred."""

_BOM = b"\xef\xbb\xbf"
_UTF16_BOMS = (b"\xff\xfe", b"\xfe\xff")


def read(path: "str | Path") -> Source:
    """The netlist in a file, named by its path from the working folder, or in full where it lies outside of it.

    A byte order mark is dropped; line endings stay as they are.

    Raises:
        EnvironmentFault: if the file can't be had or isn't UTF-8 text of a netlist's size.
    """
    written = str(path)
    data = _bytes(written.rstrip("/") or written or os.curdir, written)
    name = _name(os.path.realpath(written))
    return Source(name, _text(name, data))


def reader(*first: "Path | Source") -> Callable[[str, str], Source | Flaw]:
    """A function that reads what netlists refer to: (name of the file that asks, path as written there) to the file.

    The path is taken from the asking file's folder, links are followed, and the result must lie in the
    repository of one of the first files (the nearest folder above with a ``.git``), or, without a repository, in the
    folder of one of them. A file is read once: asking again, for one of the given sources too, gives the same value.
    """
    known = {os.path.realpath(one.name): one for one in first if isinstance(one, Source)}
    named = [os.path.realpath(one.name if isinstance(one, Source) else one) for one in first]
    roots = tuple(dict.fromkeys(map(_root, named)))

    def read_for(asking: str, written: str) -> Source | Flaw:
        unfit = _unfit(written)
        if unfit:
            return unfit
        path = os.path.realpath(os.path.join(os.path.dirname(asking), written))
        if not any(_lies_in(path, root) for root in roots):
            return _outside(written, roots, os.path.realpath(asking))
        if path not in known:
            try:
                known[path] = _part_of_repository(path, written)
            except EnvironmentFault as fault:
                return Flaw(str(fault))
        return known[path]

    return read_for


def roots(files: Iterable[str]) -> tuple[str, ...]:
    """The repositories of files, or their folders, each once; of no file that of the working folder."""
    named = [os.path.realpath(file) for file in files] or [os.path.realpath("netcheck.toml")]
    return tuple(dict.fromkeys(map(_root, named)))


def _name(whole: str) -> str:
    """The one name that a file has in every message, from its path in full."""
    here = os.path.realpath(os.curdir)
    name = os.path.relpath(whole, here) if _lies_in(whole, here) else whole
    return name.replace(os.sep, "/")


def _lies_in(path: str, folder: str) -> bool:
    """Whether a path in full is that of the folder, or of something in it."""
    inside = os.path.normcase(path + os.sep)
    return inside.startswith(os.path.normcase(folder.rstrip(os.sep) + os.sep))


def _bytes(path: str, written: str) -> bytes:
    """The file's bytes, one more than ``LARGEST`` at most."""
    try:
        with open(path, "rb") as handle:
            return handle.read(LARGEST + 1)
    except FileNotFoundError:
        raise EnvironmentFault(f"there is no file `{written}`{_near(path, written)}") from None
    except IsADirectoryError:
        raise EnvironmentFault(f"`{written}` is a folder, not a netlist{_netlists_in(path)}") from None
    except (OSError, ValueError) as error:
        raise EnvironmentFault(f"`{written}` can't be read: {reason(error)}") from None


def _text(name: str, data: bytes) -> str:
    if data.startswith(_UTF16_BOMS):
        raise EnvironmentFault(f"{name}:1:1: the file is in UTF-16; save it as UTF-8")
    data = data.removeprefix(_BOM)
    zero = data.find(b"\0")
    if zero >= 0:
        raise EnvironmentFault(f"{_at(name, data, zero)}: a zero byte; this is not a text file")
    _limit(name, data)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        place = _at(name, data, error.start)
        byte = data[error.start : error.start + 1]
        sign = byte.decode("latin-1")
        hint = f" (in Latin-1 it is `{sign}`)" if sign.isprintable() else ""
        raise EnvironmentFault(f"{place}: byte 0x{byte.hex().upper()} is not UTF-8{hint}; save it as UTF-8") from None


def _limit(name: str, data: bytes) -> None:
    begin = 0
    while len(data) - begin > LONGEST_LINE:
        # From one line's start to the last line's start within reach: few steps, however short the lines are.
        end = data.rfind(b"\n", begin, begin + LONGEST_LINE + 1)
        if end < 0:
            place = _at(name, data, begin)
            raise EnvironmentFault(f"{place}: the line is longer than {LONGEST_LINE:,} bytes; is this a netlist?")
        begin = end + 1
    if len(data) > LARGEST:
        raise EnvironmentFault(f"{name}:1:1: the file is larger than {LARGEST // 1_000_000} MB; is this a netlist?")


def _at(name: str, data: bytes, offset: int) -> str:
    """The place of a byte as ``name:line:column``, the column in code points."""
    begin = data.rfind(b"\n", 0, offset) + 1
    column = len(data[begin:offset].decode("utf-8", "replace")) + 1
    line = data.count(b"\n", 0, offset) + 1
    return f"{name}:{line}:{column}"


def _unfit(written: str) -> Flaw | None:
    if not written or "\0" in written:
        return Flaw("no file has such a name")
    if "\\" in written:
        return Flaw(f"`{written}` has a backslash", "write / between folder and file")
    drive = written[1:2] == ":" and written[0].isascii() and written[0].isalpha()
    if written.startswith("/") or drive:
        return Flaw(f"`{written}` is an absolute path", "write the path from this file's own folder")
    return None


def _outside(written: str, roots: tuple[str, ...], asking: str) -> Flaw:
    own = next((root for root in roots if _lies_in(asking, root)), roots[0])
    return Flaw(
        f"`{written}` leads out of the folder `{os.path.basename(own)}`", "keep what a netlist refers to inside of it"
    )


def _part_of_repository(path: str, written: str) -> Source:
    # A pipe or a device would block or never end, so what a netlist names must be an ordinary file.
    if os.path.lexists(path) and not (os.path.islink(path) or os.path.isfile(path) or os.path.isdir(path)):
        raise EnvironmentFault(f"`{written}` is not an ordinary file")
    name = _name(path)
    return Source(name, _text(name, _bytes(path, written)))


def _root(path: str) -> str:
    """The repository of a file, or its folder."""
    folder = own = os.path.dirname(path)
    while not os.path.lexists(os.path.join(folder, ".git")):
        above = os.path.dirname(folder)
        if above == folder:
            return own
        folder = above
    return folder


def _near(path: str, written: str) -> str:
    from pathlib import Path  # only a mistake pays for it, and for near names

    from netcheck.model.messages import near

    try:
        beside = [entry.name for entry in Path(path).parent.iterdir()]
    except OSError:
        return f" (nor a folder `{Path(written).parent}`)"  # as written: the same on every machine
    guess = near(Path(path).name, beside)
    return f"; {guess}" if guess else ""


def _netlists_in(path: str) -> str:
    from pathlib import Path

    inside = sorted(entry.name for entry in Path(path).glob("*.netck"))
    return f"; in it are {', '.join(f'`{name}`' for name in inside[:4])}" if inside else ""


def reason(error: OSError | ValueError) -> str:
    """What the machine says of a fault, to go on a sentence with."""
    text = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return text[:1].lower() + text[1:]
