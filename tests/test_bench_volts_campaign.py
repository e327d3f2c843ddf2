"""A few rounds of the volts' campaign: no false alarm, nothing certain that is wrong, most failures named."""

from collections import Counter
from random import Random

from tests.bench_volts_campaign.__main__ import figures, one
from tests.bench_volts_campaign.sets import SAMPLES, set_of


def test_failures_of_a_few_supplies_are_named_from_their_volts() -> None:
    counts: Counter[str] = Counter()
    random = Random(2)  # noqa: S311 - trials are repeated
    for name in SAMPLES:
        each = set_of(name)
        for _ in range(4):
            one(counts, each, random)
    found = figures(counts)
    assert counts["clean"] == 16
    assert counts["seen"] >= 8
    assert counts["top3"] >= 0.85 * counts["seen"]
    assert counts["named"] >= 0.95 * counts["seen"]
    assert found["clean_false_alarms"] == 0
    assert found["certain_and_wrong"] == 0
