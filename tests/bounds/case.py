"""What an input that must stay bounded is: a command and the files that it is given, by their size."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Case", "Files"]

Files = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Case:
    """``size`` is the one at which the input was found; ``words`` are the command's, with the names of the files.

    A test counts the work at one ``share``-th of the size, where it is not 0. A file that is ``refused`` is not built:
    for any other, messages about it would be all that is measured.
    """

    name: str
    size: int
    words: tuple[str, ...]
    files: Callable[[int], Files]
    share: int = 20
    refused: bool = False

    @property
    def modest(self) -> int:
        """A size at which calls can be counted in a test; 0 where the input has none."""
        return self.size // self.share if self.share else 0

    def write(self, folder: Path, size: int) -> tuple[str, ...]:
        """Writes the files into a folder, and gives the command's words."""
        for name, text in self.files(size).items():
            (folder / name).write_text(text, encoding="utf-8")
        return self.words
