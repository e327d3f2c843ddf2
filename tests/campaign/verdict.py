"""Whether a report tells what was planted."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report
from tests.campaign.planted import Answer, Planted

__all__ = ["Verdict", "judged"]

_WORD = re.compile(r"[A-Za-z0-9_./+-]+")


@dataclass(frozen=True, slots=True)
class Verdict:
    """``detected``: STOP names what was planted, for every fault; ``right_first``: the first error has the right
    rule and names the right thing; ``exact``: as many errors as faults, each telling another one.
    """

    detected: bool
    right_first: bool
    exact: bool


def judged(report: Report, faults: Sequence[Planted], leads: frozenset[str]) -> Verdict:
    """The verdict; ``leads`` are all leads of the rewired state, by which a finding may name too much."""
    errors = [d for d in report.diagnostics if d.grade is Grade.STOP]
    told = [[any(_names(d, a) for a in fault.answers) for d in errors] for fault in faults]
    detected = all(any(row) for row in told)
    right = bool(errors) and any(_is_right(errors[0], a, leads) for fault in faults for a in fault.answers)
    exact = len(errors) == len(faults) and any(
        all(told[n][at] for n, at in enumerate(order)) for order in permutations(range(len(errors)))
    )
    return Verdict(detected, right, exact)


def _names(found: Diagnostic, answer: Answer) -> bool:
    """Whether a finding names something of every group."""
    words = {w.strip(".") for w in _WORD.findall(f"{found.headline} {found.do}")}
    known = {*found.touched.leads, *found.touched.parts, *words}
    return all(group & known for group in answer.groups)


def _is_right(found: Diagnostic, answer: Answer, leads: frozenset[str]) -> bool:
    if found.rule not in answer.rules or not _names(found, answer):
        return False
    return answer.within is None or not (set(found.touched.leads) & leads) - answer.within
