"""Which states of a chassis are looked at by themselves, and which against which."""

from collections.abc import Callable
from pathlib import Path

import pytest

from netcheck import api
from netcheck.cli import main
from netcheck.core.report import Report
from netcheck.core.source import Source

CAN = Path(__file__).parents[1] / "samples/one-can"

STATES = {
    "drawn": (("drawn",), 1),
    "drawn and rewired": (("drawn", "rewired"), 2),
    "three": (("drawn", "found", "rewired"), 2),
    "a plan": (("drawn", "planned"), 2),
    "a plan that was followed": (("drawn", "planned", "rewired"), 3),
    "only a plan before": (("planned", "rewired"), 2),
    "found and rewired": (("found", "rewired"), 2),
}


@pytest.mark.parametrize("case", STATES)
def test_every_state_that_is_named_is_looked_at(case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    seen: list[tuple[str, ...]] = []
    for name in ("check", "compare", "compare_three"):
        real: Callable[..., Report] = getattr(api, name)

        def spied(*given: object, _name: str = name, _real: Callable[..., Report] = real) -> Report:
            seen.append((_name, *(Path(one.name).stem for one in given if isinstance(one, Source))))
            return _real(*given)

        monkeypatch.setattr(api, name, spied)
    states, runs = STATES[case]
    base = (CAN / "original.netck").read_text(encoding="utf-8").replace("state drawn", "")
    for state in states:
        Path(f"{state}.netck").write_text(f"state {state}\n{base}", encoding="utf-8")
    named = "".join(f'{state} = "{state}.netck"\n' for state in states)
    Path("netcheck.toml").write_text(f"[chassis.a]\n{named}", encoding="utf-8")
    assert main(["all"]) == 0
    assert len(seen) == runs
    assert {state for _, *named in seen for state in named} == set(states)
    assert seen[0] == ("check", states[0])
    if len(states) > 1:
        assert seen[-1][-1] == states[-1]
