"""Faults of single joints: a lead on the wrong place or on none, a wire left out, a bridge, a floating return."""

from tests.campaign.bench import Bench, pins_of
from tests.campaign.chassis import CHASSIS, Joint, Part, lugs_of
from tests.campaign.planted import Answer, Planted
from tests.campaign.rewriting import COLOURS, empty_lugs, is_fixed
from tests.campaign.sameness import same

__all__ = [
    "ANY_WAY", "across", "as_good", "bridge", "joint_never_made", "neighbouring_lug", "unbonded", "wire_beside",
    "wire_left_out", "wrong_common", "wrong_net", "wrong_strip",
]  # fmt: skip

ANY_WAY = "lead-on-wrong-net return-on-wrong-common extra-connection missing-connection floating-ground"


def neighbouring_lug(bench: Bench) -> Planted:
    """A lead on the lug or pin beside the right one."""
    ends = [(j, j.a) for j in bench.chassis.joints if j.how == "solder" and bench.neighbours(j.a)]
    joint, end = bench.pick(ends)
    return _astray(bench, "neighbouring-lug", joint, (end, bench.pick(bench.neighbours(end))))


def wire_beside(bench: Bench) -> Planted:
    """A wire, with all that hangs on its other end, on the lug or pin beside the right one."""
    ends = [(j, end) for j in bench.chassis.joints if j.how == "wire" for end in (j.a, j.b) if bench.neighbours(end)]
    joint, end = bench.pick(ends)
    return _astray(bench, "wire-beside", joint, (end, bench.pick(bench.neighbours(end))))


def wrong_strip(bench: Bench) -> Planted:
    """A wire or a lead on the lug or pin of the right number of another strip or socket."""
    ends = [(j, j.a) for j in bench.chassis.joints if j.how == "solder"]
    ends += [(j, end) for j in bench.chassis.joints if j.how == "wire" for end in (j.a, j.b)]
    joint, end = bench.pick([(j, end) for j, end in ends if _twins(bench, end)])
    return _astray(bench, "wrong-strip", joint, (end, bench.pick(_twins(bench, end))))


def _twins(bench: Bench, node: str) -> list[str]:
    """The places of the same number at other things of the same kind."""
    part = bench.chassis.owner(node)
    if part is None or part.kind not in ("strip", "tube"):
        return []
    number = node.rpartition(".")[2]
    others = [p for p in bench.chassis.parts.values() if p.kind == part.kind and p.name != part.name]
    return [f"{p.name}.{number}" for p in others if f"{p.name}.{number}" in (*lugs_of(p), *_pins(p))]


def _pins(part: Part) -> tuple[str, ...]:
    return tuple(f"{part.name}.{pin}" for pin in pins_of(part)) if part.kind == "tube" else ()


def _astray(bench: Bench, kind: str, joint: Joint, lugs: tuple[str, str]) -> Planted:
    """One end of a joint on another lug than the right one; ``lugs`` are the right one and the wrong one."""
    end, wrong = lugs
    far = joint.other(end)
    group = _side(bench, joint, far)
    spoilt = Joint(wrong, joint.b, joint.how) if joint.how == "solder" else joint.renamed({end: wrong})
    bench.chassis.joints[bench.chassis.joints.index(joint)] = spoilt
    what = f"{'wire ' if joint.how == 'wire' else ''}{far} on {wrong} instead of {end}"
    found = [Answer.of("extra-connection", bench.names(a), bench.names(b)) for a, b in as_good(bench, spoilt)]
    names = bench.names(wrong) | bench.names(end)
    found += [Answer.of(ANY_WAY, bench.names(other), names) for other in _others_astray(bench, spoilt, wrong, end)]
    if _is_needless(bench, spoilt):
        found += across(bench, bench.net_of(wrong), bench.net_of(far))
    return Planted(kind, what, (*_moved_group(bench, group, (wrong, far), end), *found))


def _is_needless(bench: Bench, made: Joint) -> bool:
    """Whether nothing is wrong without a joint: the right lug holds nothing else, and going there it did nothing."""
    state = bench.chassis.copy()
    state.joints = [j for j in state.joints if j is not made]
    return same(state.fixed(), bench.labels, bench.fixed, bench.labels)


def _others_astray(bench: Bench, made: Joint, wrong: str, right: str) -> list[str]:
    """The far ends of other joints on the wrong lug that mend the nets as well when they go to the right one."""
    state = bench.chassis.copy()
    found = []
    for joint in (j for j in bench.chassis.joints if j.has(wrong) and j is not made and j.how != "hub"):
        state.joints = [j.renamed({wrong: right}) if j is joint else j for j in bench.chassis.joints]
        if same(state.fixed(), bench.labels, bench.fixed, bench.labels):
            found.append(joint.other(wrong))
    return found


def _side(bench: Bench, joint: Joint, end: str) -> list[str]:
    """The compared leads that hang on one end of a joint when it is undone."""
    numbers = bench.chassis.components(without=joint)
    mine = numbers.get(end)
    leads = [lead for lead in bench.before if lead not in (CHASSIS, "common")]
    group = [
        lead
        for lead in leads
        if bench.chassis.node(lead) == end or (mine and numbers.get(bench.chassis.node(lead)) == mine)
    ]
    return [*group, *([CHASSIS] if mine and numbers.get(CHASSIS) == mine else [])]


def _moved_group(bench: Bench, group: list[str], wire: tuple[str, str], left: str) -> tuple[Answer, ...]:
    """One lead: as any moved lead, or its wire. A group on a wire: told as one, or what stayed behind, or the wire."""
    leads = [lead for lead in group if lead != CHASSIS]
    if not leads:
        return (Answer.of(ANY_WAY, bench.names(wire[0]), bench.names(wire[1])),)
    itself = Answer.of(ANY_WAY, bench.names(wire[0]) | bench.names(left), bench.names(wire[1]))
    if len(leads) == 1 and len(group) == 1:
        return (*bench.lead_answers(leads[0]), *([] if wire[1] in leads else [itself]))
    stayed = [o for o, net in bench.before.items() if net == bench.before[leads[0]] and o not in group]
    found = [itself]
    if CHASSIS not in group:
        found.insert(0, bench.group_answer(leads))
    # The wire's far end went elsewhere, so what stayed behind is apart from the rest: from its own side it is
    # these leads that lost their net.
    others = [o for o in stayed if o not in (CHASSIS, "common")]
    if others and CHASSIS not in stayed:
        found.append(bench.group_answer(others))
    return tuple(found)


def wrong_net(bench: Bench) -> Planted:
    """A lead soldered to any other place of another net."""
    lead = bench.pick(bench.movable())
    nets = bench.compared_nets() - {bench.before[lead]}
    place = bench.pick([p for p in bench.places() if bench.net_of(p) in nets and p != lead])
    bench.take_off(lead)
    bench.put(place, lead)
    found = bench.lead_answers(lead)
    if len(bench.chassis.tied(bench.chassis.node(lead))) > 1:  # a pin tied to another one bridges wherever it is put
        good = as_good(bench, bench.chassis.joints[-1])
        found += tuple(Answer.of("extra-connection", bench.names(a), bench.names(b)) for a, b in good)
    return Planted("wrong-net", f"{lead} on {place}", found)


def joint_never_made(bench: Bench) -> Planted:
    """A lead that hangs free or is soldered to an empty lug; as often one of the chassis or the common."""
    return bench.one_of(_never_made, _return_on_dead_lug)


def _never_made(bench: Bench) -> Planted:
    lead = bench.pick(bench.movable())
    bench.take_off(lead)
    lugs = empty_lugs(bench.chassis)
    if lugs and bench.rng.random() < 0.5:
        lug = bench.pick(lugs)
        bench.put(lug, lead)
        return Planted("joint-never-made", f"{lead} alone on {lug}", bench.lead_answers(lead))
    return Planted("joint-never-made", f"{lead} hangs free", bench.lead_answers(lead))


def wire_left_out(bench: Bench) -> Planted:
    """A wire that was never put in. Which of the two groups is told as cut off is not ours to say, save the chassis."""
    wire = bench.pick([j for j in bench.chassis.joints if j.how == "wire"])
    sides = [_side(bench, wire, wire.a), _side(bench, wire, wire.b)]
    bench.chassis.joints.remove(wire)
    answers = [bench.group_answer(side) for side in sides if side and CHASSIS not in side]
    return Planted("wire-left-out", f"no wire from {wire.a} to {wire.b}", tuple(answers))


def bridge(bench: Bench) -> Planted:
    """Two nets joined; as often a net and the chassis."""
    return bench.one_of(_bridge, _bridge_to_chassis)


def _bridge(bench: Bench) -> Planted:
    """Solder between neighbours, or a wire between any two places, of two nets."""
    one = bench.pick([p for p in bench.places() if bench.net_of(p) in bench.compared_nets()])
    nets = bench.compared_nets() - {bench.net_of(one)}
    beside = [n for n in bench.neighbours(one) if bench.net_of(n) in nets]
    anywhere = [p for p in bench.places() if bench.net_of(p) in nets]
    other = bench.pick(beside if beside and bench.rng.random() < 0.5 else anywhere)
    return _bridged(bench, one, other)


def _bridge_to_chassis(bench: Bench) -> Planted:
    """A lug bent against the chassis or a foot, or a wire whose insulation is cut on an edge."""
    ground = bench.net_of(CHASSIS)
    nets = bench.compared_nets() - {ground}
    one = bench.pick([p for p in bench.places() if bench.net_of(p) in nets])
    feet = [n for n in bench.neighbours(one) if bench.net_of(n) == ground]
    return _bridged(bench, one, bench.pick(feet) if feet and bench.rng.random() < 0.5 else CHASSIS)


def _bridged(bench: Bench, one: str, other: str) -> Planted:
    made = Joint(one, other, "wire", bench.rng.choice(COLOURS))
    bench.chassis.joints.append(made)
    joints = [(one, other), *as_good(bench, made)]
    answers = [Answer.of("extra-connection", bench.names(a), bench.names(b)) for a, b in joints]
    answers += across(bench, bench.net_of(one), bench.net_of(other))
    return Planted("bridge", f"{one} and {other} joined", tuple(answers))


def across(bench: Bench, one: int, other: int) -> list[Answer]:
    """Two nets that an inserted part lies between, joined: that it is across them is as good an account."""
    parts = [p.name for p in bench.chassis.inserted() if {bench.before[x] for x in p.leads} == {one, other}]
    return [Answer.of("extra-connection part-across-itself unused-intent", {name}) for name in parts]


def as_good(bench: Bench, made: Joint) -> list[tuple[str, str]]:
    """Joints whose undoing mends the nets as well: the wrong joint ends on a tie point that holds no compared lead."""
    homes = {bench.chassis.node(lead) for lead in bench.before} | {CHASSIS}
    joints = [j for j in bench.chassis.joints if j.how != "hub"]
    reached, found = {made.a, made.b} - homes, {made}
    waiting = list(reached)
    while waiting:
        node = waiting.pop()
        for joint in (j for j in joints if j.has(node) and j not in found):
            found.add(joint)
            far = joint.other(node)
            if far not in homes | reached:
                reached.add(far)
                waiting.append(far)
    state = bench.chassis.copy()
    good = []
    for joint in (j for j in joints if j in found and j is not made):
        state.joints = [j for j in bench.chassis.joints if j is not joint]
        if same(state.fixed(), bench.labels, bench.fixed, bench.labels):
            good.append((joint.a, joint.b))
    return good


def unbonded(bench: Bench) -> Planted:
    """A foot, a lug, a can or a frame that the chassis does not reach: insulated where it was bonded."""
    part = bench.pick(
        [
            p
            for p in bench.chassis.parts.values()
            if p.is_grounded or (p.kind == "strip" and p.foot and "insulated" not in p.words)
        ]
    )
    words = tuple(w for w in part.words if w != "grounded")
    bench.reword(part, (*words, "insulated"))
    ground = bench.before[CHASSIS]
    lost = [o for o, net in bench.before.items() if net == ground and bench.after[o] != bench.after[CHASSIS]]
    group = [o for o in lost if o != "common"]
    answers = (bench.group_answer(group), Answer.of("floating-ground", {part.name})) if group else ()
    return Planted("unbonded", f"{part.kind} {part.name} insulated", answers)


def _return_on_dead_lug(bench: Bench) -> Planted:
    """A lead of the chassis or the common on a lug that goes nowhere."""
    references = {bench.before[CHASSIS], bench.before.get("common", -9)}
    lead = bench.pick([lead for lead in bench.movable() if bench.before[lead] in references])
    lug = bench.pick(empty_lugs(bench.chassis))
    bench.take_off(lead)
    bench.put(lug, lead)
    return Planted("joint-never-made", f"{lead} alone on {lug}", bench.lead_answers(lead))


def wrong_common(bench: Bench) -> Planted:
    """A return on the chassis instead of the common, or the other way round; where the set has both."""
    ground, common = bench.before[CHASSIS], bench.before.get("common", bench.before[CHASSIS])
    nets = {ground: common, common: ground}
    lead = bench.pick([lead for lead in bench.movable() if bench.before[lead] in nets and ground != common])
    wrong = nets[bench.before[lead]]
    place = bench.pick([p for p in bench.places() if bench.net_of(p) == wrong and is_fixed(bench.chassis, p)])
    bench.take_off(lead)
    bench.put(place, lead)
    return Planted("wrong-common", f"{lead} on {place}", bench.lead_answers(lead))
