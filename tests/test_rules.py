"""Every rule does what its manual page and its case file say: both are run, word for word."""

import re
from pathlib import Path

import pytest

from netcheck.api import AGAINST, rule_names, why
from netcheck.compare.rules import RULES as PAIR_RULES
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.panel import BareChassis, Can, Card, Done, Lug, Mark, NetCard, Panel, PartBox, Socket, Strip
from netcheck.core.report import Report
from netcheck.engine.language_page import NAME
from netcheck.engine.mistakes import PAGES
from netcheck.rules import COMPUTED, RULES
from tests.paper import ORIGINAL, REWIRED, checked, compared, line_of, places

ROOT = Path(__file__).parents[1]
ONE_STATE = {listed.name: listed.rule.manual for listed in RULES}
TWO_STATES = {listed.name: listed.rule.manual for listed in PAIR_RULES}
MANUALS = [*ONE_STATE.items(), *TWO_STATES.items()]
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
EXPECTED = re.compile(r"# ((?:STOP|LOOK|NOTE): [\w-]+)$")
LONGEST_HEADLINE = 90
FILES = (ORIGINAL, REWIRED)
# With these left in it a set may not live a minute, so that they are told before what is as grave.
BURNING = {
    "hot-chassis", "live-shell", "reversed-electrolytic", "reversed-rectifier", "winding-shorted",
    "went-round", "sections-exchanged", "return-on-wrong-common",
}  # fmt: skip
COMPARED = {rule.name for rule in COMPUTED}  # also judged against the original


def examples(page: str) -> dict[str, str]:
    """The indented blocks of a manual page by the word above them."""
    found = re.findall(r"^(Original|Wrong|Right):\n\n((?: {4}.*\n|\n)+)", page, re.MULTILINE)
    return {word: re.sub("^ {4}", "", text, flags=re.MULTILINE) for word, text in found}


def run(page: dict[str, str], word: str) -> Report:
    """A right state may be what a work log makes of the wrong one."""
    return compared(page["Original"], page[word]) if "Original" in page else checked(page[word], wrong=page["Wrong"])


@pytest.mark.parametrize(("name", "manual"), MANUALS)
def test_the_manuals_wrong_example_is_told(name: str, manual: str) -> None:
    page = examples(manual)
    assert ("Original" in page) is (manual == TWO_STATES.get(name))
    own = [d for d in run(page, "Wrong").diagnostics if d.rule == name]
    assert own
    assert {d.burns for d in own} == {name in BURNING and d.grade is Grade.STOP for d in own}


@pytest.mark.parametrize(("name", "manual"), MANUALS)
def test_the_manuals_right_example_is_not(name: str, manual: str) -> None:
    report = run(examples(manual), "Right")
    assert report.built
    assert report.count(Grade.STOP) == 0
    assert name not in [d.rule for d in report.diagnostics]


@pytest.mark.parametrize("name", [name for name, page in PAGES.items() if "Wrong:" in page])
def test_the_examples_of_mistakes_are_told_apart(name: str) -> None:
    page = examples(PAGES[name])
    assert name in [d.rule for d in checked(page["Wrong"]).diagnostics]
    assert name not in [d.rule for d in checked(page["Right"]).diagnostics]


def _cases() -> list[tuple[str, str, list[tuple[str, str]]]]:
    """(rule, title, fenced blocks) of every case; a case is a heading of the second rank."""
    found = []
    for path in sorted((ROOT / "tests/rules").glob("*.md")):
        head, *sections = path.read_text(encoding="utf-8").split("\n## ")
        assert head.startswith(f"# {path.stem}\n"), path.name
        for section in sections:
            title, _, body = section.partition("\n")
            found.append((path.stem, title, FENCE.findall(body)))
    return found


CASES = _cases()


def expected(blocks: dict[str, str]) -> list[tuple[str, int, str]]:
    """What the comments of a case ask for: a finding whose main place is on the line of the comment."""
    files = {"state": "state.netck", "original": ORIGINAL, "rewired": REWIRED}
    return sorted(
        (files[word], number, hit[1])
        for word, text in blocks.items()
        if word in files
        for number, line in enumerate(text.split("\n"), 1)
        if (hit := EXPECTED.search(line))
    )


@pytest.mark.parametrize(("rule", "fences"), [(c[0], c[2]) for c in CASES], ids=[f"{c[0]}: {c[1]}" for c in CASES])
def test_a_case_gives_the_findings_it_is_marked_with(rule: str, fences: list[tuple[str, str]]) -> None:
    blocks = dict(fences)
    assert len(blocks) == len(fences)
    accepted = [{"state"}] * (rule in ONE_STATE) + [{"original", "rewired"}] * (rule in TWO_STATES or rule in COMPARED)
    assert set(blocks) - {"told", "seen", "drawn"} in accepted
    report = run_case(blocks)
    assert report.built
    assert {label.place.source.name for d in report.diagnostics for label in d.labels} <= {"state.netck", *FILES}
    assert places(report.diagnostics) == expected(blocks)
    assert all(is_a_headline(d.headline) for d in report.diagnostics)
    assert all(d.do for d in report.diagnostics), f"{rule} says what is wrong, not what to do"
    if "told" in blocks:
        told = [f"{line_of(d)}\n    {d.do}\n" for d in report.diagnostics if d.rule == rule]
        assert "".join(told) == blocks["told"]
    if "seen" in blocks:
        assert "".join(seen(d) for d in report.diagnostics if d.rule == rule) == blocks["seen"]
    if "drawn" in blocks:
        assert "".join(drawn(d.panel) for d in report.diagnostics if d.rule == rule) == blocks["drawn"]


def seen(diagnostic: Diagnostic) -> str:
    """All of a finding that is not its headline or order: its places with their words, why, and what it touches."""
    touched = diagnostic.touched
    lines = [f"{label.place}: {label.text}" for label in diagnostic.labels]
    lines += [f"why: {diagnostic.why}"] if diagnostic.why else []
    groups = {"leads": touched.leads, "parts": touched.parts, "nets": touched.nets}
    lines += [f"{word}: {', '.join(names)}" for word, names in groups.items() if names]
    return "".join(f"{line}\n" for line in lines)


def drawn(panel: Panel | None) -> str:
    """A picture in words: its cards with what stands at each cell, its lines, rows and values."""
    if panel is None:
        return "no picture\n"
    lines = [card_in_words(card) for card in panel.cards]
    for line in panel.lines:
        ends = " to ".join(f"{panel.cards[card].name}.{cell}".rstrip(".") for card, cell in (line.a, line.b))
        wire = f", {line.label} {line.colour}".rstrip() if line.label else ""
        lines.append(f"{line.mark.value}: {ends}{wire}{done(line.done)}")
    for row in panel.rows:
        acts = "".join(done(each) for each in (*row.taken, *row.put))
        lines.append(f"{row.lead}: off {row.off or 'nothing'}, on {row.on or 'nothing'}{acts}")
    lines += [f"{value.part} is {value.now}, was {value.was}, fit {value.fit or '-'}" for value in panel.values]
    return "".join(f"{line}\n" for line in lines)


def done(act: Done | None) -> str:
    return f" ({act.act}: {', '.join(act.at)})" if act is not None else ""


def card_in_words(card: Card) -> str:
    match card:
        case PartBox():
            ends = ", ".join(f"{end.label} on {end.net}" if end.net else end.label for end in card.ends)
            wound = "".join(f"; {w.name} {w.values} ({' '.join(w.leads)})" for w in card.windings)
            marked = "" if card.mark is Mark.PLAIN else f", {card.mark.value}"
            return f"{card.form.value} {' '.join((card.name, *card.values))}{marked}{done(card.done)}: {ends}{wound}"
        case Strip() | Socket() | Can():
            key = f" {card.type} {card.key}" if isinstance(card, Socket) else ""
            return f"{type(card).__name__.lower()} {card.name}{key}: {'; '.join(map(lug_in_words, card.lugs))}"
        case NetCard():
            return f"net {card.name}: {', '.join(card.leads)} of {card.count}"
        case BareChassis():
            return card.name


def lug_in_words(lug: Lug) -> str:
    said = " ".join(word for word in (lug.label, lug.word, lug.net) if word)
    now = f" now {lug.now}" if lug.now else ""
    marks = "".join(f" {sign}{act.act}" for sign, acts in (("-", lug.off), ("+", lug.on)) for act in acts)
    return said + now + marks


def run_case(blocks: dict[str, str]) -> Report:
    return checked(blocks["state"]) if "state" in blocks else compared(blocks["original"], blocks["rewired"])


@pytest.mark.parametrize("name", sorted({*ONE_STATE, *TWO_STATES}))
def test_a_rule_has_cases_that_fail_and_words_that_are_pinned(name: str) -> None:
    own = [dict(fences) for rule, _, fences in CASES if rule == name]
    failing = [blocks for blocks in own if any(name in what for _, _, what in expected(blocks))]
    kinds = {"state" in blocks for blocks in failing}
    assert len(own) >= 2, "a rule has two cases at least"
    wanted = {word for word, known in ((True, ONE_STATE), (False, TWO_STATES)) if name in known}
    assert kinds >= wanted, f"a case has `# STOP: {name}` (LOOK, NOTE) on the line that is told"
    assert any("told" in blocks for blocks in failing), "one of the cases that fail pins its words in a `told` block"
    assert any("seen" in blocks for blocks in failing), "and one its places in a `seen` block"


def is_a_headline(text: str) -> bool:
    """One line, short enough for a list, no sentence's end."""
    return 0 < len(text) <= LONGEST_HEADLINE and "\n" not in text and not text.endswith((".", "!"))


def test_a_page_of_the_mistakes_is_a_rule_that_a_source_names_and_the_other_way_round() -> None:
    """The model gives the name first, the language keeps its three in one place, the settings have one."""
    model = "".join(path.read_text("utf-8") for path in (ROOT / "netcheck/model").glob("*.py"))
    told = set(re.findall(r'(?:_tell|stop|look|Diagnostic)\(\s*"([a-z-]+)",', model))
    slips = (ROOT / "netcheck/language/slip.py").read_text("utf-8")
    slips += (ROOT / "netcheck/settings/reader.py").read_text("utf-8")
    assert told | set(re.findall(r'^[A-Z]+ = "([a-z-]+)"$', slips, re.MULTILINE)) == set(PAGES)


@pytest.mark.parametrize("name", sorted(set(ONE_STATE) & set(TWO_STATES)))
def test_a_name_that_check_and_compare_share_has_one_page_with_both_halves(name: str) -> None:
    assert why(name) == f"{ONE_STATE[name]}\n{AGAINST}\n\n{TWO_STATES[name]}"
    assert [listed.name for listed in RULES if listed.rule.also_compared and listed.name == name] == [name]


def test_a_rule_says_that_it_is_compared_too_only_where_it_is() -> None:
    assert {listed.name for listed in RULES if listed.rule.also_compared} == set(ONE_STATE) & set(TWO_STATES)


def test_why_knows_every_rule_once() -> None:
    names = rule_names()
    assert len(names) == len(set(names))
    assert set(names) == {NAME, *ONE_STATE, *TWO_STATES, *PAGES}
    assert all(why(name).strip() for name in names)
