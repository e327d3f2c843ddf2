"""A job carried out on the program's own model, before its sheet is printed."""

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from netcheck.bench.job import Job, job_of
from netcheck.core.circuit import Circuit
from netcheck.model.acts import applied
from netcheck.model.joints import is_bundle

__all__ = ["carried_out", "leads_to"]


def carried_out(old: Circuit, new: Circuit) -> tuple[Job, bool]:
    """The work from one state to the other, and whether it leads there.

    Where the least work does not, since names of nets that know no lug moved from net to net, all that the two files
    write otherwise is undone and made anew.
    """
    least = job_of(old, new)
    if leads_to(old, new, least):
        return least, True
    whole = job_of(old, new, to_the_letter=True)
    return whole, leads_to(old, new, whole)


def leads_to(old: Circuit, new: Circuit, job: Job) -> bool:
    """Whether the acts, done on the old state with the new parts at hand, give the new one: its parts and its nets."""
    try:
        done = applied(_at_hand(old, new, job.called), job.acts)
    except ValueError:  # an act of which a work log would say that it can't be done
        return False
    return done.parts.keys() == new.parts.keys() and _nets(done, new, {}) == _nets(new, new, job.called)


def _at_hand(old: Circuit, new: Circuit, called: Mapping[str, str]) -> Circuit:
    """The old state with the new one's parts beside it, joined to nothing; a name that both have is the old one's."""
    points, index = list(old.points), dict(old.index)
    # What hangs lifted is cut from the others there; nobody else calls it by name.
    index |= {point.name: at for at, point in enumerate(old.points) if is_bundle(point, at)}
    parts = {**old.parts, **{name: part for name, part in new.parts.items() if name not in old.parts}}
    for point in new.points:
        named = point.net_name or point.part in new.parts
        if named and point.name not in index and point.name not in called:
            index[point.name] = len(points)
            points.append(point)
    return replace(old, parts=parts, points=tuple(points), index=index)


def _nets(circuit: Circuit, new: Circuit, called: Mapping[str, str]) -> frozenset[frozenset[str]]:
    """Which points are one, by name: the chassis and those of the new state's parts."""
    found: dict[int, set[str]] = {}
    for name, net in _points(circuit, new):
        found.setdefault(net, set()).add(called.get(name, name))
    return frozenset(frozenset(names) for names in found.values() if len(names) > 1)


def _points(circuit: Circuit, new: Circuit) -> Iterator[tuple[str, int]]:
    for at, (point, net) in enumerate(zip(circuit.points, circuit.nets, strict=True)):
        if at == 0 or point.part in new.parts:
            yield point.name, net
