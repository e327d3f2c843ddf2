"""Faults of whole places: leads gone round in a ring, a socket or strip one on, a group astray, a bond too many."""

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import combinations, pairwise

from tests.campaign.bench import Bench, pins_of
from tests.campaign.chassis import CHASSIS, Joint, Part, lugs_of
from tests.campaign.connections import ANY_WAY, across, as_good
from tests.campaign.planted import Answer, Planted, Spoilt
from tests.campaign.sameness import same

__all__ = ["bonded", "group_moved", "pins_mirrored", "socket_shifted", "strip_mirrored", "strip_shifted", "went_round"]

_SMALL = 4  # leads of a net in which the other side may as well be said to have gone round
Table = dict[str, str]
"""Where what belongs on each place went."""


# --- rings


def went_round(bench: Bench) -> Planted:
    """Three or more places of one thing, each with what belongs on the next: of a can, a socket, a strip, a winding."""
    rows = [row for part in bench.chassis.parts.values() for row in _rows(bench, part)]
    ring, is_soldered = bench.pick([(ring, soldered) for row, soldered in rows for ring in _rings(bench, row)])
    table = dict(zip(ring, [*ring[1:], ring[0]], strict=True))
    leads = [j.b for j in bench.chassis.joints if j.how == "solder" and j.a in table] if is_soldered else ring
    if is_soldered:
        bench.chassis.joints = _resoldered(bench, table)
    else:
        bench.exchange(table)
    names = {n for lead in leads for n in bench.names(lead)} | set(table)
    names |= {o for o, net in bench.before.items() if _is_mate(bench, net, {bench.net_of(n) for n in ring})}
    answers = (Answer.of("went-round", names), Answer.of("", names | {p.name for p in _owners(bench, ring)}))
    # All pins of a socket round by one is the socket one pin on.
    turns = [turn for part in dict.fromkeys(_owners(bench, ring)) for turn in _other_turns(bench, part)]
    return Planted("went-round", f"{', '.join(ring)} went round by one", (*answers, *_plainer(bench, table), *turns))


def _rings(bench: Bench, row: list[str]) -> list[list[str]]:
    """Three or more neighbours in a row, no two of them on one net."""
    stretches = [row[a:b] for a in range(len(row)) for b in range(a + 3, len(row) + 1)]
    return [ring for ring in stretches if len({bench.net_of(node) for node in ring}) == len(ring)]


def _rows(bench: Bench, part: Part) -> Iterator[tuple[list[str], bool]]:
    """Places of a part that a ring may be of, in order, and whether it is the leads soldered there that go round."""
    movable = set(bench.movable())
    soldered = {j.a for j in bench.chassis.joints if j.how == "solder"}
    if part.kind in ("strip", "can"):
        yield [lug for lug in lugs_of(part) if lug in soldered and bench.net_of(lug) in bench.compared_nets()], True
    if part.kind == "can":
        live = {bench.chassis.node(x) for p in bench.chassis.parts.values() if p.kind == "section" for x in p.leads}
        yield [lug for lug in lugs_of(part) if lug in live and bench.net_of(lug) and not lug.endswith(".can")], False
    if part.kind in ("tube", "transformer", "plug", "pot"):
        yield [lead for lead in part.leads if lead in movable and len(bench.chassis.tied(lead)) == 1], False


def _is_mate(bench: Bench, net: int, nets: set[int]) -> bool:
    return net in nets and sum(1 for other in bench.before.values() if other == net) <= _SMALL


def _owners(bench: Bench, nodes: list[str]) -> list[Part]:
    return [part for node in nodes if (part := bench.chassis.owner(node)) is not None]


# --- a whole place read from the wrong side, or counted from the wrong pin


def pins_mirrored(bench: Bench) -> Planted:
    """A socket read from above: what belongs on a pin is on its mirror image."""
    return _turned(bench, "pins-mirrored", "tube", "pins-mirrored", lambda part: [_mirror(part)])


def strip_mirrored(bench: Bench) -> Planted:
    """The part leads of a strip mirrored while its wires stay; mirrored with all its wires it is no fault."""
    return _turned(bench, "strip-mirrored", "strip", "pins-mirrored", lambda part: [_mirror(part)])


def socket_shifted(bench: Bench) -> Planted:
    """A socket wired one pin on, all the way round."""
    return _turned(bench, "socket-shifted", "tube", "pins-shifted", _shifts)


def strip_shifted(bench: Bench) -> Planted:
    """The part leads of a strip one lug on; nothing goes round its end, so that the last lug must be bare of leads."""
    return _turned(bench, "strip-shifted", "strip", "pins-shifted", lambda part: list(_slides(bench, part)))


def _turned(bench: Bench, kind: str, of: str, rule: str, ways: Callable[[Part], list[Table]]) -> Planted:
    """Where fewer than three leads change their nets, or of one pair of places only, it is another fault.

    A pair of lugs whose leads could change places unnoticed does not count.
    """
    parts = [p for p in bench.chassis.parts.values() if p.kind == of]
    tables = [(part, table) for part in parts for table in ways(part)]
    bench.rng.shuffle(tables)
    for part, table in tables:
        places = {lead: _place_left(bench, lead, part, table) for lead in bench.before}
        moved = [lead for lead, at in places.items() if at and not _is_unfelt(bench, part, at, table[at])]
        if len(moved) < 3 or len({frozenset((places[x], table[places[x]])) for x in moved}) < 2:
            continue
        if of == "tube":
            bench.exchange(table)
        else:
            bench.chassis.joints = _resoldered(bench, table)
        names = {n for lead in moved for n in bench.names(bench.chassis.node(lead))} | set(table)
        answers = (
            Answer.of(rule, {part.name}),
            Answer.of("", names),
            *_plainer(bench, table),
            *_other_turns(bench, part),
        )
        return Planted(kind, f"{of} {part.name}: {', '.join(f'{a} on {b}' for a, b in table.items())}", answers)
    raise Spoilt


def _row(part: Part) -> list[str]:
    return [f"{part.name}.{pin}" for pin in pins_of(part)] if part.kind == "tube" else list(lugs_of(part))


def _mirror(part: Part) -> Table:
    return dict(zip(_row(part), reversed(_row(part)), strict=True))


def _shifts(part: Part) -> list[Table]:
    """All pins one on, either way round."""
    row = _row(part)
    on = dict(zip(row, [*row[1:], row[0]], strict=True))
    return [on, {there: here for here, there in on.items()}]


def _slides(bench: Bench, part: Part) -> Iterator[Table]:
    """All lugs one on, either way, where the lug at that end has no lead of a part."""
    soldered = {j.a for j in bench.chassis.joints if j.how == "solder"}
    for row in (_row(part), _row(part)[::-1]):
        if row[-1] not in soldered:
            yield dict(pairwise(row))


def _resoldered(bench: Bench, table: Table) -> list[Joint]:
    """The joints with the part leads on some lugs moved to others."""
    return [j.renamed({j.a: table.get(j.a, j.a)}) if j.how == "solder" else j for j in bench.chassis.joints]


def _is_unfelt(bench: Bench, part: Part, lug: str, image: str) -> bool:
    """Whether the leads on two lugs of a strip may change places: together they are a net."""
    return part.kind == "strip" and _is_mended(bench, _resoldered(bench, {lug: image, image: lug}))


def _place_left(bench: Bench, lead: str, part: Part, table: Table) -> str:
    """The pin or lug that a lead is on if the one it goes to is on another net; else empty."""
    if part.kind == "tube":
        at = lead if lead in table and lead in part.leads else ""
    else:
        at = next((j.a for j in bench.chassis.joints if j.how == "solder" and j.b == lead and j.a in table), "")
    if not at:
        return ""
    here, there = bench.net_of(at), bench.net_of(table[at])
    return at if here != there or here == 0 else ""


def _plainer(bench: Bench, table: Table) -> list[Answer]:
    """Accounts that are as true and shorter: one joint at the place too many, one missing across it, one astray."""
    joints = bench.chassis.joints
    at_it = [j for j in joints if j.how != "hub" and {j.a, j.b} & {*table, *table.values()}]
    too_many = [j for j in at_it if _is_mended(bench, [o for o in joints if o is not j])]
    number = bench.chassis.components()
    across = [Joint(lug, image, "wire") for lug, image in table.items() if lug in number]
    apart = [number[j.a] for j in across if _is_mended(bench, [*joints, j])]
    back = {**{there: here for here, there in table.items()}, **table}
    astray = [
        j
        for j in at_it
        for end in (j.a, j.b)
        if end in back and _is_mended(bench, [*(o for o in joints if o is not j), j.renamed({end: back[end]})])
    ]
    groups = [[o for o in bench.after if number.get(bench.chassis.node(o)) == net] for net in apart]
    return [
        *_exchanged_pairs(bench, table),
        *(Answer.of("extra-connection", bench.names(j.a), bench.names(j.b)) for j in too_many),
        *(Answer.of("lead-on-wrong-net return-on-wrong-common", bench.names(j.a) | bench.names(j.b)) for j in astray),
        *(bench.group_answer(g, "missing-connection floating-ground") for g in groups if set(g) - {CHASSIS, "common"}),
    ]


def _exchanged_pairs(bench: Bench, table: Table) -> Iterator[Answer]:
    """Two of the places in each other's place, where the rest of a ring fell on ends that are as good.

    A ring of a double diode's filament and plates is one plate exchanged with one filament end: fewer acts, same nets.
    """
    sizes = Counter(bench.after.values())
    nets = {bench.after[place] for place in table if place in bench.after}
    there = {o for o, net in bench.after.items() if o in table or (net in nets and sizes[net] <= _SMALL)}
    for a, b in combinations(sorted(there & set(bench.after) - {CHASSIS, "common"}), 2):
        if bench.after[a] != bench.after[b] and bench.mends({a: bench.after[b], b: bench.after[a]}):
            yield Answer.of("leads-exchanged", bench.names(a), bench.names(b))


def _other_turns(bench: Bench, part: Part) -> Iterator[Answer]:
    """A socket or strip turned in another way that mends the nets as well: which of them it was no netlist says."""
    rows = (_row(part), _row(part)[::-1])
    slides = _shifts(part) if part.kind == "tube" else [dict(pairwise(row)) for row in rows]
    for rule, table in (("pins-mirrored", _mirror(part)), *(("pins-shifted", slide) for slide in slides)):
        back = {there: here for here, there in table.items()}
        turned = [j if j.how == "inside" else j.renamed(back) for j in bench.chassis.joints]
        if _is_mended(bench, turned if part.kind == "tube" else _resoldered(bench, back)):
            yield Answer.of(rule, {part.name})


def _is_mended(bench: Bench, joints: list[Joint]) -> bool:
    state = bench.chassis.copy()
    state.joints = joints
    return same(state.fixed(), bench.labels, bench.fixed, bench.labels)


# --- a group, a bond


def group_moved(bench: Bench) -> Planted:
    """All part leads of a lug on another lug or pin, while the wires of the lug stay where they are."""
    lugs: dict[str, list[Joint]] = {}
    compared = {bench.chassis.node(lead): lead for lead in bench.before}
    for joint in bench.chassis.joints:
        if joint.how == "solder" and joint.b in compared:
            lugs.setdefault(joint.a, []).append(joint)
    lug, group = bench.pick([(lug, group) for lug, group in lugs.items() if len(group) > 1])
    nets = bench.compared_nets() - {bench.net_of(lug)}
    beside = [n for n in bench.neighbours(lug) if bench.net_of(n) != bench.net_of(lug)]
    far = [p for p in bench.places() if bench.net_of(p) in nets]
    place = bench.pick(beside if beside and bench.rng.random() < 0.5 else far)
    bench.chassis.joints = [j.renamed({lug: place}) if j in group else j for j in bench.chassis.joints]
    leads = [compared[j.b] for j in group]
    stayed = {end for j in bench.chassis.joints if j.has(lug) for end in (j.a, j.b)}
    what = f"{', '.join(leads)} together on {place} instead of {lug}"
    names = {n for end in stayed for n in bench.names(end)} | bench.names(lug)
    own = Answer.of(ANY_WAY, {n for lead in leads for n in bench.names(bench.chassis.node(lead))})
    answers = (bench.group_answer(leads), own, Answer.of(ANY_WAY, names), *bench.idle(*leads))
    return Planted("group-moved", what, answers)


def bonded(bench: Bench) -> Planted:
    """A can, a lug, a frame or a foot of a strip on the chassis, where its mounting must keep it off."""
    ground, nets = bench.net_of(CHASSIS), bench.compared_nets()
    part = bench.pick(
        [
            p
            for p in bench.chassis.parts.values()
            if "insulated" in p.words and bench.net_of(_metal(p)) in nets - {ground}
        ]
    )
    node = _metal(part)
    bench.reword(part, (*(w for w in part.words if w != "insulated"), "grounded"))
    answers = [Answer.of("bonded extra-connection return-on-wrong-common", bench.names(node) | {part.name})]
    answers += [
        Answer.of("extra-connection", bench.names(a), bench.names(b))
        for a, b in as_good(bench, Joint(CHASSIS, node, ""))
    ]
    answers += across(bench, ground, bench.net_of(node))
    group = [lead for lead, net in bench.before.items() if net == bench.net_of(node) and lead != "common"]
    if len(group) == 1:
        answers += bench.lead_answers(group[0])
    return Planted("bonded", f"{part.kind} {part.name} on the chassis", tuple(answers))


def _metal(part: Part) -> str:
    """The node that the mounting of a part bonds."""
    tails = {"can": ".can", "strip": f".{part.foot}", "lug": ""}
    return part.name + tails.get(part.kind, ".frame")
