"""Tubes as a supply sees them: rectifiers, regulators, and what draws current."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.wording import listed, significant
from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import Capacitor, Inductor, Load, Rectifier, Regulator, Resistor, Tube
from netcheck.electrical.network.gaps import UNSAID_AMPERES
from netcheck.electrical.network.laws import gas, vacuum
from netcheck.electrical.network.least_ohms import least_ohms
from netcheck.electrical.network.pumped import SELF_BIAS_OHMS
from netcheck.electrical.tube_data import (
    Appetite,
    RectifierTube,
    appetite_of,
    first_capacitor_of,
    heater_of,
    rectifier_tube_of,
    regulator_volts_of,
)
from netcheck.parts.rectifiers import diode_paths

__all__ = ["enter_appetites", "enter_tube", "is_rectifier"]

UNKNOWN_RECTIFIER = RectifierTube(50.0, 0.125)
SIGNAL_DIODE = RectifierTube(20.0, 0.005)
SMALL = Appetite(0.003, 0.001, power=False)  # a small tube that is not in the table
UNSAID = Appetite(UNSAID_AMPERES, UNSAID_AMPERES / 10, power=True)
LEAST, MOST = 0.01, 2.0  # of that: next to nothing, and what the largest sweep tube's cathode gives
POWER_WATTS = 3.0  # of a unit's heater: what takes more is no small tube, and draws what its drive makes it draw
KNEE = 20.0  # volts above which an output tube draws its full current
BIAS, SMALL_BIAS = 20.0, 5.0  # volts: more than that a tube never has across its cathode resistor
SMALL_KNEE = 100.0  # volts: a small tube behind a large plate resistor draws what that lets through
_UNITS = ("", "-a", "-b", "-c", "-d")


def enter_tube(draft: Draft, part: Part) -> None:
    """Adds a tube's paths but not what it draws; windings have to be there already."""
    kept = regulator_volts_of(part.features.type)
    diodes = _diodes(part)
    if kept is not None:
        _regulator(draft, part, kept)
        return
    for plate, cathode in diodes:
        label = part.name if len(diodes) == 1 else f"{part.name} {plate}"
        _rectifier(draft, part, label, (draft.end(part, plate), draft.end(part, cathode)))
    draft.elements.extend(_paths(draft, part, {plate for plate, _ in diodes}))


def _regulator(draft: Draft, part: Part, volts: float) -> None:
    anode = draft.end(part, "plate", "plate-1")
    cathode = _cathode(draft, part, "")
    if anode is not None and cathode is not None:
        draft.elements.append(Regulator(part.name, anode, cathode, volts))


def is_rectifier(part: Part) -> bool:
    """Whether a tube is a rectifier, or has one beside a tube with a grid."""
    return part.kind.family is Family.TUBE and bool(_diodes(part))


def _diodes(part: Part) -> tuple[tuple[str, str], ...]:
    return diode_paths(tuple(dict.fromkeys(terminal.electrode for terminal in part.leads)))


def _rectifier(draft: Draft, part: Part, label: str, ends: tuple[int | None, int | None]) -> None:
    plate, cathode = ends
    if plate is None or cathode is None:
        return
    tube_type = part.features.type
    row = rectifier_tube_of(tube_type)
    driven = row is not None or first_capacitor_of(tube_type) is not None or not draft.live.isdisjoint(ends)
    if row is not None:
        note = f"{part.name} {tube_type}: drops {row.volts:g} V at {row.amperes * 1000:g} mA; {_limits(row)}"
    elif driven:
        row = UNKNOWN_RECTIFIER
        note = f"{part.name} {tube_type}: drops {row.volts:g} V at {row.amperes * 1000:g} mA"
    else:
        row = SIGNAL_DIODE
        note = f"{part.name} {tube_type}: a diode that the line does not drive, so nothing limits what it charges to"
    draft.default(label, note)
    law = gas(row.volts) if row.gas else vacuum(row.volts, row.amperes)
    limits = (row.inverse_volts or None, row.peak or None, row.mean or None)
    draft.elements.append(Rectifier(label, plate, cathode, law, False, driven, *limits))  # noqa: FBT003


def _limits(row: RectifierTube) -> str:
    return f"a plate is rated {row.peak * 1000:g} mA peak and {row.inverse_volts:g} V inverse ({row.source})"


def _cathode(draft: Draft, part: Part, unit: str) -> int | None:
    return draft.end(part, f"cathode{unit}", "cathode", "heater-2")


class _Unit(Struct, frozen=True):
    """One tube of those in a bulb: what its electrodes are called, and the nets of those that carry current."""

    ending: str
    plate: int
    cathode: int
    screen: int | None


def _units(draft: Draft, part: Part, rectifying: AbstractSet[str]) -> Iterator[_Unit]:
    """The units of a tube but for its diodes."""
    for ending in _UNITS:
        plate, cathode = draft.end(part, f"plate{ending}"), _cathode(draft, part, ending)
        if plate is not None and cathode is not None and f"plate{ending}" not in rectifying:
            yield _Unit(ending, plate, cathode, draft.end(part, f"screen{ending}", f"grid-2{ending}"))


def _paths(draft: Draft, part: Part, rectifying: AbstractSet[str]) -> Iterator[Tube]:
    for unit in _units(draft, part, rectifying):
        grid = draft.end(part, f"grid{unit.ending}")
        yield Tube(_path_name(part, unit.ending, "plate"), unit.plate, unit.cathode, grid)
        if unit.screen is not None:
            yield Tube(_path_name(part, unit.ending, "screen"), unit.screen, unit.cathode)


def _path_name(part: Part, unit: str, word: str) -> str:
    return f"{part.name}{unit}" if word == "plate" else f"{part.name}{unit} {word}"


def enter_appetites(draft: Draft, tubes: Iterable[Part]) -> None:
    """Adds what tubes typically draw, unless a `draws` statement speaks of the net that feeds one."""
    around = _AroundTubes(_to_reference(draft), _stated(draft))
    for part in tubes:
        if regulator_volts_of(part.features.type) is None:
            for unit in _units(draft, part, {plate for plate, _ in _diodes(part)}):
                _appetite(draft, around, part, unit)


class _AroundTubes(Struct, frozen=True):
    """What all tubes of a draft hang on: the ohms from nets to the common, and the nets that a `draws` speaks of."""

    ohms: Mapping[int, float]
    stated: AbstractSet[int]


def _appetite(draft: Draft, around: _AroundTubes, part: Part, unit: _Unit) -> None:
    """Adds what one unit draws; what a `draws` speaks of is covered by it."""
    known = appetite_of(part.features.type)
    unsaid = known is None and _is_power_tube(part)
    draws = UNSAID if unsaid else known or SMALL
    held = _held_down(around.ohms.get(unit.cathode, 0.0), draws, draws.screen if unit.screen is not None else 0.0)
    ends = ((unit.plate, draws.plate, "plate"), (unit.screen, draws.screen, "screen"))
    paths = [(net, amperes, word) for net, amperes, word in ends if net is not None]
    draft.covered.extend(_path_name(part, unit.ending, word) for net, _, word in paths if net in around.stated)
    free = [
        Load(
            f"{part.name}{unit.ending} {word} current", net, unit.cathode, amperes * held,
            KNEE if draws.power else SMALL_KNEE, part=part.name,
        )
        for net, amperes, word in paths
        if amperes and net not in around.stated
    ]  # fmt: skip
    draft.elements.extend(free)
    if unsaid:
        _say_unsaid(draft, part, free)
    else:
        source = " (from memory)" if known else " (usual for a small tube)"
        _say_taken(draft, part, free, ", held down by its cathode resistor" if held < 1.0 else source)


def _say_unsaid(draft: Draft, part: Part, loads: Sequence[Load]) -> None:
    """That nobody knows what a tube draws: what stands in its place is told of nothing."""
    points = [draft.graph.net_names[one.plus].partition(" ")[0] for one in loads]
    stated = listed([f"`draws {point} ... mA`" for point in points])
    draft.gap(f"{part.name} {part.features.type}: add its current, {stated}", LEAST, MOST, *(e.name for e in loads))


def _say_taken(draft: Draft, part: Part, loads: Sequence[Load], why: str) -> None:
    said = [f"{one.name.split()[-2]} {significant(one.amperes * 1000, 3)} mA" for one in loads]
    for one in loads:
        draft.default(one.name, f"{one.name.split()[0]} {part.features.type}: {', '.join(said)}{why}")


def _is_power_tube(part: Part) -> bool:
    """Whether the heater is too large for a small tube's, by its watts for each unit."""
    heater = heater_of(part.features.type)
    names = {terminal.electrode for terminal in part.leads}
    units = sum(f"plate{unit}" in names for unit in _UNITS) or 1
    return heater is not None and heater.volts * heater.amperes / units > POWER_WATTS


def _held_down(ohms: float, draws: Appetite, screen: float) -> float:
    """The part of its typical current that a tube's cathode resistor lets through."""
    if not 0 < ohms <= SELF_BIAS_OHMS:
        return 1.0
    return min(1.0, (BIAS if draws.power else SMALL_BIAS) / ohms / (draws.plate + screen))


def _to_reference(draft: Draft) -> dict[int, float]:
    """The ohms from every net to the common by the least resistance, where resistors lead there."""
    ways: dict[int, list[tuple[int, float]]] = defaultdict(list)
    resistors = [(one.a, one.b, one.ohms) for one in draft.elements if isinstance(one, Resistor)]
    for a, b, ohms in (*resistors, *((a, b, 0.0) for a, b in draft.closed)):
        ways[a].append((b, ohms))
        ways[b].append((a, ohms))
    return least_ohms(ways, (draft.reference, 0))


def _stated(draft: Draft) -> set[int]:
    """The nets fed by a line that has a `draws`; a line ends where the next filter capacitor stands."""
    ways: dict[int, list[int]] = defaultdict(list)
    series = [(one.a, one.b) for one in draft.elements if isinstance(one, Resistor | Inductor)]
    for a, b in (*series, *draft.closed):
        ways[a].append(b)
        ways[b].append(a)
    lines = {one.plus for one in draft.elements if isinstance(one, Capacitor) and one.polarised}
    common = {draft.reference, 0}
    found = {draft.graph.circuit.net_of(load.point) for load in draft.graph.circuit.loads}
    frontier = list(found - common)
    while frontier:
        fed = [net for net in ways[frontier.pop()] if net not in found and net not in lines]
        found.update(fed)
        frontier.extend(net for net in fed if net not in common)
    return found
