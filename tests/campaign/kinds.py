"""Every kind of fault, by name."""

from collections.abc import Callable, Mapping

from tests.campaign import connections, exchanges, replacements
from tests.campaign.bench import Bench
from tests.campaign.planted import Planted

__all__ = ["KINDS"]

KINDS: Mapping[str, Callable[[Bench], Planted]] = {
    "neighbouring-lug": connections.neighbouring_lug,
    "wrong-net": connections.wrong_net,
    "joint-never-made": connections.joint_never_made,
    "wire-left-out": connections.wire_left_out,
    "bridge": connections.bridge,
    "bridge-to-chassis": connections.bridge_to_chassis,
    "unbonded": connections.unbonded,
    "return-on-dead-lug": connections.return_on_dead_lug,
    "wrong-common": connections.wrong_common,
    "electrolytic-reversed": exchanges.electrolytic_reversed,
    "rectifier-reversed": exchanges.rectifier_reversed,
    "sections-exchanged": exchanges.sections_exchanged,
    "leads-of-one-part": exchanges.leads_of_one_part,
    "leads-of-two-parts": exchanges.leads_of_two_parts,
    "pins-mirrored": exchanges.pins_mirrored,
    "part-missing": replacements.part_missing,
    "part-added": replacements.part_added,
    "too-weak": replacements.too_weak,
    "wrong-value": replacements.wrong_value,
    "dead-part": replacements.dead_part,
}
