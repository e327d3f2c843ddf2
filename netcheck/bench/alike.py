"""Two files that call the ends of a part the other way round: which ends to read as each other."""

from collections import Counter
from collections.abc import Iterator, Mapping

from netcheck.core.circuit import Circuit
from netcheck.core.kind import MOUNTINGS
from netcheck.model.points import lead_name

__all__ = ["exchanged_names", "is_log_of", "is_renewed", "nets_by_old_names"]


def is_log_of(old: Circuit, new: Circuit) -> bool:
    """Whether the new state is told as what was done to the old one."""
    return bool(new.inherited) and old.source.name in new.sources


def is_renewed(old: Circuit, new: Circuit, name: str) -> bool:
    """Whether another part of the same values was put in: a later line changes it, and not how it is mounted."""
    if old.source.name not in new.sources:
        return False
    was, part = old.parts[name], new.parts[name]
    later = new.sources[new.sources.index(old.source.name) + 1 :]
    same = MOUNTINGS.intersection(was.features.words) == MOUNTINGS.intersection(part.features.words)
    return part.place.source.name in later and same


def exchanged_names(old: Circuit, new: Circuit) -> Mapping[str, str]:
    """Ends that may change places (of a resistor, of a heater) and that the new file calls by each other's names.

    Settled neighbours decide: an end's net in the new state is the one where most of its old net's points are now.
    """
    nets = nets_by_old_names(old, new, {})
    home = _homes(old, nets)
    names: dict[str, str] = {}
    for one, other in _free(old):
        ends = home.get(old.net_of(one)), home.get(old.net_of(other))
        now = nets.get(one), nets.get(other)  # nothing, of ends that are gone
        if now != ends and now == ends[::-1]:
            names[one], names[other] = other, one
    return names


def nets_by_old_names(old: Circuit, new: Circuit, names: Mapping[str, str]) -> Mapping[str, int]:
    """The net in the new state of each point by the old file's name; of a net's name that of most of its points."""
    nets = {
        names.get(point.name, point.name): net
        for point, net in zip(new.points, new.nets, strict=True)
        if not point.net_name and (not point.part or point.part in new.parts)
    }
    homes = _homes(old, nets)
    for at, point in enumerate(old.points):
        if point.net_name and old.nets[at] in homes:
            nets[point.name] = homes[old.nets[at]]
    return nets


def _homes(old: Circuit, nets: Mapping[str, int]) -> Mapping[int, int]:
    """For each old net the new one that most of its points are on."""
    held: dict[int, list[int]] = {}
    for point, net in zip(old.points, old.nets, strict=True):
        if point.name in nets and not point.net_name:
            held.setdefault(net, []).append(nets[point.name])
    return {net: Counter(found).most_common(1)[0][0] for net, found in held.items()}


def _free(old: Circuit) -> Iterator[tuple[str, str]]:
    for part in old.parts.values():
        if part.shape is not None:
            for one, other in part.shape.free:
                yield lead_name(part, one), lead_name(part, other)
