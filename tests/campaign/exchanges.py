"""Faults of leads taken for one another: turned round, exchanged."""

from itertools import combinations

from tests.campaign.bench import Bench
from tests.campaign.chassis import Part
from tests.campaign.planted import Answer, Planted
from tests.campaign.sameness import stated_windings

__all__ = ["leads_exchanged", "part_reversed", "sections_exchanged"]

_POLARISED = frozenset({"electrolytic", "selenium", "diode", "section"})


_REVERSED = {
    "electrolytic": "reversed-electrolytic", "diode": "reversed-rectifier", "selenium": "reversed-rectifier"
}  # fmt: skip


def part_reversed(bench: Bench) -> Planted:
    """Plus and minus of an electrolytic exchanged, or a diode or a stack the wrong way round; each as likely."""
    movable = set(bench.movable())
    found = [p for p in bench.chassis.parts.values() if p.kind in _REVERSED and set(p.leads) <= movable]
    rule = bench.pick(sorted({_REVERSED[p.kind] for p in found}))
    part = bench.pick([p for p in found if _REVERSED[p.kind] == rule])
    one, other = part.leads
    bench.exchange({one: other, other: one})
    names = frozenset({part.name, one, other})
    first = Answer.of(rule, names, within=names)
    return Planted("part-reversed", f"{part.name} turned round", (first, *bench.pair_answers(rule, one, other)[1:]))


def leads_exchanged(bench: Bench) -> Planted:
    """Two leads of one part, or the same lead of two parts."""
    return bench.one_of(_leads_of_one_part, _leads_of_two_parts)


def _leads_of_one_part(bench: Bench) -> Planted:
    """Two leads of one part that is not polarised changed places; a pin that is tied to another has no place alone."""
    movable = set(bench.movable())
    one, other = bench.pick(
        [
            pair
            for part in bench.chassis.parts.values()
            if part.kind not in _POLARISED
            for pair in combinations([lead for lead in part.leads if lead in movable and _alone(bench, lead)], 2)
            if bench.before[pair[0]] != bench.before[pair[1]] and not _is_winding(part, pair)
        ]
    )
    bench.exchange({one: other, other: one})
    return Planted("leads-exchanged", f"{one} and {other} exchanged", bench.pair_answers("leads-exchanged", one, other))


def _is_winding(part: Part, ends: tuple[str, str]) -> bool:
    """Whether two leads are the ends of a winding that states its volts, which works either way round."""
    tails = [end.removeprefix(f"{part.name}.") for end in ends]
    return tuple(tails) in stated_windings(part)


def _alone(bench: Bench, lead: str) -> bool:
    return len(bench.chassis.tied(lead)) == 1


def _leads_of_two_parts(bench: Bench) -> Planted:
    """The same lead of two parts of one kind changed places."""
    movable = [lead for lead in bench.movable() if not _is_pin(bench, lead)]
    one = bench.pick(movable)
    part = bench.part_of(one)
    tail = one[len(part.name) :]
    alike = [
        o for o in movable if (p := bench.part_of(o)) is not part and p.kind == part.kind and o[len(p.name) :] == tail
    ]
    other = bench.pick([o for o in alike if bench.before[o] != bench.before[one]])
    bench.exchange({one: other, other: one})
    rules = "leads-exchanged"
    if _hosts(bench, part) & _hosts(bench, bench.part_of(other)):
        rules += " sections-exchanged"
    return Planted("leads-exchanged", f"{one} and {other} exchanged", bench.pair_answers(rules, one, other))


def _is_pin(bench: Bench, lead: str) -> bool:
    return bench.part_of(lead).kind == "tube"


def _hosts(bench: Bench, part: Part) -> set[str]:
    """The cans whose sections a part is or replaces."""
    names = [old for old in part.olds if old in bench.original.parts and bench.original.parts[old].kind == "section"]
    return {name[:-1] for name in (*names, *([part.name] if part.kind == "section" else []))}


def sections_exchanged(bench: Bench) -> Planted:
    """Two lugs of a can taken for one another; of a gutted can, the plus leads of what replaces its sections."""
    parts = [p for p in bench.chassis.parts.values() if _hosts(bench, p) and p.claim in ("", "replaces")]
    pairs = [
        (a, b)
        for a, b in combinations(parts, 2)
        if a.kind == b.kind
        and _hosts(bench, a) & _hosts(bench, b)
        and bench.before[a.leads[0]] != bench.before[b.leads[0]]
    ]
    a, b = bench.pick(pairs)
    one, other = bench.chassis.node(a.leads[0]), bench.chassis.node(b.leads[0])
    bench.exchange({one: other, other: one})
    rules = "sections-exchanged" if a.kind == "section" else "sections-exchanged leads-exchanged"
    answer = Answer.of(rules, {a.name, *a.leads, one}, {b.name, *b.leads, other})
    more = bench.pair_answers(rules, a.leads[0], b.leads[0])[1:]
    return Planted("sections-exchanged", f"{a.name} and {b.name} exchanged", (answer, *more))
