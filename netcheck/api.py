"""The pipelines, spelled once: check, compare, lugs, supply, why. No disk, no environment: files come from a reader."""

from typing import TYPE_CHECKING

from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.core.wording import number_of
from netcheck.engine.accept import apply_acceptances
from netcheck.engine.run import run
from netcheck.hazards import cautions_for
from netcheck.language import tree
from netcheck.language.parser import parse
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.model.load import Reader
from netcheck.model.succession import refuse_wrong_order
from netcheck.rules import OF_A_SUPPLY, RULES

if TYPE_CHECKING:
    from netcheck.electrical.table.supply import SupplyTable
    from netcheck.model.places import PlaceListing

__all__ = [
    "Reader",
    "check",
    "circuit_of",
    "compare",
    "compare_three",
    "lugs",
    "rule_names",
    "supply",
    "why",
]

AGAINST = "The same name beside an original (compare):"
"""What stands between the two halves of a page whose name a rule of `check` and one of `compare` share."""


def check(source: Source, read: Reader) -> Report:
    """One state on its own."""
    circuit, problems = build(source, read)
    if circuit is None:
        return Report("check", "", (source.name,), problems, built=False)
    from netcheck.electrical.idle_tubes import idle_tubes
    from netcheck.electrical.network.supplies import not_calculated
    from netcheck.electrical.network.unrated import unrated
    from netcheck.electrical.unheated import unheated
    from netcheck.electrical.weighed import weighed

    graph = CircuitGraph(circuit)
    found = (*problems, *run(RULES, graph))
    rules = {rule.name for rule in RULES}
    others = _manual().keys() - rules if any(a.rule not in rules for a in circuit.acceptances) else frozenset()
    own = tuple(a for a in circuit.acceptances if a.rule not in others)  # one for no rule at all accepts nothing
    compared_too = frozenset(listed.name for listed in RULES if circuit.acceptances and listed.rule.also_compared)
    standing, accepted = apply_acceptances(found, own, elsewhere=compared_too)
    # What a base accepts of itself may be gone with the work: there is nothing to take away here.
    standing = tuple(d for d in standing if d.rule != "unused-intent" or d.labels[0].place.source is circuit.source)
    blind = (*not_calculated(graph), *unheated(graph), *unrated(graph))
    return Report(
        "check",
        circuit.title or source.name,
        (source.name,),
        standing,
        accepted,
        (f"checked: {_size(circuit)}", *weighed(graph), *idle_tubes(graph), *blind),
        unchecked=blind,
        cautions=cautions_for(graph, found),
    )


def compare(original: Source, rewired: Source, read: Reader) -> Report:
    """Two states against each other. Raises UsageFault where the two are in the wrong order or state."""
    (old, old_problems), (new, new_problems) = _built(read, original, rewired)
    files = (original.name, rewired.name)
    if old is None or new is None:
        return _unbuilt(files, (*old_problems, *new_problems))
    refuse_wrong_order(old, new)
    # What compares two circuits is not needed where a file can't be built.
    from netcheck.comparison import two_states

    return two_states(old, new, files, new_problems)


def compare_three(drawn: Source, found: Source, rewired: Source, read: Reader) -> Report:
    """The chassis as drawn, as found and as rewired: what was changed before is told apart from what was changed now.

    Raises UsageFault where the files are in the wrong order or state.
    """
    states = _built(read, drawn, found, rewired)
    files = (drawn.name, found.name, rewired.name)
    first, second, third = (circuit for circuit, _ in states)
    if first is None or second is None or third is None:
        return _unbuilt(files, tuple(d for _, problems in states for d in problems))
    refuse_wrong_order(first, second, in_work=False)
    refuse_wrong_order(second, third)
    from netcheck.comparison import three_states

    return three_states((first, second, third), files, (states[1][1], states[2][1]))


def _built(read: Reader, *sources: Source) -> tuple[tuple[Circuit | None, tuple[Diagnostic, ...]], ...]:
    """Each state; a file that several start from is parsed once, and let go as soon as the last one has read it."""
    kept: dict[Source, tuple[tree.Tree, tuple[Diagnostic, ...]]] = {}

    def keeping(source: Source) -> tuple[tree.Tree, tuple[Diagnostic, ...]]:
        if source not in kept:
            kept[source] = parse(source)
        return kept[source]

    def letting_go(source: Source) -> tuple[tree.Tree, tuple[Diagnostic, ...]]:
        return kept.pop(source, None) or parse(source)

    *before, last = sources
    return (*(build(source, read, keeping) for source in before), build(last, read, letting_go))


def _unbuilt(files: tuple[str, ...], problems: tuple[Diagnostic, ...]) -> Report:
    grave = tuple(dict.fromkeys(d for d in problems if d.grade.rank == 0))
    return Report("compare", "", files, grave, built=False)


def lugs(source: Source, read: Reader) -> tuple[Report, "tuple[PlaceListing, ...]"]:
    """What is soldered where in one state; without places where the file could not be built."""
    circuit, problems = build(source, read)
    if circuit is None:
        return Report("lugs", "", (source.name,), problems, built=False), ()
    from netcheck.model.places import owner_of, places

    graph = CircuitGraph(circuit)
    listing = places(graph)
    spots = [spot for place in listing for spot in place.spots]
    empty = sum(1 for spot in spots if not spot.is_held)
    closing = [f"listed: {number_of(len(listing), 'place')}, {len(spots)} lugs, pins and leads, {empty} of them empty"]
    if circuit.inherited:
        closing.append(f"copied from {circuit.sources[-2]}, not looked at: {number_of(circuit.inherited, 'joint')}")
    shown = {place.name for place in listing}
    for subject, text in circuit.notes:
        if owner_of(circuit, subject) not in shown:
            closing.append(f"note on {subject}: {text}" if subject else f"note: {text}")
    if problems:
        closing.append(f"the file has problems: run netcheck check {source.name}")
    title = f"{circuit.title or source.name} ({circuit.state.value})"
    last = cautions_for(graph)
    return Report("lugs", title, (source.name,), problems, (), tuple(closing), cautions=last), listing


def circuit_of(source: Source, read: Reader) -> CircuitGraph | None:
    """The circuit of one state; None where its file could not be built."""
    circuit, _ = build(source, read)
    return None if circuit is None else CircuitGraph(circuit)


def supply(source: Source, read: Reader, *swaps: str) -> tuple[Report, "SupplyTable | None"]:
    """What the supply of one state does; without a table where the file could not be built.

    Each of ``swaps`` as ``CR1=silicon``; all are done at once. Raises UsageFault where one does not say that of a
    rectifier of the supply.
    """
    circuit, problems = build(source, read)
    if circuit is None:
        return Report("supply", "", (source.name,), problems, built=False), None
    from netcheck.electrical.table.supply import supply as supply_of

    for swap in swaps:
        part, _, law = swap.partition("=")
        if not part or law != "silicon":
            raise UsageFault(f"`{swap}` does not say what to swap; write the rectifier and what goes in: `CR1=silicon`")
    graph = CircuitGraph(circuit)
    try:
        table = supply_of(graph, *(swap.partition("=")[0] for swap in swaps))
    except ValueError as fault:
        raise UsageFault(str(fault)) from None
    looked_at = number_of(len(table.capacitors), "electrolytic"), number_of(len(table.rectifiers), "rectifier")
    closing = [f"looked at: {' and '.join(looked_at)}"]
    if table.defaults:
        closing.append("the figures are good to about 10 % where a value had to be assumed, to 5 % with measured ones")
    title = f"{circuit.title or source.name} ({circuit.state.value})"
    # What `check` says of this supply; an `accept` for any other rule is no affair of this command.
    names = frozenset(rule.name for rule in OF_A_SUPPLY)
    own = tuple(a for a in circuit.acceptances if a.rule in names)
    standing, accepted = apply_acceptances((*problems, *run(OF_A_SUPPLY, graph)), own, elsewhere=names)
    last = cautions_for(graph)
    return Report("supply", title, (source.name,), standing, accepted, tuple(closing), cautions=last), table


def _size(circuit: Circuit) -> str:
    nets = len({circuit.nets[at] for at, point in enumerate(circuit.points) if point.is_lead})
    return f"{number_of(len(circuit.parts), 'part')}, {number_of(nets, 'net')}"


def rule_names() -> tuple[str, ...]:
    """Every page that ``why`` has: the language, then the rules, those about one state first."""
    return tuple(_manual())


def why(rule: str) -> str:
    """The page of a rule, or of the language. Raises UsageFault for a name that is neither."""
    pages = _manual()
    page = pages.get(rule)
    if page is None:
        from difflib import get_close_matches

        close = get_close_matches(rule, pages, n=1, cutoff=0.6)
        hint = f"did you mean {close[0]}?" if close else "the rules are: " + ", ".join(pages)
        raise UsageFault(f"there is no rule {rule}; {hint}")
    return page


def _manual() -> dict[str, str]:
    from netcheck.compare.rules import RULES as PAIR_RULES
    from netcheck.engine.language_page import NAME, language_page
    from netcheck.engine.mistakes import PAGES

    pages = {NAME: language_page(), **{listed.name: listed.rule.manual for listed in RULES}}
    for rule in (listed.rule for listed in PAIR_RULES):
        alone = pages.get(rule.name)
        pages[rule.name] = f"{alone}\n{AGAINST}\n\n{rule.manual}" if alone else rule.manual
    pages.update(PAGES)
    return pages
