"""Which test runs which statements of the sound project, and the file that keeps it: to watch them all takes long."""

import ast
import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

__all__ = ["Watched", "importers", "keep", "kept", "noted", "state"]


@dataclass(frozen=True, slots=True)
class Watched:
    """The tests of a sound project that pass, with the seconds of processor that each takes, the quickest first.

    ``ran`` has for each statement, by its module's path and line, a number whose bit n is set if test n runs it.
    """

    seconds: Mapping[str, float]
    ran: Mapping[str, int]

    def running(self, module: str, line: int) -> list[str]:
        """The tests that run the statement that begins on a line, the quickest first."""
        ran = self.ran.get(f"{module}:{line}", 0)
        return [test for n, test in enumerate(self.seconds) if ran >> n & 1]

    def importing(self, *modules: str) -> list[str]:
        """The tests that run any statement of one of the modules, the quickest first."""
        ran = 0
        for place, tests in self.ran.items():
            if place.partition(":")[0] in modules:
                ran |= tests
        return [test for n, test in enumerate(self.seconds) if ran >> n & 1]


def importers(root: Path, module: str) -> list[str]:
    """The modules that import from one: what it works out at import is asked for there, by no statement of its own."""
    name = module.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    texts = {path: path.read_text(encoding="utf-8") for path in sorted((root / "netcheck").rglob("*.py"))}
    likely = [path for path, text in texts.items() if name.rpartition(".")[2] in text]  # to parse them all takes 2 s
    return [path.relative_to(root).as_posix() for path in likely if name in _imported(ast.parse(texts[path]))]


def _imported(tree: ast.Module) -> set[str]:
    froms = [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module]
    # A name that is imported from a package may be a module of it.
    return {str(node.module) for node in froms} | {f"{node.module}.{one.name}" for node in froms for one in node.names}


def noted(tests: Mapping[str, tuple[float, Sequence[str]]]) -> Watched:
    """What was watched, from the seconds of each test and its statements, as ``module:line``."""
    ran: dict[str, int] = defaultdict(int)
    quickest = sorted(tests, key=lambda test: (tests[test][0], test))
    for n, test in enumerate(quickest):
        for place in tests[test][1]:
            ran[place] |= 1 << n
    return Watched({test: tests[test][0] for test in quickest}, dict(ran))


def kept(file: Path | None, now: str) -> Watched | None:
    """What a file keeps of a project in this state; nothing where it is of another or there is none."""
    if file is None or not file.exists():
        return None
    record = json.loads(file.read_text(encoding="utf-8"))
    if record["state"] != now:
        return None
    return Watched(record["seconds"], {place: int(tests, 16) for place, tests in record["ran"].items()})


def keep(watched: Watched, file: Path, now: str) -> None:
    """Writes a file that `kept` reads."""
    ran = {place: f"{tests:x}" for place, tests in watched.ran.items()}
    file.write_text(json.dumps({"state": now, "seconds": watched.seconds, "ran": ran}), encoding="utf-8")


def state(root: Path, files: Sequence[str]) -> str:
    """A word for all that a watch depends on: the texts of the project, and which files of tests are run."""
    found = sha256(repr(sorted(files)).encode())
    for folder in ("netcheck", "grammar", "samples", "tests"):
        for path in sorted((root / folder).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                found.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes())
    return found.hexdigest()
