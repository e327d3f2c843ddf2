"""``netcheck`` and ``python -m netcheck``: a process of its own, from before its first import to its end."""

import atexit
import gc
import os
import sys
from typing import Any

__all__ = ["main"]

INTERRUPTED = 130  # as `system.delivery` has it, of which nothing may be loaded yet
YOUNG = 300_000  # objects


def main() -> int:
    """Runs one command and returns the exit status."""
    # A process of its own is short and keeps what it reads: collecting garbage costs a tenth of its time. Only a run
    # that makes a great deal, as of cuts through large nets, is swept, and what is young of it alone.
    gc.set_threshold(YOUNG, 1_000_000, 1_000_000)
    atexit.register(gc.freeze)  # nor is anything to be collected when it ends
    # Networks of a set are small: for these, threads only wait for each other, which doubles a long run's work.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    _import_msgspec()
    try:
        from netcheck.cli import main as command

        return command()
    except KeyboardInterrupt:  # while it was still being imported; after that the command answers itself
        sys.stderr.write("netcheck: stopped\n")
        return INTERRUPTED


def _import_msgspec() -> None:
    """Loads msgspec without ``typing_extensions``, which it does not need on a Python of ours.

    It asks for that first where it is installed; with ``inspect`` behind it that is as much as starting Python.
    """
    modules: Any = sys.modules
    absent = {"typing_extensions": None} if "typing_extensions" not in modules else {}
    modules.update(absent)  # None is how Python marks what can't be imported
    import msgspec  # noqa: F401  # what comes after finds it loaded

    for name in absent:
        del modules[name]


if __name__ == "__main__":
    sys.exit(main())
