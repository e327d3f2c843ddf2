"""Rules about one state of a chassis, a module each; the order is the order of ``why``."""

from netcheck.engine.rule import Rule
from netcheck.model.graph import CircuitGraph
from netcheck.rules import (
    branch_before_fuse,
    chart_contradicts,
    fuse_on_neutral,
    fuse_too_large,
    fuse_too_small,
    ground_without_bond,
    heaters_off,
    hot_chassis,
    internal_pin_used,
    inverse_volts_too_low,
    line_capacitor_class,
    live_shell,
    lonely_net,
    loose_lead,
    no_line_fuse,
    not_apart,
    part_across_itself,
    places_overlap,
    polarity_unproven,
    rating_too_low,
    rectifier_overloaded,
    resistor_overloaded,
    reversed_at_switch_on,
    reversed_by_ripple,
    reversed_electrolytic,
    ripple_too_high,
    spare_in_use,
    stays_charged,
    two_names,
    unused_part,
    volts_off_chart,
    winding_shorted,
)

__all__ = ["COMPUTED", "OF_A_SUPPLY", "RULES"]

# What is computed of a whole supply; a comparison tells of it only what is no consequence of a wrong joint. All of them
# share one study of a graph (`CircuitGraph.once`); where nothing rectifies, no engine is loaded to say so.
COMPUTED: tuple[Rule[CircuitGraph], ...] = (
    reversed_electrolytic.RULE,
    polarity_unproven.RULE,
    rating_too_low.RULE,
    reversed_by_ripple.RULE,
    reversed_at_switch_on.RULE,
    inverse_volts_too_low.RULE,
    stays_charged.RULE,
    resistor_overloaded.RULE,
    rectifier_overloaded.RULE,
    ripple_too_high.RULE,
    heaters_off.RULE,
    fuse_too_large.RULE,
    fuse_too_small.RULE,
    chart_contradicts.RULE,
    volts_off_chart.RULE,
)

# What is told beside the figures of a supply: while a winding is shorted, these are none.
OF_A_SUPPLY: tuple[Rule[CircuitGraph], ...] = (winding_shorted.RULE, *COMPUTED)

RULES: tuple[Rule[CircuitGraph], ...] = (
    winding_shorted.RULE,
    not_apart.RULE,
    ground_without_bond.RULE,
    part_across_itself.RULE,
    internal_pin_used.RULE,
    live_shell.RULE,
    loose_lead.RULE,
    unused_part.RULE,
    lonely_net.RULE,
    two_names.RULE,
    spare_in_use.RULE,
    places_overlap.RULE,
    hot_chassis.RULE,
    line_capacitor_class.RULE,
    fuse_on_neutral.RULE,
    branch_before_fuse.RULE,
    no_line_fuse.RULE,
    *COMPUTED,
)
