"""What was tried in vain is not tried again where a slip has changed nothing, and the report is the same."""

from pathlib import Path
from typing import Any

import pytest

from netcheck import api
from netcheck.compare.faults import hands, search
from netcheck.core.source import Source
from netcheck.reports.json_document import render
from netcheck.reports.renderer import Style

SAMPLE = Path(__file__).parent.parent / "samples" / "sallow-street"


def told() -> str:
    original, faulty = (Source(name, (SAMPLE / name).read_text()) for name in ("original.netck", "faulty.netck"))
    return render(api.compare(original, faulty, lambda _asker, _path: original), Style())


def test_five_slips_take_half_of_the_trials_and_are_told_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    tried, trials = hands.tried, [0]

    def counted(*given: Any) -> Any:  # noqa: ANN401
        trials[0] += 1
        return tried(*given)

    monkeypatch.setattr(search, "tried", counted)
    report, few = told(), trials[0]
    monkeypatch.setattr(search, "_still_in_vain", lambda _step: frozenset())
    assert told() == report
    assert 2 * few < trials[0] - few
