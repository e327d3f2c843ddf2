"""The windings of transformers: those with volts are sources, the others resistances.

A winding's ohms are from end to end, so that two ways to write them compare as equal. `rise 8%` is what a transformer
gives more without a load.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from netcheck.core.circuit import Part
from netcheck.core.quantity import Dimension, Quantity, first_of
from netcheck.core.wording import listed, significant
from netcheck.electrical.mains.line import USUAL_HERTZ
from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import USUAL_AMPERES, Resistor, VoltageSource
from netcheck.electrical.network.gaps import UNSAID_VOLTS
from netcheck.electrical.network.line_fed import Fed, fed_in_series
from netcheck.electrical.network.on_battery import SAY_VIBRATOR, hangs_on_battery
from netcheck.parts.transformer import rise_of

__all__ = ["NO_MAINS", "SAY_MAINS", "enter_windings", "stretch_volts"]

RISE = 0.05  # of a transformer's volts without a load
SOURCE_SHARE = 0.03  # of volts by amperes, where a winding's ohms are not known
HEATER_VOLTS, HEATER_OHMS = 13.0, 0.1
WINDING_OHMS = 10.0


SAY_MAINS = "add `mains`, for instance `mains 117 V 60 Hz`"
NO_MAINS = (0.02, 4.0)  # times 200 V, between which the volts of a line or a winding lie that are not stated


def enter_windings(draft: Draft, part: Part) -> None:
    """Adds every winding of a transformer but the primary, which is a load on the mains.

    Without any volts a transformer that does not hang on the line is one of the audio or IF, a mere resistance.
    """
    stated = part.features.winding_values
    volts = {name: q for name, values in stated.items() if (q := first_of(values, Dimension.VOLTAGE))}
    primary = _primary(draft, part, tuple(volts))
    series = fed_in_series(draft.graph, part)
    for name, leads in part.features.windings:
        nets = [net for lead in leads if (net := draft.end(part, lead)) is not None]
        if name in (series.windings if series else (primary,)):
            _say_taps(draft, part, name, nets)
        elif primary and draft.graph.circuit.supplies and _hangs_on_battery(draft, part, primary):
            draft.left_out.append(f"what {part.name} {name} makes by its vibrator, but for what `supply` lines say")
            draft.unknown.update({*nets} - {draft.reference})
        elif primary:
            _source(draft, part, (name, nets), primary)
        else:
            _resistance(draft, part, (name, nets), stated.get(name, ()))


def _hangs_on_battery(draft: Draft, part: Part, primary: str) -> bool:
    leads = dict(part.features.windings)[primary]
    return hangs_on_battery(draft.graph, [net for lead in leads if (net := draft.end(part, lead)) is not None])


def _unsaid(draft: Draft, part: Part, primary: str) -> str:
    """What to add where nothing says what drives a winding; empty where the mains do."""
    if _hangs_on_battery(draft, part, primary):
        return SAY_VIBRATOR
    return SAY_MAINS if draft.mains is None else ""


def _is_turned(draft: Draft, part: Part, primary: str) -> bool:
    """Whether the primary's first lead hangs on the second wire of the cord, so that all windings swing the other way.

    It matters where a winding is in series with the line: one that bucks adds when its primary is turned round.
    """
    leads = dict(part.features.windings)[primary]
    if len(draft.sides) < 2:
        return False
    first, second = draft.sides
    return draft.end(part, leads[0]) in second - first and draft.end(part, leads[-1]) in first - second


def _say_taps(draft: Draft, part: Part, name: str, nets: list[int]) -> None:
    """Says that what a tap of the line's winding feeds is not computed."""
    line = {net for side in draft.sides for net in side}
    if draft.sides and any(net not in line and len(draft.graph.leads_on(net)) > 1 for net in nets[1:-1]):
        draft.left_out.append(f"{part.name} {name}: what its taps feed (an autotransformer)")


def _primary(draft: Draft, part: Part, volts: tuple[str, ...]) -> str:
    """The winding that the line feeds: the one on it, else the one called so or stated first; empty for none."""
    names = [name for name, _ in part.features.windings]
    on_line = next((name for name, leads in part.features.windings if _is_fed(draft, part, leads)), "")
    if on_line or not volts:
        return on_line
    return next((name for name in names if name.startswith("primary")), volts[0])


def _is_fed(draft: Draft, part: Part, leads: tuple[str, ...]) -> bool:
    """Whether a winding lies between the two sides of the line."""
    nets = {draft.end(part, lead) for lead in leads}
    return bool(draft.sides) and all(nets & side for side in draft.sides)


def _resistance(draft: Draft, part: Part, winding: tuple[str, list[int]], values: tuple[Quantity, ...]) -> None:
    name, nets = winding
    said = first_of(values, Dimension.RESISTANCE)
    ohms = float(said.amount) if said else WINDING_OHMS
    for label, (a, b) in _stretches(f"{part.name} {name}", nets):
        if said is None:
            draft.default(label, f"{part.name} {name}: {WINDING_OHMS:g} ohm")
        draft.elements.append(Resistor(label, a, b, ohms / (len(nets) - 1)))


def _source(draft: Draft, part: Part, winding: tuple[str, list[int]], fed_by: str) -> None:
    name, nets = winding
    if draft.mains is not None and not draft.mains[1]:
        draft.left_out.append(f"{part.name} {name}: no AC `mains` line in the file")
        return
    draft.live.update(nets)
    stated = part.features.winding_values
    own, primary = stated.get(name, ()), stated.get(fed_by, ())
    said, fed = first_of(own, Dimension.VOLTAGE), first_of(primary, Dimension.VOLTAGE)
    steps = stretch_volts(said, len(nets))
    labels = [label for label, _ in _stretches(f"{part.name} {name}", nets)]
    if steps is None:
        fit = "add its volts" if said is None else f"its volts do not fit its {len(nets)} leads"
        draft.gap(f"{part.name} {name}: {fit}", *NO_MAINS, *labels)
        steps = (UNSAID_VOLTS / max(len(labels), 1),) * len(labels)
    elif say := _unsaid(draft, part, fed_by):
        draft.gap(say, *NO_MAINS, *labels)
    mains, hertz = draft.mains or (None, USUAL_HERTZ)
    series = fed_in_series(draft.graph, part)
    if series and series.volts is None:
        say = f"{part.name}: the volts and the sense of {listed(series.windings)}, in series across the line"
        draft.gap(say, *NO_MAINS, *labels)
    made_for = _made_for(part, fed_by, series)
    before = (series.volts, series.ohms) if series else (_amount(fed), _amount(first_of(primary, Dimension.RESISTANCE)))
    scale = mains / abs(made_for) if mains and made_for else 1.0
    sense = -1.0 if (made_for is not None and made_for < 0 if series else _is_turned(draft, part, fed_by)) else 1.0
    if fed is None and mains and not series:
        draft.default(labels[0] if labels else "", f"{part.name}: its primary is made for {mains:g} V")
    if first_of(own, Dimension.RESISTANCE) and not first_of(primary, Dimension.RESISTANCE):
        draft.default(labels[0] if labels else "", f"{part.name} {fed_by}: 0 ohm")
    for (label, (plus, minus)), volts in zip(_stretches(f"{part.name} {name}", nets), steps, strict=True):
        ohms = _ohms(draft, label, volts, (own, before, volts / (sum(map(abs, steps)) or 1.0)))
        draft.default_hertz(label)
        peak = volts * scale * sense * math.sqrt(2)
        draft.elements.append(
            VoltageSource(label, plus, minus, peak, hertz, ohms, _rise(draft, part, label), stays=True)
        )


def _made_for(part: Part, primary: str, series: Fed | None) -> float | None:
    """The volts of the line that the windings across it are made for."""
    said = first_of(part.features.winding_values.get(primary, ()), Dimension.VOLTAGE)
    if series is not None:
        return series.volts
    return float(said.amount) if said is not None and len(said.amounts) == 1 else None


def _rise(draft: Draft, part: Part, label: str) -> float:
    said = rise_of(part.features)
    if said is None:
        draft.default(label, f"{part.name}: {RISE * 100:g} % more volts with no load")
    return RISE if said is None else float(said)


def _ohms(
    draft: Draft,
    label: str,
    volts: float,
    values: tuple[tuple[Quantity, ...], tuple[float | None, float | None], float],
) -> float:
    """A stretch's own resistance and the primary's as seen from there."""
    own, (fed, before), share = values
    said = first_of(own, Dimension.RESISTANCE)
    if said is None and volts < HEATER_VOLTS:
        draft.default(label, f"{label}: {HEATER_OHMS:g} ohm")
        return HEATER_OHMS
    if said is None:
        drawn = sum(float(load.value.amount) for load in draft.graph.circuit.loads) or USUAL_AMPERES
        current = first_of(own, Dimension.CURRENT)
        amperes = float(current.amount) if current else drawn
        ohms = SOURCE_SHARE * volts / amperes
        draft.default(
            label, f"{label}: {significant(ohms, 3)} ohm, 3 % of its volts at {significant(amperes * 1000, 3)} mA"
        )
        return ohms
    ohms = float(said.amount) * share
    return ohms + (before * (volts / fed) ** 2 if before and fed else 0.0)


def _amount(said: Quantity | None) -> float | None:
    return None if said is None else float(said.amount)


def stretch_volts(said: Quantity | None, leads: int) -> tuple[float, ...] | None:
    """The volts from each lead to the next."""
    if said is None or leads < 2:
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
