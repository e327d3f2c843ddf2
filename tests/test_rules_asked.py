"""A rule is asked where the table of its family says so: anywhere else it would have nothing to say."""

import pytest

from netcheck.compare.pair import compared
from netcheck.compare.rules import RULES as PAIR_RULES
from netcheck.engine.run import told_by
from netcheck.model.graph import CircuitGraph
from netcheck.rules import COMPUTED, RULES
from tests.paper import circuit
from tests.test_rules import CASES

# What is computed of a supply has no meaning without one: there the table says more than what saves work.
AS_SOLDERED = [listed for listed in RULES if listed not in COMPUTED]
BLOCKS = [(f"{rule}: {title}", dict(fences)) for rule, title, fences in CASES]
PAIRS = {title: blocks for title, blocks in BLOCKS if "rewired" in blocks}
STATES = {title: blocks["state"] for title, blocks in BLOCKS if "state" in blocks}


@pytest.mark.parametrize("title", PAIRS)
def test_a_comparison_rule_that_is_not_asked_would_tell_nothing(title: str) -> None:
    original, rewired = PAIRS[title]["original"], PAIRS[title]["rewired"]
    pair = compared(circuit(original), circuit(rewired, original=original))
    silent = [listed.rule for listed in PAIR_RULES if not listed.where(pair)]
    assert told_by(silent, pair) == ()


@pytest.mark.parametrize("title", STATES)
def test_a_rule_about_one_state_that_is_not_asked_would_tell_nothing(title: str) -> None:
    graph = CircuitGraph(circuit(STATES[title]))
    silent = [listed.rule for listed in AS_SOLDERED if not listed.where(graph)]
    assert told_by(silent, graph) == ()


def test_only_a_third_of_the_comparison_rules_is_asked_of_every_pair() -> None:
    pairs = [
        compared(circuit(blocks["original"]), circuit(blocks["rewired"], original=blocks["original"]))
        for blocks in list(PAIRS.values())[::12]
    ]
    asked = [{listed.name for listed in PAIR_RULES if listed.where(pair)} for pair in pairs]
    assert len(set.intersection(*asked)) < len(PAIR_RULES) / 3
