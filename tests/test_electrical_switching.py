"""From one switching to the next: the state that goes with a vector, and what a stretch has seen on its way."""

import random
from itertools import product
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.linalg import expm

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.running.assembly import Matrix, assemble
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.switching import Run, Stretch

MAINS = VoltageSource("line", 1, 0, 300.0, 50.0, 50.0)
BENT = Conduction(((0.0, 0.0), (10.0, 0.02), (30.0, 0.2)))  # two switches, of which the second follows the first
SILICON = Conduction(((0.7, 0.0), (0.75, 1.0)))


def ladder(seed: int) -> Network:
    """Rectifiers one behind the other with loads between them: whether one conducts hangs on the others."""
    drawn = random.Random(seed)  # noqa: S311 - trials are repeated
    elements: list[Element] = [MAINS]
    for node in range(1, 4):
        elements.append(Rectifier(f"D{node}", node, node + 1, drawn.choice((BENT, SILICON))))
        elements.append(Resistor(f"R{node}", node + 1, 0, 10 ** drawn.uniform(2, 5)))
        if drawn.random() < 0.5:
            elements.append(Load(f"V{node}", node + 1, 0, 10 ** drawn.uniform(-3, -1), 10 ** drawn.uniform(0, 2)))
    elements.append(Capacitor("C1", drawn.choice((2, 3, 4)), 0, 1e-5))
    return Network(5, tuple(elements))


@pytest.mark.parametrize("seed", range(40))
def test_the_first_state_is_the_one_of_all_in_which_every_switch_is_where_it_should_be(seed: int) -> None:
    circuit = assemble(ladder(seed), Condition())
    run = Run(circuit, 0.02)
    volts = random.Random(-seed).uniform(-50, 400)  # noqa: S311 - trials are repeated
    x = circuit.start(np.array([volts]), 0.1 * (seed % 10))
    ways = [state for state in product((False, True), repeat=len(circuit.switches)) if run.gear(state).fits(x)]
    assert ways == [Run(circuit, 0.02).first(x)]


def period_of(run: Run) -> list[tuple[Stretch, Matrix]]:
    x = run.circuit.start(np.zeros(run.circuit.dynamic))
    return list(run.march(run.first(x), x[:, None], run.period))


@pytest.mark.parametrize("seed", range(5))
def test_the_columns_of_a_stretch_are_its_whole_steps(seed: int) -> None:
    run = Run(assemble(ladder(seed), Condition()), 0.02)
    stretches = [stretch for stretch, _ in period_of(run)]
    assert len(stretches) > 1
    for stretch in stretches:
        columns = np.hstack([*stretch.columns()])
        assert columns.shape[1] == 1 + int(stretch.seconds / run.step)
        for at in range(columns.shape[1]):
            there = expm(stretch.gear.mode.rate * run.step * at) @ stretch.x
            assert columns[:, at] == pytest.approx(there, rel=1e-9, abs=1e-9)
        blind = Stretch(stretch.gear, stretch.x, stretch.seconds)  # one of which nothing was looked at
        assert np.hstack([*blind.columns()]) == pytest.approx(columns, rel=1e-12, abs=1e-12)


def test_states_that_come_round_are_gone_through_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first switch is wrong in every state, as where figures lie too far apart to tell."""
    run = Run(assemble(ladder(1), Condition()), 1 / 50)
    looked_at: list[tuple[bool, ...]] = []

    def gear(state: tuple[bool, ...]) -> SimpleNamespace:
        looked_at.append(state)
        return SimpleNamespace(wrong=lambda _: 0)

    monkeypatch.setattr(run, "gear", gear)
    run.settle((False, True), np.zeros(1))
    assert looked_at == [(False, True), (True, True), (False, True)]
