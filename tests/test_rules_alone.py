"""A rule asked alone tells of the cases on its page what the whole check tells: it needs no other rule for that.

What follows a supply from the moment it is switched on takes seconds, and is asked in `test_rules` alone.
"""

import pytest

from netcheck.core.diagnostic import Grade
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.rules import RULES
from tests.paper import circuit
from tests.test_rules import CASES, EXPECTED, examples

ONE_STATE = {listed.name: listed for listed in RULES}
QUICK = set(ONE_STATE) - {"reversed-at-switch-on"}
# What a file accepts is left out after its rule has told it.
ASKED = [
    (rule, title, state)
    for rule, title, fences in CASES
    for word, state in fences
    if word == "state" and rule in QUICK and f"accept {rule}" not in state
]


def _told(rule: Rule[CircuitGraph], finding: Finding) -> tuple[int, str]:
    place = finding.labels[0].place
    return place.line, f"{(finding.grade or rule.grade).value}: {rule.name}"


@pytest.mark.parametrize(("rule", "state"), [(r, s) for r, _, s in ASKED], ids=[f"{r}: {t}" for r, t, _ in ASKED])
def test_a_rule_alone_tells_what_its_case_is_marked_with(rule: str, state: str) -> None:
    asked = ONE_STATE[rule].rule
    marked = [(number, hit[1]) for number, line in enumerate(state.split("\n"), 1) if (hit := EXPECTED.search(line))]
    found = list(asked.check(CircuitGraph(circuit(state))))
    assert sorted(_told(asked, each) for each in found) == [each for each in marked if each[1].endswith(f" {rule}")]
    assert all(each.grade is not Grade.STOP or each.do for each in found)


@pytest.mark.parametrize("rule", ONE_STATE)
def test_a_rule_alone_tells_the_wrong_example_of_its_page(rule: str) -> None:
    asked = ONE_STATE[rule].rule
    assert list(asked.check(CircuitGraph(circuit(examples(asked.manual)["Wrong"]))))
