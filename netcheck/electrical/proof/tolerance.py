"""Verdicts that no proof gives, but that every computed case agrees on: hot, cold, and with every value far off.

One sign throughout (as declared, cold, with stated currents alone, with every value 25 and 50 % off) is a verdict,
unless leakage alone or a grid decides.
"""

from collections.abc import Iterable, Iterator, Mapping
from random import Random

from msgspec.structs import replace

from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.network.readings import as_stated
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.judgement import HARMLESS_VOLTS, Surety, Verdict, WayRound
from netcheck.electrical.proof.rows import heated

__all__ = ["settled"]

SPREADS = (0.25, 0.5)  # by which every value is off, each way at random
DRAWS = 3  # cases for each spread
LINE = 0.1
STATE = "hot and cold, every value 25 and 50 % off"


def settled(network: Network, found: Mapping[str, Verdict], figures: Figures | None = None) -> dict[str, Verdict]:
    """The verdicts, those unproven by a rectifier of the mains decided where one sign comes out in every case."""
    drivers = {one.name for one in network.elements if isinstance(one, Rectifier) and not one.driven}
    open_ = [name for name, one in found.items() if _is_open(one)]
    if not open_ or drivers:
        return dict(found)
    signs = _signs(network, open_, figures or Figures())
    return {name: _decided(one, signs[name]) if name in signs else one for name, one in found.items()}


def _is_open(verdict: Verdict) -> bool:
    # Without a witness nothing but leakage fixes its volts; no figure says anything of leakage, nor of grid current.
    return verdict.surety is Surety.UNPROVEN and verdict.witness is not None and not verdict.by_grid


def _decided(verdict: Verdict, sign: int) -> Verdict:
    if not sign:
        return verdict
    way, words = (WayRound.RIGHT, "above") if sign > 0 else (WayRound.REVERSED, "below")
    reason = f"its plus comes out {words} its minus in every case calculated ({STATE})"
    return replace(verdict, surety=Surety.COMPUTED, way=way, reason=reason, state=STATE, settles=())


def _signs(network: Network, names: Iterable[str], figures: Figures) -> dict[str, int]:
    """1 or -1 for those with one sign throughout, 0 for the others; no case more is tried once none is left."""
    left = dict.fromkeys(names, 0)
    first = True
    for case, warm in _cases(network):
        run = figures.running(case, warm=warm)
        volts = {duty.name: duty.volts.mean for duty in run.capacitors} if run.converged else {}
        for name in left:
            sign = _sign(volts.get(name, 0.0))
            left[name] = sign if first or sign == left[name] else 0
        first = False
        if not any(left.values()):
            break
    return left


def _sign(volts: float) -> int:
    return (volts > HARMLESS_VOLTS) - (volts < -HARMLESS_VOLTS)


def _cases(network: Network) -> Iterator[tuple[Network, bool]]:
    """As declared, with stated currents only, cold, and with everything off by each spread."""
    yield network, True
    yield as_stated(network), True
    yield heated(network), False
    rng = Random(len(network.elements))  # noqa: S311 - repeatable, not secret
    for spread in SPREADS:
        for _ in range(DRAWS):
            elements = tuple(_off(one, rng, spread) for one in network.elements)
            yield replace(network, elements=elements), True


def _off(element: Element, rng: Random, spread: float) -> Element:
    factor = 1 + rng.choice((-spread, spread))
    match element:
        case Resistor(ohms=ohms) | Inductor(ohms=ohms):
            return replace(element, ohms=ohms * factor)
        case Capacitor(farads=farads):
            return replace(element, farads=farads * factor)
        case Load(amperes=amperes):
            return replace(element, amperes=amperes * factor)
        case VoltageSource(peak=peak):
            return replace(element, peak=peak * (1 + rng.choice((-LINE, LINE))))
        case _:
            return element
