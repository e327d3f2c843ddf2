"""A word on the terminal where nothing would be seen for more than a moment."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

from netcheck.system import screen

__all__ = ["AFTER", "patience"]

AFTER = 1.0
"""Seconds without a word."""

_CLEAR = "\r\033[K"


@contextmanager
def patience(words: str) -> Iterator[None]:
    """Says the words on standard error while the work within takes long, and takes them away when it is done.

    Only a terminal is told, and only where the machine has an alarm to wake this with: no thread has to wait.
    """
    if not (sys.stderr.isatty() and _has_an_alarm()):
        yield
        return
    import signal  # half a millisecond, for a terminal alone

    told: list[bool] = []

    def speak(_number: int, _frame: FrameType | None) -> None:
        told.append(True)
        screen.tell(f"{words} ...")

    before = signal.signal(signal.SIGALRM, speak)
    signal.setitimer(signal.ITIMER_REAL, AFTER)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
        if told:
            screen.tell(_CLEAR)


def _has_an_alarm() -> bool:
    import signal

    return hasattr(signal, "setitimer")
