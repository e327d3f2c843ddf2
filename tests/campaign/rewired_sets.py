"""What a restorer did to a set that nobody has seen: both of its files as texts, drawn by lot."""

from collections.abc import Iterator
from functools import lru_cache
from random import Random

from tests.campaign.fresh import Sheet, drawn

__all__ = ["fresh_names", "fresh_text"]

_PREFIX = "fresh-"
_MODERN = {".005 mfd": ".0047 mfd", ".02 mfd": ".022 mfd", ".05 mfd": ".047 mfd"}


def fresh_names(rng: Random, count: int) -> tuple[str, ...]:
    """The names of some circuits, drawn."""
    return tuple(f"{_PREFIX}{rng.randrange(10**6)}" for _ in range(count))


def fresh_text(name: str, state: str) -> str | None:
    """The text of one file of a circuit; None where the name is none of a fresh one."""
    return _texts(int(name.removeprefix(_PREFIX)))[state] if name.startswith(_PREFIX) else None


@lru_cache(maxsize=64)
def _texts(seed: int) -> dict[str, str]:
    rng = Random(seed)  # noqa: S311 - circuits are repeated from a seed
    sheet = drawn(rng)
    original = ["state drawn", *sheet.lines]
    for net, found in sheet.nets.items():
        points = rng.sample(found, len(found))
        cut = rng.randint(1, len(points)) if len(points) > 8 else len(points)
        original += [f"net {net}: {', '.join(some)}" for some in (points[:cut], points[cut:]) if some]
    rewired = ["state rewired", 'start from "original.netck"', *_work(sheet)]
    return {"original": "\n".join(original) + "\n", "rewired": "\n".join(rewired) + "\n"}


def _work(sheet: Sheet) -> Iterator[str]:
    if sheet.sections and sheet.rng.random() < 0.7:
        yield from _gutted(sheet)
    for name, words in sheet.paper.items():
        if sheet.rng.random() < 0.6:
            yield from _renewed(sheet, name, words)
    if sheet.rng.random() < 0.5:
        yield from _inserted(sheet)
    if sheet.rng.random() < 0.4:
        plus, minus = (sheet.rng.choice(_others(sheet, net, "")) for net in ("B+1", sheet.minus))
        name = sheet.name("R")
        yield f'resistor {name} 220k 2 W from {plus} to {minus} added "bleeder"'
        yield f"meant B+1: {name}.1"
        yield f"meant {sheet.minus}: {name}.2"


def _gutted(sheet: Sheet) -> Iterator[str]:
    """The sections of the can are out; what replaces them hangs between its lugs and a strip beside it."""
    can = sheet.sections[0][0]
    strip, lugs = sheet.name("SP"), 3 + len(sheet.sections)
    yield f"remove {', '.join(can + letter for _, letter, _ in sheet.sections)}"
    yield f"strip {strip} {lugs} lugs foot {lugs}"
    is_insulated = f"can {can} insulated" in sheet.lines
    for n, (_, letter, words) in enumerate(sheet.sections, 1):
        size, unit, volts, _ = words.split()
        place = f"{can}.{letter}"
        if sheet.rng.random() < 0.5:
            yield f"wire {strip}.{n} to {place} red"
            place = f"{strip}.{n}"
        minus = f"{strip}.{lugs - 1}" if is_insulated else f"{strip}.{lugs}"
        values = f"{size} {unit} {int(volts) + 50} V"
        yield f"electrolytic {sheet.name('C')} {values} plus {place} minus {minus} replaces {can}{letter}"
    if is_insulated:
        yield f"wire {strip}.{lugs - 1} to {can}.can black"


def _renewed(sheet: Sheet, name: str, words: str) -> Iterator[str]:
    """A film capacitor for a paper one: under its old name, or between other points of the same two nets."""
    size, unit, volts, *_ = words.split()
    value = _MODERN.get(f"{size} {unit}", f"{size} {unit}")
    modern = f"{value} {max(630, int(volts))} V film"
    homes = [next(net for net, points in sheet.nets.items() if f"{name}.{n}" in points) for n in (1, 2)]
    places = [_others(sheet, net, name) for net in homes]
    if sheet.rng.random() < 0.6 or not all(places):
        yield f"change {name} {modern}"
        return
    one, other = (sheet.rng.choice(points) for points in places)
    yield f"remove {name}"
    yield f"capacitor {sheet.name('C')} {modern} from {one} to {other} replaces {name}"


def _others(sheet: Sheet, net: str, name: str) -> list[str]:
    """Points of a net that stay: not of the part, of no section, and of no capacitor that may be renewed itself."""
    gone = (name, *sheet.paper)
    cans = {can for can, _, _ in sheet.sections}
    points = [p for p in sheet.nets[net] if p.partition(".")[0] not in gone]
    return [p for p in points if p.rstrip("+-")[:-1] not in cans and p.rstrip("+-") not in cans]


def _inserted(sheet: Sheet) -> Iterator[str]:
    """A resistor in the lead of the filter's first resistor or choke."""
    found = [p for p in sheet.nets["B+1"] if p[0] in "RL" and "." in p]
    places = [p for p in _others(sheet, "B+1", "") if p not in found]
    if not found or not places:
        return
    lead, strip, new = sheet.rng.choice(found), sheet.name("SP"), sheet.name("R")
    yield f"strip {strip} 2 lugs"
    yield f'resistor {new} 47 ohm 5 W inserted "a little less than the tube gave"'
    yield f"move {lead} to {strip}.1"
    yield f"at {strip}.1: {new}.1"
    yield f"wire {strip}.2 to {sheet.rng.choice(places)} red"
    yield f"at {strip}.2: {new}.2"
