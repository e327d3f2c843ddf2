"""Rewrites a correct rewired state freely: the nets stay, everything that may differ differs."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from tests.campaign.chassis import CHASSIS, Chassis, Joint, Part, hub_of, lugs_of
from tests.campaign.naming import fresh_name, rename_some, renew_some
from tests.campaign.noted import worth_a_note
from tests.campaign.sockets import SOCKETS, free_pins

__all__ = ["COLOURS", "as_log", "as_trace", "empty_lugs", "is_fixed"]

COLOURS = ("black", "red", "yellow", "green", "white", "blue", "brown", "orange", "gray", "violet", "")
_FIXED = frozenset({"tube", "plug", "pot", "switch", "section", "network", "rheostat"})


def is_fixed(chassis: Chassis, node: str) -> bool:
    """Whether a node is a place by itself: a lug, a pin, the chassis; leads are not."""
    part = chassis.owner(node)
    return part is None or part.kind in _FIXED or not part.leads


# --- the work log: most joints are taken over from the original


def as_log(chassis: Chassis, rng: Random) -> Chassis:
    """The state as a work log with other lugs, names, ends and wires than the sample's."""
    log = chassis.copy()
    renew_some(log, rng)
    rename_some(log, rng)
    _reseat_inherited(log)
    _swap_own_ends(log, rng)
    lugs = _new_lugs(log, rng)
    for joint in list(log.joints):
        if not lugs:
            break
        lead = joint.b
        if joint.how == "hub" and not is_fixed(log, lead) and rng.random() < 0.12:
            seat = _seat(log, joint.a, lead)
            if seat:
                _reroute(log, joint, lugs.pop(), seat, rng)
        elif joint.how == "solder" and not is_fixed(log, lead) and rng.random() < 0.2:
            _reroute(log, joint, lugs.pop(), joint.a, rng)
    return log


def _reseat_inherited(log: Chassis) -> None:
    """Leads of own parts hang on no inherited net: they are soldered to something that does."""
    for n, joint in enumerate(log.joints):
        part = log.owner(joint.b)
        if joint.how == "hub" and part is not None and part.own:
            log.joints[n] = Joint(_seat(log, joint.a, joint.b) or joint.a, joint.b, "solder")


def _seat(log: Chassis, hub: str, lead: str) -> str:
    """Another node of the same inherited net, the first that is a place if any is."""
    own = log.owner(lead)
    on_it = [j.b for j in log.joints if j.how == "hub" and j.a == hub and j.b != lead and log.owner(j.b) is not own]
    on_it = [node for node in on_it if not (p := log.owner(node)) or not p.own]
    return next((node for node in on_it if is_fixed(log, node)), on_it[0] if on_it else "")


def _swap_own_ends(log: Chassis, rng: Random) -> None:
    for part in log.parts.values():
        if part.own and part.is_free and rng.random() < 0.5:
            one, other = part.leads
            log.joints = [j.renamed({one: other, other: one}) for j in log.joints]


def _new_lugs(chassis: Chassis, rng: Random) -> list[str]:
    """Empty lugs on one to three new strips, and those the state has already, in any order."""
    for _ in range(rng.randint(1, 3)):
        _add_strip(chassis, rng)
    lugs = empty_lugs(chassis)
    rng.shuffle(lugs)
    return lugs[: max(0, len(lugs) - 2)]


def empty_lugs(chassis: Chassis) -> list[str]:
    """Lugs that nothing is soldered to and that are not on the chassis; free pins of sockets too."""
    used = {end for j in chassis.joints for end in (j.a, j.b)}
    bonded = {node for pair in chassis.insides() for node in pair}
    busy = {chassis.node(lead) for p in chassis.parts.values() if p.kind == "section" for lead in p.leads}
    pins = [f"{p.name}.{pin}" for p in chassis.parts.values() if p.kind == "tube" for pin in spare_pins(p)]
    return [lug for lug in (*chassis.lugs(), *pins) if lug not in used and lug not in bonded and lug not in busy]


def spare_pins(part: Part) -> tuple[str, ...]:
    """Pins of a socket with nothing inside, which may serve as tie points."""
    return tuple(pin for pin, electrode in SOCKETS[part.type].items() if electrode == "none")


def _add_strip(chassis: Chassis, rng: Random) -> Part:
    name = fresh_name("strip", [*chassis.parts, *chassis.gone], rng)
    count = rng.randint(3, 7)
    foot = (f"foot {rng.randint(1, count)}",) if rng.random() < 0.8 else ()
    mounting = ("insulated",) if foot and rng.random() < 0.25 else ()
    part = Part(name, "strip", (f"{count} lugs", *foot, *mounting), (), own=True)
    chassis.parts[name] = part
    return part


def _reroute(log: Chassis, joint: Joint, lug: str, seat: str, rng: Random) -> None:
    """Takes a lead off its place, solders it to a lug, and wires that lug to the place."""
    log.joints.remove(joint)
    log.joints.append(Joint(lug, joint.b, "solder"))
    log.joints.append(Joint(lug, seat, "wire", rng.choice(COLOURS)))


# --- the trace: every joint written anew


@dataclass(slots=True)
class _Net:
    fixed: list[str]
    leads: list[str]
    lugs: list[str]


def as_trace(chassis: Chassis, rng: Random, *, noted: bool = False) -> Chassis:
    """The state as a free-standing trace: no joint is taken over, the lugs, wires and names are others.

    Where ``noted``, something besides is equal that deserves a NOTE: parts or units exchanged, two for one.
    """
    trace = chassis.copy()
    renew_some(trace, rng)
    rename_some(trace, rng)
    number = trace.components()
    swaps = _swaps(trace, rng)
    if noted:
        stand_ins = worth_a_note(trace, rng)
        swaps = {**swaps, **{mine: swaps.get(its, its) for mine, its in stand_ins.items()}}
    trace.is_trace, trace.hubs = True, frozenset()
    dropped = {name for name, p in trace.parts.items() if p.own and p.kind in ("strip", "lug")}
    trace.parts = {name: p for name, p in trace.parts.items() if name not in dropped}
    kept = [j for j in trace.joints if j.how == "inside"]
    nets = _nets(trace, number, swaps, {end for j in kept for end in (j.a, j.b) if "." not in end or j.b == end})
    trace.joints = kept
    ground = number[CHASSIS]
    _give_lugs(trace, nets, ground, number, rng)
    for key, net in nets.items():
        _join(trace, net, rng, ground=key == ground)
    for name in trace.named:
        net = nets[number[hub_of(name)]]
        trace.anchors[name] = (*net.lugs, *net.fixed, *net.leads)
    return trace


def _swaps(chassis: Chassis, rng: Random) -> dict[str, str]:
    """Free ends that change places."""
    found: dict[str, str] = {}
    for part in chassis.parts.values():
        pairs = [part.leads] if part.is_free else []
        if part.kind == "tube":
            pairs = [(f"{part.name}.{a}", f"{part.name}.{b}") for a, b in free_pins(part.type)]
        for one, other in pairs:
            if rng.random() < 0.5:
                found.update({one: other, other: one})
    return found


def _nets(chassis: Chassis, number: dict[str, int], swaps: dict[str, str], moulded: set[str]) -> dict[int, _Net]:
    nets: dict[int, _Net] = defaultdict(lambda: _Net([], [], []))
    inside = {node for pair in chassis.insides() for node in pair if not _is_pin(chassis, node)}
    for part in chassis.parts.values():
        own = lugs_of(part) if part.kind == "network" else part.leads
        for lead in own:
            node = chassis.node(lead)
            key = number.get(swaps.get(node, node))
            if key is None or node in moulded or node in inside:
                continue
            net = nets[key]
            into = net.fixed if is_fixed(chassis, node) else net.leads
            if node not in into:
                into.append(node)
    nets[number[CHASSIS]].fixed.append(CHASSIS)
    return {key: net for key, net in nets.items() if net.fixed or net.leads}


def _is_pin(chassis: Chassis, node: str) -> bool:
    part = chassis.owner(node)
    return part is not None and part.kind == "tube"


def _give_lugs(trace: Chassis, nets: dict[int, _Net], ground: int, number: dict[str, int], rng: Random) -> None:
    """Decides how many lugs each net has and which; some strips keep their lugs' nets, most don't."""
    wanted: list[int] = []
    for key, net in nets.items():
        wanted.extend([key] * _lug_count(net, rng, ground=key == ground))
    faithful = rng.choice((0.0, 0.5, 1.0))
    taken: set[str] = set()
    for lug in empty_lugs(trace):
        home = number.get(lug, ground)
        if home in nets and home != ground and rng.random() < faithful:
            nets[home].lugs.append(lug)
            taken.add(lug)
            if home in wanted:
                wanted.remove(home)
    grounds = wanted.count(ground)
    others = [key for key in wanted if key != ground]
    while len([lug for lug in empty_lugs(trace) if lug not in taken]) < len(others) * 1.15 + 2:
        _add_strip(trace, rng)
    pool = [lug for lug in empty_lugs(trace) if lug not in taken]
    rng.shuffle(pool)
    for key in others:
        nets[key].lugs.append(pool.pop())
    feet = _feet(trace, rng)
    nets[ground].lugs.extend(feet[: grounds + 1])


def _lug_count(net: _Net, rng: Random, *, ground: bool) -> int:
    leads = len(net.leads)
    if ground:
        return 2 + leads // 5
    if leads + len(net.fixed) == 1:
        return 1
    if leads > 6:
        return 1 + leads // 4
    return rng.choice((0, 1, 1, 2) if not net.fixed else (0, 0, 1, 1, 2)) if leads else rng.choice((0, 0, 0, 1))


def _feet(trace: Chassis, rng: Random) -> list[str]:
    """Places on the chassis: the feet of strips, grounded cans, and a few lugs under screws."""
    for _ in range(2):
        name = fresh_name("lug", [*trace.parts, *trace.gone], rng)
        trace.parts[name] = Part(name, "lug", ("grounded",), (), own=True)
    feet = [node for a, node in trace.insides() if a == CHASSIS and not node.endswith(".frame")]
    rng.shuffle(feet)
    return feet


def _join(trace: Chassis, net: _Net, rng: Random, *, ground: bool) -> None:
    """Solders the leads of a net to its places and wires the places up: a chain, a star or anything between."""
    places = [*net.fixed, *net.lugs]
    leads = list(net.leads)
    rng.shuffle(places)
    rng.shuffle(leads)
    if not places:
        places = [leads.pop()]
    for lead in leads:
        at = rng.choice(places)
        trace.joints.append(Joint(at, lead, "solder"))
        if rng.random() < 0.05 and len(trace.parts) > 10:
            places.append(lead)
    bonded = {node for pair in trace.insides() for node in pair if CHASSIS in pair} if ground else set()
    _wire(trace, [p for p in places if p not in leads], bonded | {CHASSIS} if ground else set(), rng)


def _wire(trace: Chassis, places: Sequence[str], bonded: set[str], rng: Random) -> None:
    shape = rng.choice(("chain", "star", "any"))
    colour = rng.choice(COLOURS)
    done = [p for p in places if p in bonded]
    for place in places:
        if place in bonded:
            continue
        if done:
            near = {"chain": done[-1], "star": done[0], "any": rng.choice(done)}[shape]
            trace.joints.append(Joint(near, place, "wire", colour))
        done.append(place)
