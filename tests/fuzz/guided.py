"""Arbitrary input led by the branches that it reaches: ``python -m tests.fuzz.guided -max_total_time=600 FOLDER``.

The words after the module go to the fuzzer (libFuzzer's options and the folder of its finds). It needs
``pip install -e '.[fuzz]'``, which has wheels for Linux on x86_64 alone.
"""

import os
import sys
import tempfile
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

import atheris

with atheris.instrument_imports(include=["netcheck"]):
    import netcheck

    for module in walk_packages(netcheck.__path__, "netcheck."):  # also what a run loads only when it needs it
        if not module.name.endswith("__main__"):
            import_module(module.name)
    from tests.fuzz.judge import wrongs
    from tests.fuzz.known import NAMES, known
    from tests.fuzz.run import Run
    from tests.fuzz.worker import carried_out

_COMMANDS = ("check", "lugs", "supply", "bench", "compare", "job")
_WITH_TWO = _COMMANDS[4:]


class WrongError(Exception):
    """What a run came to is wrong; the fuzzer keeps its input."""


def run_of(data: bytes) -> Run:
    """The first byte says the command and the base, the rest is a text: one state, or the log of what was done."""
    command = _COMMANDS[data[0] % len(_COMMANDS)] if data else _COMMANDS[0]
    text = data[1:].decode("utf-8", "surrogateescape")
    if command not in _WITH_TWO:
        return Run((command, NAMES[0]), {NAMES[0]: text})
    base = known()[data[0] // len(_COMMANDS) % len(known())][NAMES[0]]
    return Run((command, *NAMES), {NAMES[0]: base, NAMES[1]: text})


def one(data: bytes, folder: Path) -> None:
    """Carries one input out, once: two runs are what ``python -m tests.fuzz`` compares."""
    run = run_of(data)
    outcome = carried_out(run, folder)
    if found := wrongs(run, outcome, outcome):
        raise WrongError(f"{found}: {run.as_json()}\n{outcome.fault}")


def main() -> None:
    """Begins with every known text."""
    with tempfile.TemporaryDirectory() as name, tempfile.TemporaryDirectory() as seeds:
        folder = Path(name, "set")
        folder.mkdir()
        for number, files in enumerate(known()):
            for at, text in enumerate(files.values()):
                Path(seeds, f"{number}-{at}").write_bytes(bytes([number % 256]) + text.encode())
        os.chdir(folder)
        atheris.Setup([*sys.argv, seeds], lambda data: one(data, folder))
        atheris.Fuzz()


if __name__ == "__main__":
    main()
