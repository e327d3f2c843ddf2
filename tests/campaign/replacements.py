"""Faults of parts: missing, too many, too weak, of another value, dead and still in circuit."""

from dataclasses import replace
from decimal import Decimal

from tests.campaign.bench import Bench
from tests.campaign.chassis import Joint, Part
from tests.campaign.naming import fresh_name
from tests.campaign.planted import Answer, Planted, Spoilt

__all__ = ["dead_part", "other_data", "part_added", "part_missing"]

_SMALL_PARTS = frozenset(
    {"resistor", "capacitor", "electrolytic", "diode", "selenium", "choke", "coil", "lamp", "speaker"}
)
_VALUED = frozenset({"resistor", "capacitor", "electrolytic", "section", "pot", "choke", "fuse"})
_VOLTS = tuple(map(Decimal, (16, 25, 50, 63, 100, 160, 200, 250, 350, 400, 450, 630, 1000)))
_WATTS = tuple(map(Decimal, ("0.125", "0.25", "0.5", "1", "2", "5")))
_UNITS = {
    "resistor": ("ohm", "k", "meg"), "pot": ("ohm", "k", "meg"), "capacitor": ("mfd", "mmfd"),
    "electrolytic": ("mfd",), "section": ("mfd",), "choke": ("H",), "fuse": ("A",),
}  # fmt: skip


def part_missing(bench: Bench) -> Planted:
    """A part left out, or there and soldered to nothing."""
    movable = set(bench.movable())
    part = bench.pick(
        [
            p for p in bench.chassis.parts.values()
            if p.kind in _SMALL_PARTS and set(p.leads) <= movable and p.claim in ("", "replaces")
        ]
    )  # fmt: skip
    for lead in part.leads:
        bench.take_off(lead)
    names = {part.name, *part.olds, *part.leads}
    if bench.rng.random() < 0.5 and not part.changed:
        del bench.chassis.parts[part.name]
        if not part.own:
            bench.chassis.gone[part.name] = ""
        return Planted("part-missing", f"{part.name} left out", (Answer.of("part-missing", names),))
    return Planted("part-missing", f"{part.name} soldered to nothing", (Answer.of("part-missing", names),))


def part_added(bench: Bench) -> Planted:
    """A part nobody asked for, across two nets; where ``covers`` names what is compared, no new part is."""
    if bench.chassis.covers:
        raise Spoilt
    one = bench.pick([p for p in bench.places() if bench.net_of(p) in bench.compared_nets()])
    nets = bench.compared_nets() - {bench.net_of(one)}
    other = bench.pick([p for p in bench.places() if bench.net_of(p) in nets])
    kind, words = bench.pick([("resistor", ("100k", "1 W")), ("capacitor", (".1 mfd", "630 V", "film"))])
    name = fresh_name(kind, [*bench.chassis.parts, *bench.chassis.gone], bench.rng)
    leads = (f"{name}.1", f"{name}.2")
    bench.chassis.parts[name] = Part(name, kind, words, leads, own=True)
    bench.chassis.joints += [Joint(one, leads[0], "solder"), Joint(other, leads[1], "solder")]
    return Planted("part-added", f"{name} from {one} to {other}", (Answer.of("part-added", {name, *leads}),))


def other_data(bench: Bench) -> Planted:
    """A rating too low, or another value."""
    return bench.one_of(_too_weak, _wrong_value)


def _too_weak(bench: Bench) -> Planted:
    """Fewer volts, or watts, than the part in the original; a part of class X or Y is rated by its class."""
    parts = [
        (p, w)
        for p in bench.chassis.parts.values()
        if bench.chassis.is_compared(p)
        for w in p.words
        if _weaker(bench, p, w)
    ]
    part, word = bench.pick(parts)
    weak = _weaker(bench, part, word)
    bench.reword(part, tuple(weak if w == word else w for w in part.words))
    return Planted(
        "other-data", f"{part.name} {weak} instead of {word}", (Answer.of("rating-too-low", {part.name, *part.olds}),)
    )


def _weaker(bench: Bench, part: Part, word: str) -> str:
    """The next lower rating below what the original has; empty where it says none."""
    if part.kind not in ("resistor", "capacitor", "electrolytic", "section") or {"X2", "Y1", "Y2", "X1"} & set(
        part.words
    ):
        return ""
    unit = word.rpartition(" ")[2]
    if unit not in ("V", "W"):
        return ""
    olds = [bench.original.parts[name] for name in part.olds or (part.name,) if name in bench.original.parts]
    rated = [_number(w) for old in olds for w in old.words if w.endswith(f" {unit}")]
    if not rated or len(olds) != 1:
        return ""
    steps = _VOLTS if unit == "V" else _WATTS
    lower = [step for step in steps if step < rated[0]]
    return f"{lower[-1].normalize():f} {unit}" if lower else ""


def _number(word: str) -> Decimal:
    number = word.partition(" ")[0]
    above, slash, below = number.partition("/")
    return Decimal(above) / Decimal(below) if slash else Decimal(number)


def _wrong_value(bench: Bench) -> Planted:
    """A decade too much or too little; of a fuse, and of a capacitor from the line to metal, only too much.

    A smaller one is on the safe side: less fault current, less leakage to what a hand touches.
    """
    parts = [p for p in bench.chassis.parts.values() if p.kind in _VALUED and bench.chassis.is_compared(p)]
    parts = [p for p in parts if p.name not in bench.chassis.accepted and p.claim != "inserted"]
    part, word = bench.pick([(p, w) for p in parts for w in p.words if _unit(w) in _UNITS[p.kind]])
    safe = part.kind == "fuse" or not {"Y1", "Y2"}.isdisjoint(part.words)
    factor = "10" if safe or bench.rng.random() < 0.5 else "0.1"
    unit = _unit(word)
    size = (Decimal(word.removesuffix(unit).strip()) * Decimal(factor)).normalize()
    wrong = f"{size:f}{'' if unit == 'k' else ' '}{unit}"
    bench.reword(part, tuple(wrong if w == word else w for w in part.words))
    return Planted(
        "other-data", f"{part.name} {wrong} instead of {word}", (Answer.of("value-changed", {part.name, *part.olds}),)
    )


def _unit(word: str) -> str:
    if word.endswith("k") and word[0] in "0123456789.":
        return "k"
    number, _, unit = word.partition(" ")
    return unit if number.replace(".", "", 1).isdigit() else ""


def dead_part(bench: Bench) -> Planted:
    """A section or part that was replaced is still wired in, in parallel with the new one."""
    found = [
        (p, bench.original.parts[p.olds[0]])
        for p in bench.chassis.parts.values()
        if p.claim == "replaces"
        and p.olds[1:] == ()
        and p.olds[0] in bench.chassis.gone
        and bench.chassis.is_compared(p)
    ]
    new, old = bench.pick([(p, o) for p, o in found if len(p.leads) == 2 and len(o.leads) == 2])
    del bench.chassis.gone[old.name]
    bench.chassis.parts[old.name] = replace(old, own=False)
    for mine, its in zip(old.leads, new.leads if new.kind != "diode" else reversed(new.leads), strict=True):
        _wire_in(bench, bench.chassis.node(mine), its)
    names = {old.name, new.name, *old.leads}
    return Planted(
        "dead-part", f"{old.name} still in, beside {new.name}", (Answer.of("dead-section-in-circuit", names),)
    )


def _wire_in(bench: Bench, node: str, lead: str) -> None:
    """Puts an old lead where the new one is: on its inherited net if that is still the one, else at the same place."""
    hub = next((j for j in bench.original.joints if j.how == "hub" and j.b == node), None)
    section = "." in node and bench.chassis.parts[node.partition(".")[0]].kind == "can"
    if not bench.chassis.is_trace and hub is not None and bench.numbers.get(hub.a) == bench.before[lead]:
        if not section:
            bench.chassis.joints.append(hub)
        return
    if bench.numbers.get(node) == bench.before[lead]:
        return
    if section:
        bench.take_off(node)
    at = next((j.other(lead) for j in bench.chassis.joints if j.has(lead)), "")
    if not at:
        raise Spoilt
    bench.chassis.joints.append(Joint(at, node, "wire" if section else "solder"))
