"""One run of the command line on files that are given with it, and what came of it."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path

__all__ = ["Outcome", "Run"]


@dataclass(frozen=True, slots=True)
class Run:
    """``files`` by their names; a byte that is no UTF-8 is a lone surrogate in the text, as Python has it."""

    words: tuple[str, ...]
    files: Mapping[str, str]

    @property
    def command(self) -> str:
        """The first word."""
        return self.words[0]

    @property
    def output(self) -> str:
        """The file that the run is to write; empty where it is the screen."""
        return self.words[self.words.index("-o") + 1] if "-o" in self.words else ""

    def write(self, folder: Path) -> None:
        """Puts the files into a folder, and nothing else stays there."""
        for old in folder.iterdir():
            old.unlink()
        for name, text in self.files.items():
            (folder / name).write_bytes(text.encode("utf-8", "surrogateescape"))

    def as_json(self) -> str:
        """One line, in ASCII."""
        return json.dumps({"words": self.words, "files": dict(self.files)})

    @staticmethod
    def of(text: str) -> "Run":
        """What ``as_json`` wrote; other keys are for the reader."""
        read = json.loads(text)
        return Run(tuple(read["words"]), read["files"])


@dataclass(frozen=True, slots=True)
class Outcome:
    """``fault`` is the traceback of an exception that nobody caught; ``written`` the text of the output file."""

    status: int = 0
    out: str = ""
    err: str = ""
    written: str = ""
    fault: str = ""
    seconds: float = 0.0
    megabytes: float = field(default=0.0, compare=False)

    def as_json(self) -> str:
        """One line, in ASCII."""
        return json.dumps(asdict(self))

    @staticmethod
    def of(text: str) -> "Outcome":
        """What ``as_json`` wrote."""
        return Outcome(**json.loads(text))

    @property
    def said(self) -> tuple[int, str, str, str]:
        """What must not differ from run to run."""
        return (self.status, self.out, self.err, self.written)
