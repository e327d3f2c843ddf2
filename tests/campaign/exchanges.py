"""Faults of places taken for one another: turned round, exchanged, mirrored."""

from itertools import combinations

from tests.campaign.bench import Bench, pins_of
from tests.campaign.chassis import CHASSIS, Joint, Part, lugs_of
from tests.campaign.planted import Answer, Planted, Spoilt
from tests.campaign.sameness import same

__all__ = [
    "electrolytic_reversed", "leads_of_one_part", "leads_of_two_parts", "pins_mirrored", "rectifier_reversed",
    "sections_exchanged",
]  # fmt: skip

_POLARISED = frozenset({"electrolytic", "selenium", "diode", "section"})


def electrolytic_reversed(bench: Bench) -> Planted:
    """Plus and minus exchanged."""
    return _reversed(bench, "electrolytic-reversed", ("electrolytic",), "reversed-electrolytic")


def rectifier_reversed(bench: Bench) -> Planted:
    """A diode or a stack the wrong way round."""
    return _reversed(bench, "rectifier-reversed", ("diode", "selenium"), "reversed-rectifier")


def _reversed(bench: Bench, kind: str, kinds: tuple[str, ...], rule: str) -> Planted:
    movable = set(bench.movable())
    part = bench.pick([p for p in bench.chassis.parts.values() if p.kind in kinds and set(p.leads) <= movable])
    one, other = part.leads
    bench.exchange({one: other, other: one})
    names = frozenset({part.name, one, other})
    first = Answer.of(rule, names, within=names)
    return Planted(kind, f"{part.name} turned round", (first, *bench.pair_answers(rule, one, other)[1:]))


def leads_of_one_part(bench: Bench) -> Planted:
    """Two leads of one part that is not polarised changed places; a pin that is tied to another has no place alone."""
    movable = set(bench.movable())
    one, other = bench.pick(
        [
            pair
            for part in bench.chassis.parts.values()
            if part.kind not in _POLARISED
            for pair in combinations([lead for lead in part.leads if lead in movable and _alone(bench, lead)], 2)
            if bench.before[pair[0]] != bench.before[pair[1]]
        ]
    )
    bench.exchange({one: other, other: one})
    return Planted(
        "leads-of-one-part", f"{one} and {other} exchanged", bench.pair_answers("leads-exchanged", one, other)
    )


def _alone(bench: Bench, lead: str) -> bool:
    return len(bench.chassis.tied(lead)) == 1


def leads_of_two_parts(bench: Bench) -> Planted:
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
    return Planted("leads-of-two-parts", f"{one} and {other} exchanged", bench.pair_answers(rules, one, other))


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


def pins_mirrored(bench: Bench) -> Planted:
    """A socket or strip read from above: what belongs on a pin is on its mirror image.

    Of a strip the part leads are mirrored and the wires stay, for a strip that is mirrored with all its wires is no
    fault. Where fewer than three leads change their nets, or those of one pair of lugs only, it is an exchange or a
    wrong lug, and not drawn here. A pair whose lugs alone could change places unnoticed does not count.
    """
    parts = [p for p in bench.chassis.parts.values() if p.kind in ("tube", "strip")]
    bench.rng.shuffle(parts)
    for part in parts:
        table = _mirror(part)
        places = {lead: _place_left(bench, lead, part, table) for lead in bench.before}
        moved = [lead for lead, at in places.items() if at and not _is_unfelt(bench, part, at, table[at])]
        if len(moved) < 3 or len({frozenset((places[x], table[places[x]])) for x in moved}) < 2:
            continue
        if part.kind == "tube":
            bench.exchange(table)
        else:
            bench.chassis.joints = _resoldered(bench, table)
        names = {n for lead in moved for n in bench.names(bench.chassis.node(lead))}
        pins = set(table)
        answers = (Answer.of("pins-mirrored", {part.name}), Answer.of("", names | pins), *_plainer(bench, table))
        return Planted("pins-mirrored", f"{part.kind} {part.name} mirrored", answers)
    raise Spoilt


def _resoldered(bench: Bench, table: dict[str, str]) -> list[Joint]:
    """The joints with the part leads on some lugs moved to others."""
    return [j.renamed({j.a: table.get(j.a, j.a)}) if j.how == "solder" else j for j in bench.chassis.joints]


def _is_unfelt(bench: Bench, part: Part, lug: str, image: str) -> bool:
    """Whether the leads on two lugs of a strip may change places: together they are a net."""
    return part.kind == "strip" and _is_mended(bench, _resoldered(bench, {lug: image, image: lug}))


def _plainer(bench: Bench, table: dict[str, str]) -> list[Answer]:
    """Accounts that are as true and shorter: one joint at the place too many, one missing across it, one astray."""
    joints = bench.chassis.joints
    at_it = [j for j in joints if j.how != "hub" and {j.a, j.b} & set(table)]
    too_many = [j for j in at_it if _is_mended(bench, [o for o in joints if o is not j])]
    number = bench.chassis.components()
    across = [Joint(lug, image, "wire") for lug, image in table.items() if lug in number]
    apart = [number[j.a] for j in across if _is_mended(bench, [*joints, j])]
    astray = [
        j
        for j in at_it
        for end in (j.a, j.b)
        if end in table and _is_mended(bench, [*(o for o in joints if o is not j), j.renamed({end: table[end]})])
    ]
    groups = [[o for o in bench.after if number.get(bench.chassis.node(o)) == net] for net in apart]
    return [
        *(Answer.of("extra-connection", bench.names(j.a), bench.names(j.b)) for j in too_many),
        *(Answer.of("lead-on-wrong-net return-on-wrong-common", bench.names(j.a) | bench.names(j.b)) for j in astray),
        *(bench.group_answer(g, "missing-connection floating-ground") for g in groups if set(g) - {CHASSIS, "common"}),
    ]


def _is_mended(bench: Bench, joints: list[Joint]) -> bool:
    state = bench.chassis.copy()
    state.joints = joints
    return same(state.fixed(), bench.labels, bench.fixed, bench.labels)


def _mirror(part: Part) -> dict[str, str]:
    row = [f"{part.name}.{pin}" for pin in pins_of(part)] if part.kind == "tube" else list(lugs_of(part))
    return dict(zip(row, reversed(row), strict=True))


def _place_left(bench: Bench, lead: str, part: Part, table: dict[str, str]) -> str:
    """The pin or lug that a lead is on if its mirror image is on another net; else empty."""
    if part.kind == "tube":
        at = lead if lead in table and lead in part.leads else ""
    else:
        at = next((j.a for j in bench.chassis.joints if j.how == "solder" and j.b == lead and j.a in table), "")
    if not at:
        return ""
    here, there = bench.net_of(at), bench.net_of(table[at])
    return at if here != there or here == 0 else ""
