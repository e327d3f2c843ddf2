"""A record that was handed on is not changed by whoever has it next: each is frozen."""

import re
import runpy
from pathlib import Path

import pytest
from msgspec import Struct

ROOT = Path(__file__).parents[1]
# What is put together step by step, and is frozen or taken apart before it is handed on.
GROWING = {
    "Draft", "Inequalities", "PartSoFar", "Parts", "Sayings", "_Choice", "_Planner", "_Reading", "_Run", "_Standing",
}  # fmt: skip
WITH_RECORDS = [
    path
    for path in sorted((ROOT / "netcheck").rglob("*.py"))
    if re.search(r"\(Struct[,)]", path.read_text(encoding="utf-8"))
]


@pytest.mark.parametrize("path", WITH_RECORDS, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_record_is_frozen(path: Path) -> None:
    """Its module is run anew, under a name of its own: what decides is what the class became, not how it is written."""
    here = "run.anew"
    made = [one for one in runpy.run_path(str(path), run_name=here).values() if isinstance(one, type)]
    records = [one for one in made if issubclass(one, Struct) and one.__module__ == here]
    assert records
    assert {one.__name__ for one in records if not one.__struct_config__.frozen} <= GROWING
