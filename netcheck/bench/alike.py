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
    First those that can't change places, and the ends that they settle, from one part to the next; then all, where
    these leave an end open.
    """
    nets = nets_by_old_names(old, new, {})
    names = dict(_from_neighbours(old, nets))
    home = _homes(old, {name: nets[names.get(name, name)] for name in nets})
    for one, other in _free(old):
        ends = home.get(old.net_of(one)), home.get(old.net_of(other))
        now = nets.get(one), nets.get(other)  # nothing, of ends that are gone
        if one not in names and now != ends and now == ends[::-1]:
            names[one], names[other] = other, one
    return {one: other for one, other in names.items() if one != other}


def _from_neighbours(old: Circuit, nets: Mapping[str, int]) -> Iterator[tuple[str, str]]:
    """Ends that may change places, each with what the new file calls it, as far as what is settled tells.

    A chain of resistors in a row is settled from its ends: nothing else hangs on the nets in it.
    """
    pairs = [pair for pair in _free(old) if pair[0] in nets and pair[1] in nets]
    loose = {end for pair in pairs for end in pair}
    home = dict(_homes(old, {name: net for name, net in nets.items() if name not in loose}))
    beside: dict[int, list[tuple[str, str]]] = {}
    for pair in pairs:
        for end in pair:
            beside.setdefault(old.net_of(end), []).append(pair)
    waiting, settled = [*home], set[tuple[str, str]]()
    while waiting:
        for pair in beside.get(waiting.pop(), ()):
            way = None if pair in settled else _way(pair, old, nets, home)
            if way is None:
                continue
            settled.add(pair)
            for end, called in zip(pair, way, strict=True):
                yield end, called
                if old.net_of(end) not in home:
                    home[old.net_of(end)] = nets[called]
                    waiting.append(old.net_of(end))


def _way(
    pair: tuple[str, str], old: Circuit, nets: Mapping[str, int], home: Mapping[int, int]
) -> tuple[str, str] | None:
    """The pair as it is or the other way round, whichever alone is where its nets are now; None where neither is."""
    wanted = [home.get(old.net_of(end)) for end in pair]
    fits = [
        way for way in (pair, pair[::-1]) if all(net in (None, nets[end]) for net, end in zip(wanted, way, strict=True))
    ]
    return fits[0] if len(fits) == 1 else None


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
