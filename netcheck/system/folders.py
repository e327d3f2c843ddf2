"""Folders: where a path is from here, and room for a file that the settings ask for."""

import os
from pathlib import Path

from netcheck.core.errors import EnvironmentFault

__all__ = ["from_here", "room_for"]


def from_here(path: Path) -> Path:
    """The path from the working folder, where it leads into it."""
    here = Path.cwd()
    return path.relative_to(here) if path.is_relative_to(here) else path


def room_for(path: Path, folder: Path) -> None:
    """Makes the folder of a file that the settings, which lie in ``folder``, ask for.

    Raises:
        EnvironmentFault: A link leads out of the settings' folder, or the machine doesn't let us.
    """
    if not path.absolute().is_relative_to(folder):
        return
    if not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder)):
        raise EnvironmentFault(f"`{path}` leads out of the folder of the settings")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise EnvironmentFault(f"`{path}` can't be written: {fault.strerror}") from None
