"""Claims that the static engine proves of random networks, against the steady-state engine."""

from dataclasses import dataclass
from random import Random

from netcheck.electrical.network.elements import Capacitor, Load, Network
from netcheck.electrical.proof.prover import Proof, Prover
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.steady import Steady, steady_in
from tests.soundness.networks import random_network

__all__ = ["Tally", "tally"]

TIGHT = Condition(leak=1e-12)  # a leaking rectifier would carry current the wrong way
NEAR = 0.01  # volts that leakage of 1e-12 S and rounding may make
DRAWN = 24  # claims a network


@dataclass
class Tally:
    """``claims`` are the proven ones that were simulated, ``drawn`` are all, ``false_in_truth`` the false among all."""

    drawn: int = 0
    claims: int = 0
    violations: int = 0
    false_in_truth: int = 0

    def summary(self) -> dict[str, float]:
        return {"claims": self.claims, "violations": self.violations, "false_in_truth": self.false_in_truth}


def tally(claims: int, seed: int) -> Tally:
    """At least this many proven claims."""
    count = Tally()
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    while count.claims < claims:
        _count_claims(count, rng)
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
