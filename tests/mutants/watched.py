"""Which test runs which lines of the sound project, and the file that keeps it: to watch them all takes long."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

__all__ = ["Watched", "keep", "kept", "of_records", "state"]


@dataclass(frozen=True, slots=True)
class Watched:
    """The tests of a sound project that pass: what each takes in seconds, and the stretches of lines that it runs.

    A stretch is a module by its path from the project's folder, and a number whose bit n is line n.
    """

    seconds: Mapping[str, float]
    ran: Mapping[str, Sequence[int]]
    stretches: Sequence[tuple[str, int]]

    def running(self, module: str, first: int = 0, last: int = 9999) -> list[str]:
        """The tests that run any of a module's lines from first to last, the quickest first."""
        lines = (1 << last + 1) - (1 << first)
        told = {n for n, (path, found) in enumerate(self.stretches) if path == module and found & lines}
        tests = [test for test in self.seconds if not told.isdisjoint(self.ran[test])]
        return sorted(tests, key=lambda test: (self.seconds[test], test))

    def among(self, places: Iterable[str]) -> "Watched":
        """Only the tests in these files and folders."""
        begins = tuple(f"{place.rstrip('/')}{end}" for place in places for end in ("::", "/"))
        return Watched({t: s for t, s in self.seconds.items() if t.startswith(begins)}, self.ran, self.stretches)


def of_records(records: Iterable[Mapping[str, Any]], root: str) -> Watched:
    """What `tests/mutants/watch.py` wrote, one record a process; modules are told from the root."""
    seconds: dict[str, float] = {}
    ran: dict[str, list[int]] = {}
    stretches: list[tuple[str, int]] = []
    for record in records:
        before = len(stretches)
        stretches += [(path.removeprefix(root), int(lines, 16)) for path, lines in record["stretches"]]
        for name, test in record["tests"].items():
            if test["passed"] and test.get("ran"):
                seconds[name] = test["seconds"]
                ran[name] = [before + n for n in test["ran"]]
    return Watched(seconds, ran, stretches)


def kept(file: Path, now: str, places: Sequence[str]) -> Watched | None:
    """What a file keeps of a project in this state, if it is of that and all these tests were watched."""
    if not file.exists():
        return None
    record = json.loads(file.read_text(encoding="utf-8"))
    known = record["state"] == now and set(places) <= set(record["places"])
    return of_records([record], "").among(places) if known else None


def keep(watched: Watched, file: Path, now: str, places: Sequence[str]) -> None:
    """Writes a file that `kept` reads."""
    tests = {
        name: {"passed": True, "seconds": seconds, "ran": watched.ran[name]}
        for name, seconds in watched.seconds.items()
    }
    stretches = [(path, f"{lines:x}") for path, lines in watched.stretches]
    record = {"state": now, "places": list(places), "stretches": stretches, "tests": tests}
    file.write_text(json.dumps(record), encoding="utf-8")


def state(root: Path) -> str:
    """A word for all that tests read of a project: another file in it, or another text, is another state."""
    found = sha256()
    for folder in ("netcheck", "grammar", "samples", "tests"):
        for path in sorted((root / folder).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                found.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes())
    return found.hexdigest()
