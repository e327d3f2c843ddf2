"""The windings of transformers: those with volts are sources, the others resistances."""

import math
from collections.abc import Iterator
from itertools import pairwise

from netcheck.core.circuit import Part
from netcheck.core.quantity import Dimension, Quantity
from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import Resistor, Source
from netcheck.parts.transformer import rise_of

__all__ = ["enter_windings"]

RISE = 0.05  # of a transformer's volts without a load
SOURCE_SHARE = 0.03  # of volts by amperes, where a winding's ohms are not known
USUAL_AMPERES = 0.1
HEATER_VOLTS, HEATER_OHMS = 13.0, 0.1
WINDING_OHMS = 10.0


def enter_windings(draft: Draft, part: Part) -> None:
    """Adds every winding of a transformer but the primary, which is a load on the mains."""
    stated = part.features.winding_values
    volts = {name: q for name, values in stated.items() if (q := _first(values, Dimension.VOLTAGE))}
    primary = next((name for name in volts if name.startswith("primary")), next(iter(volts), ""))
    for name, leads in part.features.windings:
        nets = [net for lead in leads if (net := draft.end(part, lead)) is not None]
        if name in volts and name != primary:
            _source(draft, part, (name, nets), (stated[name], stated[primary]))
        elif name not in volts:
            _resistance(draft, part, (name, nets), stated.get(name, ()))


def _resistance(draft: Draft, part: Part, winding: tuple[str, list[int]], values: tuple[Quantity, ...]) -> None:
    name, nets = winding
    said = _first(values, Dimension.RESISTANCE)
    ohms = float(said.amount) if said else WINDING_OHMS
    for label, (a, b) in _stretches(f"{part.name} {name}", nets):
        if said is None:
            draft.default(label, f"{part.name} {name}: {WINDING_OHMS:g} ohm")
        draft.elements.append(Resistor(label, a, b, ohms / (len(nets) - 1)))


def _source(
    draft: Draft, part: Part, winding: tuple[str, list[int]], values: tuple[tuple[Quantity, ...], tuple[Quantity, ...]]
) -> None:
    name, nets = winding
    if draft.mains is None or not draft.mains[1]:
        draft.left_out.append(f"{part.name} {name}: no alternating mains is declared")
        return
    own, primary = values
    steps = _steps(_first(own, Dimension.VOLTAGE), len(nets))
    if steps is None:
        draft.left_out.append(f"{part.name} {name}: its volts do not fit its {len(nets)} leads")
        return
    fed = _first(primary, Dimension.VOLTAGE)
    scale = draft.mains[0] / float(fed.amount) if fed and len(fed.amounts) == 1 and fed is not own[0] else 1.0
    for (label, (plus, minus)), volts in zip(_stretches(f"{part.name} {name}", nets), steps, strict=True):
        ohms = _ohms(draft, label, volts, (own, primary, volts / sum(steps)))
        draft.default_hertz(label)
        peak = volts * scale * math.sqrt(2)
        draft.elements.append(Source(label, plus, minus, peak, draft.mains[1], ohms, _rise(draft, part, label)))


def _rise(draft: Draft, part: Part, label: str) -> float:
    said = rise_of(part.features)
    if said is None:
        draft.default(label, f"{part.name}: {RISE * 100:g} % more volts without a load")
    return RISE if said is None else float(said)


def _ohms(
    draft: Draft, label: str, volts: float, values: tuple[tuple[Quantity, ...], tuple[Quantity, ...], float]
) -> float:
    """A stretch's own resistance and the primary's as seen from there."""
    own, primary, share = values
    said, before = _first(own, Dimension.RESISTANCE), _first(primary, Dimension.RESISTANCE)
    if said is None and volts < HEATER_VOLTS:
        draft.default(label, f"{label}: {HEATER_OHMS:g} ohm")
        return HEATER_OHMS
    if said is None:
        drawn = sum(float(load.value.amount) for load in draft.graph.circuit.loads) or USUAL_AMPERES
        current = _first(own, Dimension.CURRENT)
        amperes = float(current.amount) if current else drawn
        ohms = SOURCE_SHARE * volts / amperes
        draft.default(label, f"{label}: {ohms:.3g} ohm, 3 % of its volts at {amperes * 1000:.3g} mA")
        return ohms
    ohms = float(said.amount) * share
    fed = _first(primary, Dimension.VOLTAGE)
    return ohms + (float(before.amount) * (volts / float(fed.amount)) ** 2 if before and fed else 0.0)


def _steps(said: Quantity | None, leads: int) -> tuple[float, ...] | None:
    """The volts from each lead to the next."""
    if said is None or leads < len(("start", "end")):
        return None
    amounts = [float(amount) for amount in said.amounts]
    if len(amounts) == 1:
        return (amounts[0] / (leads - 1),) * (leads - 1)
    if len(amounts) != leads:
        return None
    zero = amounts.index(0.0) if 0.0 in amounts else 0
    signed = [-amount if at < zero else amount for at, amount in enumerate(amounts)]
    return tuple(b - a for a, b in pairwise(signed))


def _stretches(label: str, nets: list[int]) -> Iterator[tuple[str, tuple[int, int]]]:
    for number, pair in enumerate(pairwise(nets), 1):
        yield (label if len(nets) == len(pair) else f"{label} {number}"), pair


def _first(values: tuple[Quantity, ...], dimension: Dimension) -> Quantity | None:
    return next((q for q in values if q.dimension is dimension), None)
