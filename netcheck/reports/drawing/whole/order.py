"""Which way lines run, so that an engine spreads the circuit over a page; where a large one is cut into sections."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from netcheck.reports.drawing.whole.plan import DrawingPlan, Node, Tie

__all__ = ["directed", "sections"]

_NEAR_MIDDLE = (0.3, 0.7)
"""The part of the order in which the cheapest cut is looked for."""


_SECTIONS_NAMED = 4
_UNKNOWN = 88
_MORE = "more in section 88, 88, 88, 88 ..."


def directed(plan: DrawingPlan) -> DrawingPlan:
    """Every line from the nearer to the farther end, counted from the middle of what hangs together.

    Written any other way an engine puts a circuit into two long rows.
    """
    beside = _neighbours(plan)
    depth: dict[str, int] = {}
    for piece in _pieces(plan, beside):
        path = _longest(piece[0], beside)
        depth.update(_distances(path[len(path) // 2], beside))
    ties = [tie if depth[tie.a] <= depth[tie.b] else replace(tie, a=tie.b, b=tie.a) for tie in plan.ties]
    return replace(plan, ties=tuple(ties))


def sections(plan: DrawingPlan, fits: Callable[[DrawingPlan], bool]) -> tuple[DrawingPlan, ...]:
    """The plan in as many pieces as it takes, cut where few lines run; each names what goes on in another.

    A node that fits by itself nowhere is in one all the same.
    """
    groups = _joined(_cut([node.key for node in plan.nodes if node.kind != "rail"], plan, fits), plan, fits)
    home = _with_rails({key: number for number, group in enumerate(groups, 1) for key in group}, plan)
    return tuple(_section(plan, number, home) for number in range(1, len(groups) + 1))


def _cut(keys: Sequence[str], plan: DrawingPlan, fits: Callable[[DrawingPlan], bool]) -> list[list[str]]:
    if len(keys) < 2 or fits(_tried(keys, plan)):
        return [list(keys)]
    own = _within(plan, set(keys))
    order = _order(own)
    at = _cheapest(order, own)
    return [*_cut(order[:at], plan, fits), *_cut(order[at:], plan, fits)]


def _with_rails(home: Mapping[str, int], plan: DrawingPlan) -> dict[str, int]:
    """A rail's word is wherever the sign is that ends there."""
    found = dict(home)
    for tie in plan.ties:
        for one, other in ((tie.a, tie.b), (tie.b, tie.a)):
            if one in home:
                found.setdefault(other, home[one])
    return found


def _tried(keys: Sequence[str], plan: DrawingPlan) -> DrawingPlan:
    """A section while the numbers of the others are not known yet: with the longest that may be."""
    others = {node.key: _UNKNOWN for node in plan.nodes if node.kind != "rail"}
    home = _with_rails(others | dict.fromkeys(keys, 1), plan)
    section = _section(plan, 1, home)
    longest = tuple(
        replace(node, lines=(*node.lines[:-1], _MORE)) if node.kind != "far" and _seen(node) else node
        for node in section.nodes
    )
    return replace(section, nodes=longest)


def _seen(node: Node) -> bool:
    return bool(node.lines) and node.lines[-1].startswith("more in section")


def _joined(groups: Sequence[list[str]], plan: DrawingPlan, fits: Callable[[DrawingPlan], bool]) -> list[list[str]]:
    """Each with the next where there is room for both: halves may be less than what fits."""
    found = [list(groups[0])]
    for group in groups[1:]:
        both = [*found[-1], *group]
        if fits(_tried(both, plan)):
            found[-1] = both
        else:
            found.append(list(group))
    return found


def _within(plan: DrawingPlan, keys: set[str]) -> DrawingPlan:
    nodes = tuple(node for node in plan.nodes if node.key in keys)
    return DrawingPlan(nodes, tuple(tie for tie in plan.ties if tie.a in keys and tie.b in keys))


def _order(plan: DrawingPlan) -> list[str]:
    """Neighbours follow each other: from one end of each piece to its other, small pieces last."""
    beside = _neighbours(plan)
    order: list[str] = []
    for piece in _pieces(plan, beside):
        order += _distances(_longest(piece[0], beside)[0], beside)
    return order


def _cheapest(order: Sequence[str], plan: DrawingPlan) -> int:
    """Near the middle, where the fewest lines are cut; of equals the one nearest the middle."""
    place = {key: at for at, key in enumerate(order)}
    crossing = [0] * (len(order) + 1)
    for tie in plan.ties:
        one, other = sorted((place[tie.a], place[tie.b]))
        for at in range(one + 1, other + 1):
            crossing[at] += 1
    low, high = (max(1, min(len(order) - 1, round(len(order) * share))) for share in _NEAR_MIDDLE)
    return min(range(low, high + 1), key=lambda at: (crossing[at], abs(2 * at - len(order))))


def _section(plan: DrawingPlan, number: int, home: Mapping[str, int]) -> DrawingPlan:
    """A section's own nodes and lines; the far end of a line that goes on elsewhere is named with its section."""
    own = {key for key, sheet in home.items() if sheet == number}
    ties = [tie for tie in plan.ties if _sheet_of(tie, home) == number]
    far = {key for tie in ties for key in (tie.a, tie.b)} - own
    seen_from = _seen_from(plan, home)
    nodes = [_told(node, seen_from) for node in plan.nodes if node.key in own]
    nodes += [_far(node, home) for node in plan.nodes if node.key in far]
    return DrawingPlan(tuple(nodes), tuple(ties), plan.aside if number == 1 else ())


def _sheet_of(tie: Tie, home: Mapping[str, int]) -> int:
    """A lead is drawn where its box is, any other line where it begins."""
    return home.get(tie.a, 0) or home.get(tie.b, 0)


def _seen_from(plan: DrawingPlan, home: Mapping[str, int]) -> Mapping[str, set[int]]:
    found: dict[str, set[int]] = defaultdict(set)
    for tie in plan.ties:
        sheet = _sheet_of(tie, home)
        for key in (tie.a, tie.b):
            if key in home and sheet != home[key]:
                found[key].add(sheet)
    return found


def _told(node: Node, seen_from: Mapping[str, set[int]]) -> Node:
    others = sorted(seen_from.get(node.key, ()))
    if not others:
        return node
    said = ", ".join(map(str, others[:_SECTIONS_NAMED])) + (" ..." if len(others) > _SECTIONS_NAMED else "")
    return replace(node, lines=(*node.lines, f"more in section {said}"))


def _far(node: Node, home: Mapping[str, int]) -> Node:
    sheet = home.get(node.key, 0)
    return replace(node, kind="far", lines=(f"in section {sheet}",) if sheet else (), numbers=())


def _neighbours(plan: DrawingPlan) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = {node.key: {} for node in plan.nodes}
    for tie in plan.ties:
        found[tie.a][tie.b] = None
        found[tie.b][tie.a] = None
    return {key: tuple(others) for key, others in found.items()}


def _pieces(plan: DrawingPlan, beside: Mapping[str, tuple[str, ...]]) -> list[list[str]]:
    """What hangs together, the largest first."""
    seen: set[str] = set()
    found: list[list[str]] = []
    for node in plan.nodes:
        if node.key not in seen:
            piece = list(_distances(node.key, beside))
            seen.update(piece)
            found.append(piece)
    return sorted(found, key=len, reverse=True)


def _distances(start: str, beside: Mapping[str, tuple[str, ...]]) -> dict[str, int]:
    """In the order in which they are reached."""
    found = {start: 0}
    for key in _spreading(found):
        for other in beside[key]:
            found.setdefault(other, found[key] + 1)
    return found


def _spreading(found: Mapping[str, int]) -> Iterator[str]:
    at = 0
    keys = list(found)
    while at < len(keys):
        yield keys[at]
        at += 1
        keys += list(found)[len(keys) :]


def _longest(start: str, beside: Mapping[str, tuple[str, ...]]) -> list[str]:
    """A longest shortest way, by two sweeps: from anywhere to the farthest, from there to the farthest."""
    one = list(_distances(start, beside))[-1]
    reach = _distances(one, beside)
    path = [list(reach)[-1]]
    while reach[path[-1]]:
        path.append(next(key for key in beside[path[-1]] if reach[key] == reach[path[-1]] - 1))
    return path[::-1]
