"""What hands do wrong: one slip in the lines of a rightly rewired state, of a kind that can burn something.

Each kind of slip gives the lines with the slip in them, or None where the state has nothing that it could happen to.
Whether it does burn is for the oracle to say.
"""

import re
from collections.abc import Callable, Mapping
from random import Random

from tests.silence.places import Lines, places_in, power_places

__all__ = ["SLIPS", "Slip"]

Slip = Callable[[Lines, str, Random], Lines | None]

_DIODE = re.compile(r"^diode ")
_LYTIC = re.compile(r"^electrolytic ")
_RESISTOR = re.compile(r"^resistor ")
_LYTIC_CHANGED = re.compile(r"^change C\w+ [\d.]+ mfd \d+ V$")
_VOLTS = re.compile(r"\b\d+ V\b")
_OFF_NETS = frozenset({"grid", "ant", "rf-grid", "AVC", "detector", "wiper", "volume", "audio", "phono"})


def _one(lines: Lines, pattern: re.Pattern[str], rng: Random) -> int | None:
    at = [number for number, line in enumerate(lines) if pattern.search(line)]
    return rng.choice(at) if at else None


def _with(lines: Lines, at: int, line: str) -> Lines:
    return (*lines[:at], line, *lines[at + 1 :])


def _swapped(line: str, one: str, other: str) -> str:
    """Two words change places."""
    return re.sub(rf" ({one}|{other}) ", lambda found: f" {other if found[1] == one else one} ", line)


def turn_diode(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A diode the other way round."""
    at = _one(lines, _DIODE, rng)
    return None if at is None else _with(lines, at, _swapped(lines[at], "anode", "cathode"))


def turn_electrolytic(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A capacitor the other way round."""
    at = _one(lines, _LYTIC, rng)
    return None if at is None else _with(lines, at, _swapped(lines[at], "plus", "minus"))


def turn_all_diodes(lines: Lines, _: str, __: Random) -> Lines | None:
    """All diodes the other way round: the band taken for the anode."""
    if not any(map(_DIODE.search, lines)):
        return None
    return tuple(_swapped(line, "anode", "cathode") if _DIODE.search(line) else line for line in lines)


def weak_electrolytic(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A capacitor from the wrong bag."""
    at = _one(lines, re.compile(f"{_LYTIC.pattern}|{_LYTIC_CHANGED.pattern}"), rng)
    if at is None:
        return None
    return _with(lines, at, _VOLTS.sub(f"{rng.choice((16, 25, 50, 63, 100))} V", lines[at]))


def weak_for_ripple(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A small capacitor of the right volts: what is printed on it of ripple current is little."""
    at = _one(lines, re.compile(rf"{_LYTIC.pattern}.*\b\d{{3}} V\b"), rng)
    if at is None:
        return None
    return _with(lines, at, _VOLTS.sub(lambda found: f"{found[0]} {rng.choice((15, 25, 40))} mA", lines[at], count=1))


def weak_diode(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A diode that stands too little."""
    at = _one(lines, _DIODE, rng)
    if at is None:
        return None
    weak = rng.choice(("1N4001", "1N4002", "50 V 1 A", "100 V 1 A", "1000 V 20 mA"))
    return _with(lines, at, re.sub(r"^(diode \w+) .*? (anode|cathode) ", rf"\1 {weak} \2 ", lines[at]))


def weak_resistor(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A small resistor where a large one belongs."""
    at = _one(lines, re.compile(r"^(resistor|change R)\b.* W\b"), rng)
    if at is None:
        return None
    return _with(lines, at, re.sub(r"[\d./]+ W\b", rng.choice(("1/4 W", "1/2 W", "1/8 W")), lines[at]))


def wrong_decade(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A colour band read wrong: a hundredth, a tenth, ten times the ohms."""
    at = _one(lines, re.compile(r"^resistor \w+ [\d.]+ ?(ohm|k)\b"), rng)
    if at is None:
        return None
    found = re.search(r"^(resistor \w+) ([\d.]+) ?(ohm|k)\b", lines[at])
    assert found is not None
    value = float(found[2]) * (1000 if found[3] == "k" else 1) * rng.choice((0.001, 0.01, 0.1, 10))
    return _with(lines, at, lines[at].replace(found[0], f"{found[1]} {value:g} ohm"))


def end_elsewhere(lines: Lines, original: str, rng: Random) -> Lines | None:
    """An end of a new part, or of a wire, on a place that something else is on."""
    at = _one(lines, re.compile(r"^(resistor|diode|electrolytic|capacitor|wire|move|at|fuse) .*[ .:]"), rng)
    if at is None:
        return None
    places = places_in((lines[at],))
    if not places:
        return None
    old, new = rng.choice(places), rng.choice(power_places(lines, original))
    return None if new == old else _with(lines, at, re.sub(rf"{re.escape(old)}(?![\w.])", new, lines[at], count=1))


def bridge(lines: Lines, original: str, rng: Random) -> Lines | None:
    """A bridge of solder, or a wire to the wrong place."""
    a, b = rng.sample(power_places(lines, original), 2)
    return (*lines, f"wire {a} to {b}")


def exchanged(lines: Lines, _: str, rng: Random) -> Lines | None:
    """Two ends of new parts or wires exchanged."""
    fit = [n for n, line in enumerate(lines) if re.search(r"^(diode|wire|electrolytic|at|resistor) ", line)]
    if len(fit) < 2:
        return None
    one, other = rng.sample(fit, 2)
    first, second = places_in((lines[one],)), places_in((lines[other],))
    if not first or not second:
        return None
    a, b = rng.choice(first), rng.choice(second)
    if a == b:
        return None
    changed = _with(lines, one, re.sub(rf"{re.escape(a)}(?![\w.])", b, lines[one], count=1))
    return _with(changed, other, re.sub(rf"{re.escape(b)}(?![\w.])", a, lines[other], count=1))


def can_on_metal(lines: Lines, original: str, rng: Random) -> Lines | None:
    """An insulated can put straight into the metal."""
    cans = re.findall(r"^can\s+(\w+) insulated", original, re.MULTILINE)
    return (*lines, f"change {rng.choice(cans)} grounded") if cans else None


def foot_in_use(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A lead on the foot of a new strip, which is on the chassis."""
    strips = [(m[1], m[2]) for line in lines if (m := re.match(r"strip (\w+) \d+ lugs foot (\d+)", line))]
    at = _one(lines, re.compile(r"^(diode|electrolytic|resistor|wire|at|fuse) .*SP\d"), rng)
    if not strips or at is None:
        return None
    strip, foot = rng.choice(strips)
    mine = [place for place in places_in((lines[at],)) if place.startswith(f"{strip}.") and place != f"{strip}.{foot}"]
    if not mine:
        return None
    return _with(lines, at, re.sub(rf"{re.escape(rng.choice(mine))}(?!\w)", f"{strip}.{foot}", lines[at], count=1))


def large_line_capacitor(lines: Lines, original: str, rng: Random) -> Lines | None:
    """A large capacitor from the line to the metal."""
    net = re.findall(r"^net (?:line-[a-d]|in-[abc]|line|line-b|off|B-):\s+(.*)$", original, re.MULTILINE)
    leads = [lead for leads in net for lead in re.findall(r"[A-Z]+\d+\.[\w-]+", leads)]
    if not leads:
        return None
    value = rng.choice((".1 mfd", ".22 mfd", ".47 mfd", "1 mfd"))
    return (*lines, f'capacitor C199 {value} 250 V Y2 from {rng.choice(leads)} to chassis added "against hum"')


def bleeder_elsewhere(lines: Lines, original: str, rng: Random) -> Lines | None:
    """A bleeder of few ohms, or between the wrong two places."""
    a, b = rng.sample(power_places(lines, original), 2)
    value = rng.choice(("220 ohm 2 W", "2.2k 2 W", "22k 1/2 W", "220 ohm 10 W"))
    return (*lines, f'resistor R199 {value} from {a} to {b} added "empties the filter"')


def second_diode(lines: Lines, original: str, rng: Random) -> Lines | None:
    """Another diode, between any two places of the supply."""
    a, b = rng.sample(power_places(lines, original), 2)
    return (*lines, f'diode D199 1N4007 anode {a} cathode {b} added "protection"')


def cord_to_metal(lines: Lines, original: str, rng: Random) -> Lines | None:
    """One wire of the line at the chassis."""
    net = re.findall(r"^net (?:line-[abcd]|in-[abc]|line|off):\s+(.*)$", original, re.MULTILINE)
    leads = [lead for leads in net for lead in re.findall(r"[A-Z]+\d+\.[\w-]+", leads)]
    return (*lines, f"wire {rng.choice(leads)} to chassis") if leads else None


def filter_in_series(lines: Lines, original: str, rng: Random) -> Lines | None:
    """A choke, a dropping resistor or a cathode resistor bridged by a wire across it."""
    parts = re.findall(r"^(?:choke|resistor)\s+(\w+)\b.*$", original, re.MULTILINE)
    name = rng.choice(parts)
    return (*lines, f"wire {name}.1 to {name}.2")


def wire_for_resistor(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A wire where a resistor belongs."""
    at = _one(lines, _RESISTOR, rng)
    ends = re.search(r" from (\S+) to (\S+)", lines[at]) if at is not None else None
    if at is None or ends is None:
        return None
    return _without_meaning(_with(lines, at, f"wire {ends[1]} to {ends[2]}"), lines[at])


def line_forgotten(lines: Lines, _: str, rng: Random) -> Lines | None:
    """A joint that was never made, a part that was never put in."""
    at = _one(lines, re.compile(r"^(wire|at|resistor|electrolytic|diode|move) "), rng)
    return None if at is None else _without_meaning((*lines[:at], *lines[at + 1 :]), lines[at])


def _without_meaning(lines: Lines, gone: str) -> Lines:
    """The lines without those that say where the leads of a part belong that is not there."""
    name = re.escape(gone.split()[1])
    return tuple(line for line in lines if not re.match(rf"meant .*\b{name}[.+-]", line))


def wrong_winding_end(lines: Lines, original: str, rng: Random) -> Lines | None:
    """Another lead of the same winding: the whole of it where half belongs."""
    rows = re.findall(r"^winding\s+(T\d+) \S+\s+((?:[a-z]+(?:-[a-z]+)?\s+){3,})", original, re.MULTILINE)
    ends = {f"{name}.{lead}": (name, leads.split()) for name, leads in rows for lead in leads.split()}
    at = [number for number, line in enumerate(lines) if any(line.endswith(f": {end}") for end in ends)]
    if not at:
        return None
    number = rng.choice(at)
    place, _, end = lines[number].rpartition(": ")
    name, leads = ends[end]
    other = f"{name}.{rng.choice([lead for lead in leads if not end.endswith(f'.{lead}')])}"
    there = next((n for n, line in enumerate(lines) if line.endswith(f": {other}")), None)
    slipped = _with(lines, number, f"{place}: {other}")
    return slipped if there is None else _with(slipped, there, lines[there].replace(other, end))


def old_lead_elsewhere(lines: Lines, original: str, rng: Random) -> Lines | None:
    """A lead of the drawing that came off on the way and went back to the wrong place."""
    done = set(re.findall(r"[A-Z]+\d+[A-Z]?", " ".join(lines[2:])))
    places = [place for place in power_places(lines, original) if re.match(r"[A-Z]+\d+[A-Z]?[.+-]", place)]
    leads = [place for place in places if not {re.split(r"[.+-]", place)[0]} & done and not place.endswith(".can")]
    if not leads:
        return None
    lead = rng.choice(leads)
    other = rng.choice([place for place in power_places(lines, original) if place != lead])
    return (*lines, f"move {lead} to {other}")


def blades_exchanged(lines: Lines, _: str, __: Random) -> Lines | None:
    """Hot and neutral of a new cord exchanged."""
    if not any("polarized" in line for line in lines):
        return None
    other = {"hot": "neutral", "neutral": "hot"}
    return tuple(
        line if line.startswith("meant") else re.sub(r"\b(P\d)\.(hot|neutral)", lambda m: f"{m[1]}.{other[m[2]]}", line)
        for line in lines
    )


def large_fuse(lines: Lines, original: str, rng: Random) -> Lines | None:
    """What was in the drawer: a fuse of many amperes."""
    large = rng.choice(("15 A", "20 A", "30 A"))
    at = _one(lines, re.compile(r"^(fuse|change) F"), rng)
    if at is not None:
        return _with(lines, at, re.sub(r"[\d./]+ A\b", large, lines[at]))
    drawn = re.findall(r"^fuse\s+(\w+)", original, re.MULTILINE)
    return (*lines, f"change {drawn[0]} {large}") if drawn else None


SLIPS: Mapping[str, Slip] = {
    "diode turned round": turn_diode,
    "all diodes turned round": turn_all_diodes,
    "electrolytic turned round": turn_electrolytic,
    "electrolytic too weak": weak_electrolytic,
    "too small for its ripple": weak_for_ripple,
    "diode too weak": weak_diode,
    "resistor too weak": weak_resistor,
    "wrong decade": wrong_decade,
    "end elsewhere": end_elsewhere,
    "bridge": bridge,
    "exchanged": exchanged,
    "can on metal": can_on_metal,
    "foot in use": foot_in_use,
    "large line capacitor": large_line_capacitor,
    "bleeder elsewhere": bleeder_elsewhere,
    "second diode": second_diode,
    "cord to metal": cord_to_metal,
    "bridged in series": filter_in_series,
    "wire for a resistor": wire_for_resistor,
    "line forgotten": line_forgotten,
    "fuse too large": large_fuse,
    "blades exchanged": blades_exchanged,
    "wrong winding end": wrong_winding_end,
    "old lead elsewhere": old_lead_elsewhere,
}
