"""``python tests/lowest.py``: the lowest versions that pyproject.toml allows, as constraints for pip."""

import re
import sys
import tomllib
from pathlib import Path

PROJECT = Path(__file__).parents[1] / "pyproject.toml"


def lowest(need: str) -> str:
    """``lark>=1.2.1,<2`` to ``lark==1.2.1``; raises ``ValueError`` where a dependency has no lowest version."""
    found = re.match(r"([\w.-]+)>=([\d.]+)", need)
    if found is None:
        message = f"no lowest version: {need}"
        raise ValueError(message)
    return f"{found[1]}=={found[2]}"


if __name__ == "__main__":
    needs = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]["dependencies"]
    sys.stdout.writelines(f"{lowest(need)}\n" for need in needs)
