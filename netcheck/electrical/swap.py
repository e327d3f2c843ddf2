"""Silicon where a tube or selenium was: what B+ becomes, and the series resistor that brings it back."""

import dataclasses
from dataclasses import dataclass

from netcheck.electrical.laws import silicon
from netcheck.electrical.network import Capacitor, Network, Rectifier, Resistor
from netcheck.electrical.steady import Steady, steady

__all__ = ["Change", "Swap", "swapped"]

SERIES = "the series resistor"
MOST_OHMS = 20_000.0
CLOSE = 0.05  # volts
HALVINGS = 30


@dataclass(frozen=True, slots=True)
class Change:
    """A capacitor's mean running volts before, and with silicon."""

    name: str
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Swap:
    """What silicon in place of ``part`` does; ``ohms`` in series bring ``held`` back to its volts.

    ``ohms`` and ``watts`` are None where silicon raises nothing or where no single lead carries the whole current.
    ``cold_high`` is what ``held`` sees cold at high line, whatever the resistor.
    """

    part: str
    changes: tuple[Change, ...]
    held: str
    cold_high: float
    ohms: float | None
    watts: float | None


def swapped(network: Network, before: Steady, part: str, cold_high: dict[str, float]) -> Swap:
    """Returns what silicon in place of a rectifier does.

    Raises:
        ValueError: no rectifier of the network is called so.
    """
    chosen = {
        one.name
        for one in network.elements
        if isinstance(one, Rectifier) and (one.name == part or one.name.startswith(f"{part} "))
    }
    if not chosen:
        known = ", ".join(one.name for one in network.elements if isinstance(one, Rectifier))
        message = f"no rectifier {part} is part of the supply; there is {known}"
        raise ValueError(message)
    changed = _with_silicon(network, chosen)
    after = steady(changed)
    polarised = [one.name for one in network.elements if isinstance(one, Capacitor) and one.polarised]
    olds, news = ({d.name: d.volts.mean for d in run.capacitors} for run in (before, after))
    changes = tuple(Change(name, olds[name], news[name]) for name in polarised)
    held = max(polarised, key=lambda name: news[name] - olds[name], default="")
    ohms = watts = None
    if held and news[held] - olds[held] > CLOSE and before.converged and after.converged:
        ohms, watts = _series(changed, chosen, held, olds[held])
    return Swap(part, changes, held, cold_high.get(held, 0.0), ohms, watts)


def _with_silicon(network: Network, chosen: set[str]) -> Network:
    return dataclasses.replace(
        network,
        elements=tuple(
            dataclasses.replace(one, law=silicon(), cold=True)
            if isinstance(one, Rectifier) and one.name in chosen
            else one
            for one in network.elements
        ),
    )


def _series(network: Network, chosen: set[str], held: str, volts: float) -> tuple[float | None, float | None]:
    """The ohms and watts by bisection: the more ohms, the fewer volts."""
    found = _volts_and_watts(network, chosen, held, MOST_OHMS)
    if found is None or found[0] > volts:
        return None, None
    low, high = 0.0, 50.0
    while high < MOST_OHMS and (more := _volts_and_watts(network, chosen, held, high)) and more[0] > volts:
        low, high = high, high * 4
    ohms, watts = high, found[1]
    for _ in range(HALVINGS):
        ohms = (low + high) / 2
        tried = _volts_and_watts(network, chosen, held, ohms)
        if tried is None:
            return None, None
        watts = tried[1]
        if abs(tried[0] - volts) < CLOSE:
            break
        low, high = (ohms, high) if tried[0] > volts else (low, ohms)
    return ohms, watts


def _volts_and_watts(network: Network, chosen: set[str], held: str, ohms: float) -> tuple[float, float] | None:
    """What a resistor in the one lead that all of the chosen share leaves, and its heat; None without such a lead."""
    rectifiers = [one for one in network.elements if isinstance(one, Rectifier) and one.name in chosen]
    anodes, cathodes = {one.anode for one in rectifiers}, {one.cathode for one in rectifiers}
    fresh = network.count
    if len(cathodes) == 1:
        moved = {one.name: dataclasses.replace(one, cathode=fresh) for one in rectifiers}
        resistor = Resistor(SERIES, fresh, cathodes.pop(), ohms)
    elif len(anodes) == 1:
        moved = {one.name: dataclasses.replace(one, anode=fresh) for one in rectifiers}
        resistor = Resistor(SERIES, anodes.pop(), fresh, ohms)
    else:
        return None
    elements = tuple(moved.get(one.name, one) for one in network.elements)
    run = steady(Network(fresh + 1, (*elements, resistor), (*network.names, SERIES)))
    if not run.converged:
        return None
    mean = next(one.volts.mean for one in run.capacitors if one.name == held)
    return mean, next(one.watts for one in run.resistors if one.name == SERIES)
