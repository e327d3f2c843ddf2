"""Who may reword a finding is one place, and how it fares beside others hangs on what it is about and on no name."""

import ast
from functools import reduce
from operator import or_
from pathlib import Path

import pytest

from netcheck.compare.rules import RULES as TWO_STATES
from netcheck.core.diagnostic import About, Diagnostic
from netcheck.rules import RULES as ONE_STATE

ROOT = Path(__file__).parents[1] / "netcheck"
NAMES = {rule.name for rule in ONE_STATE} | {rule.name for rule in TWO_STATES}
SAID = {*Diagnostic.__struct_fields__} - {"rule", "touched", "about", "labels"}

PAGES = [ROOT / name for name in ("comparison.py", "hazards.py", "api.py", "compare/permuted.py")]
STAGES = sorted((*PAGES, *(ROOT / "compare/by_itself").glob("*.py"), *(ROOT / "compare/words").glob("*.py")))
REWORDING = ROOT / "compare/words/rewording.py"
OF_A_RULE = ROOT / "compare/by_itself/proofs.py"  # words `Finding`s for the rules, before anything else is known


def short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def rewords(path: Path) -> set[str]:
    """What is put in another finding's place: the fields that `replace` sets, of those that a reader is shown."""
    calls = [node for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.Call)]
    replaced = [call for call in calls if isinstance(call.func, ast.Name) and call.func.id == "replace"]
    return {word.arg for call in replaced for word in call.keywords if word.arg in SAID}


@pytest.mark.parametrize("path", [path for path in STAGES if path not in (REWORDING, OF_A_RULE)], ids=short)
def test_findings_are_reworded_in_one_place(path: Path) -> None:
    assert not rewords(path)


def test_what_rewords_is_found() -> None:
    assert {"headline", "why", "do", "grade", "burns", "mends", "panel"} <= rewords(REWORDING)


# Two names stand outside the rules: what the engine itself tells, and may not be accepted.
KNOWN = {"engine/accept.py": {"unused-intent", "not-compared"}, "api.py": {"unused-intent"}}


def test_no_room_asks_for_a_rule_by_its_name() -> None:
    rooms = [path for path in sorted(ROOT.rglob("*.py")) if path.parent.name != "rules"]
    texts = {short(path): path.read_text(encoding="utf-8") for path in rooms}
    assert {name: named(text) for name, text in texts.items() if named(text)} == KNOWN


def named(text: str) -> set[str]:
    if not any(name in text for name in NAMES):
        return set()
    return {node.value for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Constant) and node.value in NAMES}


def test_nothing_is_asked_that_no_rule_is_about() -> None:
    said = reduce(or_, [*(listed.rule.about for listed in ONE_STATE), *(listed.rule.about for listed in TWO_STATES)])
    assert said == reduce(or_, About)


def test_what_both_commands_tell_under_one_name_is_about_the_same() -> None:
    alone = {listed.name: listed.rule.about for listed in ONE_STATE}
    for rule in (listed.rule for listed in TWO_STATES):
        if rule.name in alone:
            assert alone[rule.name] in rule.about, rule.name
