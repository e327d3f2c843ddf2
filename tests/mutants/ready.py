"""A plugin for pytest: the tests are collected and wait; each order is carried out by a copy of the process.

`NETCHECK_READY` is the number of the socket where orders come from. An order changes nothing in the process that waits.
"""

import os
import pickle
import resource
import select
import signal
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from importlib import import_module
from multiprocessing.connection import Connection
from pathlib import Path

import pytest

from tests.mutants.swap import CannotSwapError, caches, hits_noted, swapped

__all__ = ["Try", "Watch", "runs_anew_noted"]

_SOCKET = int(os.environ.get("NETCHECK_READY", "0"))
_MEMORY = 6 << 30  # a change can make a list endless
_WATCHED = 7200
_COLLECTED = "collected"
_WAIT = 60  # a test that only waits gets so many seconds for each of its processor

_red: list[str] = []


@dataclass(frozen=True, slots=True)
class Watch:
    """Run all tests once and tell for each that passes its seconds and the lines of statements that it ran."""

    files: Sequence[str]


@dataclass(frozen=True, slots=True)
class Try:
    """Run tests until one is red, with a module's text exchanged; more seconds of processor are red too.

    A private constant is what the change alone gives another value; else it is in functions, or ``cold``: in what only
    an import works out.
    """

    module: str
    sound: str
    text: str
    tests: Sequence[str]
    seconds: float
    constant: str | None = None
    cold: bool = False


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.failed:
        _red.append(report.nodeid)


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session: pytest.Session) -> bool | None:
    if not _SOCKET:
        return None
    with Connection(_SOCKET) as orders:
        orders.send(_COLLECTED)
        while True:
            try:
                order: Watch | Try = orders.recv()
            except EOFError:
                return True
            seconds = order.seconds if isinstance(order, Try) else _WATCHED
            orders.send(_by_a_copy(partial(_carried_out, session, order), seconds))


def _carried_out(session: pytest.Session, order: Watch | Try) -> object:
    return _watched(session, order) if isinstance(order, Watch) else _tried(session, order)


def _watched(session: pytest.Session, order: Watch) -> object:
    hits: set[str] = set()
    for file in order.files:
        _loaded(file)
        path = Path.cwd() / file
        hits_noted(str(path), path.read_text(encoding="utf-8"), hits.add, file)
    runs_anew_noted(order.files, hits.add)
    found, kept, of = {}, caches(), Path()
    for at, item in enumerate(session.items):
        if item.path != of:  # what a test of another file has worked out would hide that this one needs it too
            of = item.path
            for one in kept:
                one.cache_clear()
        hits.clear()
        began = time.process_time()
        _run(item, session.items[at + 1 : at + 2])
        if hits and not _red:
            found[item.nodeid] = (time.process_time() - began, sorted(hits))
        _red.clear()
    return found


def runs_anew_noted(files: Sequence[str], hit: Callable[[str], None]) -> None:
    """A test that runs a module's text once more runs no function that is watched, and still depends on the module."""
    names = {str(Path.cwd() / file): file for file in files}

    def noted(event: str, arguments: tuple[object, ...]) -> None:
        if event == "exec" and (file := names.get(_file_of(arguments[0]))):
            hit(f"{file}:0")

    sys.addaudithook(noted)


def _file_of(code: object) -> str:
    return str(Path(getattr(code, "co_filename", "")).absolute())


def _loaded(file: str) -> None:
    """Imports a module that is else imported where it is used, and so not there yet to be watched."""
    *folders, name = Path(file).with_suffix("").parts
    if name != "__main__":
        import_module(".".join(folders if name == "__init__" else (*folders, name)))


def _tried(session: pytest.Session, order: Try) -> object:
    try:
        swapped(str(Path.cwd() / order.module), order.sound, order.text, constant=order.constant)
    except CannotSwapError:
        return None
    items = {item.nodeid: item for item in session.items}
    chosen = [items[name] for name in order.tests]
    for at, item in enumerate(chosen):
        _run(item, chosen[at + 1 : at + 2])
        if _red:
            return _red[0]
    return ""


def _run(item: pytest.Item, following: Sequence[pytest.Item]) -> None:
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=following[0] if following else None)


def _by_a_copy(work: Callable[[], object], seconds: float) -> object:
    """What the work comes to in a copy of this process; text if it does not come to an end."""
    out, into = os.pipe()
    copy = os.fork()
    if copy == 0:
        os.close(out)
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 1))
        resource.setrlimit(resource.RLIMIT_DATA, (_MEMORY, _MEMORY))
        try:
            with os.fdopen(into, "wb") as pipe:
                pickle.dump(work(), pipe)
        finally:
            os._exit(0)
    os.close(into)
    with os.fdopen(out, "rb") as pipe:
        if not select.select([pipe], [], [], _WAIT * seconds)[0]:
            os.kill(copy, signal.SIGKILL)
        told = pipe.read()
    os.waitpid(copy, 0)
    return pickle.loads(told) if told else "no end within its time"  # noqa: S301 - written by the copy
