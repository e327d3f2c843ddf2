"""What holds for the comparison of any chassis: equal is silent, however it is written; order means nothing."""

import random
from collections import Counter

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from netcheck.compare.rules import RULES
from netcheck.core.report import Report
from tests.paper import checked, compared
from tests.strategies import Chassis, Joint, chassis

RANDOM = st.randoms(use_true_random=False)
PAIR_RULES = frozenset(rule.name for rule in RULES)


def told(report: Report) -> Counter[tuple[str, str]]:
    """What the rules about two states say, as a bag of rules with the leads and parts they name."""
    assert report.built
    return Counter(
        (d.rule, " ".join(sorted({*d.touched.leads, *d.touched.parts})))
        for d in report.diagnostics
        if d.rule in PAIR_RULES
    )


@settings(max_examples=40)
@given(chassis())
def test_a_state_equals_itself(drawn: Chassis) -> None:
    report = compared(drawn.text(), drawn.text())
    assert report.built
    assert [d.headline for d in report.diagnostics] == []


@settings(max_examples=60)
@given(chassis(), RANDOM)
def test_other_joints_for_the_same_nets_are_silent(drawn: Chassis, rng: random.Random) -> None:
    assert told(compared(drawn.text(), drawn.rewired(rng).shuffled(rng))) == Counter()


@settings(max_examples=60)
@given(chassis(), st.permutations(["N1", "N2", "N3", "N4", "B+1"]))
def test_other_names_for_nets_are_silent(drawn: Chassis, names: list[str]) -> None:
    assert told(compared(drawn.text(), drawn.renamed(names).text())) == Counter()


@settings(max_examples=60)
@given(chassis(), RANDOM)
def test_the_order_of_statements_changes_no_finding_about_one_state(drawn: Chassis, rng: random.Random) -> None:
    def found(text: str) -> Counter[tuple[str, ...]]:
        return Counter((d.rule, *sorted(d.touched.leads), *sorted(d.touched.parts)) for d in checked(text).diagnostics)

    assert found(drawn.shuffled(rng)) == found(drawn.text())


@settings(max_examples=50)
@given(chassis(), st.data())
def test_one_wire_too_many_is_one_extra_connection_and_the_other_way_round_one_missing(
    drawn: Chassis, data: st.DataObject
) -> None:
    """For connections alone: swapping the files turns extra into missing."""
    leads = {p for p in drawn.points if not p.startswith(("SP", "G"))} | {"chassis"}
    nets = [part for part in drawn.components() if len(part & leads) > 1 or "chassis" in part]
    assume(len(nets) > 1)
    one, other = (min(part & leads) for part in data.draw(st.permutations(nets))[:2])
    wired = drawn.text(str(Joint("wire", (one, other))))
    there, back = compared(drawn.text(), wired), compared(wired, drawn.text())
    assert [d.rule for d in there.diagnostics if d.rule in PAIR_RULES] == ["extra-connection"]
    assert [d.rule for d in back.diagnostics if d.rule in PAIR_RULES] in (["missing-connection"], ["floating-ground"])
