"""A state as a trace: nothing is taken over but the list of parts, and every joint is written as it is found."""

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from random import Random

from tests.campaign.chassis import Joint
from tests.campaign.reading import chassis_of

__all__ = ["traced"]


def traced(earlier: Sequence[str], lines: Sequence[str], rng: Random) -> tuple[str, ...]:
    """The lines of a trace of the state that ``lines`` make of what is there after the ``earlier`` texts."""
    there = set(chassis_of(*earlier).joints)
    left = [joint for joint in chassis_of(*earlier, "\n".join(lines)).joints if joint in there]
    return (*_own(lines), *_as_found(left, rng))


def _own(lines: Sequence[str]) -> Iterator[str]:
    """What the log itself puts in is written alike; what it takes off is just not there."""
    for line in lines:
        if line.startswith("start from"):
            yield line.replace("start from", "parts from")
        elif line.startswith("move "):
            yield line.replace("move ", "wire ", 1)
        elif not re.match(r"cut |lift (?!.*intended)", line):
            yield line


def _as_found(joints: Sequence[Joint], rng: Random) -> Iterator[str]:
    """Wires from lead to lead for what a net of the drawing held together, in any order; others as they were made."""
    nets = defaultdict[str, list[str]](list)
    for joint in joints:
        if joint.how == "hub":
            nets[joint.a].append(joint.b)
        elif joint.how != "inside":
            yield f"wire {joint.a} to {joint.b}"
    for nodes in nets.values():
        order = rng.sample(nodes, len(nodes))
        if len(order) > 1:
            yield f"wire {' to '.join(order)}"
