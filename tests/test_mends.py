"""What a report orders can be done: written into a work log on top of the rewired file and compared again."""

from collections.abc import Iterable, Sequence
from random import Random

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from netcheck.compare.rules import RULES
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import lines
from netcheck.core.report import Report
from tests.campaign.kinds import KINDS
from tests.campaign.reading import text_of
from tests.campaign.rewired_sets import fresh_names
from tests.campaign.trials import trial
from tests.paper import compared

ABOUT_JOINTS = frozenset(rule.name for rule in RULES) - {
    "value-changed", "rating-too-low", "kind-unsuitable", "first-capacitor-too-large", "balancing-missing",
    "several-for-one", "renamed", "not-compared",
}  # fmt: skip
Key = tuple[str, frozenset[str]]


def grave(report: Report) -> list[Diagnostic]:
    """What is told about joints and is no mere NOTE, in the printed order."""
    assert report.built, [d.headline for d in report.diagnostics]
    return [d for _, d in report.numbered if d.rule in ABOUT_JOINTS and d.grade is not Grade.NOTE]


def key(finding: Diagnostic) -> Key:
    return finding.rule, frozenset((*finding.touched.leads, *finding.touched.parts))


def after(original: str, rewired: str, mends: Sequence[Iterable[str]]) -> Report:
    """The comparison once orders were done: a layer of a work log for each, the first on top of the rewired file."""
    layers = {"layer-0": rewired}
    for n, mend in enumerate(mends, 1):
        layers[f"layer-{n}"] = "\n".join((f'start from "layer-{n - 1}.netck"', *mend)) + "\n"
    *below, last = layers
    return compared(original, layers[last], **{name: layers[name] for name in below})


def followed(original: str, rewired: str) -> None:
    """All first mends in the printed order leave nothing to tell where every finding has one; each alone its own.

    What is left after one may be told in other words (a part whose other end is free now is on nothing), but it is
    less than it was.
    """
    told = grave(compared(original, rewired))
    ordered = [d for d in told if d.mends]
    for finding in ordered:
        left = grave(after(original, rewired, [lines(finding.mends[0])]))
        assert key(finding) not in map(key, left), (finding.headline, lines(finding.mends[0]))
        assert len(left) < len(told), (finding.headline, lines(finding.mends[0]), [d.headline for d in left])
    done = [lines(d.mends[0]) for d in ordered]
    rest = [d.headline for d in grave(after(original, rewired, done))]
    assert len(rest) <= len(told) - len(ordered), (done, rest)


@settings(max_examples=10, derandomize=True)
@given(st.integers(0, 10**6), st.lists(st.sampled_from(sorted(KINDS)), min_size=1, max_size=2, unique=True))
def test_orders_put_sets_that_nobody_has_seen_right(seed: int, kinds: list[str]) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    drawn = trial(kinds, rng, fresh_names(rng, 4))
    assume(drawn is not None)
    assert drawn is not None
    followed(text_of(drawn.sample, "original"), drawn.text)


@st.composite
def boards(draw: st.DrawFn) -> list[list[str]]:
    """Resistors on the lugs of one strip: the leads of each lug, at least three, and no resistor across itself."""
    lugs = draw(st.integers(2, 4))
    count = draw(st.integers(3 * lugs // 2 + 1, 3 * lugs))
    places: list[list[str]] = [[] for _ in range(lugs)]
    for number in range(1, count + 1):
        one, other = draw(st.permutations(range(lugs)))[:2]
        places[one].append(f"R{number}.1")
        places[other].append(f"R{number}.2")
    assume(all(len(leads) > 2 for leads in places))
    return places


def board(places: Sequence[Sequence[str]], *more: str) -> str:
    """The netlist of a board; the chassis is on its first lug, and each resistor has a value of its own."""
    names = sorted({lead.partition(".")[0] for leads in places for lead in leads}, key=lambda name: int(name[1:]))
    lines = [f"resistor {name} {name[1:]}k" for name in names]
    lines += [f"strip SP1 {len(places) + 1} lugs", "wire chassis to SP1.1"]
    lines += [f"at SP1.{n}: {', '.join(leads)}" for n, leads in enumerate(places, 1) if leads]
    return "\n".join([*lines, *more]) + "\n"


def slipped(places: list[list[str]], data: st.DataObject) -> str:
    """The board after two slips at most: a lead off, on another lug, two exchanged, a wire between two lugs."""
    hands = [list(leads) for leads in places]
    wires: list[str] = []
    for slip in data.draw(st.lists(st.sampled_from(("off", "astray", "exchanged", "wire")), min_size=1, max_size=2)):
        one, other = data.draw(st.permutations(range(len(hands))))[:2]
        if slip == "wire":
            wires.append(f"wire SP1.{one + 1} to SP1.{other + 1}")
            continue
        lead = data.draw(st.sampled_from(hands[one])) if hands[one] else ""
        hands[one] = [x for x in hands[one] if x != lead]
        if slip == "exchanged" and hands[other]:
            back = data.draw(st.sampled_from(hands[other]))
            hands[other].remove(back)
            hands[one].append(back)
        if slip != "off" and lead:
            hands[other].append(lead)
    return board(hands, *_undeclared(places, hands), *wires)


@settings(max_examples=60)
@given(boards(), st.data())
def test_orders_put_any_small_board_right(places: list[list[str]], data: st.DataObject) -> None:
    followed(board(places), slipped(places, data))


def _undeclared(places: Sequence[Sequence[str]], hands: Sequence[Sequence[str]]) -> list[str]:
    """Declarations of resistors that hang in the air with both ends."""
    on = {lead.partition(".")[0] for leads in hands for lead in leads}
    all_of_them = {lead.partition(".")[0] for leads in places for lead in leads}
    return [f"resistor {name} {name[1:]}k" for name in sorted(all_of_them - on)]
