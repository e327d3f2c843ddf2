"""Every kind of fault, by name; each is drawn as often as the others, so that each is more than a twenty-fifth."""

from collections.abc import Callable, Mapping

from tests.campaign import connections, exchanges, places, replacements
from tests.campaign.bench import Bench
from tests.campaign.planted import Planted

__all__ = ["KINDS"]

KINDS: Mapping[str, Callable[[Bench], Planted]] = {
    "neighbouring-lug": connections.neighbouring_lug,
    "wire-beside": connections.wire_beside,
    "wrong-strip": connections.wrong_strip,
    "wrong-net": connections.wrong_net,
    "group-moved": places.group_moved,
    "joint-never-made": connections.joint_never_made,
    "wire-left-out": connections.wire_left_out,
    "bridge": connections.bridge,
    "unbonded": connections.unbonded,
    "bonded": places.bonded,
    "wrong-common": connections.wrong_common,
    "part-reversed": exchanges.part_reversed,
    "sections-exchanged": exchanges.sections_exchanged,
    "leads-exchanged": exchanges.leads_exchanged,
    "went-round": places.went_round,
    "pins-mirrored": places.pins_mirrored,
    "strip-mirrored": places.strip_mirrored,
    "socket-shifted": places.socket_shifted,
    "strip-shifted": places.strip_shifted,
    "part-missing": replacements.part_missing,
    "part-added": replacements.part_added,
    "other-data": replacements.other_data,
    "dead-part": replacements.dead_part,
}
