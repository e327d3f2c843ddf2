"""Strands and their homes, against an assignment by scipy; single faults, by what was done to the nets."""

from collections import Counter
from itertools import pairwise
from random import Random

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from netcheck.compare.faults.strands import Named, faults, homes, strands, weight
from netcheck.core.difference import Fault, Lead, Merge, Move, Split
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

Weights = dict[tuple[int, int], int]


def drawn(rng: Random, size: int) -> Weights:
    return {
        (old, 100 + new): rng.randint(1, 50)
        for old in range(size)
        for new in range(size)
        if rng.random() < 0.5 or old == new
    }


def heaviest(weights: Weights) -> int:
    olds, news = sorted({old for old, _ in weights}), sorted({new for _, new in weights})
    matrix = np.zeros((len(olds), len(news)), dtype=int)
    for (old, new), heavy in weights.items():
        matrix[olds.index(old), news.index(new)] = heavy
    rows, columns = linear_sum_assignment(matrix, maximize=True)
    return int(matrix[rows, columns].sum())


@pytest.mark.parametrize("seed", range(40))
def test_homes_are_the_pairs_that_weigh_most(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    weights = drawn(rng, rng.randint(1, 6))
    home = homes(weights, {})
    assert sum(weights[pair] for pair in home.new_of.items()) == heaviest(weights)
    assert home.old_of == {new: old for old, new in home.new_of.items()}


@pytest.mark.parametrize("seed", range(20))
def test_what_speaks_for_a_pair_beside_leads_is_added_to_it(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    weights = drawn(rng, 5)
    hints = {pair: rng.randint(0, 60) for pair in weights if rng.random() < 0.4}
    hints[99, 199] = 500  # nothing lies there
    both = {pair: heavy + hints.get(pair, 0) for pair, heavy in weights.items()}
    home = homes(weights, hints)
    assert sum(both[pair] for pair in home.new_of.items()) == heaviest(both)


def test_a_lead_weighs_more_than_every_hint_and_the_chassis_more_than_all_leads() -> None:
    lead, ground = Lead("R1.1", "R1.1", "R1", "R1", 1, 1), Lead("chassis", "chassis", "", "", 0, 0)
    assert weight(lead) > _hint(0, "a") + _hint(LUGS)
    assert weight(ground) > 1_000 * weight(lead)


LUGS = 60


def _hint(lugs: int, net: str = "") -> int:
    """The hint of a net with so many lugs of the same name in both states, or with a name that the later inherits."""
    strips = "".join(f"strip SP{n} 20 lugs insulated\n" for n in range(LUGS // 20))
    ends = [f"SP{n // 20}.{n % 20 + 1}" for n in range(lugs)]
    wires = "".join(f"wire {a} to {b}\n" for a, b in pairwise(ends))
    text = f"{strips}resistor R1 1k\n{wires}" + (f"net {net}: R1.1" if net else f"at {ends[0]}: R1.1")
    original, rewired = (circuit(start, set=text) for start in ('start from "set.netck"', 'start from "set.netck"\n'))
    return max(Named.of(original).hints(rewired).values())


def test_a_name_that_is_inherited_counts_for_more_than_a_lug_and_lugs_count_up_to_a_limit() -> None:
    one, two, five, many = (_hint(lugs) for lugs in (1, 2, 5, LUGS))
    assert (two, five) == (2 * one, 5 * one)
    assert many < 10 * one
    assert _hint(0, "a") > many


RING = "\n".join(f"resistor R{n} {n}k" for n in range(1, 10))


def told(before: str, after: str) -> list[Fault]:
    """The faults of nets of resistors that are fixed lead by lead: ``a: 1 2 3`` has the first ends of three on it."""
    old, new = (CircuitGraph(circuit(RING + "\n" + _nets(text))) for text in (before, after))
    leads = [
        Lead(f"R{n}.1", f"R{n}.1", f"R{n}", f"R{n}", old.circuit.index[f"R{n}.1"], new.circuit.index[f"R{n}.1"])
        for n in range(1, 10)
    ]
    was, now = [old.circuit.nets[lead.old] for lead in leads], [new.circuit.nets[lead.new] for lead in leads]
    home = homes(Counter(zip(was, now, strict=True)), {})
    return list(faults(strands(leads, was, now), home, new))


def _nets(text: str) -> str:
    lines = (line.split(":") for line in text.split(","))
    return "\n".join(f"net {name.strip()}: {', '.join(f'R{n}.1' for n in ends.split())}" for name, ends in lines)


def _names(leads: tuple[Lead, ...]) -> str:
    return " ".join(lead.part[1:] for lead in leads)


def test_equal_nets_have_no_fault() -> None:
    assert told("a: 1 2 3, b: 4 5 6, c: 7 8 9", "x: 4 5 6, y: 1 2 3, z: 7 8 9") == []


def test_what_left_its_net_is_split_off() -> None:
    (fault,) = told("a: 1 2 3, b: 4 5 6, c: 7 8 9", "a: 1 2, b: 4 5 6, c: 7 8 9, d: 3")
    assert isinstance(fault, Split)
    assert (_names(fault.leads), _names(fault.rest)) == ("3", "1 2")


def test_what_came_upon_another_net_from_its_own_has_moved() -> None:
    (fault,) = told("a: 1 2 3, b: 4 5 6, c: 7 8 9", "a: 1 2, b: 3 4 5 6, c: 7 8 9")
    assert isinstance(fault, Move)
    assert _names(fault.leads) == "3"
    assert len(fault.culprits) == 1


@pytest.mark.parametrize("joined", ["1 2 3 4 5", "4 5 1 2 3"])
def test_two_whole_nets_on_one_are_merged(joined: str) -> None:
    (fault,) = told("a: 1 2 3, b: 4 5, c: 6 7 8 9", f"a: {joined}, c: 6 7 8 9")
    assert isinstance(fault, Merge)
    assert {_names(fault.leads), _names(fault.others)} == {"1 2 3", "4 5"}


def test_three_nets_on_one_are_two_merges_and_each_names_the_net_beside_it() -> None:
    found = told("a: 1 2 3, b: 4 5, c: 6 7, d: 8 9", "a: 1 2 3 4 5 6 7, d: 8 9")
    assert [type(fault) for fault in found] == [Merge, Merge]
    assert {_names(fault.leads) for fault in found if isinstance(fault, Merge)} == {"4 5", "6 7"}
