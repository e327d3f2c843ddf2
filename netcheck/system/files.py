"""Reading netlists and writing results; what is wrong with a file is said with its place."""

import errno
import os
import stat
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path, PureWindowsPath

from netcheck.core.diagnostic import Flaw
from netcheck.core.errors import EnvironmentFault, UsageFault
from netcheck.core.source import Source
from netcheck.system.signature import is_signed

__all__ = ["LARGEST", "LONGEST_LINE", "read", "reader", "roots", "write"]

LARGEST = 16_000_000
"""Bytes of the largest netlist read: some hundred times a set of a thousand parts."""

LONGEST_LINE = 100_000
"""Bytes of the longest line read; a line of hand-written text has some hundred."""

_BOM = b"\xef\xbb\xbf"
_UTF16_BOMS = (b"\xff\xfe", b"\xfe\xff")


def read(path: str | Path) -> Source:
    """The netlist in a file, named by its path from the working folder, or in full where it lies outside of it.

    A byte order mark is dropped; line endings stay as they are.

    Raises:
        EnvironmentFault: if the file can't be had or isn't UTF-8 text of a netlist's size.
    """
    data = _bytes(Path(path), str(path))
    name = _name(Path(path))
    return Source(name, _text(name, data))


def reader(*first: Path | Source) -> Callable[[str, str], Source | Flaw]:
    """A function that reads what netlists refer to: (name of the file that asks, path as written there) to the file.

    The path is taken from the asking file's folder, links are followed, and the result must lie in the
    repository of one of the first files (the nearest folder above with a ``.git``), or, without a repository, in the
    folder of one of them. A file is read once: asking again, for one of the given sources too, gives the same value.
    """
    known = {os.path.realpath(one.name): one for one in first if isinstance(one, Source)}
    named = [Path(os.path.realpath(one.name if isinstance(one, Source) else one)) for one in first]
    roots = tuple(dict.fromkeys(_root(path) for path in named))

    def read_for(asking: str, written: str) -> Source | Flaw:
        unfit = _unfit(written)
        if unfit:
            return unfit
        path = Path(os.path.realpath(Path(asking).parent / written))
        if not any(path.is_relative_to(root) for root in roots):
            return _outside(written, roots, Path(os.path.realpath(asking)))
        if str(path) not in known:
            try:
                known[str(path)] = _part_of_repository(path, written)
            except EnvironmentFault as fault:
                return Flaw(str(fault))
        return known[str(path)]

    return read_for


def roots(files: Iterable[str]) -> tuple[Path, ...]:
    """The repositories of files, or their folders, each once; of no file that of the working folder."""
    named = [Path(os.path.realpath(file)) for file in files] or [Path(os.path.realpath("."), "netcheck.toml")]
    return tuple(dict.fromkeys(map(_root, named)))


def write(path: Path, data: bytes, *, overwrite: bool) -> None:
    """Puts the data into the file, whole or not at all; a file of netcheck's own making is replaced.

    Netcheck knows a file of its own by how it begins (``signature``), so a netlist or a photograph is never replaced
    by a slip of the fingers. Devices and pipes are written to directly, and so is a file of several names (hard
    links), which would else part from its other names.

    Raises:
        UsageFault: if another file is there and ``overwrite`` is not set.
        EnvironmentFault: if the machine doesn't let us.
    """
    target = Path(os.path.realpath(path))
    try:
        there = _there(path)  # as it was named: what /dev/stdout leads to has no path that opens
        if there is None:
            _replace(target, data, None)
        elif stat.S_ISDIR(there.st_mode):
            raise EnvironmentFault(f"`{path}` is a folder; name the file to write")
        elif stat.S_ISFIFO(there.st_mode):
            _pour(path, data)
        elif not stat.S_ISREG(there.st_mode):
            path.write_bytes(data)
        elif overwrite or _is_own(target):
            target.write_bytes(data) if there.st_nlink > 1 else _replace(target, data, there)
        else:
            raise UsageFault(f"`{path}` is there already and netcheck did not write it; to replace it, add --overwrite")
    except FileNotFoundError:
        raise EnvironmentFault(f"`{path}` can't be written: there is no folder `{path.parent}`") from None
    except (OSError, ValueError) as error:
        raise EnvironmentFault(f"`{path}` can't be written: {_reason(error)}") from None


def _name(path: Path) -> str:
    """The one name that a file has in every message."""
    whole = Path(os.path.realpath(path))
    here = Path(os.path.realpath("."))
    return (whole.relative_to(here) if whole.is_relative_to(here) else whole).as_posix()


def _bytes(path: Path, written: str) -> bytes:
    """The file's bytes, one more than ``LARGEST`` at most."""
    try:
        with path.open("rb") as handle:
            return handle.read(LARGEST + 1)
    except FileNotFoundError:
        raise EnvironmentFault(f"there is no file `{written}`{_near(path, written)}") from None
    except IsADirectoryError:
        raise EnvironmentFault(f"`{written}` is a folder, not a netlist{_netlists_in(path)}") from None
    except (OSError, ValueError) as error:
        raise EnvironmentFault(f"`{written}` can't be read: {_reason(error)}") from None


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
    if written.startswith("/") or PureWindowsPath(written).drive:
        return Flaw(f"`{written}` is an absolute path", "write the path from this file's own folder")
    return None


def _outside(written: str, roots: tuple[Path, ...], asking: Path) -> Flaw:
    own = next((root for root in roots if asking.is_relative_to(root)), roots[0])
    return Flaw(f"`{written}` leads out of the folder `{own.name}`", "keep what a netlist refers to inside of it")


def _part_of_repository(path: Path, written: str) -> Source:
    # A pipe or a device would block or never end, so what a netlist names must be an ordinary file.
    if os.path.lexists(path) and not path.is_symlink() and not path.is_file() and not path.is_dir():
        raise EnvironmentFault(f"`{written}` is not an ordinary file")
    name = _name(path)
    return Source(name, _text(name, _bytes(path, written)))


def _root(path: Path) -> Path:
    """The repository of a file, or its folder."""
    return next((folder for folder in path.parents if os.path.lexists(folder / ".git")), path.parent)


def _there(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except FileNotFoundError:
        return None


def _pour(path: Path, data: bytes) -> None:
    """Writes to a pipe that somebody reads; one that nobody has open would hold the run for ever."""
    try:
        opened = os.open(path, os.O_WRONLY | os.O_NONBLOCK)
    except OSError as error:
        if error.errno == errno.ENXIO:
            raise EnvironmentFault(f"`{path}` is a pipe that nobody reads; start its reader first") from None
        raise
    os.set_blocking(opened, True)
    with os.fdopen(opened, "wb") as handle:
        handle.write(data)


def _is_own(path: Path) -> bool:
    with path.open("rb") as handle:
        return is_signed(handle.read(4096))


def _replace(target: Path, data: bytes, before: os.stat_result | None) -> None:
    """Writes beside the target and then renames, so that a reader sees the old file or the new one.

    What was there ``before`` leaves its mode and, where the machine lets us, its owner.
    """
    beside = target.with_name(f".netcheck-{os.urandom(6).hex()}.part")
    try:
        with os.fdopen(os.open(beside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666), "wb") as handle:
            if before is not None:
                _take_after(handle.fileno(), before)
            handle.write(data)
            handle.flush()
            os.fsync(handle.fileno())
        beside.replace(target)
    finally:
        beside.unlink(missing_ok=True)


def _take_after(handle: int, before: os.stat_result) -> None:
    if hasattr(os, "fchown"):
        with suppress(PermissionError):
            os.fchown(handle, before.st_uid, before.st_gid)
        os.fchmod(handle, stat.S_IMODE(before.st_mode))


def _near(path: Path, written: str) -> str:
    from netcheck.model.messages import near  # only a mistake pays for it

    try:
        beside = [entry.name for entry in path.parent.iterdir()]
    except OSError:
        return f" (nor a folder `{Path(written).parent}`)"  # as written: the same on every machine
    guess = near(path.name, beside)
    return f"; {guess}" if guess else ""


def _netlists_in(path: Path) -> str:
    inside = sorted(entry.name for entry in path.glob("*.netck"))
    return f"; in it are {', '.join(f'`{name}`' for name in inside[:4])}" if inside else ""


def _reason(error: OSError | ValueError) -> str:
    text = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return text[:1].lower() + text[1:]
