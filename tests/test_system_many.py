"""Runs that go on: what earlier work leaves behind does not fill the memory, results keep their order."""

import gc
import os
import signal
import sys
import time
import weakref
from collections import deque
from collections.abc import Iterator
from pathlib import Path

import pytest

from netcheck.__main__ import YOUNG
from netcheck.core.errors import EnvironmentFault
from netcheck.system.many import in_turn
from netcheck.system.watch import again_on_save


class Ring:
    """What only a sweep frees: it leads back to itself."""

    def __init__(self) -> None:
        self.own = self


@pytest.fixture
def _hardly_swept() -> Iterator[None]:
    """As the command line has it for one short run."""
    before = gc.get_threshold()
    gc.set_threshold(YOUNG, 1_000_000, 1_000_000)
    yield
    gc.set_threshold(*before)


@pytest.mark.usefixtures("_hardly_swept")
def test_of_many_works_the_old_ones_are_swept_too() -> None:
    rings: list[weakref.ref[Ring]] = []
    held: deque[Ring] = deque(maxlen=2)

    def work(number: int) -> int:
        held.append(Ring())
        rings.append(weakref.ref(held[-1]))
        return len([[number] for _ in range(25_000)])

    assert [*in_turn(work, range(40), 1)] == [25_000] * 40
    assert sum(ring() is not None for ring in rings) < 20


def test_an_interrupt_is_left_to_the_first_process() -> None:
    """Else a Ctrl-C would end each of them with a traceback of its own."""
    here = signal.getsignal(signal.SIGINT)
    assert [*in_turn(signal.getsignal, [signal.SIGINT] * 2, 2)] == [signal.SIG_IGN] * 2
    assert signal.getsignal(signal.SIGINT) is here


@pytest.mark.usefixtures("_hardly_swept")
def test_nothing_of_a_run_is_left_while_the_next_is_waited_for() -> None:
    rings: list[weakref.ref[Ring]] = []

    def run() -> int:
        ring = Ring()
        rings.append(weakref.ref(ring))
        return 0

    def pause(_: float) -> None:
        assert [ring() for ring in rings] == [None]
        raise KeyboardInterrupt

    assert again_on_save(run, ["a.netck"], pause) == 0


def _own(number: int) -> tuple[int, int]:
    return number, os.getpid()


@pytest.mark.parametrize(("items", "processes", "apart"), [(5, 2, True), (5, 1, False), (1, 4, False), (0, 2, False)])
def test_results_keep_their_order_in_one_process_or_several(items: int, processes: int, *, apart: bool) -> None:
    warmed: list[int] = []
    found = [*in_turn(_own, range(items), processes, warm=lambda: warmed.append(1))]
    assert [number for number, _ in found] == [*range(items)]
    assert all((process != os.getpid()) is apart for _, process in found)
    assert bool(warmed) is apart
    gc.unfreeze()


_LOADED: list[str] = []


def _shared(_number: int) -> tuple[list[str], bool]:
    return _LOADED, gc.get_freeze_count() > 0


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere each process begins anew, and has nothing of the first")
def test_what_is_loaded_before_is_there_in_each_process_and_not_swept_again() -> None:
    found = [*in_turn(_shared, range(2), 2, warm=lambda: _LOADED.append("grammar"))]
    assert found == [(["grammar"], True)] * 2
    gc.unfreeze()


def _met(place: Path) -> bool:
    """Whether the other of two works is begun while this one goes on."""
    place.touch()
    for _ in range(1000):
        if len(list(place.parent.iterdir())) == 2:
            return True
        time.sleep(0.01)
    return False


def test_as_many_works_go_on_at_once_as_there_are_processes(tmp_path: Path) -> None:
    assert [*in_turn(_met, [tmp_path / "one", tmp_path / "other"], 2)] == [True, True]
    gc.unfreeze()


@pytest.mark.parametrize(("cores", "apart"), [({0}, False), ({0, 3}, True), (None, False)])
def test_where_nothing_is_said_there_are_as_many_as_cores(
    cores: set[int] | None, monkeypatch: pytest.MonkeyPatch, *, apart: bool
) -> None:
    """Of those that this process may use; a machine that tells none has one."""
    if cores is None:
        monkeypatch.delattr(os, "sched_getaffinity", raising=False)
        monkeypatch.setattr(os, "cpu_count", lambda: None)
    else:
        monkeypatch.setattr(os, "sched_getaffinity", lambda _: cores, raising=False)
    assert all((process != os.getpid()) is apart for _, process in in_turn(_own, range(3)))
    gc.unfreeze()


def _ended(_number: int) -> int:
    os._exit(1)


def test_a_process_that_is_ended_from_outside_is_told() -> None:
    with pytest.raises(EnvironmentFault, match="ended from outside"):
        list(in_turn(_ended, range(4), 2))
    gc.unfreeze()
