"""The pipeline of a comparison, stage by stage: what is told of two states, in whose light, and what is accepted of it.

A finding is worded by its rule. After that only the stages named here change it, each by ``words.rewording``. They ask
what a finding is about, and never for its rule's name.
"""

from msgspec import Struct

from netcheck.compare.by_itself.volts import believable, with_proofs
from netcheck.compare.pair import Pair, compared
from netcheck.compare.rules import RULES as PAIR_RULES
from netcheck.compare.words.closing import closing_lines, unchecked_lines
from netcheck.core.circuit import Acceptance, Circuit
from netcheck.core.diagnostic import About, Diagnostic
from netcheck.core.report import Accepted, Report
from netcheck.engine.accept import apply_acceptances
from netcheck.engine.run import run
from netcheck.hazards import cautions_for
from netcheck.model.graph import CircuitGraph
from netcheck.rules import COMPUTED, RULES

__all__ = ["three_states", "two_states"]

Told = tuple[Diagnostic, ...]

_AS_SOLDERED = tuple(rule for rule in RULES if rule not in COMPUTED)


class Findings(Struct, frozen=True):
    """What is found by comparing the two states, and what the rewired one says by itself."""

    compared: Told
    alone: Told


def two_states(old: Circuit, new: Circuit, files: tuple[str, ...], problems: Told, *, volts: bool = True) -> Report:
    """The report of a rewired state against its original; without ``volts`` nothing is computed of its supply."""
    pair, differences = _differences(old, new)
    orders = _in_order(pair, differences)
    alone = run(_AS_SOLDERED, pair.real)
    on_the_line = _beside_the_line(pair, old, Findings(orders, alone))
    said = _each_slip_once(pair, old, on_the_line, _acceptances(old, new))
    judged = believable(pair, said.compared, COMPUTED if volts else (), _acceptances(old, new))
    told = (*problems, *said.compared, *said.alone, *judged.told)
    elsewhere = judged.waiting | _behind_faults(pair, new)
    standing, accepted = _accepted(old, new, told, (*judged.held, *on_the_line.alone), elsewhere)
    hot = any(About.HOT_METAL in d.about for d in alone)
    return Report(
        "compare",
        f"{new.title or old.title or new.source.name}: the rewired chassis against the original",
        files,
        standing,
        accepted,
        (*closing_lines(pair, standing), *judged.weighed, *judged.closing),
        unchecked=(*unchecked_lines(pair), *judged.closing),
        cautions=cautions_for(pair.real, told, hot=hot),
    )


def three_states(
    states: tuple[Circuit, Circuit, Circuit], files: tuple[str, ...], problems: tuple[Told, Told]
) -> Report:
    """The chassis as drawn, as found and as rewired; ``problems`` are those of the files of the last two."""
    from netcheck.compare.words.history import told_apart

    drawn, found, rewired = states
    before = two_states(drawn, found, files, problems[0], volts=False)
    return told_apart(before, two_states(drawn, rewired, files, problems[1]))


def _differences(old: Circuit, new: Circuit) -> tuple[Pair, Told]:
    """The two states compared by name; by structure where the names alone are what is wrong."""
    by_name = compared(old, new)
    found = run(PAIR_RULES, by_name)
    if not found:  # then nothing is put right, or into words, and what does that is not loaded
        return by_name, ()
    from netcheck.compare.permuted import read_by_structure

    by_structure = read_by_structure(by_name, found)
    return (by_name, found) if by_structure is None else (by_structure, run(PAIR_RULES, by_structure))


def _in_order(pair: Pair, differences: Told) -> Told:
    """With the proofs that go with them, what burns first, as orders that can be followed one by one, with pictures."""
    if not differences:
        return ()
    from netcheck.compare.by_itself.burning import grave_first
    from netcheck.compare.by_itself.in_order import in_order
    from netcheck.compare.words.pictures import pictured

    proven = with_proofs(pair, differences)
    gravest_first = grave_first(pair, proven)
    orders = in_order(pair, gravest_first)
    return pictured(pair, orders)


def _beside_the_line(pair: Pair, old: Circuit, said: Findings) -> Findings:
    """What is said of the line, fitted to what the original has there."""
    if not any(About.LINE in d.about for d in said.alone):
        return said
    # The engine of the line is not needed where nothing is said of it.
    from netcheck.compare.by_itself.mains import beside_the_original

    return Findings(*beside_the_original(pair, old, said.compared, said.alone))


def _each_slip_once(pair: Pair, old: Circuit, said: Findings, accepted: tuple[Acceptance, ...]) -> Findings:
    """What the rewired state says by itself, less what is told already and what comes of that.

    What is accepted tells nothing any more: else accepting one thing of a part would silence another.
    """
    hot = tuple(d for d in said.alone if About.HOT_METAL in d.about)
    others = tuple(d for d in said.alone if About.HOT_METAL not in d.about)
    if not others:
        return said
    from netcheck.compare.by_itself.consequences import told_with_their_cause
    from netcheck.compare.by_itself.not_told_yet import not_told_yet

    fired = {d.rule for d in others}
    before = run([rule for rule in _AS_SOLDERED if rule.name in fired], CircuitGraph(old))
    standing, _ = apply_acceptances(said.compared, accepted)
    fresh = not_told_yet(pair, standing, before, others)
    causes, alone = told_with_their_cause(pair, said.compared, fresh, _AS_SOLDERED)
    return Findings(causes, (*alone, *hot))


def _accepted(
    old: Circuit, new: Circuit, told: Told, held: Told, elsewhere: frozenset[str]
) -> tuple[Told, tuple[Accepted, ...]]:
    """What stands and what is accepted; an acceptance is used by what was held back too."""
    standing, accepted = apply_acceptances(told, _acceptances(old, new), held=held, elsewhere=elsewhere)
    if not new.unfinished:
        return standing, accepted
    from netcheck.compare.words.history import still_to_do

    return still_to_do(standing), accepted


def _behind_faults(pair: Pair, new: Circuit) -> frozenset[str]:
    """The accepted rules of which a joint that is wrong may hide a finding; values are compared whatever the joints."""
    accepted = {acceptance.rule for acceptance in new.acceptances if pair.faults or pair.bridged}
    alone = {each.name for each in RULES if each.name in accepted and About.VALUE not in each.rule.about}
    beside = {each.name for each in PAIR_RULES if each.name in accepted and About.VALUE not in each.rule.about}
    return frozenset(alone | beside)


def _acceptances(old: Circuit, new: Circuit) -> tuple[Acceptance, ...]:
    """What the rewired file accepts; the original's acceptances speak of the original."""
    return tuple(a for a in new.acceptances if a.place.source.name not in old.sources)
