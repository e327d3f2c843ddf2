"""Texts that netcheck ships beside its modules."""

import sys
from typing import Any

__all__ = ["shipped"]


def shipped(package: str, name: str) -> str:
    """The text of a file in the folder of a loaded package. Raises FileNotFoundError."""
    # As pkgutil asks for it, which takes as long to load as reading the text; importlib.resources takes ten times that.
    module: Any = sys.modules[package]
    data: bytes = module.__loader__.get_data(f"{module.__path__[0]}/{name}")
    return data.decode()
