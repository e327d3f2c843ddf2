"""What is read for a comparison is let go before the states are compared."""

import gc
from collections.abc import Iterable
from pathlib import Path

import pytest

from netcheck import api
from netcheck.core.circuit import Join
from netcheck.core.source import Source
from netcheck.model import build
from netcheck.model.closure import closure
from netcheck.system.files import read, reader
from tests.benchmarks.netlists import write_pair

STAGES = 100  # 1,900 terminals
FAULTS = 5
STATEMENTS = "netcheck.language.tree"


def _pair(folder: Path, faults: int) -> tuple[Source, Source]:
    original, rewired = (read(path) for path in write_pair(folder, STAGES, faults=faults))
    return original, rewired


def test_lines_are_let_go_once_the_last_state_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The original's are kept until the rewired state, which has its parts from it, is read as well."""
    sources = _pair(tmp_path, FAULTS)
    alive: list[int] = []

    def counting(count: int, joins: Iterable[Join]) -> tuple[int, ...]:
        places = (getattr(thing, "place", None) for thing in gc.get_objects() if type(thing).__module__ == STATEMENTS)
        alive.append(sum(getattr(place, "source", None) in sources for place in places))
        return closure(count, joins)

    monkeypatch.setattr(build, "closure", counting)
    api.compare(*sources, reader(*sources))
    assert alive[0] > STAGES
    assert alive[-1] == 0
