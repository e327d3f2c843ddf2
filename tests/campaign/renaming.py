"""Whether a fault is one at all beside an earlier one, or only uses the names of two like parts the other way round.

Two like capacitors between B+ and the chassis may change places unnoticed: to exchange their plus leads is no fault. It
seems to be one once an earlier fault has put the minus of the first on a wrong lug: then the two are told apart. With
their names exchanged the same chassis has that one fault and no other, by the second capacitor. No netlist says whose
the names are, so that one fault is all there is to be told of it, and that the parts changed places is no more than a
note.
"""

from collections.abc import Iterator
from itertools import combinations

from tests.campaign.chassis import Chassis, Nets, Part
from tests.campaign.repairs import distances
from tests.campaign.sameness import Labels, labels_of

__all__ = ["renames_only"]


def renames_only(sound: Chassis, before: Chassis, after: Chassis) -> bool:
    """Whether a fault takes the chassis no further from the sound one, by two like parts under each other's names."""
    labels = labels_of(after)
    changed = {end for joint in set(before.joints) ^ set(after.joints) for end in (joint.a, joint.b)}
    parts = [p for p in after.parts.values() if changed & {*p.leads, *map(after.node, p.leads)}]
    goal, first, now = sound.nets(), before.nets(), after.nets()
    if first.keys() != now.keys():  # a part left out is out, whatever its name
        return False
    here = goal.keys() & now.keys()
    least = distances({lead: first[lead] for lead in here}, goal)
    named = _renamed({lead: now[lead] for lead in here}, labels, parts)
    return any(_is_no_further(distances(nets, goal), least) for nets in named)


def _is_no_further(here: tuple[int, int], least: tuple[int, int]) -> bool:
    return all(a <= b for a, b in zip(here, least, strict=True))


def _renamed(nets: Nets, labels: Labels, parts: list[Part]) -> Iterator[Nets]:
    """The nets with two like parts under each other's names, lead by lead, for each two of some."""
    for one, other in combinations(parts, 2):
        pairs = list(zip(one.leads, other.leads, strict=False))
        alike = one.kind == other.kind and len(one.leads) == len(other.leads) and one.claim == other.claim
        if alike and all(a in nets and b in nets and labels[a][1:] == labels[b][1:] for a, b in pairs):
            yield {**nets, **{a: nets[b] for a, b in pairs}, **{b: nets[a] for a, b in pairs}}
