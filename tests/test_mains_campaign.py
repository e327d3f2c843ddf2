"""A short run of the campaign on the line; `python -m tests.mains_campaign` is the long one."""

from tests.mains_campaign.tally import tally


def test_no_path_of_the_line_is_missed_and_the_currents_are_those_of_another_solution() -> None:
    found = tally(trials=40, seed=3).summary()
    assert (found["missed"], found["false_alarms"]) == (0, 0)
    assert found["median_error"] < 0.01
    assert found["p99_error"] < 0.01
    assert found["over"] > found["joined"] > 0
    assert found["compared"] >= 10
