"""A plugin for pytest: which test runs which lines, how long it takes, and only the tests that are asked for.

`NETCHECK_WATCH` names the folder that is watched and `NETCHECK_WATCHED` where the record goes;
`NETCHECK_CHOSEN` names a file with the tests to run, in their order.

The lines of a module that a test runs are one number whose bit n is line n. Many tests run the same ones, so a record
lists each number once: a record of the whole project would be fifty times as long otherwise.
"""

import json
import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest

__all__: list[str] = []

_ROOM = os.environ.get("NETCHECK_WATCH", "")
_RECORD = os.environ.get("NETCHECK_WATCHED", "")
_CHOSEN = os.environ.get("NETCHECK_CHOSEN", "")

_CALLS = 60  # a function that showed no new line in so many calls of one test is not watched any more there

_seen: set[tuple[str, int]] = set()
_left: dict[CodeType, int] = {}
_tests: dict[str, dict[str, Any]] = {}
_stretches: dict[tuple[str, int], int] = {}


def _lines(frame: FrameType, event: str, _: object) -> Any:  # noqa: ANN401 - as `sys.settrace` has it
    if event == "line" and (line := (frame.f_code.co_filename, frame.f_lineno)) not in _seen:
        _seen.add(line)
        _left[frame.f_code] = _CALLS
    return _lines


def _calls(frame: FrameType, _event: str, _argument: object) -> Any:  # noqa: ANN401 - as `sys.settrace` has it
    code = frame.f_code
    if _ROOM not in code.co_filename:
        return None
    _left[code] = left = _left.get(code, _CALLS) - 1
    return _lines if left > 0 else None


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    if not _RECORD:
        yield
        return
    _seen.clear()
    _left.clear()
    began = time.perf_counter()
    sys.settrace(_calls)
    try:
        yield
    finally:
        sys.settrace(None)
    lines: dict[str, int] = defaultdict(int)
    for path, line in _seen:
        lines[path] |= 1 << line
    known = _tests.setdefault(item.nodeid, {"passed": True})
    ran = [_stretches.setdefault(stretch, len(_stretches)) for stretch in lines.items()]
    known |= {"seconds": time.perf_counter() - began, "ran": ran}


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if _RECORD and not report.passed:
        _tests.setdefault(report.nodeid, {})["passed"] = False


def pytest_sessionfinish(session: pytest.Session) -> None:
    if _RECORD and _tests:
        worker = getattr(session.config, "workerinput", {}).get("workerid", "")
        stretches = [(path, f"{lines:x}") for path, lines in _stretches]
        record = json.dumps({"stretches": stretches, "tests": _tests})
        Path(f"{_RECORD}{worker}.json").write_text(record, encoding="utf-8")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if _CHOSEN:
        order = {name: n for n, name in enumerate(Path(_CHOSEN).read_text(encoding="utf-8").splitlines())}
        items[:] = sorted((i for i in items if i.nodeid in order), key=lambda i: order[i.nodeid])
