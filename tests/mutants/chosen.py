"""A plugin for pytest: only the tests that `NETCHECK_CHOSEN` lists, a file with their names, in its order."""

import os
from pathlib import Path

import pytest

__all__: list[str] = []


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    names = Path(os.environ["NETCHECK_CHOSEN"]).read_text(encoding="utf-8").splitlines()
    order = {name: n for n, name in enumerate(names)}
    items[:] = sorted((i for i in items if i.nodeid in order), key=lambda i: order[i.nodeid])
