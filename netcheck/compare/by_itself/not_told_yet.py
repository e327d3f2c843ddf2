"""What the rewired state says by itself, less what the comparison has told: one slip, one finding."""

from collections.abc import Iterable, Mapping

from netcheck.compare.pair import Pair
from netcheck.core.diagnostic import About, Diagnostic
from netcheck.core.difference import Fault, Merge, Move, Rearranged, Split, Way

__all__ = ["not_told_yet"]


def not_told_yet(
    pair: Pair, told: Iterable[Diagnostic], before: Iterable[Diagnostic], own: Iterable[Diagnostic]
) -> tuple[Diagnostic, ...]:
    """The findings of ``own`` (the rewired state) that are neither in ``before`` (the original) nor told already."""
    called = {new.name: old.name for old, new in (*pair.permuted, *pair.pairing.recognised)}
    known = {_about(d, {}) for d in before if not (About.CHOICE in d.about and _is_chosen(pair, d))}
    said = [(d, frozenset((*d.touched.leads, *d.touched.parts))) for d in told]
    nets = frozenset(net for d in told for net in d.touched.nets)
    mirrored = {f.parts[0] for f in pair.faults if isinstance(f, Rearranged) and f.way is Way.MIRRORED}
    return tuple(
        d
        for d in own
        if _about(d, called) not in known
        and About.ABSENCE not in d.about
        and not _is_named(said, d)
        and mirrored.isdisjoint(_stands_on(pair, d))
        and not (About.ACROSS in d.about and _is_set_right(pair, d))
        and not (About.JOINTS in d.about and (_is_compared(pair, d) or _waits_for_a_part(pair, d, nets)))
        and not (About.NET in d.about and not nets.isdisjoint(d.touched.nets))
        and not (About.NET in d.about and (_is_in_trouble(pair, d) or _is_declared(pair, d)))
    )


def _is_named(said: Iterable[tuple[Diagnostic, frozenset[str]]], diagnostic: Diagnostic) -> bool:
    """Whether something as grave was told of the same lead or part: what is lighter hides nothing.

    Nor does the value or the rating of a part hide what is said of its choice: the right size of the wrong class is
    wrong still.
    """
    names = (*diagnostic.touched.leads, *diagnostic.touched.parts)
    chosen = About.CHOICE in diagnostic.about
    return any(
        told.grade.rank <= diagnostic.grade.rank and not about.isdisjoint(names)
        for told, about in said
        if not (chosen and told.about & (About.VALUE | About.RATING))
    )


def _is_set_right(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether leads that are on one net are on several once what was told is set right."""
    circuit = pair.as_shown.circuit
    return len({circuit.net_of(name) for name in diagnostic.touched.leads}) > 1


def _stands_on(pair: Pair, diagnostic: Diagnostic) -> frozenset[str]:
    """The parts whose lugs hold the leads of a finding: all of that is off where the part is mirrored."""
    real = pair.real
    leads = {real.circuit.index[name] for name in diagnostic.touched.leads}
    for name in diagnostic.touched.parts:
        if name in real.circuit.parts:
            leads.update(real.terminals(real.circuit.parts[name]))
    return frozenset(real.point(real.site(at)).part for at in leads)


def _about(diagnostic: Diagnostic, called: Mapping[str, str]) -> tuple[str, ...]:
    """The rule and what it is said of, whatever the net is called and whichever free end it is.

    ``called`` are the original's names of parts that bear another one now.
    """
    parts = (called.get(name, name) for name in diagnostic.touched.parts)
    return (diagnostic.rule, *(parts if diagnostic.touched.parts else (diagnostic.headline,)))


def _is_chosen(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether the hands chose a part of a finding: it is new, or it is other than the original's of that name."""
    old, new = pair.original.circuit.parts, pair.real.circuit.parts
    now = {was.name: part.name for was, part in (*pair.permuted, *pair.pairing.recognised)}
    mine = [(name, now.get(name, name)) for name in diagnostic.touched.parts]
    return any(was not in old or old[was].features != new[name].features for was, name in mine if name in new)


def _is_compared(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether a loose lead is one that was compared, or of a part inserted in a net that was found in trouble."""
    compared = {lead.part for lead in pair.pairing.leads}
    return not compared.isdisjoint(diagnostic.touched.parts) or _is_in_trouble(pair, diagnostic)


def _waits_for_a_part(pair: Pair, diagnostic: Diagnostic, told: frozenset[str]) -> bool:
    """Whether the loose lead is of a part inserted in a net that something told is about: a part that is missing."""
    parts = (pair.real.circuit.parts[name] for name in diagnostic.touched.parts)
    ends = [at for part in parts if part.inserted is not None for at in pair.real.terminals(part)]
    old = (pair.home.old_of.get(pair.as_shown.circuit.nets[at]) for at in ends)
    return not told.isdisjoint(pair.original.net_names[net] for net in old if net is not None)


def _is_in_trouble(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether a finding's leads are on a net that a fault was found on."""
    graph = pair.as_shown
    trouble = {net for fault in pair.faults for net in _nets(fault)}
    joints = {graph.circuit.nets[graph.circuit.index[name]] for name in diagnostic.touched.leads}
    return not trouble.isdisjoint(joints)


def _nets(fault: Fault) -> tuple[int, ...]:
    match fault:
        case Split() | Move():
            return fault.home, fault.new_net
        case Merge():
            return (fault.new_net,)
        case Rearranged():
            return ()


def _is_declared(pair: Pair, diagnostic: Diagnostic) -> bool:
    """Whether the original, with the declared changes made to it, has these names on one net too."""
    circuit = pair.original.circuit
    there = {circuit.nets[circuit.index[name]] for name in diagnostic.touched.nets if name in circuit.index}
    return About.NAMES in diagnostic.about and len(there) == 1
