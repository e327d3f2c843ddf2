"""Volts, ripple, currents and discharge of a few supplies; `python -m tests.soundness.figures` has three hundred."""

from tests.soundness.figures import FLOORS, errors, shares


def test_figures_of_supplies_loaded_on_both_sides_of_the_common_agree_with_another_solution() -> None:
    found, failed = errors(supplies=4, seed=3)
    assert failed == 0
    assert all(len(found[name]) >= 8 for name in FLOORS)
    every = shares(found)
    assert all(every[f"{name}_p90"] <= 0.01 for name in FLOORS)
    assert all(every[f"{name}_p99"] <= 0.05 for name in FLOORS)
