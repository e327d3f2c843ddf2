"""What is told of netlists that leave something unsaid, against all that they may mean."""

from dataclasses import dataclass
from random import Random

from netcheck.core.source import Source
from netcheck.electrical.network.elements import Network
from netcheck.electrical.proof.judgement import WayRound
from netcheck.electrical.running.steady import steady
from netcheck.electrical.study import judged, known
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import reader
from tests.soundness.netlists import Drawn, drawn, meanings, text
from tests.soundness.oracle import one_period
from tests.soundness.taken_over import wiring

__all__ = ["Unsaid", "of_netlists"]

NEAR = 1.0  # volts: less is neither way round, and does no harm


@dataclass
class Unsaid:
    """``wrong`` verdicts are refuted by one of the meanings; ``invented`` are files with figures in spite of a hole.

    ``clear`` electrolytics have one sign in every meaning, ``decided`` are those of them that are told.
    """

    netlists: int = 0
    electrolytics: int = 0
    clear: int = 0
    decided: int = 0
    wrong: int = 0
    invented: int = 0

    @property
    def share_decided(self) -> float:
        return round(self.decided / max(self.clear, 1), 4)


def of_netlists(netlists: int, seed: int) -> Unsaid:
    """Random netlists with a value or the position of a switch left out."""
    count = Unsaid()
    for trial in range(netlists):
        _count(count, drawn(Random(f"netlist {seed} {trial}")))  # noqa: S311 - repeatable, not secret
    return count


def _count(count: Unsaid, supply: Drawn) -> None:
    circuit, problems = build(Source("drawn", text(supply)), reader({}))
    assert circuit is not None, (problems, text(supply))
    graph = CircuitGraph(circuit)
    told = judged(graph)
    seen = [_means(network) for network in meanings(supply)]
    count.netlists += 1
    count.invented += bool(supply.silent) and supply.silent in told and known(graph) is not None
    for name, verdict in told.items():
        volts = [each[name] for each in seen if each is not None and name in each]
        signs = {(one > NEAR) - (one < -NEAR) for one in volts}
        count.electrolytics += 1
        clear = len(signs) == 1 and signs != {0}
        count.clear += clear
        count.decided += clear and verdict.is_certain
        count.wrong += verdict.is_certain and any(_refutes(verdict.way, one) for one in volts)


def _means(network: Network) -> dict[str, float] | None:
    """Each capacitor's mean volts by the tests' own oracle; nothing where no start was found."""
    found = steady(network)
    if not found.converged:
        return None
    truth = one_period(wiring(network), found.start)
    return None if truth.drift > NEAR / 2 else truth.means


def _refutes(way: WayRound, volts: float) -> bool:
    match way:
        case WayRound.RIGHT:
            return volts < -NEAR
        case WayRound.REVERSED:
            return volts > NEAR
        case WayRound.EITHER:
            return abs(volts) > NEAR
        case _:
            return False
