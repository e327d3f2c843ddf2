"""What is computed of the rewired supply, as far as it can be believed beside what the comparison has found.

While a joint or a value is wrong, the rewired circuit is not the one that will be powered: its volts and polarities are
consequences. Then only the polarities that the original has wrong as well, with the declared changes made to it, are
told. A part that is turned round, or turned round by a lead on a wrong net, is told with the proof.

What is held back uses its acceptance all the same, and what is accepted holds nothing back: the circuit with it is the
one that will be powered. The volts of a state with wrong joints are not computed at all.
"""

from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.pair import Pair
from netcheck.core.circuit import Acceptance, StateOfWork
from netcheck.core.diagnostic import About, Diagnostic, Grade
from netcheck.core.kind import Family
from netcheck.electrical.network.supplies import has_supply, not_calculated
from netcheck.engine.accept import apply_acceptances
from netcheck.engine.rule import Listed
from netcheck.engine.run import run
from netcheck.model.graph import CircuitGraph

__all__ = ["UNDRIVEN", "UNSURE", "SortedOut", "believable", "with_proofs"]

UNSURE = "voltage and polarity come next: mend these first, then run it again"
"""The closing line of a comparison whose differences leave the rewired circuit's volts unknown."""

UNDRIVEN = "NOT CHECKED: voltage, heat and current: the file has neither `mains` nor a cord"
"""The closing line where nothing is wrong with a piece of a set that does not say what drives it."""

_ASKED_BY_VOLTS = (Family.RECTIFIER, Family.ELECTROLYTIC, Family.TUBE)


class SortedOut(Struct, frozen=True):
    """Findings to tell, findings held back as consequences or told already, and a line that says so.

    ``weighed`` says what was calculated and held against ratings. ``waiting`` are the rules that were not asked: what
    is accepted of theirs may be needed once they are.
    """

    told: tuple[Diagnostic, ...]
    held: tuple[Diagnostic, ...] = ()
    closing: tuple[str, ...] = ()
    weighed: tuple[str, ...] = ()
    waiting: frozenset[str] = frozenset()


def believable(
    pair: Pair,
    found: Iterable[Diagnostic],
    rules: Sequence[Listed[CircuitGraph]],
    accepted: tuple[Acceptance, ...] = (),
) -> SortedOut:
    """What the rules find in the rewired state that is no consequence of ``found`` and not told there.

    What is accepted stays as it is, and the circuit with it is the one that will be powered.
    """
    told = tuple(found)
    undriven = _undriven(pair, told) if rules else ()
    standing, _ = apply_acceptances(told, accepted)
    wrong = any(d.grade is Grade.STOP and About.SAME_VOLTS not in d.about for d in standing)
    unsure = wrong or bool(pair.pairing.uncovered)
    # Heaters on the line, and what drops their volts, are looked at in a set that makes no direct current too.
    alternating = not unsure and any(listed.where(pair.real) for listed in rules)
    if rules and not has_supply(pair.real):
        undriven = undriven or _unheated(pair, told)
        rules = rules if alternating else ()
    if not rules:
        return SortedOut((), closing=undriven)
    every = {rule.name for rule in rules}
    if unsure:  # what the drawing has backwards vents all the same; its volts can wait
        rules = [listed for listed in rules if About.POLARITY in listed.rule.about]
    waiting = frozenset(every - {rule.name for rule in rules})
    # Held against the same measure: what is LOOK in a drawing may be STOP in work of the hands.
    before = _as_work(pair.original)
    drawn = run(rules, before) if unsure else ()
    allowed = {allowance.rule for allowance in pair.real.circuit.acceptances}
    grave = any(d.grade is not Grade.NOTE and About.DESIGN not in d.about for d in drawn)
    # Where nothing can be told, the rewired state need not be computed.
    silent = unsure and not grave and allowed.isdisjoint(rule.name for rule in rules)
    found_now = () if silent else run(rules, pair.real)
    own = [d for d in found_now if not _is_told(d, told)]
    drawn = drawn or (run(rules, before) if own else ())
    judged = _sorted_out(pair, own, _as_drawn(pair, rules, drawn), unsure=unsure)
    held = (*judged.held, *(d for d in found_now if d not in own))
    return replace(judged, held=held, closing=judged.closing or undriven, waiting=waiting)


def _undriven(pair: Pair, told: Iterable[Diagnostic]) -> tuple[str, ...]:
    """Silence says what it leaves out; where something is wrong with the joints, that comes first."""
    circuit = pair.real.circuit
    driven = circuit.mains or circuit.supplies or circuit.has(Family.CORD)
    if driven or not any(map(circuit.has, _ASKED_BY_VOLTS)) or any(d.grade is Grade.STOP for d in told):
        return ()
    return (UNDRIVEN,)


def _unheated(pair: Pair, told: Iterable[Diagnostic]) -> tuple[str, ...]:
    """What keeps the heater string of a set without a supply from being looked at, once its joints are right."""
    from netcheck.electrical.unheated import unheated

    return () if any(d.grade is Grade.STOP for d in told) else unheated(pair.real)


def _as_work(graph: CircuitGraph) -> CircuitGraph:
    return CircuitGraph(replace(graph.circuit, state=StateOfWork.UNSAID))


def _as_drawn(
    pair: Pair, rules: Sequence[Listed[CircuitGraph]], changed: Sequence[Diagnostic]
) -> tuple[Diagnostic, ...]:
    """Those findings of the original with the declared changes made to it that it has without them as well.

    What is meant or intended may be what overloads a part: then the drawing is not to blame.
    """
    with_changes, source = pair.original.circuit, pair.source
    if not changed or (with_changes.joins == source.joins and with_changes.parts.keys() == source.parts.keys()):
        return tuple(changed)
    without = {(d.rule, d.grade, name) for d in run(rules, _as_work(CircuitGraph(source))) for name in _subjects(d)}
    return tuple(d for d in changed if all((d.rule, d.grade, name) in without for name in _subjects(d)))


def _sorted_out(pair: Pair, own: Iterable[Diagnostic], drawn: Iterable[Diagnostic], *, unsure: bool) -> SortedOut:
    """The rewired state's findings by whether the original has them too."""
    from netcheck.compare.words.rewording import in_both

    # A part that the hands added is in the original only as far as its leads are meant to be somewhere.
    added = pair.original.circuit.parts.keys() - pair.source.parts.keys()
    known = {(d.rule, d.grade, name) for d in drawn for name in _subjects(d) if name not in added}
    told: list[Diagnostic] = []
    held: list[Diagnostic] = []
    for each in own:
        both = all((each.rule, each.grade, name) in known for name in _in_original(pair, each))
        said = in_both(each) if both else each
        speaks = _speaks(said, both=both, unsure=unsure) and not (both and _is_untouched(pair, said))
        (told if speaks else held).append(said)
    if unsure:
        return SortedOut(tuple(told), tuple(held), (UNSURE,))
    from netcheck.electrical.network.unrated import unrated  # only a supply has figures to weigh
    from netcheck.electrical.unheated import unheated
    from netcheck.electrical.weighed import weighed

    blind = (*not_calculated(pair.real), *unheated(pair.real), *unrated(pair.real))
    return SortedOut(tuple(told), tuple(held), blind, weighed(pair.real))


def _speaks(each: Diagnostic, *, both: bool, unsure: bool) -> bool:
    if not both:
        return not unsure
    return About.DESIGN not in each.about and not (unsure and each.grade is Grade.NOTE)


def _is_untouched(pair: Pair, each: Diagnostic) -> bool:
    """Whether a NOTE is of parts that the hands left as they were: that is no difference."""
    old, new = pair.original.circuit.parts, pair.real.circuit.parts
    return each.grade is Grade.NOTE and all(
        name in old and name in new and old[name].features == new[name].features for name in each.touched.parts
    )


def with_proofs(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings; those that moved a lead of an electrolytic say so where it is proven backwards by that."""
    told = tuple(found)
    if any(About.SUPPLY_REVERSED in d.about for d in told):
        return told  # that is what turns the electrolytics round
    return tuple(_with_proof(pair, d) if About.STRAY in d.about else d for d in told)


def _with_proof(pair: Pair, diagnostic: Diagnostic) -> Diagnostic:
    parts = pair.real.circuit.parts
    names = [n for n in diagnostic.touched.parts if n in parts and parts[n].kind.family is Family.ELECTROLYTIC]
    from netcheck.compare.words.rewording import because

    reason = _reversal(pair, names) if names else ""
    return because(diagnostic, reason) if reason else diagnostic


def _reversal(pair: Pair, names: Sequence[str]) -> str:
    """Which of some electrolytics lies backwards now and did not, and the proof; empty where none does."""
    from netcheck.compare.by_itself.proofs import backwards_now
    from netcheck.electrical.proof.judgement import graded

    found = (verdict for verdict in backwards_now(pair) if verdict.capacitor in names)
    return next((f"this reverses {verdict.capacitor}; {graded(verdict)}" for verdict in found), "")


def _is_told(own: Diagnostic, told: Iterable[Diagnostic]) -> bool:
    """Whether the comparison has said it, as gravely, of the same part: that it stands less, or is turned round."""
    same = own.about & (About.RATING | About.POLARITY)
    graver = (d for d in told if (d.about & same or d.rule == own.rule) and d.grade.rank <= own.grade.rank)
    names = {name for d in graver for name in d.touched.parts}
    return bool(own.touched.parts) and names.issuperset(own.touched.parts)


def _subjects(diagnostic: Diagnostic) -> tuple[str, ...]:
    return diagnostic.touched.parts or (diagnostic.headline,)


def _in_original(pair: Pair, diagnostic: Diagnostic) -> tuple[str, ...]:
    """What a finding speaks of, by the names of the original."""
    role = {new.name: roles.old[0].name for roles in pair.pairing.pairs for new in roles.new if len(roles.old) == 1}
    return tuple(role.get(name, name) for name in _subjects(diagnostic))
