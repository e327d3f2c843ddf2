"""Nets that follow each change, against networkx over all joints after every one."""

from random import Random

import networkx as nx
import pytest

from netcheck.compare.roles.changing import Changing
from netcheck.core.circuit import Circuit, How, Join
from tests.paper import circuit

STAY = (How.INSIDE, How.BOND)
DRAWN = """lug G1 grounded
pot P1 100k
tube V1 6SN7
resistor R1 1k
resistor R2 2k
resistor R3 3k
resistor R4 4k
net a: R1.1, R2.1, R3.1, R4.1, G1
net b: R1.2, V1.1
net c: R2.2, V1.2, chassis
net d: R3.2, P1.wiper
"""


class Slow:
    """The same changes made to a list of joints; nets are found anew each time."""

    def __init__(self, drawn: Circuit) -> None:
        self.count = len(drawn.points)
        self.joins = [(join.a, join.b, join.how) for join in drawn.joins]

    def lifted(self, at: int) -> None:
        bundle = self.count
        self.joins = [
            (a, b, how) if how in STAY else (bundle if a == at else a, bundle if b == at else b, how)
            for a, b, how in self.joins
        ]
        self.count += 1

    def cut(self, a: int, b: int) -> None:
        rank = (How.WIRE, How.SOLDERED, How.LEAD, How.NET)
        hits = [join for join in self.joins if {join[0], join[1]} == {a, b} and join[2] in rank]
        if hits:
            self.joins.remove(min(hits, key=lambda join: rank.index(join[2])))

    def nets(self, count: int) -> tuple[int, ...]:
        """For each of the first points the least of all that it is joined to."""
        graph = nx.Graph((a, b) for a, b, _ in self.joins)
        graph.add_nodes_from(range(self.count))
        least = {at: min(net) for net in nx.connected_components(graph) for at in net}
        return tuple(least[at] for at in range(count))


@pytest.mark.parametrize("seed", range(60))
def test_nets_follow_each_change(seed: int) -> None:
    dice = Random(seed)  # noqa: S311 - trials are repeated
    drawn = circuit(DRAWN)
    place = drawn.joins[0].place
    fast, slow = Changing(drawn), Slow(drawn)
    now = drawn
    for _ in range(25):
        count = slow.count
        before = slow.nets(count)
        fast.begin()
        for verb in dice.choice((("lift",), ("lift", "join"), ("join",), ("join", "join"), ("cut",), ("lift", "lift"))):
            a, b = dice.randrange(count), dice.randrange(count)
            if verb == "lift":
                fast.lifted(a)
                slow.lifted(a)
            elif verb == "cut":
                a, b = dice.choice(slow.joins)[:2] if dice.random() < 0.8 else (a, b)
                fast.cut_between(a, b)
                slow.cut(a, b)
            else:
                how = dice.choice((How.WIRE, How.SOLDERED))
                fast.made(Join(a, b, how, place, place))
                slow.joins.append((a, b, how))
        now = fast.circuit()
        assert now.nets == slow.nets(slow.count)
        assert len(now.points) == slow.count
        assert fast.is_idle is (slow.nets(count) == before)
    assert sorted((j.a, j.b, j.how.value) for j in now.joins) == sorted((a, b, how.value) for a, b, how in slow.joins)


def test_what_was_lifted_and_put_back_is_idle() -> None:
    drawn = circuit(DRAWN)
    at, to = drawn.index["R1.1"], drawn.index["R2.1"]
    changing = Changing(drawn)
    changing.begin()
    changing.lifted(at)
    assert not changing.is_idle
    changing.made(Join(to, at, How.SOLDERED, drawn.joins[0].place, drawn.joins[0].place))
    assert changing.is_idle


def test_joints_that_stay_come_before_those_made_after_the_last_lift() -> None:
    """In the order in which findings name the joints of a net."""
    drawn = circuit(DRAWN)
    place = drawn.joins[0].place
    changing = Changing(drawn)
    assert changing.circuit().joins == drawn.joins
    changing.made(Join(drawn.index["R4.2"], 0, How.WIRE, place, place))
    assert changing.circuit().joins[:-1] == drawn.joins
    changing.lifted(drawn.index["G1"])
    changing.made(Join(drawn.index["R1.2"], 0, How.WIRE, place, place))
    inner = [join for join in drawn.joins if join.how in STAY]
    assert inner
    assert list(changing.circuit().joins[-1 - len(inner) : -1]) == inner
