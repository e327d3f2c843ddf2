"""A tube is pulled whose heater was in a series string: the other heaters stay cold.

In a set without a power transformer the heaters are in series across the line. A rectifier tube that gives way to
silicon leaves a gap there; a resistor that drops the volts of its heater takes its place.

Original:

    mains 117 V 60 Hz
    cord P1
    tube V1 35Z5GT
    tube V2 50L6GT
    electrolytic C1 40 mfd 200 V
    resistor R1 1k
    resistor R2 220 ohm 10 W
    net line: P1.1, V1.2, V1.5
    net h: V1.7, V2.2
    net string: V2.7, R2.1
    net B+: V1.8, C1+, R1.1
    net B-: P1.2, R2.2, C1-
    net screen: R1.2, V2.4, V2.3
    spare V2.5, V2.8, V1.3 "not of interest"

Wrong:

    start from "original.netck"
    remove V1
    diode D1 600 V 1 A anode P1.1 cathode C1+ replaces V1

Right:

    start from "original.netck"
    remove V1
    diode D1 600 V 1 A anode P1.1 cathode C1+ replaces V1
    resistor R9 220 ohm 10 W from V1.2 to V1.7 replaces V1.heater

Source: how series heaters work (from memory); volts and current of a heater from the tube's data.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from netcheck.compare.pair import Pair
from netcheck.compare.roles.electrodes import HEATER
from netcheck.compare.roles.strings import heated
from netcheck.compare.words.describe import fitting, listed
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.core.spelling import spelled
from netcheck.engine.rule import Finding, Rule
from netcheck.model.points import lead_name
from netcheck.parts.made import RESISTOR_WATTS, next_made, preferred

_COOL = 2  # so many times the watts that are shed: half its rating is what a resistor is run at (common practice)


def _check(pair: Pair) -> Iterator[Finding]:
    circuit = pair.real.circuit
    pulled = [
        r for r in circuit.removals if r.part in pair.source.parts and circuit.gone[r.part].kind.family is Family.TUBE
    ]
    warm, now = (heated(pair.original), heated(pair.mended)) if pulled else (frozenset(), frozenset())
    cold = [name for name in circuit.parts if name in warm - now and circuit.parts[name].leads]
    for removal in pulled:
        tube = circuit.gone[removal.part]
        if not cold or tube.name not in warm or _is_taken(tube, circuit.parts.values()):
            continue
        pins = _heater_pins(tube)
        missing = f"the heater of {tube.name} is missing from its string"
        stay = "stay" if len(cold) > 1 else "stays"
        yield Finding(
            fitting(f"{missing}: {listed(cold)} {stay} cold", missing),
            (
                Label(removal.place, "taken out here"),
                Label(pair.original.said_at(pair.original.circuit.index[pins[0]]), "its heater in the original"),
            ),
            do=f"put a resistor in its place: `{_line(pair, tube, pins)}`",
            why=f"its heater is in series with {'those' if len(cold) > 1 else 'that'} of {listed(cold, 9)}",
            touched=Touched(tuple(pins), (tube.name, *cold)),
        )


def _is_taken(tube: Part, parts: Iterable[Part]) -> bool:
    """Whether a part says that it stands for the heater: its leads are compared then."""
    return any(HEATER.intersection(part.electrodes.get(tube.name, ())) for part in parts)


def _heater_pins(tube: Part) -> list[str]:
    keys = {t.key: t.name for t in reversed(tube.leads)}
    return [lead_name(tube, keys[f"heater-{n}"]) for n in (1, 2)]


def _line(pair: Pair, tube: Part, pins: list[str]) -> str:
    """The resistor as a line of the file; without its size where the tube's heater is not known."""
    from netcheck.electrical.tube_data import heater_of

    heater, known = heater_of(tube.features.type), {*pair.source.parts, *pair.real.circuit.parts}
    name = next(f"R{n}" for n in range(90, 10_000) if f"R{n}" not in known)
    size = ""
    if heater is not None:
        ohms = Decimal(str(preferred(heater.volts / heater.amperes, "E12")))
        watts = next_made(_COOL * heater.volts * heater.amperes, RESISTOR_WATTS)
        size = f" {spelled(ohms, Dimension.RESISTANCE)}" + (f" {watts:g} W" if watts else "")
    return f"resistor {name}{size} from {pins[0]} to {pins[1]} replaces {tube.name}.heater"


RULE = Rule("heater-missed", Grade.STOP, _check, __doc__, About.ITSELF)
