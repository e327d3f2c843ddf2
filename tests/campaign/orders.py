"""The orders of a report carried out as a hand would: lines of a work log done on the campaign's own chassis.

It knows nine lines and no others: `lift P`, `move P to Q`, `at Q: P`, `cut A to B`, `wire A to B words`,
`change X grounded`, `change X insulated`, `change X values`, `remove X`. What hangs on a lead that comes off stays
joined. A line that asks for what is not there (a joint between points that have none, a part that is not in) can't
be followed, and that is said with the line.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from tests.campaign.chassis import CHASSIS, Chassis, Joint, Part, hub_of, lugs_of
from tests.campaign.reading import canonical
from tests.campaign.sockets import SOCKETS

__all__ = ["Unfollowed", "carried_out", "is_of_values"]

_MOUNTINGS = ("grounded", "insulated")
_MOUNTED = frozenset({"can", "lug", "strip", "transformer"})


class Unfollowed(Exception):
    """An order that a hand can't follow as it is written."""


def carried_out(chassis: Chassis, lines: Iterable[str]) -> Chassis:
    """The state after the lines were followed in their order; the given one stays as it is.

    Raises:
        Unfollowed: a line asks for what is not there, or is no line of a work log.
    """
    state = chassis.copy()
    for line in lines:
        _follow(state, line)
    return state


def is_of_values(line: str) -> bool:
    """Whether a line touches no joint: other values at the same leads."""
    words = line.split()
    return words[0] == "change" and not set(_MOUNTINGS) & set(words)


def _follow(state: Chassis, line: str) -> None:
    for pattern, act in _LINES.items():
        found = re.fullmatch(pattern, line)
        if found is not None:
            try:
                act(state, *found.groups())
            except Unfollowed as why:
                raise Unfollowed(f"{line}: {why}") from None
            return
    raise Unfollowed(f"{line}: no line of a work log")


# --- the acts


def _lift(state: Chassis, word: str) -> None:
    point = _point(state, word)
    if not _joints_at(state, point):
        raise Unfollowed(f"{point} is on nothing")
    _take_off(state, point)


def _move(state: Chassis, word: str, to: str) -> None:
    point, place = _two(state, word, to)
    _take_off(state, point)
    state.joints.append(Joint(place, point, "solder"))


def _at(state: Chassis, to: str, word: str) -> None:
    point, place = _two(state, word, to)
    state.joints.append(Joint(place, point, "solder"))


def _cut(state: Chassis, one: str, other: str) -> None:
    ends = set(_two(state, one, other))
    joint = next((j for j in state.joints if {j.a, j.b} == ends and j.how != "inside"), None)
    if joint is None:
        raise Unfollowed("no joint between these two")
    state.joints = [j for j in state.joints if j is not joint]


def _wire(state: Chassis, one: str, other: str, words: str | None) -> None:
    a, b = _two(state, one, other)
    state.joints.append(Joint(a, b, "wire", words or ""))


def _mount(state: Chassis, name: str, mounting: str) -> None:
    part = _part(state, name)
    if part.kind not in _MOUNTED:
        raise Unfollowed(f"a {part.kind} has no mounting to bond or insulate")
    words = tuple(w for w in part.words if w not in _MOUNTINGS)
    state.parts[name] = replace(part, words=(*words, mounting))


def _change(state: Chassis, name: str, words: str) -> None:
    part = _part(state, name)
    state.parts[name] = replace(part, words=tuple(words.split()))


def _remove(state: Chassis, name: str) -> None:
    part = _part(state, name)
    if part.kind != "section":  # the lug of a can stays, and is a tie point
        for node in part.leads:
            _take_off(state, node)
    del state.parts[name]


_WORD = r"([^\s:,\"]+)"
_LINES: Mapping[str, Callable[..., None]] = {
    rf"lift {_WORD}": _lift,
    rf"move {_WORD} to {_WORD}": _move,
    rf"at {_WORD}: {_WORD}": _at,
    rf"cut {_WORD} to {_WORD}": _cut,
    rf"wire {_WORD} to {_WORD}(?: ([^:,\"]+))?": _wire,
    rf"change {_WORD} (grounded|insulated)": _mount,
    rf"change {_WORD} (.+)": _change,
    rf"remove {_WORD}(?: \"[^\"]*\")?": _remove,
}


# --- what they do it to


def _joints_at(state: Chassis, point: str) -> list[Joint]:
    return [j for j in state.joints if j.has(point) and j.how != "inside"]


def _take_off(state: Chassis, point: str) -> None:
    """All joints of a point undone; their other ends stay one."""
    off = _joints_at(state, point)
    state.joints = [j for j in state.joints if j not in off]
    first, *rest = [j.other(point) for j in off] or [""]
    state.joints.extend(Joint(first, node, "wire") for node in rest if node != first)


def _two(state: Chassis, one: str, other: str) -> tuple[str, str]:
    a, b = _point(state, one), _point(state, other)
    if a == b:
        raise Unfollowed("both are one point")
    return a, b


def _part(state: Chassis, name: str) -> Part:
    if name not in state.parts:
        raise Unfollowed(f"no part {name}")
    return state.parts[name]


def _point(state: Chassis, word: str) -> str:
    """The node that a word means: the chassis, an inherited net, a pin by its electrode too, a lug, a lead.

    A pin of a socket whose tube is out is a tie point still: of its inherited net, or of nothing.
    """
    if word == CHASSIS or hub_of(word) in state.hubs:
        return word if word == CHASSIS else hub_of(word)
    hub = state.dead_pins.get(word, "")
    if hub and state.owner(word) is None:
        return hub if hub in state.hubs else word
    node = canonical(word, state.parts, state.gone)
    part = state.owner(node)
    if part is None:
        raise Unfollowed(f"no point {word}")
    if part.kind == "tube":
        node = _pin(part, node)
    if part.kind == "strip" and node == f"{part.name}.foot":
        node = f"{part.name}.{part.foot}"
    if node not in (*part.leads, *lugs_of(part), *_pins(part)) and not _is_frame(part, node):
        raise Unfollowed(f"{part.name} has no {word}")
    return node


def _pins(part: Part) -> tuple[str, ...]:
    return tuple(f"{part.name}.{pin}" for pin in SOCKETS[part.type]) if part.kind == "tube" else ()


def _pin(part: Part, node: str) -> str:
    tail = node.rpartition(".")[2]
    return next((f"{part.name}.{pin}" for pin, electrode in SOCKETS[part.type].items() if electrode == tail), node)


def _is_frame(part: Part, node: str) -> bool:
    return node == f"{part.name}.frame" and bool(set(_MOUNTINGS) & set(part.words))
