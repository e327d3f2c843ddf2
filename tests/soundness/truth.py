"""The static engine against the steady-state engine: claims on random networks, verdicts on random supplies."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from netcheck.electrical.branches import Condition
from netcheck.electrical.network import Capacitor, Load, Network
from netcheck.electrical.prover import Proof, Prover
from netcheck.electrical.steady import Steady, steady_in
from netcheck.electrical.verdict import Grade, Verdict, Way, verdicts
from tests.soundness.networks import random_network
from tests.supplies import random_supply

TIGHT = Condition(leak=1e-12)  # a leaking rectifier would carry current the wrong way
NEAR = 0.01  # volts that leakage of 1e-12 S and rounding may make
DRAWN = 24  # claims a network
REVERSED = 0.16  # of the electrolytics of a supply


@dataclass
class Tally:
    claims: int = 0
    violations: int = 0
    false_in_truth: int = 0
    supplies: int = 0
    wrong: int = 0
    reversed: int = 0
    reversed_found: int = 0
    decided: float = 0.0
    converged: float = 0.0
    drawn: int = 0
    electrolytics: int = 0
    reversed_decided: int = 0


def tally(claims: int, supplies: int, seed: int) -> Tally:
    """At least this many proven claims, and verdicts on this many supplies."""
    count = Tally()
    rng = Random(seed)
    while count.claims < claims:
        _count_claims(count, rng)
    for _ in range(supplies):
        _count_supply(count, rng)
    count.decided /= max(count.electrolytics, 1)
    count.converged /= max(count.supplies, 1)
    return count


def _count_claims(count: Tally, rng: Random) -> None:
    network = random_network(rng)
    truth = steady_in(network, TIGHT)
    if not truth.converged or not _as_tubes_do(network, truth):
        return
    prover = Prover(network)
    for _ in range(DRAWN):
        a, b = rng.sample(range(network.count), 2)
        volts = truth.nodes[a] - truth.nodes[b]
        count.drawn += 1
        count.false_in_truth += volts < -NEAR
        found = prover.claim(a, b)
        if isinstance(found, Proof):
            count.claims += 1
            count.violations += volts < -found.margin - NEAR


def _as_tubes_do(network: Network, truth: Steady) -> bool:
    """Whether no load was driven backwards: a tube would have blocked."""
    low = {duty.name: (duty.volts.low, duty.volts.high) for duty in truth.capacitors}
    for load in (element for element in network.elements if isinstance(element, Load)):
        for element in network.elements:
            if isinstance(element, Capacitor) and (element.plus, element.minus) == (load.plus, load.minus):
                if low[element.name][0] < 0:
                    return False
    return True


def _count_supply(count: Tally, rng: Random) -> None:
    network, planted = _with_reversed(random_supply(rng), rng)
    truth = steady_in(network, TIGHT)
    count.supplies += 1
    count.converged += truth.converged
    means = {duty.name: duty.volts.mean for duty in truth.capacitors}
    for verdict in verdicts(network):
        count.electrolytics += 1
        decided = verdict.grade in (Grade.PROVEN, Grade.COMPUTED)
        count.decided += decided
        count.wrong += decided and truth.converged and _is_wrong(verdict, means[verdict.capacitor])
        if verdict.capacitor in planted:
            count.reversed += 1
            count.reversed_decided += decided
            count.reversed_found += verdict.way is Way.REVERSED


def _is_wrong(verdict: Verdict, volts: float) -> bool:
    match verdict.way:
        case Way.RIGHT:
            return volts < -NEAR
        case Way.REVERSED:
            return volts > NEAR
        case _:
            return abs(volts) > NEAR


def _with_reversed(network: Network, rng: Random) -> tuple[Network, frozenset[str]]:
    planted = frozenset(
        element.name for element in network.elements if isinstance(element, Capacitor) and rng.random() < REVERSED
    )
    return replace(network, elements=tuple(_turned(network, planted))), planted


def _turned(network: Network, planted: frozenset[str]) -> Iterator[object]:
    for element in network.elements:
        if isinstance(element, Capacitor) and element.name in planted:
            yield replace(element, plus=element.minus, minus=element.plus)
        else:
            yield element
