"""Writing results: whole or not at all, and over nothing that netcheck did not write."""

import errno
import os
import stat
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from netcheck.core.errors import EnvironmentFault, UsageFault
from netcheck.system.files import reason
from netcheck.system.signature import is_signed, is_to_fill_in

__all__ = ["refuse_what_was_read", "write"]


def refuse_what_was_read(outputs: Iterable[Path], files: Iterable[str]) -> None:
    """Raises UsageFault for an output that is a file of the run by another name: what a hand typed is in no other."""
    read = [file for file in map(Path, files) if file.exists()]
    for path in filter(Path.exists, outputs):
        for file in read:
            if path.samefile(file):
                raise UsageFault(f"`{path}` leads to `{file}`, which this run reads; name another file to write")


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
        elif overwrite or is_signed(_head(target)):
            target.write_bytes(data) if there.st_nlink > 1 else _replace(target, data, there)
        else:
            whose = "may be filled in" if is_to_fill_in(_head(target)) else "netcheck did not write it"
            raise UsageFault(f"`{path}` is there already and {whose}; to replace it, add --overwrite")
    except FileNotFoundError:
        raise EnvironmentFault(f"`{path}` can't be written: there is no folder `{path.parent}`") from None
    except (OSError, ValueError) as error:
        raise EnvironmentFault(f"`{path}` can't be written: {reason(error)}") from None


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


def _head(path: Path) -> bytes:
    with path.open("rb") as handle:
        return handle.read(4096)


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
