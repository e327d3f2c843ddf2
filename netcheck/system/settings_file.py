"""The settings file: found upward from the working folder, as tools do, or named."""

from pathlib import Path

from netcheck.core.errors import SettingsFault
from netcheck.core.source import Source
from netcheck.system.files import read

__all__ = ["FILE", "find_settings"]

FILE = "netcheck.toml"


def find_settings(named: str | None = None) -> tuple[Source, Path]:
    """The settings and the folder that their paths begin at.

    Raises:
        SettingsFault: There is none in the working folder or above.
        EnvironmentFault: The file can't be had.
    """
    if named is not None:
        return read(named), Path(named).resolve().parent
    here = Path.cwd()
    for folder in (here, *here.parents):
        if (folder / FILE).is_file():
            return read(folder / FILE), folder
    raise SettingsFault(
        f"there is no {FILE} in this folder or above; `netcheck start DIRECTORY` makes one to begin with"
    )
