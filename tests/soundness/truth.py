"""The static engine against the steady-state engine: claims on random networks, verdicts on random supplies."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from netcheck.electrical.network.elements import Capacitor, Element, Load, Network
from netcheck.electrical.proof.prover import Proof, Prover
from netcheck.electrical.proof.verdict import Surety, Verdict, Way, verdicts
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.steady import Steady, steady, steady_in
from tests.soundness.networks import random_network
from tests.supplies import random_supply

TIGHT = Condition(leak=1e-12)  # a leaking rectifier would carry current the wrong way
NEAR = 0.01  # volts that leakage of 1e-12 S and rounding may make
DRAWN = 24  # claims a network
REVERSED = 0.16  # of the electrolytics of a supply


@dataclass
class Tally:
    """``claims`` are the proven ones that were simulated, ``drawn`` are all, ``false_in_truth`` the false among all."""

    drawn: int = 0
    claims: int = 0
    violations: int = 0
    false_in_truth: int = 0
    supplies: int = 0
    converged: int = 0
    electrolytics: int = 0
    decided: int = 0
    wrong: int = 0
    reversed: int = 0
    reversed_decided: int = 0
    reversed_found: int = 0

    def summary(self) -> dict[str, float]:
        return {
            "claims": self.claims,
            "violations": self.violations,
            "false_in_truth": self.false_in_truth,
            "supplies": self.supplies,
            "wrong": self.wrong,
            "reversed": self.reversed,
            "reversed_found": self.reversed_found,
            "decided": round(self.decided / max(self.electrolytics, 1), 4),
            "converged": round(self.converged / max(self.supplies, 1), 4),
        }


def tally(claims: int, supplies: int, seed: int) -> Tally:
    """At least this many proven claims, and verdicts on this many supplies."""
    count = Tally()
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    while count.claims < claims:
        _count_claims(count, rng)
    for _ in range(supplies):
        _count_supply(count, rng)
    return count


def _count_claims(count: Tally, rng: Random) -> None:
    network = random_network(rng)
    truth = steady_in(network, TIGHT)
    if not truth.converged or not _as_tubes_do(network, truth):
        return
    prover = Prover(network, amperes=max(duty.amperes.mean for duty in truth.rectifiers))
    for _ in range(DRAWN):
        a, b = rng.sample(range(network.count), 2)
        volts = truth.nodes[a] - truth.nodes[b]
        count.drawn += 1
        count.false_in_truth += volts < -NEAR
        found = prover.claim(a, b)
        if isinstance(found, Proof):
            count.claims += not found.clamped
            count.violations += volts < -found.margin - NEAR


def _as_tubes_do(network: Network, truth: Steady) -> bool:
    """Whether no load was driven backwards: a tube would have blocked. The network has a capacitor across each."""
    loads = {(each.plus, each.minus) for each in network.elements if isinstance(each, Load)}
    across = {
        each.name for each in network.elements if isinstance(each, Capacitor) and (each.plus, each.minus) in loads
    }
    return all(duty.volts.low >= 0 for duty in truth.capacitors if duty.name in across)


def _count_supply(count: Tally, rng: Random) -> None:
    network, planted = _with_reversed(random_supply(rng), rng)
    truth = steady(network)
    count.supplies += 1
    count.converged += truth.converged
    means = {duty.name: duty.volts.mean for duty in truth.capacitors}
    for verdict in verdicts(network):
        count.electrolytics += 1
        decided = verdict.surety in (Surety.PROVEN, Surety.COMPUTED)
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


def _turned(network: Network, planted: frozenset[str]) -> Iterator[Element]:
    for element in network.elements:
        if isinstance(element, Capacitor) and element.name in planted:
            yield replace(element, plus=element.minus, minus=element.plus)
        else:
            yield element
