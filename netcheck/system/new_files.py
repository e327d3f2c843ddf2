"""New files in a folder: all of them or none, and never one that is there."""

from collections.abc import Mapping
from pathlib import Path

from netcheck.core.errors import EnvironmentFault, UsageFault

__all__ = ["lay_out"]

_PROGRAM = ".sh"


def lay_out(folder: Path, texts: Mapping[str, str]) -> None:
    """Writes each text to its path in the folder, which is made if it is not there.

    Raises:
        UsageFault: One of the files is there already; then nothing is written.
        EnvironmentFault: The machine doesn't let us; what was written before is taken away again.
    """
    there = [path for path in texts if (folder / path).exists() or (folder / path).is_symlink()]
    if there:
        raise UsageFault(f"`{folder / there[0]}` is there already; nothing was written")
    written: list[Path] = []
    try:
        for path, text in texts.items():
            target = folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            with target.open("x", encoding="utf-8", newline="\n") as handle:
                written.append(target)
                handle.write(text)
            if target.suffix == _PROGRAM:
                target.chmod(target.stat().st_mode | 0o111)
    except OSError as fault:
        for target in written:
            target.unlink(missing_ok=True)
        raise EnvironmentFault(f"`{folder}` can't be written: {fault.strerror}") from None
