"""A few rounds of the bench's campaign: no false alarm, nothing certain that is wrong, nearly all named."""

from collections import Counter
from random import Random

from tests.bench_campaign.__main__ import figures, loaded, one


def test_a_few_planted_faults_are_named() -> None:
    counts: Counter[str] = Counter()
    random = Random(7)  # noqa: S311 - trials are repeated
    for name in ("skerry", "one-can", "sallow-street"):
        circuit, plan = loaded(name)
        for _ in range(4):
            one(counts, circuit, plan, random)
    found = figures(counts)
    assert counts["single"] >= 10
    assert counts["single top3"] >= counts["single seen"] - 1
    assert counts["double top3"] >= 0.7 * counts["double seen"]
    assert found["clean_false_alarms"] == 0
    assert found["certain_and_wrong"] == 0
