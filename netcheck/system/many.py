"""Work on many things at once: in processes where there are several, told of on a terminal, results in order.

Processes are copies of the first (`fork`) on Linux, where they have all modules already, and begin anew elsewhere. Each
writes the files of its own work, so that no more than the reports are kept; results keep the order asked for.
"""

import os
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

from netcheck.core.errors import EnvironmentFault

__all__ = ["PATIENCE", "in_turn", "with_progress"]

PATIENCE = 1.0
"""Seconds without a word of what goes on."""

_GARBAGE = 20_000  # new things before the youngest are looked through; a list makes some ten thousands that it keeps
_OLDER = 10, 10  # such looks before those that outlived one are looked through, and such of these before all are

_SHARES = 16  # parts of the work of each process: few enough to hand over, many enough to end together

Item = TypeVar("Item")
Result = TypeVar("Result")


def in_turn(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    processes: int | None = None,
    *,
    warm: Callable[[], object] = tuple,
) -> Iterator[Result]:
    """The result of each item in the order of the items, worked out in as many processes as the machine has cores.

    One process or one item needs no other process than this one. ``warm`` loads what all of them need, once.

    Raises:
        EnvironmentFault: A process was ended from outside, as when memory runs out.
    """
    import gc

    gc.set_threshold(_GARBAGE, *_OLDER)  # many things one after the other would fill the memory
    count = min(processes or _cores(), len(items))
    if count <= 1:
        yield from map(work, items)
        return
    warm()
    gc.freeze()  # what is shared from here on is not looked through again, and stays shared
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    # A copy of this process has all modules and the grammar already; only Linux can be trusted with it.
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    with ProcessPoolExecutor(count, context, _begin) as pool:
        try:
            yield from pool.map(work, items, chunksize=max(1, len(items) // (count * _SHARES)))
        except BrokenProcessPool:
            raise EnvironmentFault(
                "a process that was at work was ended from outside; is there memory enough?"
            ) from None
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def with_progress(results: Iterator[Result], total: int) -> Iterator[Result]:
    """The same, told on standard error where that is a terminal and it takes more than a moment."""
    if not sys.stderr.isatty():
        yield from results
        return
    began, told = time.monotonic(), False
    for done, result in enumerate(results, 1):
        yield result
        if time.monotonic() - began > PATIENCE:
            sys.stderr.write(f"\r{done} of {total}")
            sys.stderr.flush()
            told = True
    if told:
        sys.stderr.write("\r\033[K")
        sys.stderr.flush()


def _cores() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _begin() -> None:
    """What a process does first: an interrupt is the caller's affair."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)
