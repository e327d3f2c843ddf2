"""Rules about the difference of two states, a module each; the order is the order of ``why``."""

from netcheck.compare.pair import Pair
from netcheck.compare.rules import (
    balancing_missing,
    dead_section_in_circuit,
    extra_connection,
    first_capacitor_too_large,
    floating_ground,
    kind_unsuitable,
    lead_on_wrong_net,
    leads_exchanged,
    missing_connection,
    not_compared,
    part_added,
    part_missing,
    parts_exchanged,
    pins_mirrored,
    rating_too_low,
    renamed,
    return_on_wrong_common,
    reversed_electrolytic,
    reversed_rectifier,
    sections_exchanged,
    several_for_one,
    units_exchanged,
    unused_intent,
    value_changed,
)
from netcheck.engine.rule import Rule

__all__ = ["RULES"]

RULES: tuple[Rule[Pair], ...] = (
    missing_connection.RULE,
    extra_connection.RULE,
    lead_on_wrong_net.RULE,
    leads_exchanged.RULE,
    sections_exchanged.RULE,
    pins_mirrored.RULE,
    parts_exchanged.RULE,
    units_exchanged.RULE,
    floating_ground.RULE,
    return_on_wrong_common.RULE,
    reversed_electrolytic.RULE,
    reversed_rectifier.RULE,
    dead_section_in_circuit.RULE,
    part_missing.RULE,
    part_added.RULE,
    value_changed.RULE,
    rating_too_low.RULE,
    kind_unsuitable.RULE,
    first_capacitor_too_large.RULE,
    balancing_missing.RULE,
    several_for_one.RULE,
    renamed.RULE,
    unused_intent.RULE,
    not_compared.RULE,
)
