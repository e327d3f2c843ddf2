"""Rules about the difference of two states, a module each; the order is the order of ``explain``."""

from netcheck.compare.pair import Pair
from netcheck.compare.rules import (
    dead_section_in_circuit,
    extra_connection,
    floating_ground,
    lead_on_wrong_net,
    leads_exchanged,
    missing_connection,
    not_compared,
    part_added,
    part_missing,
    rating_too_low,
    return_on_wrong_common,
    reversed_electrolytic,
    reversed_rectifier,
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
    floating_ground.RULE,
    return_on_wrong_common.RULE,
    reversed_electrolytic.RULE,
    reversed_rectifier.RULE,
    dead_section_in_circuit.RULE,
    part_missing.RULE,
    part_added.RULE,
    value_changed.RULE,
    rating_too_low.RULE,
    unused_intent.RULE,
    not_compared.RULE,
)
